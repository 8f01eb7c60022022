"""Where the tour goes: it finds the views, acts, menus and dialogs of a window by itself.

``look(name, widget)`` is called at every stop, with the window, the menu or the dialog that shows.
"""

import inspect
from collections.abc import Callable, Iterator
from itertools import islice
from pathlib import Path
from threading import Event
from typing import get_args
from unittest import mock

from painted import shown_widgets
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QDialog,
    QFileDialog,
    QLineEdit,
    QMenu,
    QMessageBox,
    QProgressDialog,
    QTableView,
    QTabWidget,
    QWidget,
)
from shiboken6 import isValid

from mastlayout.errors import Mistake
from mastlayout.geometry.frames import Face, height_mm
from mastlayout.model.edits import item_of
from mastlayout.resources import demo_masts
from mastlayout.ui import waiting
from mastlayout.ui.asks import Asks
from mastlayout.ui.forms.form import FormDialog
from mastlayout.ui.hand.built import BuiltDialog
from mastlayout.ui.papers.preview import PapersDialog
from mastlayout.ui.strip.rows import STATE, THING, Rows
from mastlayout.ui.waiting import waited
from mastlayout.ui.window import MainWindow

Look = Callable[[str, QWidget], None]
_MOST_STEPS = 20
_MISTAKES = [
    Mistake(41, "fittings[3].from_masthead", "“13 o85” is no length: type a number and a unit, as 13 085 mm"),
    Mistake(0, "mast", "its length is missing"),
]
# An answer to every question that a method of Asks puts, by the name of its parameter.
_ANSWERS = {
    "sentence": "The disk is full: nothing was written, and the file is as it was.",
    "name": "whimbrel.toml", "when": "2026-11-25 10:04", "unsaved": True, "opened": True,
    "path": Path("whimbrel.toml"), "mistakes": _MISTAKES,
    "folder": "/", "suggested": Path("whimbrel.toml"), "kinds": "",
}  # fmt: skip


class Tour:
    """One tour of one window.

    ``done`` holds the acts that were done, ``asked`` those that asked something, ``met`` the dialogs.
    """

    def __init__(self, window: MainWindow, look: Look, qtbot, monkeypatch) -> None:
        self.window, self._look, self._qtbot = window, look, qtbot
        self.met: list[type[QDialog]] = []
        self._asking = "dialog"
        self._keys: set[object] = set()
        self.asked: list[str] = []
        self._pressed: set[tuple[str, str]] = set()
        self.done: list[str] = []
        for modal in (QDialog, QMessageBox):
            monkeypatch.setattr(modal, "exec", lambda dialog: self._meet(dialog))  # noqa: PLW0108 - bound
            monkeypatch.setattr(modal, "open", lambda dialog: self._meet(dialog))  # noqa: PLW0108 - the same
        for name in ("getOpenFileName", "getSaveFileName"):
            monkeypatch.setattr(QFileDialog, name, self._file_asked(("", "")))
        monkeypatch.setattr(QFileDialog, "getExistingDirectory", self._file_asked(""))

    def look(self, name: str, widget: QWidget | None = None) -> None:
        """Stop and look."""
        window = widget or self.window
        _settle(window)  # the platform's late word of a closed dialog takes the keys from every window
        if not window.isActiveWindow() and not isinstance(window, QMenu):
            with self._qtbot.waitActive(window):
                window.activateWindow()
            _settle(window)
        self._look(name.replace("/", " "), window)

    # -- what stands in the way

    def _meet(self, dialog: QDialog) -> int:
        """Stand in for ``exec``: show the dialog, look at it, and leave it unanswered."""
        own = type(dialog).__module__.startswith("mastlayout")
        key = (type(dialog), dialog.windowTitle()) if own else None
        asks = dialog.findChildren(QAbstractButton)
        if len([button for button in asks if button.isVisibleTo(dialog) and button.text()]) > 1:
            self.asked.append(self._asking)
        if key in self._keys:
            return 0
        self._keys.add(key)
        self.met.append(type(dialog))
        if own or type(dialog) in (QDialog, QMessageBox):
            dialog.show()
            self._qtbot.waitExposed(dialog)
            if isinstance(dialog, PapersDialog):
                self._qtbot.waitUntil(lambda: bool(dialog.sheets), timeout=60_000)
            self.look(f"dialog {self._asking}", dialog)
            if isinstance(dialog, FormDialog):
                self._variants(dialog)
            dialog.cancel() if isinstance(dialog, QProgressDialog) else dialog.reject()
        return 0

    def _variants(self, form: FormDialog) -> None:
        """Everything that a form can ask, once, and its answer to nothing typed."""
        asked = set()
        for row, variant in enumerate(form.variants):
            labels = tuple(one.label for one in variant.fields)
            if labels not in asked:
                asked.add(labels)
                form.list.setCurrentRow(row)
                self.look(f"form {variant.key}", form)
        form.list.setCurrentRow(next(r for r, one in enumerate(form.variants) if len(one.fields) > 1))
        for control in form.entries.values():
            if isinstance(control, QLineEdit):
                control.clear()
        form.take()
        self.look("form refused", form)

    def _file_asked(self, answer):
        def ask(*_args):
            self.asked.append(self._asking)
            return answer

        return ask

    # -- the stops

    def start_page(self) -> None:
        """Every question of the start page, with a wrong answer to the first."""
        start = self.window.start
        start.show_examples()
        for i in range(len(start.questions)):
            start.go_to(i)
            self.look(f"start {i + 1}")
        start.go_to(0)
        start.take_answer()
        self.look("start refused")
        start.begin()

    def open(self, path: Path) -> None:
        """Open a layout."""
        self.window.files.open(path)
        self._qtbot.waitUntil(lambda: self.window.arrangement is not None)

    def in_hand(self, *, states: bool = True, most: int | None = None) -> None:
        """Nothing in hand, then the first of each part (of each ``states``) of the list, ``most`` of them."""
        self.look("nothing in hand")
        toured = set()
        for part, state, name in islice(self._things(states=states), most):
            self.window.pick(name)
            self.look(f"in hand {part} {state}")
            if part not in toured:
                toured.add(part)
                self._tabs(part)

    def _things(self, *, states: bool = True) -> Iterator[tuple[str, str, str]]:
        layout, shown = self.window.session.layout, set()
        for row in range(self._rows().rowCount()):
            index = self._rows().index(row)
            if not index.data(THING).id:
                continue  # a head over what has no place
            part, state = item_of(layout, index.data(THING).id)[0], index.data(STATE)
            kind = (part, state if states else "")
            if kind not in shown:
                shown.add(kind)
                yield part, state, index.data(THING).id

    def rooms(self) -> None:
        """The catalogue with a search that finds and one that does not, and the tape on the views."""
        window = self.window
        window.pick(next(name for _part, _state, name in self._things()))
        window.place()
        self.look("catalogue")
        for sought in ("mast", "zzz"):
            window.catalogue.search.setText(sought)
            self.look(f"catalogue seeks {sought}")
        window.catalogue.search.clear()
        window.catalogue.left.emit()
        self.tape()

    def tape(self) -> None:
        """The tape measure without an end, with one, and with two."""
        window = self.window
        window.tape.toggle()
        self.look("tape")
        names = [fitting.id for fitting in window.session.layout.fittings]
        for count, name in enumerate((names[0], names[-1]), 1):
            window.tape.hold_thing(name)
            self.look(f"tape {count}")
        window.tape.put_away()

    def trestles(self) -> None:
        """The mast on trestles, each face up, from each end."""
        window = self.window
        window.pick("")
        window.lay_on_trestles()
        for face in get_args(Face):
            window.lying.turn_up(face)
            self.look(f"trestles {face}")
        window.lying.stand_at("masthead")
        window.lying.turn_up("forward")
        self.look("trestles from the masthead")
        self._press_what_asks()
        window.lying.stand_at("heel")
        window.stand()

    def heights(self) -> None:
        """What each height gives: as it opens, a wrong entry, ends not known and far ones, heeled."""
        window = self.window
        window.pick(next(name for _part, _state, name in self._things()))
        window.acts["heights"].trigger()
        shown = window.heights
        self.met.append(type(shown))
        self.look("heights", shown)
        for name, typed in (
            ("refused", {"target_height_m": "3 km"}),
            ("emptied", {"eye_height_m": "", "antenna_height_m": "", "target_height_m": ""}),
            ("far", {"eye_height_m": "90 m", "antenna_height_m": "900 m", "target_height_m": "2 ft"}),
            ("leaning", {"heel_deg": "20", "trim_deg": "2"}),
        ):
            for key, text in typed.items():
                field = shown.ends.fields[key]
                field.selectAll()
                QTest.keyClicks(field, text) if text else QTest.keyClick(field, Qt.Key.Key_Delete)
                QTest.keyClick(field, Qt.Key.Key_Return)
            self.look(f"heights {name}", shown)
        for tab in range(1, shown.tabs.count()):
            shown.tabs.setCurrentIndex(tab)
            self.look(f"heights {shown.tabs.tabText(tab)}", shown)
        shown.tabs.setCurrentIndex(0)
        window.acts["heights"].trigger()

    def as_built(self) -> None:
        """A hole drilled four millimetres off: the form with its ways out."""
        session = self.window.session
        placed = next(
            one for one in session.desk.scene.placed.values() if one.fitting.new and one.fitting.in_hand
        )
        dialog = BuiltDialog(session, placed, self.window, hole=1)
        dialog.show()
        self.look("as built", dialog)
        hole_z = float(placed.holes.z_mm[0, 0])
        from_masthead = height_mm(session.desk.scene.skin.length_mm, hole_z)
        dialog.reading.setText(f"{from_masthead + 4:.1f} mm")
        dialog.by.setText("Jo")
        QTest.mouseClick(dialog.button, Qt.MouseButton.LeftButton)
        assert dialog.ways.isVisible()
        self.look("as built wrong", dialog)
        dialog.reject()
        session.undo.undo()

    def _rows(self) -> Rows:
        return self.window.arrangement.panels.strip.findChild(Rows)

    def _tabs(self, name: str) -> None:
        for tabs in self.window.findChildren(QTabWidget):
            if tabs.isVisible():
                for i in range(1, tabs.count()):
                    tabs.setCurrentIndex(i)
                    self.look(f"{name} tab {tabs.tabText(i)}")
                tabs.setCurrentIndex(0)

    def widen(self) -> None:
        """The window made wide, and vast: the panels stand otherwise."""
        self.window.pick(next(name for _part, _state, name in self._things()))
        for size in ((1920, 1080), (2560, 1440)):
            self.window.resize(*size)
            self.look(f"made {size[0]} wide")

    def menus(self) -> None:
        """Every menu and submenu, as it opens."""
        for menu in self.window.findChildren(QMenu):
            if menu.title() or menu.actions():
                menu.popup(self.window.mapToGlobal(QPoint(40, 40)))
                self.look(f"menu {_plain(menu.title())}", menu)
                menu.hide()

    def acts(self) -> None:
        """Every act that can be done now; each is taken back."""
        for action in self.window.actions():
            if action.isEnabled() and action is not self.window.acts["close"]:
                self._do(_plain(action.text()), action)

    def buttons(self) -> None:
        """Every button that asks, with each kind of thing in hand and a row chosen in each list."""
        for part, state, name in self._things():
            self.window.pick(name)
            self._choose_rows()
            if part == "fittings":
                self.look(f"chosen {part} {state}")
            self._press_what_asks()
            self.window.pick(name)  # a row may have taken another thing in hand
            self._press_what_asks()
            for tabs in self.window.findChildren(QTabWidget):
                for i in range(tabs.count() - 1, -1, -1):
                    tabs.setCurrentIndex(i)
                    self._press_what_asks()

    def _press_what_asks(self) -> None:
        _settle(self.window)  # what a layout was given shows with the next event
        for button in self.window.findChildren(QAbstractButton):
            if not isValid(button):
                continue  # an answer built its panel anew
            words = _plain(button.text())
            if words.endswith("…") and not _shortened(button) and button.isVisible() and button.isEnabled():
                key = (words, self.window.session.hand.split("-")[0])
                if key not in self._pressed:
                    self._pressed.add(key)
                    self._asking = words
                    self.done.append(words)
                    button.click()
                    self._take_back()

    def _choose_rows(self) -> None:
        for view in self.window.findChildren(QTableView):
            if view.isVisible() and view.model().rowCount():
                box = view.visualRect(view.model().index(0, view.columnAt(1)))
                QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=box.center())

    def _do(self, name: str, action: QAction) -> None:
        self._asking, before = name, len(self.asked)
        self.done.append(name)
        was_on = action.isChecked()
        group = action.actionGroup()
        chosen = group.checkedAction() if group else None
        action.trigger()
        if self.window.at_start or self.window.arrangement.room_open:
            self.asked.append(name)
        if len(self.asked) == before and chosen is not action:
            self.look(f"act {name}")
        if chosen is not None:
            chosen.trigger()
        elif action.isChecked() != was_on:
            action.trigger()
        self._take_back()

    def _take_back(self) -> None:
        """Go back to the layout as it was opened."""
        window = self.window
        if window.at_start:
            window.back()
        if window.arrangement.room_open:
            window.catalogue.left.emit()
        window.session.undo.setIndex(0)
        if not window.session.hand and not window.on_trestles:
            window.pick(next(name for _part, _state, name in self._things()))

    def questions(self) -> None:
        """Every question and sentence of Asks, put for real."""
        asks = Asks(self.window)
        for name, method in inspect.getmembers(asks, inspect.ismethod):
            if not name.startswith("_"):
                self._asking = f"question {name}"
                method(**{key: _ANSWERS[key] for key in inspect.signature(method).parameters})
        over = Event()
        self._asking = "question waiting"
        with mock.patch.object(waiting, "PATIENCE_S", 0.0):
            waited("Drawing the sheets", lambda _between: over.wait(60), self.window)
        over.set()


def _shortened(button: QAbstractButton) -> bool:
    """Tell whether the sign … stands for words left out, as of a long step to undo: it asks nothing."""
    whole = button.accessibleName()
    return not whole.endswith("…") and whole.startswith(_plain(button.text()).removesuffix("…"))


def _settle(window: QWidget) -> None:
    """Let layouts come to rest: they settle in steps, each asking for the next."""
    before: list[tuple[int, ...]] = []
    for _step in range(_MOST_STEPS):
        QApplication.processEvents()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
        now = [widget.geometry().getRect() for widget in shown_widgets(window)]
        if now == before:
            return
        before = now
    raise AssertionError(f"the layout of “{window.windowTitle()}” never comes to rest")


def _plain(words: str) -> str:
    return words.replace("&&", "＆").replace("&", "").replace("＆", "&")


def sanderling() -> Path:
    """The fullest example."""
    return demo_masts() / "sanderling.toml"

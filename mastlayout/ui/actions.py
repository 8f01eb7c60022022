"""Every act of the window, once: its words, its keys and what it does; menus and toolbar show these."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar

from mastlayout.geometry.frames import End, Face
from mastlayout.ui.moving.acts import copy_hand, mirror_hand, remove_hand, turn_hand
from mastlayout.ui.pictures.titles import VIEWS, title
from mastlayout.ui.plainwords import on_button
from mastlayout.ui.session import Session, View
from mastlayout.ui.theme import Choice
from mastlayout.units import Units
from mastlayout.words import _

if TYPE_CHECKING:
    from mastlayout.ui.window import MainWindow

Keys = QKeySequence.StandardKey
_SEEN = "seen_starboard seen_port seen_ahead"
_MAST = "mast_standing mast_trestles"
_LYING = "up_forward up_aft up_port up_starboard | at_heel at_masthead | roll"
_UNITS = "units_metric units_inches"
_THEMES = "theme_light theme_dark theme_system"


class Actions(QObject):
    """The window's acts by a short name."""

    def __init__(self, window: "MainWindow") -> None:
        super().__init__(window)
        self._window = window
        self._made: dict[str, QAction] = {}
        self._recent = QMenu(_("Open &recent"), window)
        self._recent.aboutToShow.connect(self._fill_recent)
        for make in (
            self._layout,
            self._edit,
            self._place,
            self._view,
            self._lying,
            self._check,
            self._papers,
            self._help,
        ):
            make()
        self.show_state()

    def __getitem__(self, name: str) -> QAction:
        return self._made[name]

    # -- the acts

    def _layout(self) -> None:
        window, files = self._window, self._window.files
        self._add("new", _("&New mast …"), window.begin_new, Keys.New)
        self._add("back", _("&Back to the open layout"), window.back, "Alt+Left")
        self._add("open", _("&Open …"), files.open, Keys.Open)
        self._add("save", _("&Save"), files.save, Keys.Save)
        self._add("save as", _("Save &as …"), files.save_as, Keys.SaveAs)
        self._add("close", _("&Quit"), window.close, Keys.Quit)

    def _edit(self) -> None:
        window = self._window
        self._add("undo", _("&Undo"), window.undo, Keys.Undo)
        self._add("redo", _("&Redo"), window.redo, Keys.Redo)
        on_hand: tuple[tuple[str, str, Callable[[Session], None], str], ...] = (
            ("turn", _("&Turn by 90°"), turn_hand, "Ctrl+R"),
            ("copy", _("&Copy what is in hand"), copy_hand, "Ctrl+Shift+C"),
            ("mirror", _("To the &other side"), mirror_hand, "Ctrl+Shift+M"),
            ("remove", _("Re&move what is in hand"), remove_hand, "Ctrl+Del"),
        )
        for name, words, act, keys in on_hand:
            self._add(name, words, partial(window.act_on_hand, act), keys)
        self._add("cut heel", _("Cut the &heel …"), window.cut_heel)
        self._add("let go", _("&Let go of what is in hand"), lambda: window.pick(""), "Ctrl+Shift+A")

    def _place(self) -> None:
        self._add("place", _("&Place fitting …"), self._window.place, "Ctrl+F")
        self._add("add", _("&Add to the mast …"), self._window.add, "Ctrl+I")
        self._add("tape", _("&Tape measure"), self._window.tape.toggle, "Ctrl+T", checkable=True)
        self._add("copy tape", _("&Copy what the tape reads"), self._window.tape.copy, "Ctrl+Shift+T")

    def _view(self) -> None:
        window = self._window
        views: tuple[tuple[View, str, str], ...] = (
            ("starboard", _("From &starboard"), "F6"), ("port", _("From &port"), "F7"),
            ("ahead", _("From &ahead"), "F8"),
        )  # fmt: skip
        self._choice("seen", [(n, w, k, partial(window.look_from, n)) for n, w, k in views])
        units: tuple[tuple[Units, str, str], ...] = (
            ("metric", _("&Millimetres"), ""),
            ("inches", _("&Feet and inches"), ""),
        )
        self._choice("units", [(n, w, k, partial(window.write_in, n)) for n, w, k in units])
        themes: tuple[tuple[Choice, str, str], ...] = (
            ("light", _("&Light"), ""),
            ("dark", _("&Dark"), ""),
            ("system", _("As the s&ystem"), ""),
        )
        self._choice("theme", [(n, w, k, partial(window.theme.choose, n)) for n, w, k in themes])
        self._add("heights", _("What each &height gives"), window.toggle_heights, "F5", checkable=True)
        self._add("sails", _("&What the sails sweep"), window.draw_sails, "Ctrl+Shift+L", checkable=True)
        self._add("reset", _("Panels &back to their places"), window.reset_panels)

    def _lying(self) -> None:
        window, lying = self._window, self._window.lying
        mast = (
            ("standing", _("Mast sta&nding"), "Shift+F9", window.stand),
            ("trestles", _("Mast &on trestles"), "F9", window.lay_on_trestles),
        )
        self._choice("mast", list(mast))
        faces: tuple[tuple[Face, str, str], ...] = (
            ("forward", _("&Forward face up"), "Ctrl+1"), ("aft", _("&Track up"), "Ctrl+2"),
            ("port", _("&Port side up"), "Ctrl+3"), ("starboard", _("&Starboard side up"), "Ctrl+4"),
        )  # fmt: skip
        self._choice("up", [(n, w, k, partial(lying.turn_up, n)) for n, w, k in faces])
        ends: tuple[tuple[End, str, str], ...] = (
            ("heel", _("I stand at the &heel"), "Ctrl+5"),
            ("masthead", _("I stand at the &masthead"), "Ctrl+6"),
        )
        self._choice("at", [(n, w, k, partial(lying.stand_at, n)) for n, w, k in ends])
        self._add("roll", _("&Roll the mast") + "\tR", window.roll)

    def _check(self) -> None:
        self._add("next", _("&Next finding"), lambda: self._window.go_to_finding(1), "F4")
        self._add("previous", _("&Previous finding"), lambda: self._window.go_to_finding(-1), "Shift+F4")
        self._add("limits", _("&Limits …"), self._window.set_limits, "Ctrl+L")

    def _papers(self) -> None:
        window = self._window
        self._add("papers", _("&Preview, save and print …"), window.show_papers, Keys.Print)
        self._add("measure", _("&Measure list …"), lambda: window.show_papers("measure"), "Ctrl+M")
        self._add("drill", _("&Drilling schedule …"), lambda: window.show_papers("drill"), "Ctrl+D")
        for view in VIEWS:
            keys = "Ctrl+E" if view == "elevation" else ""
            self._add(f"picture {view}", f"{title(view)} …", partial(window.save_picture, view), keys)
            self._add(f"copy {view}", title(view), partial(window.copy_picture, view))

    def _help(self) -> None:
        self._add("keys", _("&Keys"), self._window.show_keys, Keys.HelpContents)
        self._add("about", _("&About mastlayout"), self._window.show_about)

    def _add(
        self,
        name: str,
        words: str,
        act: Callable[[], object],
        keys: QKeySequence.StandardKey | str = "",
        *,
        checkable: bool = False,
    ) -> QAction:
        action = QAction(words, self._window)
        action.setCheckable(checkable)
        if isinstance(keys, str):
            action.setShortcut(QKeySequence(keys))
        else:
            action.setShortcuts(QKeySequence.keyBindings(keys))
        action.triggered.connect(lambda _checked=False: act())
        self._made[name] = action
        self._window.addAction(action)
        return action

    def _choice(self, group: str, members: list[tuple[str, str, str, Callable[[], object]]]) -> None:
        together = QActionGroup(self)
        for name, words, keys, act in members:
            together.addAction(self._add(f"{group} {name}", words, act, keys, checkable=True))

    # -- menus

    def fill(self, bar: QMenuBar) -> None:
        """Put the menus on a bar."""
        menus = (
            (_("&Layout"), "new back | open recent | save save_as | close"),
            (_("&Edit"), "undo redo | turn copy mirror | remove let_go | cut_heel"),
            (_("&Place"), "place add | tape copy_tape"),
            (_("&View"), f"{_MAST} | lying | {_SEEN} | heights sails | {_UNITS} | {_THEMES} | reset"),
            (_("&Check"), "next previous | limits"),
            (_("P&apers"), "papers measure drill | pictures"),
            (_("&Help"), "keys about"),
        )  # fmt: skip
        for words, names in menus:
            self._fill_menu(bar.addMenu(words), names.split())

    def _fill_menu(self, menu: QMenu, names: list[str]) -> None:
        for name in names:
            if name == "|":
                menu.addSeparator()
            elif name == "lying":
                self._fill_menu(menu.addMenu(_("On t&restles")), _LYING.split())
            elif name == "pictures":
                self._fill_menu(menu.addMenu(_("Save a p&icture of")), [f"picture_{view}" for view in VIEWS])
                self._fill_menu(menu.addMenu(_("&Copy a picture of")), [f"copy_{view}" for view in VIEWS])
            elif name == "recent":
                menu.addMenu(self._recent)
            else:
                menu.addAction(self[name.replace("_", " ")])

    def _fill_recent(self) -> None:
        self._recent.clear()
        for path in self._window.files.recent():
            self._recent.addAction(_shown(path), partial(self._window.files.open, path))
        if self._recent.isEmpty():
            self._recent.addAction(_("No layout was opened yet")).setEnabled(False)

    # -- what can be done now

    def show_state(self) -> None:
        """Enable what can be done now, and tick what is chosen."""
        window = self._window
        session = window.session
        needs_layout = (
            "save", "save as", "place", "add", "cut heel", "tape", "next", "previous", "limits", "papers",
            "measure", "drill", "heights", "reset", "seen starboard", "seen port", "seen ahead",
            "units metric", "units inches", "mast standing", "mast trestles", "sails",
            *(f"{act} {view}" for act in ("picture", "copy") for view in VIEWS),
        )  # fmt: skip
        for name in needs_layout:
            self[name].setEnabled(session is not None and not window.at_start)
        for name in ("seen starboard", "seen port", "seen ahead", "tape", "sails"):
            self[name].setEnabled(self[name].isEnabled() and not window.on_trestles)
        for name in _LYING.replace(" | ", " ").split():
            self[name.replace("_", " ")].setEnabled(window.on_trestles)
        self["tape"].setChecked(window.tape.in_hand)
        self["heights"].setChecked(window.heights is not None and window.heights.isVisible())
        self["copy tape"].setEnabled(window.tape.read.taped is not None)
        self["back"].setEnabled(session is not None and window.at_start)
        self["undo"].setEnabled(session is not None and not window.at_start and session.undo.canUndo())
        self["redo"].setEnabled(session is not None and not window.at_start and session.undo.canRedo())
        self["undo"].setText(_step(_("&Undo"), session.undo.undoText() if session else ""))
        self["redo"].setText(_step(_("&Redo"), session.undo.redoText() if session else ""))
        for name in ("turn", "copy", "mirror", "remove", "let go"):
            self[name].setEnabled(session is not None and session.hand != "")
        self[f"theme {window.theme.choice}"].setChecked(True)
        if session is not None:
            self[f"seen {session.view}"].setChecked(True)
            self["sails"].setChecked(session.sails)
            self["mast trestles" if window.on_trestles else "mast standing"].setChecked(True)
            self[f"up {window.lying.lie.face}"].setChecked(True)
            self[f"at {window.lying.lie.end}"].setChecked(True)
            self[f"units {session.units}"].setChecked(True)


def _step(word: str, step: str) -> str:
    """Name the step an undo takes back: "Undo move Hailer"."""
    return f"{word} {on_button(step[:1].lower() + step[1:])}" if step else word


def _shown(path: Path) -> str:
    return on_button(f"{path.name}   {path.parent}")

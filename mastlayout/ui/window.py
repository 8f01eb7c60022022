"""The window: menus, toolbar, the start page or the panels, and the status line."""

from collections.abc import Callable
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QEvent, QSettings, QUrl
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent, QFontMetricsF, QResizeEvent
from PySide6.QtWidgets import QLabel, QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from mastlayout.checks.finding import Finding, loud_first
from mastlayout.desk import Desk
from mastlayout.model.edits import BOAT
from mastlayout.model.fitting import MAST
from mastlayout.ui import look
from mastlayout.ui.actions import Actions
from mastlayout.ui.arrangement import NARROW_BELOW_PX, Arrangement
from mastlayout.ui.asks import Asks
from mastlayout.ui.copies import Copies
from mastlayout.ui.elevation.shapes import AXES
from mastlayout.ui.files import Files
from mastlayout.ui.first_check import FirstCheck
from mastlayout.ui.icon import window_icon
from mastlayout.ui.inwords import fitting_words
from mastlayout.ui.measuring.tape import TapeMeasure
from mastlayout.ui.panels import panels
from mastlayout.ui.session import Session, View
from mastlayout.ui.theme import Theme
from mastlayout.ui.toolbar import Toolbar
from mastlayout.ui.trestles.lie import Lying
from mastlayout.units import Units
from mastlayout.words import _

# A room is imported and made when it is first opened: the first picture waits for none of them.
if TYPE_CHECKING:
    from mastlayout.ui.catalogue.room import CatalogueRoom
    from mastlayout.ui.forms.form import FormDialog
    from mastlayout.ui.forms.limits import LimitsDialog
    from mastlayout.ui.heights.dialog import HeightsDialog
    from mastlayout.ui.measuring.joining import Measuring
    from mastlayout.ui.start.page import StartPage
    from mastlayout.ui.trestles.view import TrestlesView

_MARK = "[*]"
SMALLEST_PX, FIRST_PX = (1200, 700), (1600, 960)


class MainWindow(QMainWindow):
    """One window on one layout; ``session`` is None while the start page shows."""

    def __init__(self, theme: Theme, settings: QSettings, recovery: Path) -> None:
        super().__init__()
        self.theme, self._settings = theme, settings
        self.session: Session | None = None
        self.arrangement: Arrangement | None = None
        self.trestles: TrestlesView | None = None
        self.lying = Lying(settings, self)
        self.catalogue: CatalogueRoom | None = None
        self.form: FormDialog | None = None
        self.limits: LimitsDialog | None = None
        self.heights: HeightsDialog | None = None
        self.first_check: FirstCheck | None = None
        self.asks = Asks(self)
        self.files = Files(settings, self.asks, Copies(recovery, self), self)
        self.tape = TapeMeasure(self)
        self._pages, self._column = QStackedWidget(), QVBoxLayout()
        self.acts = Actions(self)
        self.acts.fill(self.menuBar())
        self.toolbar = Toolbar(self.acts, theme)
        self._saved, self._said = QLabel(), QLabel()
        self._finding: Finding | None = None
        self._build()
        self._connect()
        self._show_state()

    def _build(self) -> None:
        self.setWindowIcon(window_icon())
        self.setMinimumSize(*SMALLEST_PX)
        self.setAcceptDrops(True)
        middle = QWidget()
        middle.setLayout(self._column)
        column = self._column
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.toolbar)
        column.addWidget(self._pages, 1)
        self.setCentralWidget(middle)
        for label in (self._saved, self._said):
            label.setFont(look.font(look.LABEL))
        self.statusBar().addWidget(self._saved)
        self.statusBar().addWidget(self._said, 1)
        self.statusBar().setSizeGripEnabled(False)
        self.statusBar().setContentsMargins(look.GAP, 0, look.GAP, 0)
        kept = self._settings.value("window/geometry")
        if not (isinstance(kept, QByteArray) and self.restoreGeometry(kept)):
            self.resize(*FIRST_PX)

    def _connect(self) -> None:
        self.files.opened.connect(self.show_desk)
        self.files.saved.connect(self._show_state)
        self.files.said.connect(self.say)
        self.tape.said.connect(self._said.setText)
        self.tape.changed.connect(self._measure)
        self.tape.changed.connect(self._show_state)
        self.theme.changed.connect(self._show_state)
        self.lying.changed.connect(self._show_state)

    # -- what is open

    def show_desk(self, desk: Desk) -> None:
        """Put a layout in the window; the panels are made with the first."""
        if self.session is not None:
            self.session.open(desk)
        else:
            self._begin(Session(desk, self))
        if self.arrangement is not None and not self.on_trestles:
            self._pages.setCurrentWidget(self.arrangement)
        self._show_state()

    def open_first(self, path: Path) -> None:
        """Open a layout in a window that nobody has seen yet: it shows first and is checked then."""
        if self.files.open(path, checked=False) and self.session is not None:
            self.first_check = FirstCheck(self.session, self)

    def _finish_check(self) -> None:
        """Wait for the first check where what is wanted needs its report."""
        if self.first_check is not None:
            self.first_check.end()

    @cached_property
    def start(self) -> "StartPage":
        """The start page."""
        from mastlayout.ui.start.page import StartPage

        page = StartPage(self.theme, self.asks)
        page.opened.connect(self.files.open)
        page.made.connect(self.files.open_new)
        self._pages.addWidget(page)
        return page

    @cached_property
    def measuring(self) -> "Measuring":
        """What the tape measure puts on the panels; they have to be there."""
        from mastlayout.ui.measuring.joining import Measuring

        if self.arrangement is None:
            raise ValueError("there is nothing to measure on the start page")
        return Measuring(self.tape, self.arrangement, self.theme, self)

    def _measure(self) -> None:
        if self.tape.in_hand:
            _joined = self.measuring

    def _begin(self, session: Session) -> None:
        self.session = self.files.session = session
        units = self._settings.value("window/units", "metric")
        session.write_in("inches" if units == "inches" else "metric")
        view = self._settings.value("window/view", "starboard")
        session.look_from(view if view in AXES else "starboard")
        session.draw_sails(drawn=self._settings.value("window/sails", "drawn") != "left out")
        self.files.copies.follow(session)
        self.tape.follow(session)
        # The toolbar takes its place first: the panels are laid out once, for what is left.
        self.toolbar.show()
        self._column.activate()
        shown = panels(session, self.theme)
        self.arrangement = Arrangement(shown, self._settings, self._pages.size(), self._pages)
        self._pages.addWidget(self.arrangement)
        session.said.connect(self.say)
        session.undo.indexChanged.connect(self._show_state)
        session.undo.cleanChanged.connect(self._show_state)
        for signal in (session.hand_changed, session.view_changed, session.units_changed):
            signal.connect(self._show_state)

    def begin_new(self) -> None:
        """Show the start page; what is open stays until a new mast takes its place."""
        self.start.begin()
        self._pages.setCurrentWidget(self.start)
        self._show_state()

    def back(self) -> None:
        """Leave the start page for what is open."""
        self.stand()

    def stand(self) -> None:
        """Show the mast standing."""
        if self.arrangement is not None:
            self._pages.setCurrentWidget(self.arrangement)
            self._show_state()

    def lay_on_trestles(self) -> None:
        """Lay the mast on trestles; the keys go to the next hole."""
        self._finish_check()
        self.tape.put_away()  # its views stand upright
        if self.session is None:
            return
        if self.trestles is None:
            from mastlayout.ui.trestles.view import TrestlesView

            self.trestles = TrestlesView(self.session, self.theme, self.lying)
            self._pages.addWidget(self.trestles)
        self._pages.setCurrentWidget(self.trestles)
        self.trestles.setFocus()
        self._show_state()

    def roll(self) -> None:
        """Roll the lying mast to the next face that has holes."""
        if self.trestles is not None:
            self.trestles.roll()

    @property
    def on_trestles(self) -> bool:
        """Tell whether the mast lies on trestles."""
        return self.trestles is not None and self._pages.currentWidget() is self.trestles

    @property
    def at_start(self) -> bool:
        """Tell whether the start page shows."""
        return self.session is None or self._pages.currentWidget() not in (self.arrangement, self.trestles)

    def _show_state(self, *_changed: object) -> None:
        self.toolbar.setVisible(not self.at_start)
        self.toolbar.show_mast(trestles=self.on_trestles)
        self.acts.show_state()
        if self.session is None or self.at_start:
            self.setWindowTitle("mastlayout")
            self._saved.setText(_("Nothing is stored until you save. Every answer can be changed later."))
            return
        name = self.session.layout.boat.name
        self.toolbar.name_yacht(name)
        # Qt reads one such mark as the place of its own: what a yacht is called goes doubled.
        self.setWindowTitle(f"{name.replace(_MARK, 2 * _MARK)}{_MARK} – mastlayout")
        self.setWindowModified(self.files.unsaved)
        # The tape in hand says what its own keys do.
        hint = () if self.tape.in_hand else (_hint(trestles=self.on_trestles),)
        self._saved.setText("   ".join((*hint, _units(self.session.units), self._state())))

    def _state(self) -> str:
        if not self.files.unsaved:
            return _("Saved.")
        return _("Not saved.") if self.files.path else _("Never saved.")

    def say(self, *sentences: str) -> None:
        """Show a sentence in the status line for some seconds; of several, the first that finds room."""
        bar = self.statusBar()
        room = bar.width() - 4.0 * look.GAP
        bar.showMessage(fitting_words(sentences, QFontMetricsF(bar.font()), room), 10_000)

    # -- acts on the session

    def undo(self) -> None:
        """Take back the last step."""
        if self.session:
            self.session.undo.undo()

    def redo(self) -> None:
        """Do again the step that was taken back."""
        if self.session:
            self.session.undo.redo()

    def pick(self, name: str) -> None:
        """Take a thing in hand, or nothing."""
        if self.session:
            self.session.pick(name)

    def act_on_hand(self, act: Callable[[Session], None]) -> None:
        """Do something to what is in hand."""
        if self.session is not None:
            act(self.session)

    def place(self) -> None:
        """Open the catalogue beside the views; placed, its height is typed next."""
        if self.session is None or self.arrangement is None:
            return
        if self.catalogue is None:
            from mastlayout.ui.panels import catalogue_room

            shown = self.arrangement.panels
            self.catalogue = catalogue_room(self.session, self.theme, shown)
            self.catalogue.placed.connect(lambda _name: shown.hand.begin_typing())
            self.catalogue.left.connect(self._leave_catalogue)
        self.arrangement.open_room(self.catalogue)
        self.catalogue.begin()

    def add(self) -> None:
        """Open the form that adds to the mast; what is added is in hand, and its typing begins."""
        if self.session is None or self.arrangement is None:
            return
        from mastlayout.ui.adding import adding_form

        hand = self.arrangement.panels.hand

        def opened(name: str) -> None:
            self.pick(name)
            hand.begin_typing()

        elsewhere = {"fitting": self.place, "mast": lambda: opened(MAST), "yacht": lambda: opened(BOAT)}
        self.form = adding_form(self.session, elsewhere, self)
        self.form.made.connect(lambda _name: hand.begin_typing())
        self.form.finished.connect(lambda _result: self.activateWindow())
        self.form.open()

    def set_limits(self) -> None:
        """Open the form of the limits that the rules ask by."""
        from mastlayout.ui.forms.limits import LimitsDialog

        if self.session is not None:
            self.limits = LimitsDialog(self.session, self)
            self.limits.open()

    def cut_heel(self) -> None:
        """Open the form of cutting the heel."""
        from mastlayout.ui.heel import CutHeelDialog

        if self.session is not None:
            self.heel = CutHeelDialog(self.session, self)
            self.heel.open()

    def _leave_catalogue(self) -> None:
        if self.arrangement is not None:
            self.arrangement.close_room()
            self.arrangement.panels.elevation.canvas.setFocus()

    def look_from(self, view: View) -> None:
        """Turn the elevation."""
        if self.session:
            self.session.look_from(view)

    def write_in(self, units: Units) -> None:
        """Choose the units, now and for the next layout."""
        if self.session:
            self._settings.setValue("window/units", units)
            self.session.write_in(units)

    def draw_sails(self) -> None:
        """Draw what the sails sweep or leave it out, now and the next time."""
        if self.session:
            self.session.draw_sails(drawn=not self.session.sails)
            self._settings.setValue("window/sails", "drawn" if self.session.sails else "left out")
            self._show_state()

    def go_to_finding(self, step: int) -> None:
        """Take in hand the thing that the next or the previous finding is about."""
        self._finish_check()
        session = self.session
        if session is None or not session.desk.report.open:
            return
        found = sorted(session.desk.report.open, key=loud_first)
        last = self._finding
        if last is not None and last in found and session.hand in ("", _about(last)):
            finding = found[(found.index(last) + step) % len(found)]
        else:
            finding = found[0 if step > 0 else -1]
        self._finding = finding
        session.pick(_about(finding))
        desk, units = session.desk, session.units
        self.say(desk.sentence(finding, units), desk.short(finding, units))

    # -- dialogs

    def toggle_heights(self) -> None:
        """Show what each height gives beside the window, or put it away."""
        if self.session is None:
            return
        if self.heights is None:
            from mastlayout.ui.heights.dialog import HeightsDialog

            self.heights = HeightsDialog(self.session, self.theme, self)
            self.heights.addAction(self.acts["heights"])
            self.heights.finished.connect(self._show_state)
        if self.heights.isVisible():
            self.heights.close()
        else:
            self.heights.show()
        self._show_state()

    def show_papers(self, kind: str = "") -> None:
        """Show the papers, at one kind of sheet where it is named."""
        self._finish_check()
        if self.session is not None:
            from mastlayout.ui.papers.preview import PapersDialog

            PapersDialog(self.session.desk, self.session.units, self.theme, self.asks, kind, self).exec()

    def save_picture(self, view: str) -> None:
        """Save a view as it shows, as PNG or SVG."""
        self._finish_check()
        if self.session is not None and self.arrangement is not None:
            from mastlayout.ui.pictures.views import save_picture

            panels, folder = self.arrangement.panels, Path(self.files.folder())
            self.say(save_picture(self.session, panels, view, self.theme, self.asks, folder))

    def copy_picture(self, view: str) -> None:
        """Put a view as it shows on the clipboard."""
        if self.session is not None and self.arrangement is not None:
            from mastlayout.ui.pictures.views import copy_picture

            self.say(copy_picture(self.session, self.arrangement.panels, view, self.theme))

    def show_keys(self) -> None:
        """Show what each key does."""
        from mastlayout.ui.keys import keys_dialog

        keys_dialog(self).exec()

    def show_about(self) -> None:
        """Say what this program is and what it is not."""
        from mastlayout.ui.keys import about

        about(self).exec()

    def reset_panels(self) -> None:
        """Put the panels back where the program has them."""
        if self.arrangement is not None:
            self.arrangement.reset()

    # -- the window itself

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.toolbar.show_width(narrow=event.size().width() < NARROW_BELOW_PX)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.files.look_at_disk()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if _dropped(event.mimeData().urls()) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        path = _dropped(event.mimeData().urls())
        if path is not None:
            event.acceptProposedAction()
            self.files.open(path)

    def closeEvent(self, event: QCloseEvent) -> None:
        if not self.files.may_leave():
            event.ignore()
            return
        self._settings.setValue("window/geometry", self.saveGeometry())
        self._settings.setValue("window/theme", self.theme.choice)
        if self.session is not None:
            self._settings.setValue("window/view", self.session.view)
        if self.arrangement is not None:
            self.arrangement.keep()
        self.files.copies.drop()
        self.files.copies.close()
        if self.session is not None:
            # While all that the steps hold still stands: gone with the window, one took another along.
            self.session.undo.clear()
        event.accept()


def _about(finding: Finding) -> str:
    """Return the thing a finding is about first, "" where it is about the whole."""
    return next(iter(finding.things), "")


def _dropped(urls: list[QUrl]) -> Path | None:
    """Return the one layout file that is dropped, None for anything else."""
    files = [Path(url.toLocalFile()) for url in urls if url.isLocalFile()]
    return files[0] if len(files) == 1 and files[0].suffix.lower() == ".toml" else None


def _hint(*, trestles: bool) -> str:
    if trestles:
        return _("Space ticks the next box.   Enter goes to the next hole.   R rolls the mast.")
    return _("Arrow keys move by 10, with Shift by 100, with Alt by 1.   Escape puts it back.")


def _units(units: Units) -> str:
    return _("Millimetres.") if units == "metric" else _("Feet and inches.")

"""The findings: counted, filtered, one opened below with what can be done about it."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from mastlayout.checks.finding import Key
from mastlayout.checks.report import Report
from mastlayout.model.edits import open_again
from mastlayout.ui.findings.filters import StateFilters
from mastlayout.ui.findings.look import sheet
from mastlayout.ui.findings.opened import Opened
from mastlayout.ui.findings.rows import Row
from mastlayout.ui.findings.table import ROW, FindingTable, ShownRows
from mastlayout.ui.findings.view import NARROW_BELOW_PX, FindingView
from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.ui.wholerows import WholeRows
from mastlayout.units import Units
from mastlayout.words import _

if TYPE_CHECKING:
    from mastlayout.places.suggest import Suggestion, Suggestions
    from mastlayout.ui.findings.acts import AcceptDialog

# Room for the title and six buttons with their words.
_WORDS_PX = 600


class FindingsPanel(Panel):
    """What the rules say of the layout as it stands, a drag's preview included."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        self.table = FindingTable(session)
        self.shown = ShownRows(self.table)
        self.filters = StateFilters(theme, self.shown.states)
        super().__init__(session, theme, _("Findings"), parent)
        self.view, self.opened = FindingView(self.shown, theme), Opened()
        self.view.write_in(session.units)
        self.accept_dialog: AcceptDialog | None = None
        self._key: Key | None = None
        self._found: tuple[Report, Key, Suggestions] | None = None
        self._changing = False
        self.body.addWidget(WholeRows(self.view), 1)
        self.body.addWidget(self.opened)
        self._connect()
        self.filters.count(self.table.counts())
        self._open()

    def _head(self, title: str) -> QHBoxLayout:
        row = super()._head(title)
        row.addWidget(self.filters)
        return row

    def _connect(self) -> None:
        session = self.session
        session.turns.findings.connect(self.refresh)
        session.units_changed.connect(self._write_in)
        session.opened.connect(self._begin_anew)
        session.hand_changed.connect(self._hand_changed)
        self.view.selectionModel().currentRowChanged.connect(self._walked)
        self.view.show_wanted.connect(self.show_it)
        self.view.accept_wanted.connect(self.ask_to_accept)
        self.opened.show_wanted.connect(self.show_it)
        self.opened.accept_wanted.connect(self.ask_to_accept)
        self.opened.reopen_wanted.connect(self.reopen)
        self.opened.places.asked.connect(self.look_for_places)
        self.opened.places.taken.connect(self.take_place)
        self.opened.only.toggled.connect(self._filter)
        self.filters.changed.connect(self._filter)

    @property
    def chosen(self) -> Row | None:
        """The row that is open below."""
        index = self.view.currentIndex()
        return index.data(ROW) if index.isValid() else None

    # -- following the session

    def refresh(self, *_changed: object) -> None:
        """Take the report as it stands; what is chosen stays chosen while it is still said."""
        self._changing = True
        self.table.take()
        self._changing = False
        self.filters.count(self.table.counts())
        self._choose_again()

    def _write_in(self, units: Units) -> None:
        self.view.write_in(units)
        self.refresh()

    def _begin_anew(self) -> None:
        self._key = None
        self._changing = True
        self.table.take_all()
        self._changing = False
        self.filters.count(self.table.counts())
        self._filter()

    def _hand_changed(self, name: str) -> None:
        if self.opened.only.isChecked():
            self._filter()
        row = self.chosen
        if name and (row is None or name not in row.things):
            self._choose(next((one for one in self._visible() if name in one.things), None))

    def _filter(self, *_toggled: object) -> None:
        only = self.session.hand if self.opened.only.isChecked() else ""
        self._changing = True
        self.shown.want(self.filters.wanted, only)
        self._changing = False
        self._choose_again()

    # -- what is chosen

    def _visible(self) -> list[Row]:
        return [self.shown.index(at, 0).data(ROW) for at in range(self.shown.rowCount())]

    def _walked(self, now: QModelIndex, _before: QModelIndex) -> None:
        if not self._changing:
            self._key = now.data(ROW).key if now.isValid() else None
            self._open()

    def _choose(self, row: Row | None) -> None:
        self._key = row.key if row else None
        self._choose_again()

    def _choose_again(self) -> None:
        """Select the row of the matter that was chosen; none while it is not said."""
        at = self.table.row_of(self._key) if self._key else -1
        index = self.shown.mapFromSource(self.table.index(at, 0)) if at >= 0 else QModelIndex()
        self._changing = True
        if index.isValid():
            self.view.selectRow(index.row())
            self.view.scrollTo(index)
        else:
            self.view.clearSelection()
            self.view.setCurrentIndex(QModelIndex())
        self._changing = False
        self._open()

    def _open(self) -> None:
        row = self.chosen
        self.opened.open(row, self._instead())
        self._tell_places(row)
        self.session.choose(frozenset(found.key for found in row.findings) if row else frozenset())

    def _instead(self) -> str:
        if self._key is not None:
            return _("What was chosen here is no longer open, or hidden by the buttons above.")
        if not self._visible():
            return _(
                "Nothing to show. What this version does not ask stands at the end of the findings sheet."
            )
        return _("Choose a finding to read it whole.")

    # -- what can be done

    def show_it(self) -> None:
        """Take in hand what the chosen row is about, and go to its height."""
        row = self.chosen
        if row is not None:
            from mastlayout.ui.findings.acts import show  # noqa: PLC0415 - as of the dialog below

            show(self.session, row)

    def ask_to_accept(self) -> None:
        """Ask for the remark with which the chosen finding is accepted."""
        row = self.chosen
        if row is not None and row.may_be_accepted:
            from mastlayout.ui.findings.acts import AcceptDialog  # noqa: PLC0415 - a dialog opens later

            self.accept_dialog = AcceptDialog(self.session, row, self.window())
            self.accept_dialog.open()

    def look_for_places(self) -> None:
        """Look for the places at which the chosen finding would be clear; the owner may end it."""
        from mastlayout.ui.findings.placing import look, to_mend  # noqa: PLC0415 - it needs every rule

        row, report = self.chosen, self.session.desk.report
        finding = to_mend(report, row)
        if row is None or finding is None:
            return
        found = look(report, finding, self.window())
        if found is not None and report is self.session.desk.report:
            self._found = report, row.key, found
            self._tell_places(row)
            first = (*self.opened.places.deeds, self.view)[0]
            first.setFocus()

    def take_place(self, one: "Suggestion") -> None:
        """Bring the fitting to a place that was found, or set the guard, as one undo step."""
        from mastlayout.ui.findings.placing import take  # noqa: PLC0415 - as above

        take(self.session, one)

    def _tell_places(self, row: Row | None) -> None:
        report, places = self.session.desk.report, self.opened.places
        if self._found is not None and self._found[0] is report and row and self._found[1] == row.key:
            places.tell(report.scene, self._found[2], self.session.units)
        else:
            self._found = None
            places.offer(can_be_asked=row is not None and _may_be_mended(report, row))

    def reopen(self) -> None:
        """Take back the owner's word on the chosen finding."""
        row = self.chosen
        if row is not None and row.own is not None:
            self.session.edit(open_again(self.session.layout, row.own), _("Open finding again"))

    # -- the look

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        narrow = event.size().width() < NARROW_BELOW_PX
        self.filters.be_brief(brief=event.size().width() < _WORDS_PX)
        self.opened.be_brief(brief=narrow)

    def restyle(self) -> None:
        super().restyle()
        self.setStyleSheet(self.styleSheet() + sheet(self.theme.colours))
        self.filters.restyle()


def _may_be_mended(report: Report, row: Row) -> bool:
    from mastlayout.ui.findings.placing import to_mend  # noqa: PLC0415 - as above

    return to_mend(report, row) is not None

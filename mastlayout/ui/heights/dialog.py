"""The window "What each height gives": the chart, and beside it what is asked, the table, the working."""

from collections.abc import Callable

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QPushButton, QStackedWidget, QTabBar, QVBoxLayout, QWidget

from mastlayout.ranges.asked import EXAMPLE, Asked
from mastlayout.ranges.echo import X_BAND
from mastlayout.ranges.reflector import echo_of, is_reflector
from mastlayout.ui.heights.chart import Chart
from mastlayout.ui.heights.echo import EchoChart
from mastlayout.ui.heights.ends import Ends
from mastlayout.ui.heights.loads import LoadTable, LoadView
from mastlayout.ui.heights.look import sheet
from mastlayout.ui.heights.round import RoundCompass
from mastlayout.ui.heights.table import AT_HEIGHT, GivenTable, GivenView
from mastlayout.ui.heights.where_panel import WherePanel
from mastlayout.ui.heights.worked import Worked
from mastlayout.ui.look import GAP
from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_SIDE_PX = 540
_CHARTS, _WHERE, _ALOFT = 0, 1, 3
_LEAST, _WANTED, _MOST = QSize(1040, 660), QSize(1260, 760), QSize(1680, 1040)
_OF_PARENT = 0.9


class HeightsDialog(QDialog):
    """Stands beside the main window and follows its session."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self.setWindowTitle(_("What each height gives"))
        self.setWindowFlag(Qt.WindowType.WindowMaximizeButtonHint)
        self.chart = Chart(session, theme, EXAMPLE)
        self.echo = EchoChart(session, theme)
        self.ends = Ends(EXAMPLE, session.units)
        self.table = GivenTable(session, theme, EXAMPLE, self)
        self.view, self.worked = GivenView(self.table), Worked()
        self.compass = RoundCompass(session, theme)
        self.loads = LoadView(LoadTable(session, theme, self))
        self.where = WherePanel(session, theme)
        self.views, self.tabs = QStackedWidget(), QTabBar()
        self.close_button = QPushButton(_("Close"))
        self._lay_out()
        self._connect()
        self.view.setCurrentIndex(self.table.index(1, AT_HEIGHT))
        self.setMinimumSize(_LEAST)
        wanted = (parent.size() * _OF_PARENT).expandedTo(_WANTED).boundedTo(_MOST)
        self.resize(wanted.boundedTo(parent.size()).expandedTo(_LEAST))
        self.restyle()

    def _lay_out(self) -> None:
        row, side = QHBoxLayout(self), QVBoxLayout()
        row.setContentsMargins(GAP, GAP, GAP, GAP)
        row.setSpacing(GAP)
        side.setSpacing(GAP)
        charted = self._panel(_("Range by height above the water"), self.chart)
        charted.aside.setText(_("Drag, or Up and Down: another height. Click a dot: in hand."))
        row.addLayout(self._views(self._charts(charted)), 1)
        row.addLayout(side)
        for title, body in (
            (_("At the other end, and how she lies"), self.ends),
            (_("What a height gives"), self.view),
            (_("How it was found"), self.worked),
        ):
            panel = self._panel(title, body)
            panel.setFixedWidth(_SIDE_PX)
            side.addWidget(panel, 1 if body is self.worked else 0)
        self.close_button.setAutoDefault(False)
        self.close_button.clicked.connect(self.close)
        side.addWidget(self.close_button, 0, Qt.AlignmentFlag.AlignRight)

    def _charts(self, charted: Panel) -> QWidget:
        """Lay the two charts of the height in hand one over the other: farther, and fading, side by side."""
        both, echoed = QWidget(), self._panel(_("Echo of a reflector, X band"), self.echo)
        echoed.aside.setText(
            _("0 dB: no sea. Black: fades. Hatched: past the horizon. ▼ first seen, an estimate.")
        )
        column = QVBoxLayout(both)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GAP)
        column.addWidget(charted, 3)
        column.addWidget(echoed, 2)
        return both

    def _views(self, charted: QWidget) -> QVBoxLayout:
        """Lay the two views of the left side one behind the other, under a bar that says which is shown."""
        seen = self._panel(_("Lights, antennas and horns round the compass"), self.compass)
        seen.aside.setText(_("Hatched: something stands before it. Filled: dark."))
        column = QVBoxLayout()
        column.setSpacing(GAP)
        aloft = self._panel(_("What is carried aloft"), self.loads)
        aloft.aside.setText(_("Any cell: how it was found."))
        where = self._panel(_("Where it goes, and why"), self.where)
        where.aside.setText(_("Bold: free of faults. Any cell: how it was found."))
        views = (
            (_("By height"), charted),
            (_("Where it goes"), where),
            (_("Round the compass"), seen),
            (_("Aloft"), aloft),
        )
        for words, body in views:
            self.tabs.addTab(words)
            self.views.addWidget(body)
        self.tabs.setExpanding(False)
        self.tabs.setAccessibleName(_("What is shown"))
        self.tabs.currentChanged.connect(self.views.setCurrentIndex)
        self.tabs.currentChanged.connect(self.follow)
        column.addWidget(self.tabs)
        column.addWidget(self.views, 1)
        return column

    def _panel(self, title: str, body: QWidget) -> Panel:
        panel = Panel(self.session, self.theme, title)
        panel.body.addWidget(body)
        return panel

    def _connect(self) -> None:
        session = self.session
        session.height_changed.connect(self._follow_height)
        session.turns.fields.connect(self.follow)
        for signal in (session.hand_changed, session.opened):
            signal.connect(self.follow)
        session.units_changed.connect(self._write_in)
        self.ends.changed.connect(self._ask)
        self.view.selectionModel().currentChanged.connect(self._open_working)
        self.loads.selectionModel().currentChanged.connect(self._open_working)
        self.where.view.selectionModel().currentChanged.connect(self._open_working)
        self.where.changed.connect(self._open_working)
        self.theme.changed.connect(self.restyle)

    # -- following the session, while it shows

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.view.fit()
        self._write_in()

    def _write_in(self, *_units: object) -> None:
        self.ends.write_in(self.session.units)
        self.loads.table.write_in()
        self.where.write_in()
        self.follow()

    def follow(self, *_changed: object) -> None:
        """Show the session as it stands, where it is seen."""
        if self.isVisible():
            self._views_shown()[self.views.currentIndex()]()
            self._fill()

    def _views_shown(self) -> tuple[Callable[[], None], ...]:
        """Return how each of the views on the left follows, in the order of their tabs."""
        return self._show_charts, self.where.show_layout, self.compass.show_layout, self.loads.show_layout

    def _show_charts(self) -> None:
        self.chart.show_layout()
        self._show_echo()

    def _follow_height(self, _z_mm: float) -> None:
        if self.isVisible():
            if self.views.currentIndex() == _CHARTS:
                self.chart.show_height()
                self._show_echo()
            self._fill()

    def _show_echo(self) -> None:
        """Show the echo of the reflector in hand, else of the first there is, at the height in hand."""
        placed = self.session.desk.scene.placed
        own = placed.get(self.session.hand)
        known = [one for one in (own, *placed.values()) if one is not None and is_reflector(one)]
        echo_m2 = echo_of(known[0], X_BAND).value if known else None
        unknown = self.chart.mast.missing is not None
        self.echo.show_height(None if unknown else self.chart.height_m, echo_m2)

    def _fill(self) -> None:
        self.table.take()
        self._open_working()

    def _ask(self, asked: Asked) -> None:
        self.table.ask(asked)
        self.chart.ask(asked)
        self._show_echo()
        self._open_working()

    def _open_working(self, *_cells: object) -> None:
        """Open the working of the cell with the keys, in the table that shows."""
        shown = {_ALOFT: (self.loads, self.loads.table.worked), _WHERE: (self.where.view, self.where.worked)}
        view, worked = shown.get(self.views.currentIndex(), (self.view, self.table.worked))
        index = view.currentIndex()
        if index.isValid():
            self.worked.show_working(worked(index.row(), index.column()))

    def restyle(self) -> None:
        """Take the colours in force."""
        self.setStyleSheet(sheet(self.theme.colours))
        self.view.fit()

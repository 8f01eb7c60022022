"""The panel of what is in hand."""

import itertools
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QBoxLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QScrollArea,
    QSizePolicy,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from mastlayout.ui.hand.grid import PropertyGrid
from mastlayout.ui.hand.head import Head
from mastlayout.ui.hand.look import sheet
from mastlayout.ui.hand.readings import Further, Readings
from mastlayout.ui.hand.things import has_height, item_in_hand
from mastlayout.ui.look import BODY, GAP, MARGIN, NAME, ROW, UNIT, font
from mastlayout.ui.panel import Panel
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _

if TYPE_CHECKING:
    from mastlayout.ui.hand.foot import FootDialog


class HandPanel(Panel):
    """What is in hand: its name and state, its height as fields, and its other properties.

    ``left`` tells that what had the keyboard here goes with the thing that was in hand.
    """

    left = Signal()

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        self.head, self.readings, self.further = Head(session, theme), Readings(session), Further(session)
        self.grid, self.said = PropertyGrid(session), Said()
        self.foot_form: FootDialog | None = None
        self.rest, self._inside = QScrollArea(), QWidget()
        self._settled: tuple[bool, bool] | None = None
        super().__init__(session, theme, "", parent)
        self.setAccessibleName(_("In hand"))
        self._beside: QBoxLayout = QHBoxLayout()
        self._below = QVBoxLayout()
        self.full, self.empty = QWidget(), _empty()
        self._elsewhere = _said_below(
            _("It has no height of its own. What is known of it stands under Properties.")
        )
        self._lay_out()
        self._connect()
        self.refresh()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self.full)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self._beside.setContentsMargins(2 * MARGIN, 0, MARGIN, UNIT)
        self._beside.setSpacing(GAP)
        self._beside.addWidget(self.readings)
        self._beside.addStretch(1)
        self._beside.addWidget(self.further)
        self.said.setContentsMargins(2 * MARGIN, 0, MARGIN, UNIT)
        column.addWidget(self.head)
        column.addLayout(self._beside)
        column.addWidget(self.said)
        column.addWidget(self._elsewhere)
        column.addWidget(self._rest_below(), 1)
        column.addStretch()
        self.body.addWidget(self.empty, 1)
        self.body.addWidget(self.full, 1)

    def _rest_below(self) -> QScrollArea:
        """Let the properties run on below where the panel is low."""
        inside = self._inside
        inside.setObjectName("inside")
        self._below.setContentsMargins(2 * MARGIN, UNIT, MARGIN, UNIT)
        self._below.setSpacing(GAP)
        self._below.addWidget(self.grid, 1)
        inside.setLayout(self._below)
        self.rest.setObjectName("rest")
        self.rest.setWidget(inside)
        self.rest.setWidgetResizable(True)
        self.rest.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.rest.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Ignored)
        self.rest.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.rest.setAccessibleName(_("Properties of what is in hand"))
        return self.rest

    def hold_properties(self) -> None:
        """Take the properties below the readings, from a tab of their own where they stood in one."""
        column = self.full.layout()
        if isinstance(column, QVBoxLayout) and column.indexOf(self.rest) < 0:
            column.insertWidget(column.count() - 1, self.rest, 1)
        self._hide_sliver()

    def _connect(self) -> None:
        session = self.session
        for signal in (session.opened, session.hand_changed, session.units_changed):
            signal.connect(self.refresh)
        session.turns.fields.connect(self.refresh)
        for field in (*self.readings.fields.values(), *self.further.fields.values()):
            field.said.connect(self.said.say)
        self.grid.foot_wanted.connect(self.ask_for_foot)
        self.grid.built.connect(self._order_tabs)

    def sizeHint(self) -> QSize:
        return QSize(694, 210)

    def minimumSizeHint(self) -> QSize:
        # The further datums make room for themselves below: they never keep the panel wide.
        least = self.readings.minimumSizeHint().width() + 3 * MARGIN
        return QSize(least, super().minimumSizeHint().height())

    def refresh(self, *_changed: object) -> None:
        """Show what is in hand as it stands, a drag's preview included."""
        there = item_in_hand(self.session) is not None
        if not there and self._has_keys():
            self.left.emit()
        self.full.setVisible(there)
        self.empty.setVisible(not there)
        self._inside.setVisible(there)
        if not there:
            return
        self.head.refresh()
        high = has_height(self.session)
        self._show_heights(high=high)
        self.readings.refresh()
        self.further.refresh()
        self.grid.refresh()
        self._place_further()
        self._name_foot()
        self._hide_sliver()

    def _has_keys(self) -> bool:
        held = QApplication.focusWidget()
        return held is not None and any(part.isAncestorOf(held) for part in (self.full, self._inside))

    def _show_heights(self, *, high: bool) -> None:
        """Show the readings where there is a height to read; the rest gets their room at once."""
        if self._settled != (high, self.full.isVisible()):
            self._settled = (high, self.full.isVisible())
            self.readings.setVisible(high)
            self.further.setVisible(high)
            column = self.full.layout()
            if column is not None:
                column.activate()
            # Only when that is laid out is it known how much room the readings leave.
            QTimer.singleShot(0, self, self._hide_sliver)

    def _name_foot(self) -> None:
        placed = self.session.desk.scene.placed.get(self.session.hand)
        if placed is not None:
            self.grid.name_foot(known=placed.foot_known, there=placed.foot is not None)

    def begin_typing(self) -> None:
        """Take the keyboard to the height of what is in hand, or to its first property."""
        self._focus_first()
        # What was just built shows only now, and a form that closes gives the keys back to where they were.
        QTimer.singleShot(0, self, self._focus_first)

    def _focus_first(self) -> None:
        first: QWidget | None = self.readings.fields["masthead"]
        if not has_height(self.session):
            first = next(iter(self.grid.stops), None)
            self._show_tab()
        if first is not None:
            first.setFocus(Qt.FocusReason.ShortcutFocusReason)
        if isinstance(first, QLineEdit):
            first.selectAll()

    def _show_tab(self) -> None:
        """Bring the properties to the front where they stand in a tab of their own."""
        over = self.rest.parentWidget()
        while over is not None:
            if isinstance(over, QTabWidget):
                over.setCurrentWidget(self.rest)
            over = over.parentWidget()

    def ask_for_foot(self) -> None:
        """Open the form in which the foot of the part in hand is typed."""
        placed = self.session.desk.scene.placed.get(self.session.hand)
        if placed is not None and placed.foot is not None:
            from mastlayout.ui.hand.foot import FootDialog  # noqa: PLC0415 - a dialog opens later

            self.foot_form = FootDialog(self.session, placed.fitting, placed.foot, self.window())
            self.foot_form.open()

    def _place_further(self) -> None:
        """Put the further datums beside the readings where there is room, else below among the rest."""
        wanted = self.readings.sizeHint().width() + self.further.sizeHint().width() + 3 * MARGIN + 2 * GAP
        layout = self._beside if wanted <= self.width() else self._below
        if layout.indexOf(self.further) >= 0:
            return
        (self._below if layout is self._beside else self._beside).removeWidget(self.further)
        if layout is self._beside:
            self._beside.addWidget(self.further)
        else:
            self._below.insertWidget(0, self.further, 0, Qt.AlignmentFlag.AlignLeft)
        self._order_tabs()

    def _order_tabs(self) -> None:
        stops = [*self.readings.fields.values(), *self.further.fields.values(), *self.grid.stops]
        for before, after in itertools.pairwise(stops):
            QWidget.setTabOrder(before, after)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place_further()
        self._name_foot()
        self._hide_sliver()

    def _hide_sliver(self) -> None:
        """Hide the rest where there is less than one row of it to read; in a tab it always shows."""
        below = self.full.isAncestorOf(self.rest)
        if below:
            self.rest.setVisible(self.height() >= self.minimumSizeHint().height() + ROW)
        self._elsewhere.setHidden(below or has_height(self.session))

    def restyle(self) -> None:
        super().restyle()
        self.setStyleSheet(self.styleSheet() + sheet(self.theme.colours))
        # In a tab of their own they are no children of this panel.
        self.rest.setStyleSheet(sheet(self.theme.colours))


def _said_below(words: str) -> QLabel:
    label = QLabel(words)
    label.setFont(font(BODY))
    label.setProperty("kind", "label")
    label.setWordWrap(True)
    label.setContentsMargins(2 * MARGIN, UNIT, MARGIN, UNIT)
    return label


def _empty() -> QWidget:
    """Say what to do while nothing is in hand."""
    box = QWidget()
    column = QVBoxLayout(box)
    column.setContentsMargins(2 * MARGIN, MARGIN, MARGIN, MARGIN)
    title, words = QLabel(_("Nothing in hand")), QLabel()
    title.setFont(font(NAME, bold=True))
    words.setFont(font(BODY))
    words.setText(
        _("Click a thing on the mast or a row of the list, and its readings stand here to be typed. "
          "“Place fitting” puts a new one at the height in hand.")
    )  # fmt: skip
    words.setProperty("kind", "label")
    words.setWordWrap(True)
    column.addWidget(title)
    column.addWidget(words)
    column.addStretch(1)
    return box

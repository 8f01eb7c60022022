"""The counts of all states, each a button that shows or hides its rows."""

from collections.abc import Mapping

from PySide6.QtCore import QPointF, QSize, Qt, Signal
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from mastlayout.ui.look import LABEL, UNIT, Colours, font
from mastlayout.ui.marks import STATES, paint_mark, word
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_MARK_PX, _SHARPER = 14, 2
_LEAST_PX = 270


class StateFilters(QWidget):
    """One button for each state. ``changed`` tells that other states are wanted."""

    changed = Signal()

    def __init__(self, theme: Theme, wanted: frozenset[str]) -> None:
        super().__init__()
        self._theme, self._counts, self._brief = theme, dict.fromkeys(STATES, 0), False
        self._painted_in: Colours | None = None
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(UNIT)
        self.buttons = {state: self._button(row, state, on=state in wanted) for state in STATES}
        self.restyle()

    def _button(self, row: QHBoxLayout, state: str, *, on: bool) -> QPushButton:
        button = QPushButton()
        button.setCheckable(True)
        button.setChecked(on)
        button.setFont(font(LABEL))
        button.setIconSize(QSize(_MARK_PX, _MARK_PX))
        button.setToolTip(_("Show or hide: {state}").format(state=word(state).lower()))
        button.toggled.connect(self.changed)
        row.addWidget(button)
        return button

    @property
    def wanted(self) -> frozenset[str]:
        """The states whose rows are shown."""
        return frozenset(state for state, button in self.buttons.items() if button.isChecked())

    def count(self, counts: Mapping[str, int]) -> None:
        """Show how many rows each state has."""
        self._counts = dict(counts)
        self._say()

    def be_brief(self, *, brief: bool) -> None:
        """Leave the words out where there is no room: mark and number stay."""
        if brief != self._brief:
            self._brief = brief
            self._say()

    def minimumSizeHint(self) -> QSize:
        # They leave their words out where it is narrow, so they never keep the panel wide.
        return QSize(_LEAST_PX, super().minimumSizeHint().height())

    def _say(self) -> None:
        for state, button in self.buttons.items():
            whole = f"{self._counts[state]} {word(state).lower()}"
            button.setText(str(self._counts[state]) if self._brief else whole)
            button.setAccessibleName(whole)

    def restyle(self) -> None:
        """Paint the marks in the colours in force."""
        if self._painted_in is self._theme.colours:
            return
        self._painted_in = self._theme.colours
        for state, button in self.buttons.items():
            button.setIcon(_icon(state, self._theme.colours))


def _icon(state: str, colours: Colours) -> QIcon:
    picture = QPixmap(_MARK_PX * _SHARPER, _MARK_PX * _SHARPER)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    middle = _MARK_PX * _SHARPER / 2
    paint_mark(painter, state, QPointF(middle, middle), _MARK_PX * _SHARPER, colours)
    painter.end()
    picture.setDevicePixelRatio(_SHARPER)
    return QIcon(picture)

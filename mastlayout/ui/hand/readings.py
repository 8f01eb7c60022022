"""The height in hand: the two readings with their sum, and the further datums; every one a field."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QSizePolicy, QWidget

from mastlayout.ui.hand.field import Field
from mastlayout.ui.look import BODY, GAP, HEIGHT, HEIGHT_INCHES, LABEL, NAME, UNIT, VALUE, font
from mastlayout.ui.moving.nudge import nudge
from mastlayout.ui.session import Session
from mastlayout.units import Units
from mastlayout.words import _

if TYPE_CHECKING:
    from mastlayout.ui.hand.datums import Datum

_READING_PX, _FURTHER_PX = 132, 78


class HeightField(Field):
    """A height of what is in hand: up and down move it, as in the views, unless something is half typed."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        moves = event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down) and not self.isModified()
        if moves and nudge(self.session, event):
            self.selectAll()
        else:
            super().keyPressEvent(event)


class Readings(QWidget):
    """From the masthead + from the heel = the mast's length."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._set_in: Units | None = None
        grid = _grid(self)
        self.fields = {
            "masthead": HeightField(session, HEIGHT, bold=True),
            "heel": HeightField(session, HEIGHT),
        }
        self._plus, self._total = QLabel("+"), QLabel()
        self._plus.setFont(font(NAME))
        self._total.setFont(font(VALUE))
        self._labels = _add(grid, self.fields, columns=(0, 2), tall_px=HEIGHT + 12)
        grid.addWidget(self._plus, 1, 1)
        grid.addWidget(self._total, 1, 3)
        for field, kind in zip(self.fields.values(), ("reading masthead", "reading"), strict=True):
            field.setProperty("kind", kind)

    def refresh(self) -> None:
        """Show the height of what is in hand."""
        from mastlayout.ui.hand.datums import tapes  # noqa: PLC0415 - at the start nothing is in hand
        from mastlayout.ui.hand.height import total_text  # noqa: PLC0415 - as above

        if self._set_in != self.session.units:
            self._set_in = self.session.units
            size = HEIGHT if self.session.units == "metric" else HEIGHT_INCHES
            for field, bold in zip(self.fields.values(), (True, False), strict=True):
                field.setFont(font(size, bold=bold))
            self._total.setFont(font(VALUE if self.session.units == "metric" else BODY))
        _show(self.session, self.fields, self._labels, tapes(self.session.desk.scene), _READING_PX)
        total = total_text(self.session)
        self._total.setText(f"= {total}")
        self._total.setAccessibleName(_("Mast length {total}").format(total=total))


class Further(QWidget):
    """The same height above the step or deck, the waterline and the gooseneck."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._set_in: Units | None = None
        grid = _grid(self)
        self.fields = {key: HeightField(session, VALUE) for key in ("deck", "water", "gooseneck")}
        self._labels = _add(grid, self.fields, columns=(0, 1, 2), tall_px=HEIGHT + 12)

    def refresh(self) -> None:
        """Show the height of what is in hand."""
        from mastlayout.ui.hand.datums import further  # noqa: PLC0415 - as above

        datums = further(self.session.desk.scene)
        if self._set_in != self.session.units:
            self._set_in = self.session.units
            for field in self.fields.values():
                field.setFont(font(VALUE if self.session.units == "metric" else BODY))
        _show(self.session, self.fields, self._labels, datums, _FURTHER_PX)


def _grid(widget: QWidget) -> QGridLayout:
    widget.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
    grid = QGridLayout(widget)
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setHorizontalSpacing(GAP)
    grid.setVerticalSpacing(UNIT // 2)
    return grid


def _add(
    grid: QGridLayout, fields: dict[str, HeightField], *, columns: Sequence[int], tall_px: int
) -> dict[str, QLabel]:
    labels = {}
    for column, (key, field) in zip(columns, fields.items(), strict=True):
        label = labels[key] = QLabel()
        label.setFont(font(LABEL, bold=key == "masthead"))
        label.setProperty("kind", key)
        label.setBuddy(field)
        field.setFixedHeight(tall_px)
        field.setAlignment(Qt.AlignmentFlag.AlignRight)
        grid.addWidget(label, 0, column)
        grid.addWidget(field, 1, column)
    return labels


def _show(
    session: Session,
    fields: dict[str, HeightField],
    labels: dict[str, QLabel],
    datums: "Sequence[Datum]",
    least_px: int,
) -> None:
    from mastlayout.ui.hand.height import height_in  # noqa: PLC0415 - as above

    for datum in datums:
        fields[datum.key].show_property(height_in(session, datum))
        fields[datum.key].fit(least_px)
        labels[datum.key].setText(datum.label)
        labels[datum.key].setToolTip(datum.tip)

"""The further properties of what is in hand, in two columns of a form."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QDialog,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from mastlayout.frozen import dataclass
from mastlayout.ui.hand.choice import Choice, Opener
from mastlayout.ui.hand.field import Field
from mastlayout.ui.hand.property import Property
from mastlayout.ui.inwords import in_words
from mastlayout.ui.look import BODY, GAP, LABEL, MARGIN, UNIT, font
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.words import _


@dataclass(frozen=True, eq=False)
class _Row:
    label: QLabel
    value: QWidget

    def show(self, shown: Property) -> None:
        """Show a property in place: nothing moves while a fitting is dragged."""
        if isinstance(self.value, Field | Choice | Opener):
            self.value.show_property(shown)
        elif isinstance(self.value, QLabel):
            self.value.setText(shown.text or shown.empty)
            self.value.setToolTip(shown.tip or shown.text)
            self.value.setAccessibleName(f"{shown.name}: {self.value.text()}")
            kind = "" if shown.text else "unknown"
            if kind != self.value.property("kind"):
                self.value.setProperty("kind", kind)
                self.value.style().polish(self.value)


class _Words(QLabel):
    """Words that are shortened, word by word, where the column is narrow."""

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, room = QPainter(self), self.contentsRect()
        painter.setPen(self.palette().color(self.foregroundRole()))
        words = in_words(self.text(), QFontMetricsF(self.font()), room.width())
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)
        painter.end()


class PropertyGrid(QWidget):
    """The properties of what is in hand.

    ``foot_wanted`` asks for the form of the foot; ``built`` tells that other controls stand here.
    """

    foot_wanted = Signal()
    built = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._rows: dict[tuple[str, str, bool], _Row] = {}
        self.dialog: QDialog | None = None
        self._box = QWidget()
        self.foot = QPushButton(self)
        self.foot.hide()
        self.foot.setFont(font(LABEL))
        self.foot.clicked.connect(self.foot_wanted)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.addWidget(self._box)
        self._column.addStretch(1)

    @property
    def fields(self) -> dict[str, Field]:
        """The fields by the key of what they show."""
        return {key[1]: row.value for key, row in self._rows.items() if isinstance(row.value, Field)}

    def text_of(self, key: str) -> str:
        """Return what a row shows."""
        value = next(row.value for own, row in self._rows.items() if own[1] == key)
        if isinstance(value, Choice):
            return value.currentText()
        return value.text() if isinstance(value, Field | QLabel | Opener) else ""

    @property
    def stops(self) -> list[QWidget]:
        """Every control, in the order of the Tab key."""
        return [row.value for row in self._rows.values() if not isinstance(row.value, QLabel)]

    def control(self, key: str) -> QWidget:
        """Return the control, or the label, of a property."""
        return next(row.value for own, row in self._rows.items() if own[1] == key)

    def open_form(self, key: str) -> None:
        """Open the form or the table of a property as it stands now."""
        shown = next(one for one in self._properties() if one.key == key)
        if shown.opens is not None:
            self.dialog = shown.opens(self.window())  # not of this panel: its look would be inherited
            self.dialog.open()

    def refresh(self) -> None:
        """Show what is in hand: in place where the same properties stand there already."""
        shown = self._properties()
        keys = [(one.of, one.key, one.take is None) for one in shown]
        if keys != list(self._rows):
            self._build(shown)
        for row, one in zip(self._rows.values(), shown, strict=True):
            row.show(one)

    def _properties(self) -> list[Property]:
        if not self.session.hand:
            return []
        # What knows each kind of thing is wanted once something is in hand: no first picture waits for it.
        from mastlayout.ui.hand.properties import properties  # noqa: PLC0415

        return properties(self.session)

    def _build(self, shown: list[Property]) -> None:
        # Without a parent it would be a window of its own for a moment, and take the keyboard away.
        self.foot.setParent(self)
        self.foot.hide()
        self._box.hide()
        self._box.deleteLater()
        self._box = QWidget()
        self._column.insertWidget(self._column.count() - 1, self._box)
        grid = QGridLayout(self._box)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(UNIT // 2)
        grid.setColumnStretch(1, 5)
        grid.setColumnStretch(3, 4)
        grid.setColumnMinimumWidth(2, 0)
        self._box.show()
        self._rows = {}
        for i, one in enumerate(shown):  # row by row: what is asked for first shows in a low panel too
            self._rows[one.of, one.key, one.take is None] = self._add(grid, one, i // 2, 2 * (i % 2))
        self.built.emit()

    def _add(self, grid: QGridLayout, one: Property, at: int, column: int) -> _Row:
        label = QLabel(one.label)
        label.setFont(font(BODY))
        label.setProperty("kind", "label")
        label.setContentsMargins(MARGIN if column else 0, 0, 0, 0)
        top = Qt.AlignmentFlag.AlignTop
        value = self._control(label, one)
        said = Said()
        cell = QVBoxLayout()
        cell.setSpacing(0)
        cell.addLayout(self._beside_foot(value) if one.key == "foot" else _alone(value))
        cell.addWidget(said)
        if isinstance(value, Field | Choice):
            value.said.connect(said.say)
        label.setFixedHeight(max(label.sizeHint().height(), 22))
        grid.addWidget(label, at, column, top)
        grid.addLayout(cell, at, column + 1, top)
        return _Row(label, value)

    def _control(self, label: QLabel, one: Property) -> QWidget:
        """Make what a property is typed, chosen or opened with, or the label that shows it."""
        if one.opens is not None:
            opener = Opener()
            opener.clicked.connect(lambda _checked=False, key=one.key: self.open_form(key))
            opener.setFixedHeight(22)
            label.setBuddy(opener)
            return opener
        if one.choices:
            choice = Choice(self.session)
            choice.setFixedHeight(22)
            label.setBuddy(choice)
            return choice
        return self._field(label) if one.take else self._plain()

    def _field(self, label: QLabel) -> Field:
        field = Field(self.session)
        field.setProperty("kind", "quiet")
        field.setFixedHeight(22)
        label.setBuddy(field)
        return field

    def _plain(self) -> QLabel:
        value = _Words()
        value.setFont(font(BODY))
        value.setFixedHeight(22)
        value.setContentsMargins(UNIT + 1, 0, 0, 0)
        # Long words are shortened at the panel's edge, and whole in the tooltip, rather than widen it.
        value.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        return value

    def _beside_foot(self, value: QWidget) -> QHBoxLayout:
        row = _alone(value)
        row.addWidget(self.foot)
        self.foot.show()
        return row

    def name_foot(self, *, known: bool, there: bool) -> None:
        """Say on the button what it does; hide it where there is no foot."""
        self.foot.setText(_("Change …") if known else _("Confirm …"))
        self.foot.setAccessibleName(_("Change the foot …") if known else _("Confirm the foot …"))
        self.foot.setToolTip(_("Type size and holes as the part in hand has them"))
        self.foot.setVisible(there)


def _alone(value: QWidget) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(UNIT)
    row.addWidget(value, 1)
    return row

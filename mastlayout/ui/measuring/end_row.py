"""One end on the card: its number and name, what of the thing it is held to, or where the point is."""

from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QLineEdit, QWidget

from mastlayout.errors import MastLayoutError
from mastlayout.geometry.spot import InSpace, OnSkin, OnThing, Spot, parts_of
from mastlayout.ui.look import BODY, LABEL, UNIT, font
from mastlayout.ui.measuring.tape import TapeMeasure
from mastlayout.ui.measuring.typing import converted, fields_of, retyped
from mastlayout.ui.measuring.words import name_words, part_words
from mastlayout.words import _

_FIELD_PX, _AROUND_PX = 86, 160


class EndRow(QWidget):
    """An end of the tape; everything on it can be chosen or typed."""

    def __init__(self, tape: TapeMeasure, which: int) -> None:
        super().__init__()
        self.tape, self._which = tape, which
        number = str(which + 1)
        self.name, self.part = QLabel(), QComboBox()
        self.fields = tuple(QLineEdit() for _n in range(3))
        self.part.setAccessibleName(_("What end {n} is held to").format(n=number))
        self._offered: tuple[Spot, ...] = ()
        self._lay_out(number)
        self.part.activated.connect(self._choose)
        for field in self.fields:
            field.setFont(font(LABEL))
            field.returnPressed.connect(self._typed)
            field.editingFinished.connect(self._typed)

    def _lay_out(self, number: str) -> None:
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(UNIT)
        label = QLabel(number)
        label.setFont(font(BODY, bold=True))
        self.name.setFont(font(BODY))
        self.part.setFont(font(LABEL))
        self.part.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        row.addWidget(label)
        row.addWidget(self.name)
        row.addWidget(self.part)
        for field in self.fields:
            row.addWidget(field)
        row.addStretch(1)

    @property
    def spot(self) -> Spot | None:
        """What this end is held to; None before it is."""
        shown = self.tape.shown
        return shown[self._which] if self._which < len(shown) else None

    def look(self) -> None:
        """Show what this end is held to now."""
        spot, session = self.spot, self.tape.session
        if session is None or spot is None:
            self.name.setText(_("not held yet"))
            self._show_parts(())
            self._show_fields(None)
            return
        self.name.setText(name_words(session, spot))
        if isinstance(spot, OnThing):
            parts = parts_of(session.desk.scene, spot.id)
            self._show_parts(parts)
            self._show_fields(None)
        else:
            self._show_parts((converted(session, spot, OnSkin), converted(session, spot, InSpace)))
            self._show_fields(spot)

    def _show_parts(self, parts: tuple[Spot, ...]) -> None:
        session = self.tape.session
        self.part.setVisible(len(parts) > 1)
        self.name.setVisible(not parts or isinstance(parts[0], OnThing))
        if session is None or not parts:
            return
        words = [
            part_words(session, part) if isinstance(part, OnThing) else name_words(session, part)
            for part in parts
        ]
        if words != [self.part.itemText(i) for i in range(self.part.count())]:
            self.part.clear()
            self.part.addItems(words)
        self._offered = parts
        self.part.setCurrentIndex(next((i for i, part in enumerate(parts) if part == self.spot), 0))

    def _show_fields(self, spot: OnSkin | InSpace | None) -> None:
        session = self.tape.session
        known = fields_of(session, spot) if spot is not None and session is not None else ()
        for i, field in enumerate(self.fields):
            field.setVisible(i < len(known))
            if i < len(known):
                name, text, tip = known[i]
                field.setAccessibleName(_("End {n}, {name}").format(n=self._which + 1, name=name))
                field.setToolTip(tip)
                field.setFixedWidth(_AROUND_PX if len(known) == 2 and i == 1 else _FIELD_PX)
                if not field.isModified() or not field.hasFocus():
                    field.setText(text)

    def _choose(self, index: int) -> None:
        if index < len(self._offered) and self.spot is not None:
            self.tape.change(self._which, self._offered[index])

    def _typed(self) -> None:
        """Take what was typed; what cannot be is said, and the end stays where it was."""
        spot, session = self.spot, self.tape.session
        if session is None or not isinstance(spot, OnSkin | InSpace):
            return
        if not any(field.isModified() for field in self.fields):
            return
        texts = [field.text() for field in self.fields]
        for field in self.fields:
            field.setModified(False)
        try:
            self.tape.change(self._which, retyped(session, spot, texts))
        except MastLayoutError as error:
            self.look()
            self.tape.said.emit(str(error))

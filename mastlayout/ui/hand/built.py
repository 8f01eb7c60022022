"""Not as planned: where a fitting was found to be, by whom and when."""

import datetime as dt

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLineEdit, QWidget

from mastlayout.errors import EditError, MastLayoutError
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.model.around import Around
from mastlayout.model.edits import change, found_at
from mastlayout.model.fitting import AsBuilt
from mastlayout.ui.forms.asked import around_tip
from mastlayout.ui.framed import framed
from mastlayout.ui.look import GAP, MARGIN
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.ui.typed import around_words, retyped_length, typed_girth, written
from mastlayout.words import _

_LONGEST_NAME, _MOST_LETTERS, _DIGITS = 200, 2000, 1


class BuiltDialog(QDialog):
    """A small form, filled with where the fitting stands now; what is typed is checked from now on."""

    def __init__(self, session: Session, placed: Placed, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._placed = session, placed
        self.setWindowTitle(_("Not as planned: {name}").format(name=placed.fitting.name))
        built = placed.fitting.as_built
        units, skin = session.units, session.desk.scene.skin
        self._from_masthead_mm = height_mm(skin.length_mm, placed.z_mm)
        self._around = (built.girth if built else None) or placed.fitting.girth
        self.reading = self._field(
            _("Middle of the foot, from the masthead"), written(self._from_masthead_mm, units, _DIGITS)
        )
        self.girth = self._field(_("Round"), self._girth_now())
        self.girth.setToolTip(around_tip())
        self.by = self._field(_("Measured by"), built.by if built else "")
        self.day = self._field(_("Day"), dt.datetime.now().astimezone().date().isoformat())
        self.remark = self._field(_("Remark"), built.remark if built else "")
        self.by.setMaxLength(_LONGEST_NAME)
        self.remark.setMaxLength(_MOST_LETTERS)
        self.said = Said()
        self._lay_out()

    def _field(self, name: str, text: str) -> QLineEdit:
        field = QLineEdit(text)
        field.setAccessibleName(name)
        return field

    def _girth_now(self) -> str:
        return around_words(self._around, self._session.units) if self._around else ""

    def _lay_out(self) -> None:
        how = _("Measure where the middle of the foot really is. From now on that is checked, drawn and "
                "printed; the plan is kept beside it.")  # fmt: skip
        form = QFormLayout()
        form.setHorizontalSpacing(2 * MARGIN)
        form.setVerticalSpacing(GAP)
        for field in (self.reading, self.girth, self.by, self.day, self.remark):
            form.addRow(field.accessibleName(), field)
        parts = (how, form, self.said)
        buttons, self.button = framed(self, self.windowTitle(), parts, _("Record it"), self.record)
        if self._placed.fitting.as_built is not None:
            self.forget_button = buttons.addButton(
                _("Back to the plan"), QDialogButtonBox.ButtonRole.DestructiveRole
            )
            self.forget_button.clicked.connect(self.forget)
        self.setMinimumWidth(480)
        self.reading.setFocus()

    def record(self) -> None:
        """Record what was found as one undo step; a wrong entry says why and changes nothing."""
        session, fitting = self._session, self._placed.fitting
        try:
            layout = found_at(session.layout, fitting.id, self._found())
            session.preview(layout)
        except MastLayoutError as error:
            session.cancel()
            self.said.say(str(error))
            return
        session.edit(layout, _("Record where {name} was found").format(name=fitting.name))
        self.accept()

    def forget(self) -> None:
        """Take back what was recorded: the fitting stands where it is planned again."""
        session, fitting = self._session, self._placed.fitting
        layout = change(session.layout, fitting.id, as_built=None)
        session.edit(layout, _("Forget where {name} was found").format(name=fitting.name))
        self.accept()

    def _found(self) -> AsBuilt:
        by, day = self.by.text().strip(), self.day.text().strip()
        if not by:
            raise EditError(_("Measured by is empty: a name is needed."))
        try:
            day = dt.date.fromisoformat(day).isoformat()
        except ValueError:
            words = _("{typed} is no day: year, month and day are needed, such as 2026-03-31.")
            raise EditError(words.format(typed=day or _("Nothing"))) from None
        remark = self.remark.text().strip()
        return AsBuilt(from_masthead_mm=self._height(), girth=self._girth(), by=by, day=day, remark=remark)

    def _height(self) -> float:
        length = self._session.desk.scene.skin.length_mm
        typed, units = self.reading.text(), self._session.units
        value = round(retyped_length(typed, units, self._from_masthead_mm, _DIGITS), 2)
        if not 0.0 <= value <= length:
            most = written(length, units)
            words = _("{typed} is not on the mast: 0 to {most} from the masthead is allowed")
            raise EditError(words.format(typed=typed.strip(), most=most))
        return value

    def _girth(self) -> Around:
        text, units = self.girth.text().strip(), self._session.units
        if self._around is not None and text == self._girth_now():
            return self._around
        half = self._session.desk.scene.skin.ring(self._placed.z_mm).half_girth_mm
        return typed_girth(text, units, half)

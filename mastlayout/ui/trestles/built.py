"""Not as planned: where a fitting was found to be, by whom and when."""

import datetime as dt
import math

from pydantic import ValidationError
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from mastlayout.errors import EditError, MastLayoutError, UnitError
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.model.around import Around, read_around
from mastlayout.model.edits import found_at
from mastlayout.model.fitting import AsBuilt
from mastlayout.ui.look import GAP, MARGIN, NAME, font
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.ui.typed import typed_length, written
from mastlayout.words import _

_LONGEST_NAME, _MOST_LETTERS = 200, 2000


class BuiltDialog(QDialog):
    """A small form, filled with where the fitting stands now; what is typed is checked from now on."""

    def __init__(self, session: Session, placed: Placed, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._placed = session, placed
        self.setWindowTitle(_("Not as planned: {name}").format(name=placed.fitting.name))
        built = placed.fitting.as_built
        units, skin = session.units, session.desk.scene.skin
        self.reading = self._field(
            _("Middle of the foot, from the masthead"),
            written(height_mm(skin.length_mm, placed.z_mm), units, 1),
        )
        self.girth = self._field(_("Round"), self._girth_now())
        self.girth.setToolTip(
            _("“ahead”, “aft”, “bearing 285”, “44 to port of ahead”, “30 to starboard of aft”")
        )
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
        fitting = self._placed.fitting
        built = fitting.as_built
        around = (built.girth if built else None) or fitting.girth
        if around is None or around.origin == "bearing" or not around.offset:
            return str(around or "")
        side = "starboard" if around.offset > 0 else "port"  # as it is typed
        size = written(abs(around.offset), self._session.units, 1)
        return f"{size} to {side} of {around.origin}"

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(*(2 * MARGIN,) * 4)
        column.setSpacing(GAP)
        title = QLabel(self.windowTitle())
        title.setFont(font(NAME, bold=True))
        how = QLabel(
            _("Measure where the middle of the foot really is. From now on that is checked, drawn and "
              "printed; the plan is kept beside it.")
        )  # fmt: skip
        for label in (title, how):
            label.setWordWrap(True)
            column.addWidget(label)
        form = QFormLayout()
        form.setHorizontalSpacing(2 * MARGIN)
        form.setVerticalSpacing(GAP)
        for field in (self.reading, self.girth, self.by, self.day, self.remark):
            form.addRow(field.accessibleName(), field)
        column.addLayout(form)
        column.addWidget(self.said)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        self.button = buttons.addButton(_("Record it"), QDialogButtonBox.ButtonRole.AcceptRole)
        self.button.setDefault(True)
        buttons.accepted.connect(self.record)
        buttons.rejected.connect(self.reject)
        column.addWidget(buttons)
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
        value = round(typed_length(self.reading.text(), self._session.units), 2)
        if not 0.0 <= value <= length:
            most = written(length, self._session.units)
            words = _("{typed} is not on the mast: 0 to {most} from the masthead is allowed")
            raise EditError(words.format(typed=self.reading.text().strip(), most=most))
        return value

    def _girth(self) -> Around:
        text = self.girth.text().strip()
        if self._session.units == "inches":
            text = _inches(text)
        try:
            found = read_around(text)
        except (UnitError, ValidationError) as error:
            raise EditError(_girth_error(text, error)) from None
        skin = self._session.desk.scene.skin
        half = skin.ring(self._placed.z_mm).half_girth_mm
        if not isinstance(found, Around) or (found.origin != "bearing" and abs(found.offset) > half):
            words = _("{typed} is more than half way round: at most {half} to either side is allowed")
            raise EditError(words.format(typed=text, half=written(math.floor(half), self._session.units)))
        return found


def _inches(text: str) -> str:
    """Write out the unit of a bare length before "to", as inches are shown without one."""
    size, to, rest = text.partition(" to ")
    if not to:
        return text
    return f"{typed_length(size, 'inches'):g}{to}{rest}"


def _girth_error(text: str, error: Exception) -> str:
    if isinstance(error, UnitError):
        return str(error)
    return _("{typed} is no place round the mast that can be used").format(typed=text)

"""Not as planned: where a fitting or one of its holes was found to be, by whom and when, with a photo."""

import datetime as dt
import math

from PySide6.QtWidgets import QComboBox, QDialog, QDialogButtonBox, QFormLayout, QLabel, QLineEdit, QWidget

from mastlayout.errors import EditError, MastLayoutError
from mastlayout.fastening.drill import drill_mm
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.model.around import Around
from mastlayout.model.edits import change, forget_hole, found_at, hole_built
from mastlayout.model.fitting import AsBuilt, HoleBuilt
from mastlayout.model.layout import Layout
from mastlayout.ui.forms.asked import around_tip
from mastlayout.ui.framed import framed
from mastlayout.ui.hand.photo import PhotoField
from mastlayout.ui.hand.waysout import WaysOut, is_wrong
from mastlayout.ui.look import GAP, MARGIN
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.ui.typed import around_words, retyped_length, retyped_size, typed_girth, written, written_size
from mastlayout.words import _

_LONGEST_NAME, _MOST_LETTERS, _DIGITS = 200, 2000, 1
# A saw for cable entries and exits cuts no wider.
_WIDEST_MM = 200.0


class BuiltDialog(QDialog):
    """A small form, filled with where the fitting or a hole stands now; what is typed is checked from now on.

    ``hole`` is the number of the hole that is asked first, 0 for the middle of the foot.
    """

    def __init__(
        self, session: Session, placed: Placed, parent: QWidget | None = None, hole: int = 0
    ) -> None:
        super().__init__(parent)
        self._session, self.of = session, placed.id
        self._around: Around | None = None
        self._height_mm = 0.0
        self._diameter_mm: float | None = None
        self.setWindowTitle(_("Not as planned: {name}").format(name=placed.fitting.name))
        self.what = QComboBox()
        self.what.setAccessibleName(_("What was measured"))
        for words, number in self._things(placed):
            self.what.addItem(words, number)
        self.reading, self.girth = self._field(_("From the masthead")), self._field(_("Round"))
        self.diameter, self.by = self._field(_("Diameter")), self._field(_("Measured by"))
        self.day, self.remark = self._field(_("Day")), self._field(_("Remark"))
        self.girth.setToolTip(around_tip())
        self.by.setMaxLength(_LONGEST_NAME)
        self.remark.setMaxLength(_MOST_LETTERS)
        self.photo, self.said, self.ways = PhotoField(session), Said(), WaysOut(session)
        self._lay_out()
        self.what.setCurrentIndex(max(self.what.findData(hole), 0))
        self.fill()
        self.what.currentIndexChanged.connect(self.fill)
        self.ways.done.connect(self.accept)

    @property
    def placed(self) -> Placed:
        """The fitting as it stands."""
        return self._session.desk.scene.placed[self.of]

    @property
    def hole(self) -> int:
        """The number of the hole that is asked for, 0 for the middle of the foot."""
        return int(self.what.currentData() or 0)

    @staticmethod
    def _things(placed: Placed) -> list[tuple[str, int]]:
        things = [(_("Middle of the foot"), 0)]
        if placed.foot_known and placed.holes is not None:
            tag = placed.fitting.tag or placed.fitting.name
            numbers = [opening.number for opening in placed.holes.openings]
            things += [(_("Hole {tag}.{n}").format(tag=tag, n=number), number) for number in numbers]
        return things

    def _field(self, name: str) -> QLineEdit:
        field = QLineEdit()
        field.setAccessibleName(name)
        return field

    def _lay_out(self) -> None:
        self.how = QLabel(_("Measure where it really is. From now on that is checked, drawn and "
                            "printed; the plan is kept beside it."))  # fmt: skip
        self.how.setWordWrap(True)
        self._form = form = QFormLayout()
        form.setHorizontalSpacing(2 * MARGIN)
        form.setVerticalSpacing(GAP)
        for field in (self.what, self.reading, self.girth, self.diameter, self.by, self.day, self.remark):
            form.addRow(field.accessibleName(), field)
        form.addRow(_("Photo"), self.photo)
        parts = (self.how, form, self.said, self.ways)
        buttons, self.button = framed(self, self.windowTitle(), parts, _("Record it"), self.record)
        self.forget_button = buttons.addButton(
            _("Back to the plan"), QDialogButtonBox.ButtonRole.DestructiveRole
        )
        self.forget_button.setAutoDefault(False)
        self.forget_button.clicked.connect(self.forget)
        self.setMinimumWidth(520)
        self.reading.setFocus()

    # -- what is known now

    def _built(self) -> AsBuilt | HoleBuilt | None:
        fitting = self.placed.fitting
        if not self.hole:
            return fitting.as_built
        return next((built for built in fitting.holes_built if built.number == self.hole), None)

    def fill(self) -> None:
        """Fill the form with what is known of what is asked for."""
        units, placed, built = self._session.units, self.placed, self._built()
        girth, z, diameter = self._stands(placed)
        self._height_mm = height_mm(self._session.desk.scene.skin.length_mm, z)
        # Nobody types anew what stands right: then the very place is kept.
        known = built.girth if built else None
        self._around = known or (None if self.hole else placed.fitting.girth)
        self._around = self._around or self._place(girth, z)
        self._diameter_mm = diameter
        self.reading.setText(written(self._height_mm, units, _DIGITS))
        self.girth.setText(self._girth_now())
        self.diameter.setText("" if diameter is None else written_size(diameter, units))
        self._form.setRowVisible(self.diameter, bool(self.hole))
        self.by.setText(built.by if built else self.by.text())
        # A photo or a remark that is added later does not change the day it was measured.
        self.day.setText(built.day if built else dt.datetime.now().astimezone().date().isoformat())
        self.remark.setText(built.remark if built else "")
        self.photo.fill(built.photo if built else None)
        self.forget_button.setVisible(built is not None)
        self.said.say("")
        self.ways.show_hole(self.of, self.hole)

    def _stands(self, placed: Placed) -> tuple[float, float, float | None]:
        """Return girth, z and diameter of what is asked for, as it stands."""
        holes = placed.holes
        if self.hole and holes is not None:
            i = next(i for i, opening in enumerate(holes.openings) if opening.number == self.hole)
            return float(holes.girth_mm[0, i]), float(holes.z_mm[0, i]), drill_mm(holes.openings[i])
        return float(placed.places.around[0]), placed.z_mm, None

    def _place(self, girth: float, z: float) -> Around:
        """Return a girth as it is typed, from the nearer centreline, to the hundredth."""
        half = self._session.desk.scene.skin.ring(z).half_girth_mm
        if abs(girth) < half / 2:
            return Around(origin="aft", offset=round(girth, 2))
        return Around(origin="ahead", offset=round(math.copysign(height_mm(half, abs(girth)), girth), 2))

    def _girth_now(self) -> str:
        return around_words(self._around, self._session.units) if self._around else ""

    # -- what is recorded

    def record(self) -> None:
        """Record what was found as one undo step; a wrong entry says why and changes nothing."""
        session = self._session
        try:
            layout = self._recorded()
            session.preview(layout)
        except MastLayoutError as error:
            session.cancel()
            self.said.say(str(error))
            return
        session.edit(
            layout, self._step(_("Record where {name} was found"), _("Record hole {tag} as drilled"))
        )
        if self.hole and is_wrong(session, self.of, self.hole):
            self.fill()
        else:
            self.accept()

    def _recorded(self) -> Layout:
        layout, found = self._session.layout, self._found()
        if isinstance(found, HoleBuilt):
            return hole_built(layout, self.of, found)
        return found_at(layout, self.of, found)

    def forget(self) -> None:
        """Take back what was recorded: it stands where it is planned again."""
        session = self._session
        if self.hole:
            layout = forget_hole(session.layout, self.of, self.hole)
        else:
            layout = change(session.layout, self.of, as_built=None)
        session.edit(
            layout, self._step(_("Forget where {name} was found"), _("Forget hole {tag} as drilled"))
        )
        self.accept()

    def _step(self, of_foot: str, of_hole: str) -> str:
        tag = self.placed.fitting.tag or self.placed.fitting.name
        if self.hole:
            return of_hole.format(tag=f"{tag}.{self.hole}")
        return of_foot.format(name=self.placed.fitting.name)

    def _found(self) -> AsBuilt | HoleBuilt:
        by, day = self.by.text().strip(), self.day.text().strip()
        if not by:
            raise EditError(_("Measured by is empty: a name is needed."))
        try:
            day = dt.date.fromisoformat(day).isoformat()
        except ValueError:
            words = _("{typed} is no day: year, month and day are needed, such as 2026-03-31.")
            raise EditError(words.format(typed=day or _("Nothing"))) from None
        remark, photo = self.remark.text().strip(), self.photo.typed()
        height, girth = self._height(), self._girth()
        if not self.hole:
            return AsBuilt(from_masthead_mm=height, girth=girth, by=by, day=day, remark=remark, photo=photo)
        return HoleBuilt(
            number=self.hole, from_masthead_mm=height, girth=girth, diameter_mm=self._diameter(),
            by=by, day=day, remark=remark, photo=photo,
        )  # fmt: skip

    def _height(self) -> float:
        length = self._session.desk.scene.skin.length_mm
        typed, units = self.reading.text(), self._session.units
        value = round(retyped_length(typed, units, self._height_mm, _DIGITS), 2)
        if not 0.0 <= value <= length:
            most = written(length, units)
            words = _("{typed} is not on the mast: 0 to {most} from the masthead is allowed")
            raise EditError(words.format(typed=typed.strip(), most=most))
        return value

    def _girth(self) -> Around:
        text, units = self.girth.text().strip(), self._session.units
        if self._around is not None and text == self._girth_now():
            return self._around
        half = self._session.desk.scene.skin.ring(self.placed.z_mm).half_girth_mm
        return typed_girth(text, units, half)

    def _diameter(self) -> float | None:
        """Return how wide a hole was drilled, None where that is as planned."""
        text, before = self.diameter.text().strip(), self._diameter_mm
        built = self._built()
        if not text or (before is not None and text == written_size(before, self._session.units)):
            return built.diameter_mm if isinstance(built, HoleBuilt) and text else None
        value = round(retyped_size(text, self._session.units, before), 2)
        if not 0.0 < value <= _WIDEST_MM:
            words = _("{typed} is no diameter of a hole: more than 0 and at most {most} is allowed")
            raise EditError(words.format(typed=text, most=written_size(_WIDEST_MM, self._session.units)))
        return value

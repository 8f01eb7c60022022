"""Making the properties of one thing: its words and its edits in the session's units."""

from typing import Any

from mastlayout.errors import EditError
from mastlayout.frozen import dataclass
from mastlayout.model.edits import change, item_of
from mastlayout.model.fitting import Fitting
from mastlayout.model.layout import Layout
from mastlayout.model.measure import Measure, instructions
from mastlayout.model.value import MOST_MM
from mastlayout.ui.hand.property import Property, Take
from mastlayout.ui.session import Session
from mastlayout.ui.typed import Retyped, retyped_length, retyped_size, written, written_size
from mastlayout.units import read_angle
from mastlayout.words import _

_MOST_WORDS = 2000


@dataclass(frozen=True, eq=False)
class Making:
    """The thing ``of``, called ``name``, in a session."""

    session: Session
    of: str
    name: str

    @property
    def move(self) -> str:
        """The undo step of another place."""
        return _("Move {name}").format(name=self.name)

    @property
    def change(self) -> str:
        """The undo step of any other edit."""
        return _("Change {name}").format(name=self.name)

    @property
    def fitting(self) -> Fitting:
        """The thing as the layout has it now."""
        item: Fitting = item_of(self.session.layout, self.of)[1]
        return item

    def written(self, length_mm: float, digits: int = 0) -> str:
        """Write a length, mm, in the session's units."""
        return written(length_mm, self.session.units, digits)

    def tip(self, measure: Measure) -> str:
        """Return what to measure where a value is not known."""
        return instructions()[measure.key].how

    def read(self, key: str, label: str, text: str) -> Property:
        """Make a property that is only read."""
        return Property(self.of, key, label, label, text)

    def unknown(self, key: str, label: str, measure: Measure) -> Property:
        """Make a property that is only read, and that nobody measured."""
        return Property(self.of, key, label, label, "", self.tip(measure))

    def typed(self, key: str, label: str, text: str, take: Take, step: str, tip: str = "") -> Property:
        """Make a property that can be typed."""
        return Property(self.of, key, label, label, text, tip, step, take=take)

    def words(self, key: str, label: str, text: str) -> Property:
        """Make a field for free words."""

        def take(typed: str) -> Layout:
            if len(typed) > _MOST_WORDS:
                words = _("A note of {count} letters is too long: {most} are allowed")
                raise EditError(words.format(count=len(typed), most=_MOST_WORDS))
            return change(self.session.layout, self.of, **{key: typed.strip()})

        tip = _("What else is to be known of it")
        return Property(self.of, key, label, label, text, tip, self.change, "", take)

    def length(self, key: str, label: str, value_mm: float | None, step: str = "", **may: Any) -> Property:
        """Make a field for a length, mm: 0 or more, or with ``above_0`` more than 0.

        With ``measure`` it may be emptied: not known.
        """
        text = "" if value_mm is None else self.written(value_mm, 1)
        return self._measured(key, label, text, value_mm, retyped_length, step, **may)

    def size(self, key: str, label: str, value_mm: float | None, step: str = "", **may: Any) -> Property:
        """Make a field for a size, mm, as for a length; ``units.write_size`` says what a size is."""
        text = "" if value_mm is None else written_size(value_mm, self.session.units)
        return self._measured(key, label, text, value_mm, retyped_size, step, **may)

    def _measured(
        self, key: str, label: str, text: str, value_mm: float | None, read: Retyped, step: str, **may: Any
    ) -> Property:
        measure: Measure | None = may.get("measure")

        def take(typed: str) -> Layout:
            units = self.session.units
            length = None if measure and not typed.strip() else read(typed, units, value_mm, 1)
            if length is not None:
                self._refuse_size(typed.strip(), length, above_0=bool(may.get("above_0")))
            return change(self.session.layout, self.of, **{key: length})

        tip = self.tip(measure) if measure else ""
        return self.typed(key, label, text, take, step or self.change, tip)

    def _refuse_size(self, typed: str, length_mm: float, *, above_0: bool) -> None:
        """Raise EditError where a length is below nothing, or longer than any tape of a yacht."""
        if length_mm < 0.0 or (above_0 and not length_mm):
            words = _("{typed} is too little: 0 or more is allowed")
            if above_0:
                words = _("{typed} is too little: more than 0 is allowed")
            raise EditError(words.format(typed=typed))
        if length_mm > MOST_MM:
            words = _("{typed} is too long: at most {most} is allowed")
            raise EditError(words.format(typed=typed, most=self.written(MOST_MM)))

    def angle(
        self, key: str, label: str, value_deg: float | None, low: float, high: float, step: str = "",
        measure: Measure | None = None,
    ) -> Property:  # fmt: skip
        """Make a field for an angle, degrees; with ``measure`` it may be emptied: not known."""

        def take(text: str) -> Layout:
            angle = None if measure and not text.strip() else read_angle(text)
            if angle is not None and not low <= angle <= high:
                words = _("{typed} is out of reach: {low:g} to {high:g} degrees is allowed")
                raise EditError(words.format(typed=text.strip(), low=low, high=high).replace("-", "\u2212"))
            return change(self.session.layout, self.of, **{key: angle})

        text = "" if value_deg is None else f"{value_deg:g}°".replace("-", "\u2212")
        return self.typed(key, label, text, take, step or self.change, self.tip(measure) if measure else "")

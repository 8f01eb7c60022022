"""One thing that is asked for: its words, how it is written, and how what is typed is read."""

from collections.abc import Mapping
from dataclasses import field
from typing import Any, Literal

from pydantic import ValidationError

from mastlayout.errors import EditError
from mastlayout.frozen import dataclass
from mastlayout.ui.typed import around_words, retyped_size, typed_around, typed_length, written, written_size
from mastlayout.units import Units, read_angle, read_mass
from mastlayout.words import _

Sort = Literal["length", "size", "angle", "mass", "around", "words", "count", "number", "truth", "choice"]
# A choice's value as the layout holds it, and its words.
Choices = tuple[tuple[str, str], ...]
_MOST_WORDS = 2000
# What the model takes at most, whatever is asked; an angle is at most a turn.
_FARTHEST: dict[Sort, float] = {
    "length": 200_000.0,
    "size": 200_000.0,
    "angle": 360.0,
    "mass": 1_000_000.0,
    "count": 10_000.0,
    "number": 1_000_000.0,
}
_SIZES: tuple[Sort, ...] = ("length", "size", "angle", "mass", "count", "number")


@dataclass(frozen=True)
class Asked:
    """A value by its key. Lengths and sizes (``units.write_size``) are mm, angles degrees, masses kg.

    ``low`` and ``high`` bound a number, ``above_low`` leaves the low bound itself out; ``may_lack``
    lets it be empty: not known, or what ``empty`` says instead. ``choices`` are all there are to choose
    from. In a table, what is left empty may follow from the choice under the key ``follows``: then
    ``followed`` holds, by that choice, the words that stand in its place.
    """

    key: str
    label: str
    sort: Sort = "length"
    low: float | None = 0.0
    high: float | None = None
    above_low: bool = False
    may_lack: bool = True
    choices: Choices = ()
    tip: str = ""
    empty: str = field(default_factory=lambda: _("not known"))
    follows: str = ""
    followed: Mapping[str, str] = field(default_factory=dict, compare=False)

    def write(self, value: Any, units: Units) -> str:
        """Write a value as it is typed; "" for None."""
        if value is None:
            return ""
        match self.sort:
            case "length":
                text = written(value, units, 2)
            case "size":
                text = written_size(value, units, 2)
            case "angle":
                text = f"{value:g}°".replace("-", "\u2212")
            case "mass":
                text = f"{value:g} kg"
            case "number":
                text = f"{value:g}"
            case "truth":
                text = "yes" if value else ""
            case "around":
                text = around_words(value, units)
            case _:
                text = str(value)
        return text

    def read(self, text: str, units: Units, before: Any = None) -> Any:
        """Return what was typed, None where it is not known; EditError or UnitError says what is allowed.

        Left as it was written it is the very value ``before``: in inches a text is as coarse as a tape.
        """
        text = text.strip()
        if before is not None and text == self.write(before, units):
            return before
        if self.sort == "truth":
            return text == "yes"
        if not text:
            if self.sort == "words":
                return ""
            if self.may_lack:
                return None
            raise EditError(_("{label} is missing: it must be known").format(label=self.label))
        if self.sort in _SIZES:
            return self._bounded(self._number(text, units, before), text, units)
        return text if self.sort != "around" else typed_around(text, units)

    def check_words(self, text: str) -> str:
        """Return words that fit into a layout; EditError where there are too many."""
        if len(text) > _MOST_WORDS:
            words = _("{label}: {count} letters are too many, {most} are allowed")
            raise EditError(words.format(label=self.label, count=len(text), most=_MOST_WORDS))
        return text

    def _number(self, text: str, units: Units, before: float | None) -> float:
        if self.sort == "size":
            return round(retyped_size(text, units, before, 2), 2)
        if self.sort == "length":
            return round(typed_length(text, units), 2)
        if self.sort == "angle":
            return round(read_angle(text), 2)
        if self.sort == "mass":
            return read_mass(text)
        return self._bare_number(text)

    def _bare_number(self, text: str) -> float:
        whole = self.sort == "count"
        try:
            return int(text) if whole else round(float(text.replace(",", ".")), 4)
        except ValueError:
            words = _("{label}: {typed} is no whole number") if whole else _("{label}: {typed} is no number")
            raise EditError(words.format(label=self.label, typed=text)) from None

    def _bounded(self, number: float, text: str, units: Units) -> float:
        most = _FARTHEST[self.sort]
        low, high = -most if self.low is None else self.low, most if self.high is None else self.high
        if low <= number <= high and not (self.above_low and number == low):
            return number
        words = _("{label}: {typed} cannot be, {low} to {high} is allowed")
        if self.above_low:
            words = _("{label}: {typed} cannot be, more than {low} up to {high} is allowed")
        bounds = {"low": self._bare(low, units), "high": self._bare(high, units)}
        raise EditError(words.format(label=self.label, typed=text, **bounds))

    def _bare(self, bound: float, units: Units) -> str:
        if self.sort == "size":
            return written_size(bound, units, 2)
        return written(bound, units, 2) if self.sort == "length" else f"{bound:g}".replace("-", "\u2212")


def sentence_of(error: Exception) -> str:
    """Return what is said of answers that fit no layout."""
    if not isinstance(error, ValidationError):
        return str(error)
    first = error.errors()[0]
    words = _("{field} cannot be so: {why}")
    return words.format(field=".".join(map(str, first["loc"])), why=first["msg"].lower())


def around_tip() -> str:
    """Return how a place round the skin is typed."""
    return _("“ahead”, “aft”, “bearing 285”, “44 to port of ahead”, “30 to starboard of aft”")

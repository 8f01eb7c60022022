"""One thing that is asked for: its words, how it is written, and how what is typed is read."""

from dataclasses import dataclass
from typing import Any, Literal

from pydantic import ValidationError

from mastlayout.errors import EditError, UnitError
from mastlayout.model.around import Around, read_around
from mastlayout.ui.hand.typed import typed_length, written
from mastlayout.units import Units, read_angle, read_mass
from mastlayout.words import _

Sort = Literal["length", "angle", "mass", "around", "words", "count", "truth", "choice"]
# A choice's value as the layout holds it, and its words.
Choices = tuple[tuple[str, str], ...]
_MOST_WORDS = 2000
_SIZES: tuple[Sort, ...] = ("length", "angle", "mass", "count")


@dataclass(frozen=True)
class Asked:
    """A value by its key. Lengths are mm, angles degrees, masses kg.

    ``low`` and ``high`` bound a number, ``above_low`` leaves the low bound itself out; ``may_lack``
    lets it be empty: not known. ``choices`` are all there are to choose from.
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

    def write(self, value: Any, units: Units) -> str:
        """Write a value as it is typed; "" for None."""
        if value is None:
            return ""
        match self.sort:
            case "length":
                return written(value, units, 2)
            case "angle":
                return f"{value:g}°".replace("-", "\u2212")
            case "mass":
                return f"{value:g} kg"
            case "truth":
                return "yes" if value else ""
        return str(value)

    def read(self, text: str, units: Units) -> Any:
        """Return what was typed, None where it is not known; EditError or UnitError says what is allowed."""
        text = text.strip()
        if self.sort == "truth":
            return text == "yes"
        if not text:
            if self.sort == "words":
                return ""
            if self.may_lack:
                return None
            raise EditError(_("{label} is missing: it must be known").format(label=self.label))
        if self.sort in _SIZES:
            return self._bounded(self._number(text, units), text, units)
        return text if self.sort != "around" else _around(text, units)

    def check_words(self, text: str) -> str:
        """Return words that fit into a layout; EditError where there are too many."""
        if len(text) > _MOST_WORDS:
            words = _("{label}: {count} letters are too many, {most} are allowed")
            raise EditError(words.format(label=self.label, count=len(text), most=_MOST_WORDS))
        return text

    def _number(self, text: str, units: Units) -> float:
        if self.sort == "length":
            return round(typed_length(text, units), 2)
        if self.sort == "angle":
            return round(read_angle(text), 2)
        if self.sort == "mass":
            return read_mass(text)
        try:
            return int(text)
        except ValueError:
            raise EditError(
                _("{label}: {typed} is no whole number").format(label=self.label, typed=text)
            ) from None

    def _bounded(self, number: float, text: str, units: Units) -> float:
        too_low = self.low is not None and (number < self.low or (self.above_low and number == self.low))
        if too_low or (self.high is not None and number > self.high):
            raise EditError(
                _("{label}: {typed} cannot be, {allowed} is allowed").format(
                    label=self.label, typed=text, allowed=self._allowed(units)
                )
            )
        return number

    def _allowed(self, units: Units) -> str:
        low, high = (self._bare(bound, units) for bound in (self.low, self.high))
        if self.high is None:
            return (
                _("more than {low}").format(low=low) if self.above_low else _("{low} or more").format(low=low)
            )
        if self.low is None:
            return _("at most {high}").format(high=high)
        return _("{low} to {high}").format(low=low, high=high)

    def _bare(self, bound: float | None, units: Units) -> str:
        if bound is None:
            return ""
        return written(bound, units, 2) if self.sort == "length" else f"{bound:g}".replace("-", "\u2212")


def _around(text: str, units: Units) -> Around:
    """Read a place round the skin: a phrase, or a girth from the middle of the track."""
    try:
        typed: object = round(typed_length(text, units), 2)
    except UnitError:
        typed = text
    try:
        around: Around = read_around(typed)
    except ValidationError:
        raise EditError(_("{typed} is farther round than any mast is").format(typed=text)) from None
    return around


def around_tip() -> str:
    """Return how a place round the skin is typed."""
    return _("“ahead”, “aft”, “bearing 285”, “44 to port of ahead”, “30 to starboard of aft”")

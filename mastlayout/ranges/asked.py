"""What is asked of a height: how high the other end stands, and how the yacht lies in the water.

These are questions, not measures of this yacht: each begins with an example that says where it
comes from, and is anybody's to change.
"""

from dataclasses import replace
from typing import Literal

from mastlayout.errors import NotAllowedError
from mastlayout.frozen import dataclass
from mastlayout.words import _

Key = Literal["eye_height_m", "antenna_height_m", "target_height_m", "heel_deg", "trim_deg"]
HEIGHTS: tuple[Key, ...] = ("eye_height_m", "antenna_height_m", "target_height_m")
ANGLES: tuple[Key, ...] = ("heel_deg", "trim_deg")


@dataclass(frozen=True)
class Question:
    """One thing that is asked: what it is, its least and most, the example and where that comes from."""

    name: str
    least: float
    most: float
    unit: str
    example: float
    why: str

    def checked(self, value: float) -> float:
        """Return the value; NotAllowedError where it is out of bounds."""
        if self.least <= value <= self.most:
            return value
        words = _("{name} {value:g} {unit} cannot be: {least:g} to {most:g} {unit} is allowed")
        said = {"name": self.name, "unit": self.unit, "least": self.least, "most": self.most}
        raise NotAllowedError(words.format(value=round(value, 3), **said).replace("-", "\u2212"))


QUESTIONS: dict[Key, Question] = {
    "eye_height_m": Question(
        _("Eye height"), 0.0, 100.0, "m", 2.5, _("standing in a yacht's cockpit: common practice, no source")
    ),
    "antenna_height_m": Question(
        _("Other antenna's height"), 0.0, 1000.0, "m", 15.0, _("a ship's antenna as MSC.192(79) takes it")
    ),
    "target_height_m": Question(
        _("Target height"), 0.0, 1000.0, "m", 4.0, _("the least height of a yacht's reflector, MSC.164(78)")
    ),
    "heel_deg": Question(_("Heel"), -60.0, 60.0, "°", 0.0, _("upright on her marks")),
    "trim_deg": Question(_("Trim, bow down"), -15.0, 15.0, "°", 0.0, _("upright on her marks")),
}


@dataclass(frozen=True)
class Asked:
    """The other ends' heights above the water, m, None where they are not known; heel and trim, degrees.

    Raises NotAllowedError for what cannot be.
    """

    eye_height_m: float | None = QUESTIONS["eye_height_m"].example
    antenna_height_m: float | None = QUESTIONS["antenna_height_m"].example
    target_height_m: float | None = QUESTIONS["target_height_m"].example
    heel_deg: float = QUESTIONS["heel_deg"].example
    trim_deg: float = QUESTIONS["trim_deg"].example

    def __post_init__(self) -> None:
        for key, question in QUESTIONS.items():
            value = self.value(key)
            if value is not None:
                question.checked(value)

    def value(self, key: Key) -> float | None:
        """Return what is asked under a key."""
        value: float | None = getattr(self, key)
        return value

    def but(self, key: Key, value: float | None) -> "Asked":
        """Return the same with one thing asked otherwise."""
        if key in ANGLES and value is None:
            raise ValueError(key)
        return replace(self, **{str(key): value})  # type: ignore[arg-type] # only a height may be None


EXAMPLE = Asked()

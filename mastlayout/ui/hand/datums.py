"""A height in every datum: what it reads there, and the height that a typed reading means."""

from collections.abc import Callable

from mastlayout.errors import EditError
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import above_deck_mm, above_water_mm, height_mm
from mastlayout.geometry.scene import Scene
from mastlayout.model.boat import Boat
from mastlayout.model.mast import Mast
from mastlayout.model.measure import Measure, instructions, measure_of
from mastlayout.ranges.heights import missing_for_water
from mastlayout.ui.typed import typed_length, written
from mastlayout.units import Units
from mastlayout.words import _

# Nobody types finer than this, and the heel itself must not be refused for a rounding.
_CLOSE_MM = 0.01


@dataclass(frozen=True, eq=False)
class Datum:
    """One datum. ``read`` turns z, mm from the heel, into its reading, mm: a straight line in z.

    ``lacks`` names the measure without which it reads nothing.
    """

    key: str
    label: str
    name: str
    length_mm: float
    read: Callable[[float], float]
    lacks: Measure | None = None

    def z_of(self, reading_mm: float) -> float:
        """Return the z, mm, of a reading."""
        at_heel, at_masthead = self.read(0.0), self.read(self.length_mm)
        return (reading_mm - at_heel) / (at_masthead - at_heel) * self.length_mm

    def typed_z(self, text: str, units: Units) -> float:
        """Return the z, mm, that was typed; EditError or UnitError says what is allowed instead."""
        reading = typed_length(text, units)
        z = self.z_of(reading)
        if -_CLOSE_MM <= z <= self.length_mm + _CLOSE_MM:
            return min(max(z, 0.0), self.length_mm)
        low, high = sorted((self.read(0.0), self.read(self.length_mm)))
        words = _("{typed} is below the heel: {low} to {high} is allowed")
        if z > 0.0:
            words = _("{typed} is above the masthead: {low} to {high} is allowed")
        numbers = {"typed": reading, "low": low, "high": high}
        raise EditError(words.format(**{key: written(mm, units) for key, mm in numbers.items()}))

    @property
    def tip(self) -> str:
        """What to measure where it is not known, else ""."""
        if self.lacks is None:
            return ""
        what = instructions()[self.lacks.key]
        return _("{title}: not known yet. {how}").format(title=what.title, how=what.how)


def tapes(scene: Scene) -> tuple[Datum, Datum]:
    """Return the two ends of the mast, between which every reading adds up to its length."""
    length = scene.skin.length_mm
    return (
        Datum("masthead", _("↓ masthead"), _("From the masthead"), length, lambda z: height_mm(length, z)),
        Datum("heel", _("↑ heel"), _("From the heel"), length, lambda z: z),
    )


def further(scene: Scene) -> tuple[Datum, ...]:
    """Return the datums besides the mast's own ends."""
    return _deck(scene), _water(scene), _gooseneck(scene)


def _deck(scene: Scene) -> Datum:
    length, deck = scene.skin.length_mm, scene.layout.boat.deck_above_heel_mm
    if deck is None and scene.layout.mast.step == "deck":
        deck = 0.0
    lacks = measure_of(Boat, "deck_above_heel_mm") if deck is None else None
    above = deck or 0.0
    name = _("Above the step or deck")
    return Datum("deck", _("↑ step, deck"), name, length, lambda z: above_deck_mm(z, above), lacks)


def _water(scene: Scene) -> Datum:
    boat, mast, length = scene.layout.boat, scene.layout.mast, scene.skin.length_mm
    rake, heel = mast.rake_deg or 0.0, boat.heel_above_water_mm or 0.0
    lacks = missing_for_water(scene)
    name = _("Above the waterline")
    return Datum("water", _("↑ waterline"), name, length, lambda z: above_water_mm(z, rake, heel), lacks)


def _gooseneck(scene: Scene) -> Datum:
    length, at = scene.skin.length_mm, scene.layout.mast.gooseneck_mm
    lacks = measure_of(Mast, "gooseneck_mm") if at is None else None
    # A mast cut at the gooseneck would have its heel there: that is the height above it.
    cut = length if at is None else at
    read = lambda z: height_mm(cut, height_mm(length, z))  # noqa: E731 - as the datums beside it
    return Datum("gooseneck", _("↑ gooseneck"), _("Above the gooseneck"), length, read, lacks)

"""A pole in space: where its inner end runs, what it sweeps while it is set, and where it lies stowed."""

from dataclasses import field
from functools import cached_property

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.pole.fan import Fans, fans
from mastlayout.geometry.rig import deck_point
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.solids import Solids, joined, tubes
from mastlayout.model.mast import Mast
from mastlayout.model.measure import Measure, measure_of
from mastlayout.model.sails import Pole


@dataclass(frozen=True)
class Swings:
    """How far a pole is carried, in degrees, where its own measures do not say."""

    tilt_deg: float
    squared_deg: float


@dataclass(frozen=True, eq=False)
class PoleInSpace:
    """A pole. ``run`` (2, 3) is the lowest and the highest place of its inner end, None where not known.

    ``stowed`` (2, 3) are its ends as it lies stowed, the upper or forward first. What is missing
    for either is named in ``unknown``.
    """

    item: Pole
    swings: Swings
    run: Array | None
    stowed: Array | None
    unknown: tuple[Measure, ...] = field(default=())

    @property
    def radius_mm(self) -> float:
        """Half its diameter; 0 where nobody measured it, and then it has no bodies."""
        return (self.item.diameter_mm or 0.0) / 2

    @property
    def tilt(self) -> tuple[float, float]:
        """How far its outer end is carried down and up, radians."""
        most = np.radians(_known(self.item.tilt_deg, self.swings.tilt_deg))
        return -float(most), float(most)

    @property
    def squared(self) -> float:
        """How far back from ahead it is carried to either side, radians."""
        return float(np.radians(_known(self.item.squared_deg, self.swings.squared_deg)))

    @cached_property
    def swept(self) -> Fans | None:
        """What it sweeps while it is set, from starboard through ahead to port."""
        if self.run is None or self.item.diameter_mm is None:
            return None
        return fans(self.run, self.item.length_mm, self.tilt, self.squared, self.radius_mm)

    @cached_property
    def lying(self) -> Solids:
        """The pole as it lies stowed; none where that is not known."""
        if self.stowed is None or self.item.diameter_mm is None:
            return joined([])
        return tubes(self.stowed[:1], self.stowed[1:], self.radius_mm)


def place_pole(skin: Skin, item: Pole, swings: Swings) -> PoleInSpace:
    """Hang a pole on the fore centreline and lay it where it is stowed."""
    run = None if item.ring_ahead_mm is None else _run(skin, item, item.ring_ahead_mm)
    lacking = [name for name in ("diameter_mm", "ring_ahead_mm", "stowed_on") if getattr(item, name) is None]
    lacking += [name for name in _NEEDED.get(item.stowed_on or "", ()) if getattr(item, name) is None]
    unknown = [measure_of(Pole, name) for name in lacking]
    if item.stowed_on == "deck" and skin.mast.rake_deg is None:
        unknown.append(measure_of(Mast, "rake_deg"))
    return PoleInSpace(item, swings, run, _stowed(skin, item, run), tuple(dict.fromkeys(unknown)))


_NEEDED = {
    "mast": ("stowed_top_mm", "stowed_ahead_mm"),
    "track": ("stowed_ahead_mm",),
    "deck": ("chock_fore", "chock_aft"),
}


def _known(own: float | None, otherwise: float) -> float:
    return otherwise if own is None else own


def _ahead(skin: Skin, z_mm: float, ahead_mm: float) -> Array:
    """Return the point (3,) so far ahead of the fore face at a height, on the centreline."""
    return np.array([float(skin.ring(float(np.clip(z_mm, 0.0, skin.length_mm))).x[-1]) + ahead_mm, 0.0, z_mm])


def _run(skin: Skin, item: Pole, ahead_mm: float) -> Array:
    heights = (height_mm(skin.length_mm, reading) for reading in (item.ring_from_mm, item.ring_to_mm))
    return np.stack([_ahead(skin, z, ahead_mm) for z in sorted(heights)])


def _stowed(skin: Skin, item: Pole, run: Array | None) -> Array | None:
    match item.stowed_on:
        case "mast" if item.stowed_top_mm is not None and item.stowed_ahead_mm is not None:
            top = height_mm(skin.length_mm, item.stowed_top_mm)
            return _down(skin, _ahead(skin, top, item.stowed_ahead_mm), item)
        case "track" if run is not None and item.stowed_ahead_mm is not None:
            return _down(skin, run[1], item)
        case "deck" if item.chock_fore and item.chock_aft and skin.mast.rake_deg is not None:
            rake = skin.mast.rake_deg
            return np.stack([deck_point(end, "port", rake) for end in (item.chock_fore, item.chock_aft)])
    return None


def _down(skin: Skin, upper: Array, item: Pole) -> Array:
    """Return both ends (2, 3) of a pole that hangs from its upper end, its lower one on the mast."""
    lower = _ahead(skin, float(upper[2]) - item.length_mm, item.stowed_ahead_mm or 0.0)
    ahead = min(abs(float(lower[0] - upper[0])), item.length_mm)
    lower[2] = upper[2] - np.sqrt(item.length_mm**2 - ahead**2)
    return np.stack([upper, lower])

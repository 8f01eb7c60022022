"""A headsail's cloth: where its luff is at each height, and how far its leech reaches from there.

Widths are square to the luff; the chord square to the mast at the height of a leech point is the
width over the cosine of the luff's angle to the mast. The leech is straight from clew to head, or
by the widths at its quarter points where those were measured: a hollow nobody measured is not credited.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from mastlayout.geometry.frames import Array, Mask, height_mm
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.tack.bend import Bend
from mastlayout.model.measure import Measure, measure_of
from mastlayout.model.sails import Reef, Sail

_NEEDED = ("lp_mm", "tack_mm", "clew_mm", "head_mm")
_WIDTHS = (("quarter_width_mm", 0.25), ("half_width_mm", 0.5), ("three_quarter_width_mm", 0.75))


@dataclass(frozen=True, eq=False)
class Cloth:
    """One state of a headsail: pins of its luff (2, 3), heights z in mm, widths (w,) at parts of the leech."""

    sail: Sail
    reef: Reef | None
    luff: Array
    tack_z_mm: float
    clew_z_mm: float
    head_z_mm: float
    parts: Array
    widths: Array
    rolled_mm: float
    sag_mm: float
    bend: Bend

    @property
    def lean(self) -> float:
        """The cosine of the luff's angle to the mast."""
        along = self.luff[0] - self.luff[1]
        return float(along[2] / np.linalg.norm(along))

    def at(self, z_mm: Array, *, sagging: bool) -> tuple[Array, Array, Mask]:
        """Return luff points (m, 2), chords (m,) and where there is cloth (m,) at heights (m,)."""
        part = (z_mm - self.luff[1, 2]) / (self.luff[0, 2] - self.luff[1, 2])
        point = self.luff[1, :2] + part[:, None] * (self.luff[0, :2] - self.luff[1, :2])
        point[:, 0] += self.bend.of_line(part, self.luff[0, 2]) - self.bend.at(z_mm)
        if sagging:
            point[:, 0] -= 4 * self.sag_mm * part * (1 - part)
        there = (z_mm >= min(self.tack_z_mm, self.clew_z_mm)) & (z_mm <= self.head_z_mm)
        return point, self._chord(z_mm), there

    def _chord(self, z_mm: Array) -> Array:
        leech = (z_mm - self.clew_z_mm) / (self.head_z_mm - self.clew_z_mm)
        above = np.interp(leech, self.parts, self.widths)
        below = self.widths[0] * (z_mm - self.tack_z_mm) / max(self.clew_z_mm - self.tack_z_mm, 1.0)
        width = np.where(leech >= 0, above, np.maximum(below, 0.0))
        return np.asarray(width / self.lean + self.rolled_mm / 2)


def missing(sail: Sail) -> tuple[Measure, ...]:
    """Return the measures without which nobody knows where its cloth is."""
    return tuple(measure_of(Sail, name) for name in _NEEDED if getattr(sail, name) is None)


def cloths(sail: Sail, stay: StayInSpace, length_mm: float, bend: Bend) -> Iterator[Cloth]:
    """Yield the full sail and each reef whose measures are known; the sail's own must all be there."""
    if stay.points is None:
        return
    for reef in (None, *sail.reefs):
        lp, clew, head = (_of(sail, reef, name) for name in ("lp_mm", "clew_mm", "head_mm"))
        if None in (lp, clew, head, sail.tack_mm):
            continue
        widths = {0.0: float(lp), 1.0: 0.0}
        if reef is None:
            widths |= {part: w for name, part in _WIDTHS if (w := getattr(sail, name)) is not None}
        parts = np.array(sorted(widths))
        yield Cloth(
            sail,
            reef,
            stay.points[[0, -1]],
            height_mm(length_mm, float(sail.tack_mm or 0.0)),
            height_mm(length_mm, float(clew)),
            height_mm(length_mm, float(head)),
            parts,
            np.array([widths[part] for part in parts]),
            (reef.rolled_mm or 0.0) if reef else 0.0,
            stay.item.sag_mm or 0.0,
            bend,
        )


def _of(sail: Sail, reef: Reef | None, name: str) -> float | None:
    own = getattr(reef, name) if reef else None
    return own if own is not None else getattr(sail, name)

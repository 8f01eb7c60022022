"""Slack wires: all that each sweeps between where it is at rest and as far as it hangs to leeward."""

from collections.abc import Mapping

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Index, Whole
from mastlayout.geometry.rig import StayInSpace
from mastlayout.limits import Limits
from mastlayout.model.rig import Stay

# A slack wire hangs to leeward and swings back past its line as she rolls; a sail pulls its stay aft too.
_ATHWART = ((0.0, 1.0, 0.0), (0.0, -1.0, 0.0))
_AFT = (-1.0, 0.0, 0.0)
_SET_ON = ("forestay", "inner", "luff")
_ON_MAST = ("diamond", "jumper")


@dataclass(frozen=True)
class Slackness:
    """How far a wire hangs off its line at the middle of a span, as a part of the span's length."""

    shroud: float
    forestay: float
    diamond: float

    @classmethod
    def of(cls, limits: Limits) -> "Slackness":
        """Return what a layout's limits say."""
        return cls(*(limits[key].value / 100.0 for key in ("slack.shroud", "tack.sag", "slack.diamond")))


@dataclass(frozen=True, eq=False)
class Bows:
    """n flat convex bodies: all between a chord (n, 2, 3) and its parabola, ``sag`` (n, 3) off at the middle.

    Each is grown by the wire's radius, ``round_mm`` (n,).
    """

    ends: Array
    sag: Array
    round_mm: Array

    def __len__(self) -> int:
        return len(self.round_mm)

    def __getitem__(self, index: Index) -> "Bows":
        return Bows(self.ends[index], self.sag[index], self.round_mm[index])

    @property
    def centre(self) -> Array:
        """A point (n, 3) within each."""
        return np.asarray(self.ends.mean(axis=1) + self.sag / 2)

    def core(self, direction: Array) -> Array:
        """Return the farthest points (n, 3) of chord and parabola in directions (n, 3)."""
        along = np.einsum("nk,nk->n", self.ends[:, 1] - self.ends[:, 0], direction)
        out = np.einsum("nk,nk->n", self.sag, direction)
        bowed = out > 1e-12 * np.abs(along)
        # Where the parabola runs square to the direction; past its ends, the end.
        part = np.where(bowed, 0.5 + along / np.where(bowed, 8 * out, 1.0), along > 0)
        return self.at(part.clip(0.0, 1.0))

    def support(self, direction: Array) -> Array:
        """Return how far (n,) the bodies reach from the origin in unit directions (n, 3) or one (3,)."""
        direction = np.broadcast_to(direction, (len(self), 3))
        return np.asarray(np.einsum("nk,nk->n", self.core(direction), direction) + self.round_mm)

    def at(self, part: Array) -> Array:
        """Return the points (n, 3) of the parabolas at parts (n,) of their chords."""
        chord = self.ends[:, 1] - self.ends[:, 0]
        return np.asarray(
            self.ends[:, 0] + part[:, None] * chord + (4 * part * (1 - part))[:, None] * self.sag
        )

    def polylines(self, points: int = 33) -> Array:
        """Return the wires as they hang farthest (n, points, 3), for drawing."""
        parts = np.linspace(0.0, 1.0, points)
        each = self[np.repeat(np.arange(len(self)), points)]
        return each.at(np.tile(parts, len(self))).reshape(len(self), points, 3)


@dataclass(frozen=True, eq=False)
class Slack:
    """What the slack wires of stays sweep; ``owner`` (k,) is the place of each bow's stay in ``ids``.

    ``thick_mm`` (k,) is how far each reaches from its chord.
    """

    ids: tuple[str, ...]
    solids: Bows
    owner: Whole
    thick_mm: Array

    def of(self, name: str) -> Bows:
        """Return what the slack wires of one stay sweep."""
        return self.solids[np.flatnonzero(self.owner == self.ids.index(name))]


def slack_of(stays: Mapping[str, StayInSpace], slackness: Slackness) -> Slack:
    """Return what every stay sweeps as it goes slack; one whose place is not known sweeps nothing."""
    ends, sag, radius, owner = [], [], [], []
    for i, stay in enumerate(stays.values()):
        if stay.points is None or stay.item.wire_mm is None:
            continue
        for way in ways(stay.item):
            for upper, lower in zip(stay.points[:-1], stay.points[1:], strict=True):
                ends.append((upper, lower))
                sag.append(sag_mm(stay.item, float(np.linalg.norm(upper - lower)), slackness) * np.array(way))
                radius.append(stay.item.wire_mm / 2)
                owner.append(i)
    bows = Bows(np.array(ends).reshape(-1, 2, 3), np.array(sag).reshape(-1, 3), np.array(radius))
    thick = bows.round_mm + np.linalg.norm(bows.sag, axis=1)
    return Slack(tuple(stays), bows, np.array(owner, dtype=int), thick)


def ways(item: Stay) -> tuple[tuple[float, float, float], ...]:
    """Return the directions in which a stay hangs slack."""
    return (*_ATHWART, _AFT) if item.role in _SET_ON else _ATHWART


def sag_mm(item: Stay, span_mm: float, slackness: Slackness) -> float:
    """Return how far a span of a stay hangs at its middle: as measured where somebody gave a stay's sag."""
    if item.sag_mm is not None:
        return item.sag_mm
    if item.role in _SET_ON:
        return slackness.forestay * span_mm
    return (slackness.diamond if item.role in _ON_MAST else slackness.shroud) * span_mm

"""Antennas against each other: how far apart, and which published rule that meets.

The rules differ, and were written for other vessels: each is listed with what it asks, none decides.
"""

import math
from collections.abc import Iterator
from functools import lru_cache
from itertools import combinations
from typing import Literal

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.model.fitting import MAST
from mastlayout.once import once
from mastlayout.words import _

Job = Literal["sends", "hears", "radar", "wind"]
_Span = tuple[float, float, float, float]
_SENDS = ("VHF", "AIS", "radio", "cellular")


@dataclass(frozen=True)
class Apart:
    """Two antennas: how far apart, mm: level by their middles; plumb by their ends, 0 where they overlap."""

    a: str
    b: str
    level_mm: float
    plumb_mm: float

    @property
    def direct_mm(self) -> float:
        """The straight way between them."""
        return float(np.hypot(self.level_mm, self.plumb_mm))


@dataclass(frozen=True)
class Ruled:
    """A published rule for two antennas: what it asks, mm, what there is, and whether that meets it."""

    name: str
    required_mm: float
    measured_mm: float
    source: str

    @property
    def met(self) -> bool:
        """Tell whether what there is meets it."""
        return self.measured_mm >= self.required_mm


def job(placed: Placed) -> Job | None:
    """Return what a fitting does that antennas care for; None for what is no antenna."""
    if placed.kind.group == "radar":
        return "radar"
    if placed.kind.group == "wind":
        # A vane without a cable hears nothing.
        return "wind" if placed.kind.cable_mm is not None else None
    radio = [sector.name for sector in placed.kind.sectors if sector.what == "radio"]
    if not radio:
        return None
    return "sends" if any(name in _SENDS for name in radio) else "hears"


def pairs(scene: Scene) -> Iterator[tuple[Apart, tuple[Ruled, ...]]]:
    """Yield each two of which one is an antenna that sends, and what the rules ask of them."""
    every = [(one, own) for one in masthead_first(scene) if (own := job(one)) and len(one.solids)]
    for (a, a_job), (b, b_job) in combinations(every, 2):
        if "sends" in (a_job, b_job):
            apart = between(a, b)
            other = b_job if a_job == "sends" else a_job
            yield apart, tuple(_ruled(apart, other))


def beside_mast(scene: Scene) -> Iterator[tuple[Apart, tuple[Ruled, ...]]]:
    """Yield each antenna that sends and stands beside the mast, and what the rules ask of the two.

    One whose middle is above the masthead stands over it: the rules mean what is beside.
    """
    ships, trade = _("IMO SN/Circ.227, 2.2.1, written for ships"), _("common practice, no source")
    for placed in masthead_first(scene):
        if job(placed) != "sends" or not len(placed.solids) or middle_z_mm(placed) >= scene.skin.length_mm:
            continue
        skin = scene.skin.ring(middle_z_mm(placed)).polygon()
        level = float(np.hypot(*(skin - _span(placed)[:2]).T).min())
        yield (
            Apart(placed.id, MAST, level, 0.0),
            (
                Ruled(_("from the mast, ships"), 2000.0, level, ships),
                Ruled(_("from a metal mast, yachts"), 600.0, level, trade),
            ),
        )


def between(a: Placed, b: Placed) -> Apart:
    """Return how far apart two fittings' antennas are: level by their middles, plumb by their ends."""
    return _apart(a.id, b.id, _span(a), _span(b))


@lru_cache(maxsize=4096)  # of all pairs a move changes those of one fitting
def _apart(a: str, b: str, a_span: _Span, b_span: _Span) -> Apart:
    (a_x, a_y, a_low, a_high), (b_x, b_y, b_low, b_high) = a_span, b_span
    return Apart(a, b, math.hypot(a_x - b_x, a_y - b_y), max(a_low - b_high, b_low - a_high, 0.0))


def reaches_of(placed: Placed) -> dict[str, float]:
    """Return where what sends or hears of a fitting stands: its middle, x and y, lowest and highest, mm."""
    x, y, low, high = _span(placed)
    return {"x_mm": x, "y_mm": y, "low_mm": low, "high_mm": high}


@once
def _span(placed: Placed) -> _Span:
    """Return the middle of what sends or hears, x and y, and its lowest and highest height."""
    parts = [i for i, part in enumerate(placed.body.parts) if part == "antenna"]
    solids = placed.solids[np.array(parts or range(len(placed.solids)))]
    low, high = solids.span_z()
    x, y = solids.centre[:, :2].mean(axis=0).tolist()
    return x, y, float(low.min()), float(high.max())


def middle_z_mm(placed: Placed) -> float:
    """Return the height from the heel, mm, of the middle of what sends or hears."""
    _x, _y, low, high = _span(placed)
    return (low + high) / 2.0


def _ruled(apart: Apart, other: Job) -> Iterator[Ruled]:
    ships = _("IMO SN/Circ.227, 2.2.1, written for ships")
    trade = _("common practice, no source")
    if other == "radar":
        yield Ruled(_("from a radar, ships"), 3000.0, apart.direct_mm, ships)
        return
    if other == "wind":
        yield Ruled(_("whip to wind sensor"), 500.0, apart.direct_mm, trade)
        return
    if other == "hears":
        guide = _("AIS installation guide after the IMO guideline")
        yield Ruled(_("satellite antenna from one that sends"), 3000.0, apart.direct_mm, guide)
        yield Ruled(_("satellite antenna from a whip"), 1000.0, apart.direct_mm, trade)
        return
    if apart.plumb_mm > 0.0:
        yield Ruled(_("one above the other, ships"), 2000.0, apart.plumb_mm, ships)
        yield Ruled(_("one above the other, yachts"), 600.0, apart.plumb_mm, trade)
    else:
        yield Ruled(_("side by side, ships"), 10000.0, apart.level_mm, ships)
    yield Ruled(_("whip to whip, yachts"), 1000.0, apart.direct_mm, trade)

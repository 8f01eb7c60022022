"""Fasteners: full threads in the wall, a rivet's grip, what no table has, what a through bolt meets.

Threads are counted for what is there already too, where a reading of the wall speaks for it: a
screw that holds by too few of them is found before it lets go. Everything else is asked of what
will be drilled. In a mast that is not of aluminium its builder chooses: see ``metals``.
"""

import numpy as np

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.hole_inside import past_drill, walls_at
from mastlayout.checks.holes import hole_id, will_be_drilled
from mastlayout.checks.rule import TOLERANCE_MM, Batch, Depends, Margins, Rule, no_margins
from mastlayout.fastening.curve import packed_mm
from mastlayout.fastening.drill import drill_mm
from mastlayout.fastening.grip import grips, outside_grips_mm
from mastlayout.fastening.tables import pitch_mm
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.holes import Opening, openings, turned_offsets
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.seat import Seats
from mastlayout.geometry.shared import Shared, shared_by
from mastlayout.geometry.skin import Skin
from mastlayout.limits import Limits
from mastlayout.model.kind import Foot
from mastlayout.words import _

# A through bolt is followed this far: wider than any mast that is refitted by hand.
_ACROSS_MM = 1000.0


@dataclass(frozen=True, eq=False)
class ThreadMargins(Margins):
    """Full threads of each hole; fewer than ``least`` is a fault. ``words`` (s) name screw and wall."""

    least: float = 0.0
    words: tuple[str, ...] = ()

    def faults(self, fault_below: float) -> Mask:  # noqa: ARG002 - an owner may set its own least
        """Return where (n, s) there are fewer threads than the least."""
        return np.asarray(self.short & (self.measured < self.least - TOLERANCE_MM) & (not self.typical))


def threads(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Count the full threads that wall and backing bar give each tapped hole: thickness over pitch."""
    asked = [(o, pitch) for o in _openings(scene, batch) if (pitch := _pitch(o)) is not None]
    if not asked:
        return no_margins(len(batch.places))
    wanted, alike = limits["fastener.threads"].value, shared_by(batch.places.along_mm, batch.places.turn_deg)
    z = _heights(batch, [opening for opening, _pitch in asked])
    backing = batch.placed.foot.backing_mm if batch.placed.foot else 0.0
    held = walls_at(scene, z[alike.rows]) + backing
    counted = held / np.array([pitch for _opening, pitch in asked])
    kept = np.flatnonzero((counted < wanted).any(axis=0)).tolist()
    said = [asked[i][0] for i in kept]
    few = counted[:, kept][alike.which]
    return ThreadMargins(
        tuple((hole_id(batch.placed, opening.number),) for opening in said),
        np.where(np.isnan(few), np.inf, few),
        np.full(few.shape, wanted),
        _points(batch, z[:, kept]),
        (None,) * len(said),
        typical=batch.placed.fitting.new and not batch.placed.foot_known,
        least=limits["fastener.threads_least"].value,
        words=tuple(_thread_words(opening, backing) for opening in said),
    )


def _thread_words(opening: Opening, backing_mm: float) -> str:
    words = _("{thread}, its backing bar counted,") if backing_mm else "{thread}"
    return words.format(thread=opening.fastener.thread)


def judge_threads(placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
    """Say of each hole how many full threads its screw has, and its thread by name."""
    if not isinstance(found, ThreadMargins):
        return []
    return [
        Finding(
            "fastener/threads",
            _standing(placed, at_fault=bool(found.faults(0.0)[0, i])),
            found.subjects[i],
            float(found.measured[0, i]),
            float(found.required[0, i]),
            "",
            "fastener.threads",
            None,
            float(found.point[0, i, 2]),
            found.typical,
            found.words[i],
        )
        for i in np.flatnonzero(found.short[0]).tolist()
    ]


def _standing(placed: Placed, *, at_fault: bool) -> Standing:
    """Tell a fault; a screw of a few threads is a caution, and a note where it has held until now."""
    if at_fault:
        return "fault"
    return "caution" if placed.fitting.new else "note"


def grip(scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Measure how far foot, liner, packer and wall together lie outside what a rivet is listed to grip."""
    foot, holes, skin = batch.placed.foot, batch.holes, batch.placed.skin
    asked = [o for o in _openings(scene, batch) if o.fastener.rivet_mm and grips(o.fastener.rivet_mm)]
    if not asked or foot is None or holes is None or skin is None or not will_be_drilled(batch.placed):
        return no_margins(len(batch.places))
    places, z = batch.places, _heights(batch, asked)
    # Under a flat foot the packer differs round the mast too: no two places are alike.
    every = np.arange(len(places))
    alike = Shared(every, every)
    if foot.seat == "shaped":
        alike = shared_by(places.along_mm, places.turn_deg, places.stand_off_mm)
    numbers = [opening.number for opening in holes.openings]
    at = [numbers.index(opening.number) for opening in asked]
    packer = _packer(batch, foot, skin, holes.point[:, at], alike.rows)
    part = foot.thickness_mm + foot.liner_mm + foot.backing_mm
    stack = walls_at(scene, z[alike.rows]) + part + packer
    outside = [outside_grips_mm(o.fastener.rivet_mm or 0.0, stack[:, i]) for i, o in enumerate(asked)]
    return _said(batch, asked, -np.stack(outside, axis=1)[alike.which], z)


def _packer(batch: Batch, foot: Foot, skin: Skin, point: Array, rows: Whole) -> Array:
    """Return what lies under a foot at some of a batch's places (rows,), at points (n, k, 3) of its holes."""
    seats = Seats(batch.seats.origin[rows], batch.seats.axes[rows])
    return packed_mm(skin, foot, batch.places.some(rows), seats, point[rows])


def unlisted(scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Find fasteners that no table has, so that no drill is known for their holes."""
    asked = [o for o in _openings(scene, batch) if o.fastener.is_one and drill_mm(o) is None]
    if not asked or not will_be_drilled(batch.placed):
        return no_margins(len(batch.places))
    return _said(batch, asked, np.full((len(batch.places), len(asked)), -1.0), _heights(batch, asked))


def through(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure through bolts, on their whole way across, to what runs inside beyond the drill's reach."""
    holes = batch.holes
    if holes is None or not will_be_drilled(batch.placed):
        return no_margins(len(batch.places))
    asked = [i for i, opening in enumerate(holes.openings) if opening.fastener.how == "through"]
    return past_drill(scene, batch, limits, asked, _ACROSS_MM)


def _openings(scene: Scene, batch: Batch) -> list[Opening]:
    """Return the openings of a foot on an aluminium mast; none of what hangs elsewhere."""
    placed = batch.placed
    if placed.skin is None or placed.foot is None or scene.layout.mast.material != "aluminium":
        return []
    return list(openings(placed.foot))


def _pitch(opening: Opening) -> float | None:
    return pitch_mm(opening.fastener.thread) if opening.fastener.how == "tapped" else None


def _heights(batch: Batch, asked: list[Opening]) -> Array:
    """Return how high (n, k) openings are on the mast."""
    offsets = np.array([(opening.across_mm, opening.along_mm) for opening in asked])
    _across, along = turned_offsets(offsets, batch.places.turn_deg)
    return np.asarray(batch.places.along_mm[:, None] + along)


def _points(batch: Batch, z_mm: Array) -> Array:
    """Return where (n, k, 3) openings are: the middle of the foot, at each one's own height."""
    point = np.repeat(batch.seats.origin[:, None, :], z_mm.shape[1], axis=1)
    point[..., 2] = z_mm
    return point


def _said(batch: Batch, asked: list[Opening], measured: Array, z_mm: Array) -> Margins:
    """Return margins against nothing wanted but 0; what is not known is said by the rule of the wall."""
    kept = np.flatnonzero((measured < 0.0).any(axis=0)).tolist()
    measured = measured[:, kept]
    return Margins(
        tuple((hole_id(batch.placed, asked[i].number),) for i in kept),
        np.where(np.isnan(measured), np.inf, measured),
        np.zeros(measured.shape),
        _points(batch, z_mm[:, kept]),
        (None,) * len(kept),
        typical=not batch.placed.foot_known,
    )


_DEPENDS: frozenset[Depends] = frozenset({"mast", "fittings", "limits"})
THREADS = Rule("fastener/threads", "fastener.threads", _DEPENDS, threads, judge=judge_threads)
GRIP = Rule("fastener/grip", None, _DEPENDS, grip, fault_below=-np.inf)
UNLISTED = Rule("fastener/unlisted", None, _DEPENDS, unlisted, fault_below=-np.inf)
THROUGH = Rule("fastener/through", "fastener.through", _DEPENDS | {"inside", "cables"}, through)
RULES = (THREADS, GRIP, UNLISTED, THROUGH)

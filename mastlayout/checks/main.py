"""The mainsail: what its cloth does to a fitting as the boom goes out, and what it carries along the track.

Where the cloth goes is geometry's (``geometry/main``); it is graded as cloth on the tack is: what
only rubs, what is flogged against while the sail goes up or down, what the sail bears on.
"""

from collections.abc import Callable, Iterator, Sequence

import numpy as np

from mastlayout.checks import tack
from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.graded import each
from mastlayout.checks.rule import (
    TOLERANCE_MM,
    Batch,
    Depends,
    Margins,
    Rule,
    WholeRule,
    no_margins,
    owners,
)  # fmt: skip
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.main.carried import Carried, missing_of_carried
from mastlayout.geometry.main.cloth import missing, stands
from mastlayout.geometry.main.main import angle_of, boom_of
from mastlayout.geometry.main.passes import along_track, passes
from mastlayout.geometry.main.passes import asked as of_cloth
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import Solids, joined
from mastlayout.geometry.tack.outlines import STEP_MM, Outlines, outlines
from mastlayout.geometry.tack.passes import Passes, out_of_reach
from mastlayout.limits import Limits
from mastlayout.words import _

# What the mainsail itself is set on, and is cut to clear: gooseneck, vang, its own track.
_ITS_OWN = "boom"
_DEPENDS: frozenset[Depends] = frozenset(
    {"mast", "stays", "spreaders", "fittings", "sails", "boat", "limits"}
)
_GRADES = tack.grades_of("main")
_WORDS = {"headboard": _("headboard"), "receptacle": _("batten receptacle"), "car": _("car or slide")}


@dataclass(frozen=True, eq=False)
class _Near:
    """The solids of some batches, ``which`` (p,) of them come near the sail, and those cut."""

    solids: Solids
    which: Whole
    cut: Outlines

    def off(self, found: Array) -> Array:
        """Return how far off those near (p, s) are among all (q, s), the others inf."""
        whole = np.full((len(self.solids), found.shape[1]), np.inf)
        whole[self.which] = found
        return whole

    def passes(self, found: Passes) -> Passes:
        """Return how the cloth passes those near (p, s) among all (q, s)."""
        return Passes(self.off(found.held), self.off(found.loose), self.level(found.height))

    def level(self, found: Whole) -> Whole:
        """Return the heights found of those near (p, s) among all (q, s)."""
        whole = np.zeros((len(self.solids), found.shape[1]), dtype=int)
        whole[self.which] = found
        return whole


def _asked(scene: Scene, batch: Batch) -> bool:
    return batch.each > 0 and bool(scene.main.states) and batch.placed.kind.group != _ITS_OWN


def _near(
    scene: Scene, batches: Sequence[Batch], near: Callable[[Solids], Mask], *, middles: bool = False
) -> _Near:
    solids = joined([batch.solids for batch in batches])
    which = np.flatnonzero(near(solids))
    cut = outlines(solids[which], owners(batches)[which], scene.tack.heights, middles=middles)
    return _Near(solids, which, cut)


def margins(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings at their places against every state of the mainsail's cloth."""
    return _margins(scene, batches, limits, middles=False)


def quick(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure only the middle of each solid, and straight cloth: the fitting is at least as near."""
    return _margins(scene, batches, limits, middles=True)


def _margins(scene: Scene, batches: Sequence[Batch], limits: Limits, *, middles: bool) -> list[Margins]:
    asked = [batch for batch in batches if _asked(scene, batch)]
    if not asked:
        return [no_margins(len(batch.places)) for batch in batches]
    near_mm, belly = limits["tack.near"].value, limits["main.belly"].value / 100.0
    near = _near(scene, asked, lambda solids: scene.main.near(solids, belly, near_mm), middles=middles)
    main, ask, count = scene.main, of_cloth(scene.main, near.cut, near_mm), len(near.which)
    board = near.passes(passes(main, near.cut, ask, count, 0.0))
    full = out_of_reach(*board.held.shape)
    if not middles:
        full = near.passes(passes(main, near.cut, ask, count, belly))
    states = tuple(state.state for state in main.states)
    return each(
        batches,
        lambda batch: _asked(scene, batch),
        lambda batch, rows: tack.of_one(scene, batch, board[rows], full[rows], limits, states, _GRADES),
    )


@dataclass(frozen=True, eq=False)
class CarriedMargins(Margins):
    """Margins against what is carried along the track, ``gear`` (s)."""

    gear: tuple[Carried, ...] = ()


def carried_margins(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings at their places against what the mainsail carries along the whole hoist."""
    return gear_margins(scene, batches, limits, scene.main.carried)


def carried_quick(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure only the middle of each solid: what is carried comes at least as near as that."""
    return gear_margins(scene, batches, limits, scene.main.carried, middles=True)


def gear_margins(
    scene: Scene,
    batches: Sequence[Batch],
    limits: Limits,
    gear: tuple[Carried, ...],
    *,
    middles: bool = False,
) -> list[Margins]:
    """Measure fittings at their places against gear on the track, each over its own heights."""
    asked = [batch for batch in batches if _asked(scene, batch)]
    if not asked or not gear:
        return [no_margins(len(batch.places)) for batch in batches]
    near_mm = limits["tack.near"].value
    near = _near(scene, asked, lambda solids: scene.main.near_track(solids, gear, near_mm), middles=middles)
    found = along_track(scene.main, gear, near.cut, len(near.which), near_mm)
    swung, jams = near.off(found.swung), near.off(found.jams)
    height = near.level(found.height)

    def rows_of_one(batch: Batch, rows: slice) -> Margins:
        """Measure one batch, whose places are some of the rows."""
        # What lies low cloth slides over, and a board with it, unless it is in the way beside the track.
        low = tack.parts_of(batch, limits)[0].reshape(-1, 1)
        off = np.where(low, jams[rows], swung[rows])
        return _carried(gear, batch, off, height[rows], limits)

    return each(batches, lambda batch: _asked(scene, batch), rows_of_one)


def _carried(
    gear: tuple[Carried, ...], batch: Batch, off: Array, height: Whole, limits: Limits
) -> CarriedMargins:
    near_mm = limits["tack.near"].value
    shape = (len(batch.places), batch.each, len(gear))
    part = off.reshape(shape).argmin(axis=1)
    place, own = np.indices(part.shape)
    measured = off.reshape(shape)[place, part, own]
    point = np.full((*part.shape, 3), np.nan)
    point[..., 2] = height.reshape(shape)[place, part, own] * STEP_MM
    return CarriedMargins(
        tuple((one.sail.id,) for one in gear),
        np.where(np.isfinite(measured), measured, near_mm),
        np.full(measured.shape, near_mm),
        point,
        (None,) * len(gear),
        gear=gear,
    )


def judge_carried(placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
    """Say what is carried nearest past a fitting; gear that works where it is makes no fault."""
    if not isinstance(found, CarriedMargins) or not found.gear:
        return []
    worst = int(found.measured[0].argmin())
    measured, wanted = float(found.measured[0, worst]), float(found.required[0, worst])
    if measured >= wanted - TOLERANCE_MM:
        return []
    standing: Standing = "fault"
    if measured >= -TOLERANCE_MM:
        standing = "note"
    elif placed.kind.group in tack.WORKING:
        standing = "caution"
    return [
        Finding(
            "main/carried",
            standing,
            (placed.id, *found.subjects[worst]),
            measured,
            wanted,
            limit="tack.near",
            z_mm=float(np.clip(found.point[0, worst, 2], *placed.span_z_mm)),
            state=_WORDS[found.gear[worst].what],
        )
    ]


def not_asked(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name what nobody measured of a mainsail, and where its boom and its shrouds do not agree."""
    for sail in scene.layout.sails:
        if sail.role != "main":
            continue
        lacking = missing(sail, angle_of(sail, scene.skin, scene.stays, limits))
        for measure in dict.fromkeys((*lacking, *missing_of_carried(sail))):
            yield Finding("main/not-asked", "not checked", (sail.id,), measure=measure.key)
        if not lacking and not stands(sail):
            yield Finding("main/nothing", "not checked", (sail.id,))
        met = boom_of(sail, scene.skin, scene.stays, limits, 0.0)
        if met is not None and sail.boom_limit_deg is not None:
            off, allowed = abs(float(np.degrees(met[0])) - sail.boom_limit_deg), limits["main.boom"].value
            if off > allowed:
                who = (sail.id, met[1])
                yield Finding("main/boom", "caution", who, off, allowed, "deg", "main.boom")


CLOTH = Rule("main/bears", "tack.near", _DEPENDS | {"guards"}, many=margins, judge=tack.judge, quick=quick)
CARRIED = Rule(
    "main/carried", "tack.near", _DEPENDS, many=carried_margins, judge=judge_carried, quick=carried_quick
)
NOT_ASKED = WholeRule(
    "main/not-asked", frozenset({"mast", "stays", "spreaders", "sails", "limits"}), not_asked
)
WHOLE = (NOT_ASKED,)

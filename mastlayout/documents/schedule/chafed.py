"""All that one sail lies on: shrouds and spreader tips, and the fittings that its cloth is found to touch."""

from collections.abc import Iterator, Sequence
from typing import Literal

import numpy as np

from mastlayout.checks.graded import GradedMargins
from mastlayout.checks.report import Report
from mastlayout.checks.rule import Rule, where_it_stands
from mastlayout.checks.tack import no_patch_helps, only_rubs, touches
from mastlayout.frozen import dataclass
from mastlayout.geometry.chafe.loft import Loft
from mastlayout.geometry.chafe.meets import eased, sheeted
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.tack.cloth import State
from mastlayout.geometry.tack.directions import corners
from mastlayout.geometry.tack.standing import cuts_at
from mastlayout.limits import Limits
from mastlayout.words import _

# Cut just inside the ends of what ends at the height that is asked.
_NEAR_MM = 100.0


@dataclass(frozen=True, eq=False)
class Chafed:
    """A sail lies on a thing, by its id, in a state, along ``line`` (k, 2) of its loft.

    It is to be ``patched``, only ``rubs``, or the thing must first be ``moved`` or guarded.
    """

    what: str
    when: str
    line: Array
    does: Literal["patched", "rubs", "moved"] = "patched"


@dataclass(frozen=True, eq=False)
class Touched:
    """A fitting that cloth touches: in which state of a rule's, and at which height worst."""

    placed: Placed
    state: int
    z_mm: float
    does: Literal["patched", "rubs", "moved"]


def chafed_by_headsail(
    scene: Scene, limits: Limits, loft: Loft, touched: Sequence[Touched]
) -> Iterator[Chafed]:
    """Yield what a full headsail lies on, sheeted in and on the tack, its luff straight or sagged."""
    cloths, near_mm = scene.tack.cloths, limits["tack.near"].value
    own = [i for i, state in enumerate(cloths.states) if _whole(state, loft)]
    for number in own:
        for port in (True, False):
            for met in sheeted(scene.tack, loft, number, near_mm, port=port):
                yield Chafed(met.what, _("sheeted in"), met.line)
    mine = [one for one in touched if one.state in own]
    for one, outline in zip(mine, _outlines(mine), strict=True):
        level = np.array([one.z_mm])
        luff = cloths.luffs.point(cloths.luff[[one.state]], level)[0]
        longest = float(cloths.chord(np.array([one.state]), level)[0])
        yield _passed(loft, one, outline - luff, longest, _("on the tack"))


def chafed_by_main(
    scene: Scene, limits: Limits, loft: Loft, touched: Sequence[Touched], number: int
) -> Iterator[Chafed]:
    """Yield what one state of a mainsail lies on as its boom is eased; ``number`` is its place among them."""
    belly, state = limits["main.belly"].value / 100.0, scene.main.states[number]
    for port in (True, False):
        for met in eased(scene.main, loft, state, belly, port=port):
            yield Chafed(met.what, _("eased"), met.line)
    mine = [one for one in touched if one.state == number]
    for one, outline in zip(mine, _outlines(mine), strict=True):
        yield _passed(loft, one, outline - scene.main.luff, None, _("eased"), state.down_mm)


def _whole(state: State, loft: Loft) -> bool:
    return state.sail is loft.sail and state.reef is None and not state.hoisting


def touched(report: Report, rule: Rule) -> Iterator[Touched]:
    """Yield each fitting that a rule of cloth finds touched, in each state in which it is.

    The report names each by its worst state: of those named all are told. What the rule measured of them
    the report has; only of what it has not, the rule is asked again.
    """
    scene, family = report.scene, rule.code.partition("/")[0]
    found_of = (*report.open, *(accepted for accepted, _own in report.accepted))
    named = {one.subjects[0] for one in found_of if one.code.startswith(f"{family}/")}
    every = [one for name, one in scene.placed.items() if name in named or not report.asked]
    known = {} if rule.code in report.behind else report.measured.get(rule.code, {})
    batches = [where_it_stands(one) for one in every if one.id not in known]
    asked = rule.margins(scene, batches, report.limits)
    known = {**known, **{batch.placed.id: own for batch, own in zip(batches, asked, strict=True)}}
    for placed in every:
        found = known[placed.id]
        if not isinstance(found, GradedMargins):
            continue
        rubs, moved = only_rubs(found), no_patch_helps(found)
        for state in np.flatnonzero(touches(found)).tolist():
            z_mm = float(np.clip(found.point[0, state, 2], *placed.span_z_mm))
            yield Touched(
                placed, state, z_mm, "rubs" if rubs[state] else "moved" if moved[state] else "patched"
            )


def _outlines(touched: Sequence[Touched]) -> list[Array]:
    """Return the corners (k, 2) of each outline where it is touched; none of what is not patched."""
    # Most are touched at the same height in several states.
    patched = list(dict.fromkeys((one.placed, one.z_mm) for one in touched if one.does == "patched"))
    cut = cuts_at([placed.solids for placed, _z in patched], [z_mm for _placed, z_mm in patched], _NEAR_MM)
    found = {own: corners(support).reshape(-1, 2) for own, support in zip(patched, cut, strict=True)}
    bare = np.empty((0, 2))
    return [found.get((one.placed, one.z_mm), bare) for one in touched]


def _passed(
    loft: Loft, one: Touched, outline: Array, longest_mm: float | None, when: str, down_mm: float = 0.0
) -> Chafed:
    """Return what of the cloth comes past a fitting, over its own height; only what is patched has a line.

    ``outline`` (k, 2) is as the luff sees it. On the tack that is all of it from the fitting to the leech,
    so far from the luff; eased it lies still.
    """
    if one.does != "patched":
        return Chafed(one.placed.id, when, np.empty((0, 2)), one.does)
    away = np.hypot(*outline.T)
    near = float(away.min())
    far = max(near, float(away.max()) if longest_mm is None else longest_mm)
    low, high = one.placed.span_z_mm
    z_mm = np.array([low, low, high, high, low]) + down_mm
    return Chafed(one.placed.id, when, loft.lay(z_mm, np.array([near, far, far, near, near]), np.zeros(5)))

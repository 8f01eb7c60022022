"""The tack: what cloth does to a fitting when a headsail passes the mast on its stay.

The boundary of the cloth is geometry's (``geometry/tack``); here it is graded as a rigger would:
what only rubs, what the loose leech whips, what the sail bears on, and what a guard stands before.
"""

from collections.abc import Sequence

import numpy as np

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.graded import GradedMargins, Grades, each, judged, loudest
from mastlayout.checks.rule import TOLERANCE_MM, Batch, Margins, Rule, no_margins, owners
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import SpreaderInSpace
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import joined
from mastlayout.geometry.tack.cloth import State
from mastlayout.geometry.tack.guarding import guarded
from mastlayout.geometry.tack.outlines import STEP_MM, outlines, outlines_of
from mastlayout.geometry.tack.passes import Passes, hung, out_of_reach, taut
from mastlayout.limits import Limits
from mastlayout.words import _

# What a mast works with must be where it is, and sails live with it: patched, not moved.
WORKING = ("halyard", "stay", "spreader", "boom", "pole", "deck", "masthead")
# What breaks or bends when a leech whips it.
_BREAKS = ("lens", "antenna")
# A spreader as near as this may hold the cloth off.
_CLOSE_MM = 250.0
# Quiet to loud: each grade's word and standing; the rules that grade cloth say them in their own family.
_GRADES: tuple[tuple[str, Standing], ...] = (
    ("", "note"),
    ("near", "note"),
    ("rubs", "note"),
    ("gear", "caution"),
    ("presses", "caution"),
    ("guarded", "caution"),
    ("whips", "caution"),
    ("whips", "fault"),
    ("bears", "fault"),
)
_CLEAR, _NEAR, _RUBS, _GEAR, _PRESSES, _GUARDED, _WHIPS, _BREAKS_IT, _BEARS = range(len(_GRADES))


def grades_of(family: str) -> Grades:
    """Return the grades of cloth as a family of rules says them."""
    return tuple((f"{family}/{word}" if word else "", standing) for word, standing in _GRADES)


GRADES = grades_of("tack")


def margins(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings at their places against every state of every headsail."""
    return _margins(scene, batches, limits, middles=False)


def quick(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure only the middle of each solid, and taut cloth: the fitting comes at least as near as that."""
    return _margins(scene, batches, limits, middles=True)


def _margins(scene: Scene, batches: Sequence[Batch], limits: Limits, *, middles: bool) -> list[Margins]:
    states = scene.tack.cloths.states
    bodies = [batch for batch in batches if batch.each and states]
    if not bodies:
        return [no_margins(len(batch.places)) for batch in batches]
    board, bellied = _passes(scene, bodies, limits, middles=middles)
    return each(
        batches,
        lambda batch: batch.each > 0,
        lambda batch, rows: of_one(scene, batch, board[rows], bellied[rows], limits, states, GRADES),
    )


def _passes(
    scene: Scene, batches: Sequence[Batch], limits: Limits, *, middles: bool
) -> tuple[Passes, Passes]:
    """Return how taut cloth and bellied cloth pass each solid."""
    near_mm, tack = limits["tack.near"].value, scene.tack
    solids = joined([batch.solids for batch in batches])
    if len(batches) == 1 and not middles and len(batches[0].places) == 1:
        cut = outlines_of(batches[0].solids, tack.heights)  # as every move of a drag asks
    else:
        cut = outlines(solids, owners(batches), tack.heights, middles=middles)
    asked = tack.reached(cut, near_mm)
    board = taut(tack, cut, asked, len(solids), near_mm)
    if middles:
        return board, out_of_reach(*board.held.shape)
    # Where taut cloth touches already, a belly says no more.
    least = board.nearest
    open_ = np.asarray((np.isfinite(least) & (least >= -TOLERANCE_MM)).any(axis=1))
    asked = asked[np.flatnonzero(open_[cut.solid[asked.row]])]
    k_held, k_backed = (limits[belly_of(backed=backed)].value / 100.0 for backed in (False, True))
    return board, hung(tack, cut, asked, len(solids), (k_held, k_backed), near_mm)


def belly_of(*, backed: bool) -> str:
    """Return which limit says how far cloth hangs in between what holds it."""
    return "tack.belly_backed" if backed else "tack.belly"


def of_one(
    scene: Scene,
    batch: Batch,
    board: Passes,
    bellied: Passes,
    limits: Limits,
    states: tuple[State, ...],
    grades: Grades,
) -> GradedMargins:
    """Grade what the states of cloth do to one fitting at its places."""
    near_mm = limits["tack.near"].value
    shape = (len(batch.places), batch.each, len(states))
    least, pressed = board.nearest.reshape(shape), bellied.nearest.reshape(shape)
    grade = _graded(batch, board, pressed, limits)
    if (grade >= _WHIPS).any():
        before = guarded(scene.placed.values(), scene.skin, batch.solids, batch.each)
        grade = np.where((grade >= _WHIPS) & before[:, None, None], _GUARDED, grade)
    # What taut cloth does not touch is told by how near, or how deep, bellied cloth comes.
    by_belly = (least >= -TOLERANCE_MM) & (pressed < least)
    figure = np.where(by_belly, pressed, least)
    height = np.where(by_belly, bellied.height.reshape(shape), board.height.reshape(shape))
    place, part, state = loudest(grade, figure)
    point = np.full((*part.shape, 3), np.nan)
    point[..., 2] = height[place, part, state] * STEP_MM
    measured = figure[place, part, state]
    return GradedMargins(
        tuple((state.sail.id,) for state in states),
        np.where(np.isfinite(measured), measured, near_mm),
        np.full(measured.shape, near_mm),
        point,
        (None,) * len(states),
        grade=grade[place, part, state],
        grades=grades,
        states=states,
        hint="spreader" if _by_spreader(scene, batch.placed) else "",
    )


def _by_spreader(scene: Scene, placed: Placed) -> bool:
    """Tell whether a spreader or strut stands close above or below, whose end may hold cloth off."""
    low, high = placed.span_z_mm
    return any(
        min(ends) <= high + _CLOSE_MM and max(ends) >= low - _CLOSE_MM
        for ends in map(_ends_z_mm, scene.spreaders.values())
    )


def _ends_z_mm(bar: SpreaderInSpace) -> tuple[float, ...]:
    """Return the heights of a spreader's root and, where it is known, its tip."""
    return tuple(float(end[2]) for end in (bar.root, bar.tip) if end is not None)


def _graded(batch: Batch, board: Passes, pressed: Array, limits: Limits) -> Whole:
    """Return the grade (n, each, s) of each solid of each place in each state."""
    held, loose = (part.reshape(pressed.shape) for part in (board.held, board.loose))
    soft, hard, guards = (part[:, :, None] for part in parts_of(batch, limits))
    working = batch.placed.kind.group in WORKING
    gear = np.where(soft, _RUBS, _GEAR)
    whips = gear if working else np.where(hard, _BREAKS_IT, _WHIPS)
    bears = gear if working else np.where(soft, _RUBS, _BEARS)
    touched = -TOLERANCE_MM
    near = np.minimum(np.minimum(held, loose), pressed) < limits["tack.near"].value - TOLERANCE_MM
    # Working gear cannot be moved away, and cloth that only comes near it does nothing.
    grade = np.where(near & (not working), _NEAR, _CLEAR)
    grade = np.where(pressed < touched, _RUBS if working else _PRESSES, grade)
    grade = np.where(loose < touched, whips, grade)
    grade = np.where(held < touched, bears, grade)
    return np.where(guards & (grade > _GUARDED), _GUARDED, grade)


def parts_of(batch: Batch, limits: Limits) -> tuple[Mask, Mask, Mask]:
    """Return (n, each) whether cloth only rubs on a solid, whether whipping breaks it, whether it guards."""
    body = batch.placed.body
    snags = np.array(body.snags, dtype=bool)
    above = body.solids.support(np.array([0.0, 0.0, 1.0]))
    proud = above + batch.places.stand_off_mm[:, None]
    round_ = np.array(body.edges_mm) >= limits["tack.round"].value - TOLERANCE_MM
    # Gear that works where it is has its edges; sails are patched for it.
    working = batch.placed.kind.group in WORKING
    low = (proud < limits["tack.proud"].value) & (round_ | working) | (proud < limits["tack.flat"].value)
    soft = low & ~snags & (batch.placed.skin is not None)
    breaks = np.array([part in _BREAKS for part in body.parts], dtype=bool)
    hard = np.broadcast_to(snags | breaks | (batch.placed.kind.group == "wind"), soft.shape)
    guards = np.array([part == "guard" for part in body.parts], dtype=bool)
    return soft, hard, np.broadcast_to(guards, soft.shape)


def touches(found: GradedMargins) -> Mask:
    """Tell of each state (s,) at the first place whether cloth touches the fitting at all."""
    return np.asarray(found.grade[0] >= _RUBS)


def only_rubs(found: GradedMargins) -> Mask:
    """Tell of each state (s,) at the first place whether cloth only rubs on the fitting."""
    return np.asarray(found.grade[0] == _RUBS)


def no_patch_helps(found: GradedMargins) -> Mask:
    """Tell of each state (s,) at the first place whether the fitting is to be moved, or given a guard."""
    return np.asarray(found.grade[0] >= _BREAKS_IT)


def judge(placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
    """Say the worst state of cloth for a fitting, by name; what is clear says nothing."""
    if not isinstance(found, GradedMargins):
        return []
    return judged(placed, found, "tack.near", lambda state: in_words(found.states[state]))


def in_words(state: State) -> str:
    """Call a state of cloth by name: "one reef, luff sagged"."""
    named = [state.reef.name if state.reef else _("full")]
    if state.hoisting:
        named = [_("going up or down")]
    if state.backed:
        named.append(_("backed"))
    if state.sagged:
        named.append(_("luff sagged"))
    return _(", ").join(named)


TACK = Rule(
    "tack/bears",
    "tack.near",
    frozenset({"mast", "stays", "spreaders", "fittings", "guards", "sails", "boat", "limits"}),
    many=margins,
    judge=judge,
    quick=quick,
)

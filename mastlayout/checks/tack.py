"""The tack: what cloth does to a fitting when a headsail passes the mast on its stay.

The boundary of the cloth is geometry's (``geometry/tack``); here it is graded as a rigger would:
what only rubs, what the loose leech whips, what the sail bears on, and what a guard stands before.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.rule import TOLERANCE_MM, Batch, Margins, Rule, no_margins
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import joined
from mastlayout.geometry.tack.cloth import State
from mastlayout.geometry.tack.guarding import guarded
from mastlayout.geometry.tack.outlines import STEP_MM, outlines
from mastlayout.geometry.tack.passes import Passes, passes
from mastlayout.limits import Limits
from mastlayout.words import _

# What a mast works with must be where it is, and sails live with it: patched, not moved.
WORKING = ("halyard", "stay", "spreader", "boom", "pole", "deck", "masthead")
# What breaks or bends when a leech whips it.
_BREAKS = ("lens", "antenna")
# A spreader as near as this may hold the cloth off.
_CLOSE_MM = 250.0
# Quiet to loud: each grade's code and standing.
GRADES: tuple[tuple[str, Standing], ...] = (
    ("", "note"),
    ("tack/near", "note"),
    ("tack/rubs", "note"),
    ("tack/gear", "caution"),
    ("tack/presses", "caution"),
    ("tack/guarded", "caution"),
    ("tack/whips", "caution"),
    ("tack/whips", "fault"),
    ("tack/bears", "fault"),
)
_CLEAR, _NEAR, _RUBS, _GEAR, _PRESSES, _GUARDED, _WHIPS, _BREAKS_IT, _BEARS = range(len(GRADES))


@dataclass(frozen=True, eq=False)
class TackMargins(Margins):
    """Margins against each state of cloth; ``grade`` (n, s) is the place of each in ``GRADES``.

    ``spreader`` tells that one stands close by, which is not counted on.
    """

    grade: Whole = None  # type: ignore[assignment]  # always given; a base class has defaults before it
    states: tuple[State, ...] = ()
    spreader: bool = False

    @property
    def short(self) -> Mask:
        """Where (n, s) something is to be said."""
        return np.asarray(self.grade > _CLEAR)

    def faults(self, fault_below: float) -> Mask:  # noqa: ARG002 - its grades say it, no limit does
        """Return where (n, s) the grade is a fault's."""
        return np.array([standing == "fault" for _code, standing in GRADES])[self.grade]

    def at(self, place: int) -> "TackMargins":
        """Return what was measured at one of the places alone."""
        row = slice(place, place + 1)
        return replace(
            self,
            measured=self.measured[row],
            required=self.required[row],
            point=self.point[row],
            grade=self.grade[row],
        )


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
    taut, bellied = _passes(scene, bodies, limits, middles=middles)
    ends = iter(np.cumsum([len(batch.solids) for batch in bodies]))
    return [
        of_one(scene, batch, taut[rows], bellied[rows], limits, states)
        if batch.each and (rows := slice((end := int(next(ends))) - len(batch.solids), end))
        else no_margins(len(batch.places))
        for batch in batches
    ]


def _passes(scene: Scene, batches: Sequence[Batch], limits: Limits, *, middles: bool) -> tuple[Passes, Array]:
    """Return how the taut cloth passes each solid, and the least clearance (q, s) of bellied cloth."""
    near_mm, tack = limits["tack.near"].value, scene.tack
    solids = joined([batch.solids for batch in batches])
    each = np.repeat([batch.each for batch in batches], [len(batch.places) for batch in batches])
    cut = outlines(solids, np.repeat(np.arange(len(each)), each), tack.heights, middles=middles)
    asked = tack.reached(cut, near_mm)
    taut = passes(tack, cut, asked, len(solids), 0.0, near_mm)
    if middles:
        return taut, np.full(taut.held.shape, np.inf)
    # Where taut cloth touches already, a belly says no more.
    reached = np.isfinite(taut.held) | np.isfinite(taut.loose)
    open_ = np.asarray((reached & (np.minimum(taut.held, taut.loose) >= -TOLERANCE_MM)).any(axis=1))
    asked = asked[np.flatnonzero(open_[cut.solid[asked.row]])]
    bellied = np.full(taut.held.shape, np.inf)
    for key in ("tack.belly", "tack.belly_backed"):
        found = passes(tack, cut, asked, len(solids), limits[key].value / 100.0, near_mm)
        bellied = np.minimum(bellied, np.minimum(found.held, found.loose))
    return taut, bellied


def of_one(
    scene: Scene, batch: Batch, taut: Passes, bellied: Array, limits: Limits, states: tuple[State, ...]
) -> TackMargins:
    """Grade what the states of cloth do to one fitting at its places."""
    near_mm = limits["tack.near"].value
    shape = (len(batch.places), batch.each, len(states))
    least = np.minimum(taut.held, taut.loose).reshape(shape)
    pressed = bellied.reshape(shape)
    grade = _graded(batch, taut, pressed, limits)
    if (grade >= _WHIPS).any():
        before = guarded(scene.placed.values(), scene.skin, batch.solids, batch.each)
        grade = np.where((grade >= _WHIPS) & before[:, None, None], _GUARDED, grade)
    # Of a fitting's parts the loudest speaks, and of those as loud the deepest.
    # What taut cloth does not touch is told by how near, or how deep, bellied cloth comes.
    figure = np.where(least < -TOLERANCE_MM, least, np.minimum(least, pressed))
    part = (grade * 1e6 - np.clip(figure, -1e5, 1e5)).argmax(axis=1)
    place, state = np.indices(part.shape)
    point = np.full((*part.shape, 3), np.nan)
    point[..., 2] = taut.height.reshape(shape)[place, part, state] * STEP_MM
    measured = figure[place, part, state]
    return TackMargins(
        tuple((state.sail.id,) for state in states),
        np.where(np.isfinite(measured), measured, near_mm),
        np.full(measured.shape, near_mm),
        point,
        (None,) * len(states),
        grade=grade[place, part, state],
        states=states,
        spreader=_by_spreader(scene, batch.placed),
    )


def _by_spreader(scene: Scene, placed: Placed) -> bool:
    """Tell whether a spreader or strut stands close above or below, whose end may hold cloth off."""
    low, high = placed.span_z_mm
    return any(low - _CLOSE_MM <= float(bar.root[2]) <= high + _CLOSE_MM for bar in scene.spreaders.values())


def _graded(batch: Batch, taut: Passes, pressed: Array, limits: Limits) -> Whole:
    """Return the grade (n, each, s) of each solid of each place in each state."""
    held, loose = (part.reshape(pressed.shape) for part in (taut.held, taut.loose))
    soft, hard, guards = (part[:, :, None] for part in parts_of(batch, limits))
    working = batch.placed.kind.group in WORKING
    gear = np.where(soft, _RUBS, _GEAR)
    whips = gear if working else np.where(hard, _BREAKS_IT, _WHIPS)
    bears = gear if working else np.where(soft, _RUBS, _BEARS)
    touched = -TOLERANCE_MM
    grade = np.where(
        np.minimum(np.minimum(held, loose), pressed) < limits["tack.near"].value - TOLERANCE_MM, _NEAR, _CLEAR
    )
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


def judge(placed: Placed, found: Margins, limits: Limits) -> list[Finding]:
    """Say the worst state of a fitting, by name; what is clear says nothing."""
    if not isinstance(found, TackMargins) or not found.states:
        return []
    order = found.grade[0] * 1e6 - found.measured[0]
    worst = int(order.argmax())
    code, standing = GRADES[int(found.grade[0, worst])]
    if not code:
        return []
    return [
        Finding(
            code,
            standing,
            (placed.id, *found.subjects[worst]),
            float(found.measured[0, worst]),
            limits["tack.near"].value,
            limit="tack.near",
            z_mm=float(np.clip(found.point[0, worst, 2], *placed.span_z_mm)),
            state=in_words(found.states[worst]),
            hint="spreader" if found.spreader else "",
        )
    ]


def in_words(state: State) -> str:
    """Call a state of cloth by name: "one reef, luff sagged"."""
    named = [state.reef.name if state.reef else _("full")]
    if state.hoisting:
        named = [_("going up or down")]
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

"""How every state of the mainsail, and what it carries along the track, passes every solid of a fitting."""

from collections.abc import Sequence

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.main.arc import along, off_arc, off_mast, pushed_off
from mastlayout.geometry.main.carried import Carried
from mastlayout.geometry.main.cloth import Swung
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.main.stops import Stops, mirrored
from mastlayout.geometry.tack.outlines import STEP_MM, Outlines
from mastlayout.geometry.tack.passes import Passes
from mastlayout.geometry.tack.reach import distance_from


def passes(main: Main, cut: Outlines, solids: int, belly: float, near_mm: float) -> Passes:
    """Return how every state passes ``solids`` solids whose outlines are ``cut``.

    What only cloth on its way up or down touches is ``loose``, for there it flogs; all else is ``held``.
    """
    shape = (solids, len(main.states))
    clear = np.full(shape, np.inf)
    height = np.zeros(shape, dtype=int)
    z_mm = np.asarray(cut.height * STEP_MM)
    for port in (True, False):
        support = cut.support if port else mirrored(cut.support)
        away, edge = distance_from(main.luff, support), main.stops_at(cut.height, port=port)
        for number, state in enumerate(main.states):
            rows = np.flatnonzero(state.chord(z_mm) >= away - near_mm)
            rows = rows[state.chord(z_mm[rows]) > 0]
            if not len(rows):
                continue
            off = _off(main, edge[rows], state, z_mm[rows], support[rows], away[rows], belly)
            _keep(clear[:, number], height[:, number], cut.solid[rows], cut.height[rows], off)
    hoisting = np.array([state.state.hoisting for state in main.states], dtype=bool)
    return Passes(np.where(hoisting, np.inf, clear), np.where(hoisting, clear, np.inf), height)


def off_each(main: Main, state: Swung, cut: Outlines, belly: float) -> Array:
    """Return how far outlines (q,) stand off the cloth of one state, to either side; inf without any."""
    found, z_mm = np.full(len(cut.height), np.inf), np.asarray(cut.height * STEP_MM)
    rows = np.flatnonzero(state.chord(z_mm) > 0)
    for port in (True, False):
        support = cut.support[rows] if port else mirrored(cut.support[rows])
        away, edge = distance_from(main.luff, support), main.stops_at(cut.height[rows], port=port)
        off = _off(main, edge, state, z_mm[rows], support, away, belly)
        found[rows] = np.minimum(found[rows], off)
    return found


def _off(
    main: Main, edge: Stops, state: Swung, z_mm: Array, support: Array, away: Array, belly: float
) -> Array:
    """Return how far outlines (r, COUNT) at heights stand off the cloth of one state on one side.

    Cloth that is stopped swings on about what stops it; one whose free edge is on its way past
    ends just short of that.
    """
    chord, free, mast = state.chord(z_mm), state.angle(z_mm), edge.mast
    stopped, out = edge.first(chord)
    held = (stopped < free) & (not state.state.hoisting)
    if state.state.hoisting:
        chord = np.where(stopped < free, np.minimum(chord, out), chord)
    angle = np.where(held, stopped, free)
    off = np.maximum(
        away - chord, off_luff(main.luff, angle, np.where(held, out, chord), mast, support, belly)
    )
    own = np.flatnonzero(held)
    if len(own):
        point = main.luff + out[own, None] * along(angle[own])
        left = chord[own] - out[own]
        beyond = off_arc(
            point, free[own], left, belly, free[own] + np.pi / 2 + np.arctan(4 * belly), support[own]
        )
        off[own] = np.minimum(off[own], np.maximum(distance_from(point, support[own]) - left, beyond))
    return off


def off_luff(luff: Array, angle: Array, span: Array, mast: Array, support: Array, belly: float) -> Array:
    """Return how far outlines stand off cloth that swings about the luff; past abeam it lies on the mast."""
    off = np.empty(len(angle))
    past = (angle >= np.pi / 2) & (not belly)
    if past.any():
        off[past] = off_mast(luff, angle[past], mast[past], support[past])
    own = np.flatnonzero(~past)
    if len(own):
        point = pushed_off(luff, angle[own], mast[own])
        off[own] = off_arc(point, angle[own], span[own], belly, np.pi - angle[own], support[own])
    return off


@dataclass(frozen=True, eq=False)
class Along:
    """How far q solids stand off what is carried (c) along the hoist, and at which height ``height`` (q, c).

    ``swung`` (q, c) off all that it sweeps, ``jams`` off what is in its way however it swings.
    """

    swung: Array
    jams: Array
    height: Whole


def along_track(main: Main, gear: Sequence[Carried], cut: Outlines, solids: int, near_mm: float) -> Along:
    """Return how far solids stand off gear carried along the hoist; inf where that is far."""
    shape = (solids, len(gear))
    found = Along(np.full(shape, np.inf), np.full(shape, np.inf), np.zeros(shape, dtype=int))
    z_mm = np.asarray(cut.height * STEP_MM)
    for port in (True, False):
        support = cut.support if port else mirrored(cut.support)
        away = distance_from(main.luff, support)
        for number, own in enumerate(gear):
            there = (z_mm >= own.low_mm) & (z_mm <= own.high_mm) & (away <= own.reach_mm + near_mm)
            rows = np.flatnonzero(there)
            if not len(rows):
                continue
            mast = main.stops_at(cut.height[rows], port=port).mast
            angle = np.full(len(rows), own.angle)
            swings = off_luff(main.luff, angle, np.zeros(len(rows)), mast, support[rows], 0.0)
            off = np.maximum(away[rows] - own.length_mm, swings) - own.half_mm
            jams = away[rows] - max(own.ahead_mm, own.half_mm)
            solid, level = cut.solid[rows], cut.height[rows]
            np.minimum.at(found.jams[:, number], solid, jams)
            _keep(found.swung[:, number], found.height[:, number], solid, level, np.minimum(off, jams))
    return found


def _keep(clear: Array, height: Whole, solid: Whole, level: Whole, off: Array) -> None:
    """Keep of each solid the least it stands off, and where."""
    order = np.argsort(-off, kind="stable")
    order = order[off[order] < clear[solid[order]]]
    # The least is written last, and stays.
    clear[solid[order]] = off[order]
    height[solid[order]] = level[order]

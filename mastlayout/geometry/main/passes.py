"""How every state of the mainsail, and what it carries along the track, passes every solid of a fitting."""

from collections.abc import Sequence

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.main.arc import along, off_arc, off_mast, pushed_off
from mastlayout.geometry.main.carried import Carried
from mastlayout.geometry.main.cloth import Swung
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.main.stops import Stops, joined_stops, mirrored
from mastlayout.geometry.tack.outlines import STEP_MM, Outlines
from mastlayout.geometry.tack.passes import Passes
from mastlayout.geometry.tack.reach import distance_from


@dataclass(frozen=True, eq=False)
class Asked:
    """r outlines of a cut, each against the cloth of one state on one side: ``row`` (r,), ``state`` (r,).

    ``support`` (r, COUNT) is seen from that side as if it were port, ``away`` (r,) how far off the luff;
    ``chord`` (r,) is how long the cloth is there, ``free`` (r,) how far it swings where nothing stops it.
    """

    row: Whole
    state: Whole
    support: Array
    away: Array
    chord: Array
    free: Array
    hoisting: Mask
    edge: Stops


def asked(main: Main, cut: Outlines, near_mm: float) -> Asked:
    """Return all outlines that some cloth comes within ``near_mm`` of."""
    return _asked(main, main.states, cut, near_mm)


def _asked(main: Main, states: Sequence[Swung], cut: Outlines, near_mm: float) -> Asked:
    z_mm = np.asarray(cut.height * STEP_MM)
    chord = np.array([state.chord(z_mm) for state in states]).reshape(len(states), len(z_mm))
    free = np.array([state.angle(z_mm) for state in states]).reshape(len(states), len(z_mm))
    found = []
    for port in (False, True):
        support = cut.support if port else mirrored(cut.support)
        away = distance_from(main.luff, support)
        state, row = np.nonzero((chord > 0) & (chord >= away - near_mm))
        found.append((row, state, support[row], away[row], main.stops_at(cut.height[row], port=port)))
    row, state, support, away = (np.concatenate(part) for part in list(zip(*found, strict=True))[:4])
    sides = np.repeat((0, 1), [len(own[0]) for own in found])
    first = np.concatenate([np.arange(len(own[0])) for own in found])
    edge = joined_stops([own[4] for own in found], sides, first)
    hoisting = np.array([own.state.hoisting for own in states], dtype=bool)[state]
    return Asked(row, state, support, away, chord[state, row], free[state, row], hoisting, edge)


def passes(main: Main, cut: Outlines, ask: Asked, solids: int, belly: float) -> Passes:
    """Return how every state passes ``solids`` solids whose outlines are ``cut``, where they are asked.

    What only cloth on its way up or down touches is ``loose``, for there it flogs; all else is ``held``.
    """
    shape = (solids, len(main.states))
    clear, height = np.full(shape, np.inf), np.zeros(shape, dtype=int)
    place = cut.solid[ask.row] * len(main.states) + ask.state
    _keep(clear.reshape(-1), height.reshape(-1), place, cut.height[ask.row], _off(main, ask, belly))
    hoisting = np.array([state.state.hoisting for state in main.states], dtype=bool)
    return Passes(np.where(hoisting, np.inf, clear), np.where(hoisting, clear, np.inf), height)


def off_each(main: Main, state: Swung, cut: Outlines, belly: float) -> Array:
    """Return how far outlines (q,) stand off the cloth of one state, to either side; inf without any."""
    found, ask = np.full(len(cut.height), np.inf), _asked(main, [state], cut, np.inf)
    np.minimum.at(found, ask.row, _off(main, ask, belly))
    return found


def _off(main: Main, ask: Asked, belly: float) -> Array:
    """Return how far outlines (r,) stand off the cloth they are asked against.

    Cloth that is stopped swings on about what stops it; one whose free edge is on its way past
    ends just short of that.
    """
    chord, free, support = ask.chord, ask.free, ask.support
    stopped, out = ask.edge.first(chord)
    held = (stopped < free) & ~ask.hoisting
    chord = np.where(ask.hoisting & (stopped < free), np.minimum(chord, out), chord)
    angle, span = np.where(held, stopped, free), np.where(held, out, chord)
    off = np.maximum(ask.away - chord, off_luff(main.luff, angle, span, ask.edge.mast, support, belly))
    own = np.flatnonzero(held)
    if len(own):
        point = main.luff + out[own, None] * along(angle[own])
        left = chord[own] - out[own]
        top = free[own] + np.pi / 2 + np.arctan(4 * belly)
        beyond = off_arc(point, free[own], left, belly, top, support[own])
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

"""The mainsail of a whole layout: its states, what stops it at every height, and how it passes fittings."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from mastlayout.geometry.frames import Array, Mask, Whole, height_mm
from mastlayout.geometry.main.arc import off_arc, off_mast, pushed_off
from mastlayout.geometry.main.boom import boom_angle
from mastlayout.geometry.main.carried import Carried, carried
from mastlayout.geometry.main.cloth import Swung, low_reading_mm, swung
from mastlayout.geometry.main.stops import Stops, mirrored, slack_of, stops
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.solids import Solids
from mastlayout.geometry.tack.directions import DIRECTIONS
from mastlayout.geometry.tack.outlines import CARRIED_MM, STEP_MM, Outlines
from mastlayout.geometry.tack.passes import Passes
from mastlayout.geometry.tack.reach import distance_from
from mastlayout.geometry.tack.tack import BLOCK, Tack
from mastlayout.limits import Limits, limits_of
from mastlayout.model.layout import Layout
from mastlayout.model.sails import Sail


@dataclass(frozen=True, eq=False)
class Main:
    """Every state of every mainsail, on the track at ``luff`` (2,), and what is carried along it.

    ``slack`` is how far a shroud to leeward can be pushed forward, as a part of each leg's length.
    """

    states: tuple[Swung, ...]
    carried: tuple[Carried, ...]
    luff: Array
    tack: Tack
    slack: float
    _stops: dict[tuple[int, bool], Stops] = field(default_factory=dict)

    def stops(self, block: int, *, port: bool) -> Stops:
        """Return what stops the cloth on one side in one block of heights."""
        key = (block, port)
        if key not in self._stops:
            held = self.tack.holding(block)
            z_mm = np.arange(block * BLOCK, block * BLOCK + len(held.name)) * STEP_MM
            slack = slack_of(self.tack.rig.stays, held, z_mm, self.slack)
            if not port:
                held = type(held)(held.names, held.name, mirrored(held.support))
            self._stops[key] = stops(self.luff, held, slack)
        return self._stops[key]

    def near(self, solids: Solids, belly: float, near_mm: float) -> Mask:
        """Tell of each solid (q,) whether cloth or what is carried can come near it: never too few.

        Each solid is taken as a ball, in the way of the longest cloth that swings farthest.
        """
        low, high = solids.span_z()
        found = np.zeros(len(solids), dtype=bool)
        thick = max((own.half_mm for own in self.carried), default=0.0)
        at_luff = max((own.ahead_mm for own in self.carried), default=0.0)
        near_mm = near_mm + max(thick, at_luff)
        for state in self.states:
            if not state.state.hoisting:
                continue
            level = (high >= state.low_mm - CARRIED_MM - STEP_MM) & (low <= state.head_mm + CARRIED_MM + STEP_MM)
            asked = np.flatnonzero(level & ~found)
            centre = solids.centre[asked]
            for way in (1.0, -1.0):
                ball = (centre[:, :2] * (1.0, way)) @ DIRECTIONS.T + solids.bound_mm[asked, None]
                n = len(asked)
                angle, span = np.full(n, state.boom + state.twist), np.full(n, state.width.max())
                point = np.broadcast_to(self.luff, (n, 2))
                found[asked] |= off_arc(point, angle, span, belly, np.pi - angle, ball) <= near_mm
        return found


def passes(main: Main, cut: Outlines, solids: int, belly: float, near_mm: float) -> Passes:
    """Return how every state passes ``solids`` solids whose outlines are ``cut``.

    What only cloth on its way up or down touches is ``loose``, for there it flogs; all else is
    ``held``. Nothing shelters by itself, so ``shade`` is -1.
    """
    shape = (solids, len(main.states))
    clear = np.full(shape, np.inf)
    height = np.zeros(shape, dtype=int)
    z_mm = np.asarray(cut.height * STEP_MM)
    for port in (True, False):
        support = cut.support if port else mirrored(cut.support)
        away = distance_from(main.luff, support)
        for number, state in enumerate(main.states):
            rows = np.flatnonzero(state.chord(z_mm) >= away - near_mm)
            rows = rows[state.chord(z_mm[rows]) > 0]
            for part, edge in _by_block(main, cut.height[rows], port=port):
                own = rows[part]
                off = _off(main, edge, state, cut.height[own], support[own], away[own], belly)
                _keep(clear[:, number], height[:, number], cut.solid[own], cut.height[own], off)
    hoisting = np.array([state.state.hoisting for state in main.states], dtype=bool)
    return Passes(
        np.where(hoisting, np.inf, clear), np.where(hoisting, clear, np.inf), height, np.full(shape, -1)
    )


def _by_block(main: Main, height: Whole, *, port: bool) -> list[tuple[Whole, Stops]]:
    blocks = height // BLOCK
    return [
        (np.flatnonzero(blocks == block), main.stops(int(block), port=port)) for block in np.unique(blocks)
    ]


def _off(
    main: Main, edge: Stops, state: Swung, height: Whole, support: Array, away: Array, belly: float
) -> Array:
    """Return how far outlines (r, COUNT) of one block stand off the cloth of one state on one side.

    Cloth that is stopped swings on about what stops it; one whose free edge is on its way past
    ends just short of that.
    """
    z_mm, row = height * STEP_MM, height % BLOCK
    chord, free, mast = state.chord(z_mm), state.angle(z_mm), edge.mast[row]
    stopped, out = edge.first(row, chord)
    held = (stopped < free) & (not state.state.hoisting)
    if state.state.hoisting:
        chord = np.where(stopped < free, np.minimum(chord, out), chord)
    angle = np.where(held, stopped, free)
    off = np.maximum(away - chord, _off_luff(main.luff, angle, np.where(held, out, chord), mast, support, belly))
    own = np.flatnonzero(held)
    if len(own):
        point = main.luff + out[own, None] * np.stack([-np.cos(angle[own]), np.sin(angle[own])], axis=1)
        left = chord[own] - out[own]
        beyond = off_arc(point, free[own], left, belly, free[own] + np.pi / 2 + np.arctan(4 * belly), support[own])
        off[own] = np.minimum(off[own], np.maximum(distance_from(point, support[own]) - left, beyond))
    return off


def _off_luff(luff: Array, angle: Array, span: Array, mast: Array, support: Array, belly: float) -> Array:
    """Return how far outlines stand off cloth that swings about the luff; past abeam it lies on the mast."""
    shade = off_mast(luff, angle, mast, support) if not belly else np.inf
    point = pushed_off(luff, angle, mast)
    arc = off_arc(point, angle, span, belly, np.pi - angle, support)
    return np.asarray(np.where((angle >= np.pi / 2) & (not belly), shade, arc))


@dataclass(frozen=True, eq=False)
class Along:
    """How far q solids stand off what is carried (c) along the hoist, and at which height ``height`` (q, c).

    ``swung`` (q, c) off all that it sweeps, ``jams`` off what is in its way however it swings.
    """

    swung: Array
    jams: Array
    height: Whole


def along_track(main: Main, cut: Outlines, solids: int, near_mm: float) -> Along:
    """Return how far solids stand off what is carried along the hoist; inf where that is far."""
    shape = (solids, len(main.carried))
    found = Along(np.full(shape, np.inf), np.full(shape, np.inf), np.zeros(shape, dtype=int))
    z_mm = np.asarray(cut.height * STEP_MM)
    for port in (True, False):
        support = cut.support if port else mirrored(cut.support)
        away = distance_from(main.luff, support)
        for number, own in enumerate(main.carried):
            there = (z_mm >= own.low_mm) & (z_mm <= own.high_mm) & (away <= own.reach_mm + near_mm)
            rows = np.flatnonzero(there)
            for part, edge in _by_block(main, cut.height[rows], port=port):
                at = rows[part]
                mast = edge.mast[cut.height[at] % BLOCK]
                angle = np.full(len(at), own.angle)
                swings = _off_luff(main.luff, angle, np.zeros(len(at)), mast, support[at], 0.0)
                off = np.maximum(away[at] - own.length_mm, swings) - own.half_mm
                jams = away[at] - max(own.ahead_mm, own.half_mm)
                np.minimum.at(found.jams[:, number], cut.solid[at], jams)
                level = cut.height[at]
                _keep(found.swung[:, number], found.height[:, number], cut.solid[at], level, np.minimum(off, jams))
    return found


def _keep(clear: Array, height: Whole, solid: Whole, level: Whole, off: Array) -> None:
    """Keep of each solid the least it stands off, and where."""
    order = np.argsort(-off, kind="stable")
    order = order[off[order] < clear[solid[order]]]
    # The least is written last, and stays.
    clear[solid[order]] = off[order]
    height[solid[order]] = level[order]


def boom_of(
    sail: Sail, skin: Skin, stays: Mapping[str, StayInSpace], limits: Limits, slack: float
) -> tuple[float, str] | None:
    """Return where the shrouds stop the boom: radians from straight aft, and the shroud; None where none does."""
    low = low_reading_mm(sail)
    if low is None or sail.e_mm is None:
        return None
    z_mm = height_mm(skin.length_mm, low)
    aft = float(skin.ring(z_mm).x.min()) - limits["main.gooseneck"].value
    return boom_angle(stays, np.array([aft, 0.0]), z_mm, sail.e_mm, slack)


def angle_of(sail: Sail, skin: Skin, stays: Mapping[str, StayInSpace], limits: Limits) -> float | None:
    """Return how far out the boom swings, radians: as measured, else until it meets a slack shroud."""
    if sail.boom_limit_deg is not None:
        return float(np.radians(sail.boom_limit_deg))
    found = boom_of(sail, skin, stays, limits, limits["main.slack"].value / 100.0)
    return found[0] if found else None


def main_of(layout: Layout, skin: Skin, stays: Mapping[str, StayInSpace], tack: Tack) -> Main:
    """Return the mainsails of a layout, as far as enough is known of them."""
    limits = limits_of(layout)
    states: list[Swung] = []
    gear: list[Carried] = []
    for sail in layout.sails:
        if sail.role == "main":
            twist = sail.twist_deg if sail.twist_deg is not None else limits["main.twist"].value
            angle = angle_of(sail, skin, stays, limits)
            own = tuple(swung(sail, skin.length_mm, angle, float(np.radians(twist))))
            states += own
            gear += carried(sail, own, limits["main.headboard"].value)
    raised = skin.mast.track.depth_mm if skin.mast.track and skin.mast.track.kind == "track" else 0.0
    luff = np.array([float(skin.full.x.min()) - raised, 0.0])
    return Main(tuple(states), tuple(gear), luff, tack, limits["main.slack"].value / 100.0)

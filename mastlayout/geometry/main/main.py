"""The mainsail of a whole layout: its states, what it carries, and what stops it at every height."""

from collections.abc import Mapping, Sequence
from dataclasses import field, replace

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole, height_mm
from mastlayout.geometry.main.arc import off_arc
from mastlayout.geometry.main.boom import boom_angle
from mastlayout.geometry.main.carried import Carried, carried
from mastlayout.geometry.main.cloth import Swung, low_reading_mm, swung
from mastlayout.geometry.main.stack import Stack, folds_of, stack_of
from mastlayout.geometry.main.stops import Stops, joined_stops, mirrored, slack_of, stops
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.solids import Solids
from mastlayout.geometry.tack.directions import along_all
from mastlayout.geometry.tack.outlines import CARRIED_MM, STEP_MM
from mastlayout.geometry.tack.tack import BLOCK, Tack
from mastlayout.limits import Limits, limits_of
from mastlayout.model.layout import Layout
from mastlayout.model.sails import Sail

# No boom swings farther than this from straight aft.
_FARTHEST_DEG = 150.0


@dataclass(frozen=True, eq=False)
class Main:
    """Every state of every mainsail, on the track at ``luff`` (2,), and what is carried along it.

    ``stacks`` are the mainsails dropped, as far as anybody knows their height, ``folds`` what hangs beside.
    ``slack`` is how far a shroud to leeward can be pushed forward, as a part of each leg's length.
    """

    states: tuple[Swung, ...]
    carried: tuple[Carried, ...]
    luff: Array
    tack: Tack
    slack: float
    stacks: tuple[Stack, ...] = ()
    folds: tuple[Carried, ...] = ()
    _stops: dict[int, tuple[Stops, Stops]] = field(default_factory=dict)

    def stops(self, block: int) -> tuple[Stops, Stops]:
        """Return what stops the cloth to port and to starboard in one block of heights."""
        if block not in self._stops:
            held = self.tack.holding(block)
            z_mm = np.asarray(np.arange(block * BLOCK, block * BLOCK + len(held.name)) * STEP_MM)
            slack = slack_of(self.tack.rig.stays, held, z_mm, self.slack)
            other = replace(held, support=mirrored(held.support))
            self._stops[block] = stops(self.luff, held, slack), stops(self.luff, other, slack)
        return self._stops[block]

    def stops_at(self, height: Whole, *, port: bool) -> Stops:
        """Return what stops the cloth on one side at heights (r,) of the grid."""
        blocks, back = np.unique(height // BLOCK, return_inverse=True)
        self.tack.hold(blocks.tolist())
        own = [self.stops(int(block))[0 if port else 1] for block in blocks]
        # One fitting stands within one block, seldom two: nothing is to be joined then.
        return own[0][height % BLOCK] if len(own) == 1 else joined_stops(own, back, height % BLOCK)

    def near(self, solids: Solids, belly: float, near_mm: float) -> Mask:
        """Tell of each solid (q,) whether cloth can come near it: never too few.

        Each solid is taken as a ball, in the way of the longest cloth that swings farthest.
        """
        low, high = solids.span_z()
        found = np.zeros(len(solids), dtype=bool)
        for state in self.states:
            if not state.state.hoisting:
                continue
            level = (high >= state.low_mm - CARRIED_MM - STEP_MM) & (
                low <= state.head_mm + CARRIED_MM + STEP_MM
            )
            asked = np.flatnonzero(level & ~found)
            centre = solids.centre[asked]
            for way in (1.0, -1.0):
                ball = along_all(centre[:, :2] * (1.0, way)) + solids.bound_mm[asked, None]
                n = len(asked)
                angle, span = np.full(n, state.boom + state.twist), np.full(n, state.width.max())
                point = np.broadcast_to(self.luff, (n, 2))
                found[asked] |= off_arc(point, angle, span, belly, np.pi - angle, ball) <= near_mm
        return found

    def near_track(self, solids: Solids, gear: Sequence[Carried], near_mm: float) -> Mask:
        """Tell of each solid (q,) whether gear carried along the track can come near it: never too few."""
        low, high = solids.span_z()
        away = np.hypot(*(solids.centre[:, :2] - self.luff).T) - solids.bound_mm
        found = np.zeros(len(solids), dtype=bool)
        for own in gear:
            level = (high >= own.low_mm - CARRIED_MM - STEP_MM) & (low <= own.high_mm + CARRIED_MM + STEP_MM)
            found |= level & (away <= own.reach_mm + near_mm)
        return found


def boom_of(
    sail: Sail, skin: Skin, stays: Mapping[str, StayInSpace], limits: Limits, slack: float
) -> tuple[float, str] | None:
    """Return where a shroud stops the boom: radians from straight aft, and which; None where none does."""
    low = low_reading_mm(sail)
    if low is None or sail.e_mm is None:
        return None
    z_mm = height_mm(skin.length_mm, low)
    aft = float(skin.ring(z_mm).x.min()) - limits["main.gooseneck"].value
    return boom_angle(stays, np.array([aft, 0.0]), z_mm, sail.e_mm, slack)


def angle_of(sail: Sail, skin: Skin, stays: Mapping[str, StayInSpace], limits: Limits) -> float | None:
    """Return how far out the boom swings, radians: as measured, else until it meets a slack shroud.

    None where nobody knows, or what was measured can be no boom's.
    """
    if sail.boom_limit_deg is not None:
        known = 0.0 < sail.boom_limit_deg <= _FARTHEST_DEG
        return float(np.radians(sail.boom_limit_deg)) if known else None
    found = boom_of(sail, skin, stays, limits, limits["slack.shroud"].value / 100.0)
    return found[0] if found else None


def main_of(layout: Layout, skin: Skin, stays: Mapping[str, StayInSpace], tack: Tack) -> Main:
    """Return the mainsails of a layout, as far as enough is known of them."""
    limits = limits_of(layout)
    states: list[Swung] = []
    gear: list[Carried] = []
    for sail in layout.sails:
        if sail.role == "main":
            twist = max(sail.twist_deg if sail.twist_deg is not None else limits["main.twist"].value, 0.0)
            angle = angle_of(sail, skin, stays, limits)
            own = tuple(swung(sail, skin.length_mm, angle, float(np.radians(twist))))
            states += own
            gear += carried(sail, own, limits["main.headboard"].value)
    stacks = tuple(
        stack
        for sail in layout.sails
        if sail.role == "main" and (stack := stack_of(sail, skin.mast)) is not None
    )
    folds = tuple(folds_of(stack, limits["main.folds"].value) for stack in stacks)
    raised = skin.mast.track.depth_mm if skin.mast.track and skin.mast.track.kind == "track" else 0.0
    luff = np.array([float(skin.full.x.min()) - raised, 0.0])
    slack = limits["slack.shroud"].value / 100.0
    return Main(tuple(states), tuple(gear), luff, tack, slack, stacks, folds)

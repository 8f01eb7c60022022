"""What a headsail does at one height, to be drawn: which state, what it sweeps, and how a fitting stands."""

from dataclasses import dataclass, field
from functools import cached_property, lru_cache

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import Report
from mastlayout.checks.tack import TACK, in_words
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.tack.cloth import State
from mastlayout.geometry.tack.directions import COUNT
from mastlayout.geometry.tack.drawn import Swept, swept
from mastlayout.geometry.tack.outlines import STEP_MM
from mastlayout.geometry.tack.standing import Stand, cut_at, stand
from mastlayout.geometry.tack.tack import Tack

# A drag asks for another height with every move, and each view for its own.
_KEPT = 16
_DRAWN = ("tack/bears", "tack/whips", "tack/gear", "tack/rubs")
_swept = lru_cache(maxsize=_KEPT)(swept)


@dataclass(frozen=True)
class Sailed:
    """One state of a headsail at a height; two are equal where the same cloth passes the same things.

    ``hand`` is the fitting in hand; ``finding`` what the report says of it and headsails, at whatever
    height; ``guards`` are those that may stand outside it.
    """

    tack: Tack
    state: int
    z_mm: float
    hand: Placed | None
    guards: tuple[Placed, ...]
    swept: Swept = field(compare=False)
    finding: Finding | None

    @property
    def cloth(self) -> State:
        """The state of the sail."""
        return self.tack.cloths.states[self.state]

    @cached_property
    def outlines(self) -> Array:
        """The support (q, COUNT) of what there is at this height of the fitting in hand."""
        if self.hand is None or not len(self.hand.solids):
            return np.empty((0, COUNT))
        return cut_at(self.hand.solids, self.z_mm)

    @cached_property
    def stand(self) -> Stand | None:
        """How the fitting in hand stands at this height, None where it does not reach it."""
        return stand(self.swept, self.outlines)


def sailed_at(report: Report, z_mm: float, hand: str) -> Sailed | None:
    """Return the state that is worst for what is in hand, else of those that stand the farthest aft.

    None where there is no cloth at the height, or its luff lies within what would hold it.
    """
    scene = report.scene
    finding = tack_finding(report, hand)
    placed, guards = scene.placed.get(hand), guards_besides(scene, hand)
    for state in _states(scene, finding, z_mm):
        found = _swept(scene.tack, state, z_mm, guards)
        if found is not None:
            return Sailed(scene.tack, state, z_mm, placed, guards, found, finding)
    return None


def _states(scene: Scene, finding: Finding | None, z_mm: float) -> list[int]:
    """Return the states to draw, the most wanted first."""
    cloths = scene.tack.cloths
    every = np.arange(len(cloths))
    z = np.full(len(every), z_mm)
    chord = cloths.chord(every, z)
    aft = chord - cloths.luffs.point(cloths.luff, z)[:, 0] if len(every) else chord
    # A sail that stands comes before one on its way up or down.
    passing = np.array([state.hoisting for state in cloths.states], dtype=bool)
    rising = [int(i) for i in np.lexsort((-aft, passing)) if chord[i] > 0]
    named = state_of(scene, finding) if finding else None
    return rising if named is None else [named, *rising]


def tack_finding(report: Report, name: str) -> Finding | None:
    """Return what the report says of a fitting and headsails on the tack."""
    return next(iter(report.by_fitting[TACK.code].get(name, ())), None)


def state_of(scene: Scene, finding: Finding) -> int | None:
    """Return which state of cloth a finding names."""
    states = enumerate(scene.tack.cloths.states)
    return next(
        (i for i, s in states if s.sail.id in finding.subjects and in_words(s) == finding.state), None
    )


def guards_besides(scene: Scene, name: str) -> tuple[Placed, ...]:
    """Return the guards other than one thing: a guard in hand is asked as what it is, a thing in the way."""
    return tuple(placed for placed in scene.placed.values() if placed.kind.guards and placed.id != name)


def worst_stand(scene: Scene, finding: Finding) -> tuple[Stand, float] | None:
    """Return how a fitting stands where cloth bears on it or whips it most, and that height.

    None where only a guard, a belly or the room that is wanted makes the finding.
    """
    placed, state = scene.placed.get(finding.subjects[0]), state_of(scene, finding)
    if placed is None or state is None or finding.z_mm is None or finding.code not in _DRAWN:
        return None
    found = _swept(scene.tack, state, finding.z_mm, ())
    # The report measures at heights this far apart, and carries the ends of things to the next.
    outlines = cut_at(placed.solids, finding.z_mm, STEP_MM)
    there = stand(found, outlines) if found is not None else None
    return None if there is None else (there, finding.z_mm)

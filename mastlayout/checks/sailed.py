"""What a sail does at one height, to be drawn: which state, what it sweeps, and how a fitting stands."""

from collections.abc import Iterator
from dataclasses import field
from functools import cached_property, lru_cache

import numpy as np

from mastlayout.checks.finding import Finding, Key
from mastlayout.checks.main import CARRIED, CLOTH
from mastlayout.checks.report import Report
from mastlayout.checks.tack import TACK, belly_of, in_words
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.main.drawn import Eased, eased
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.main.passes import off_each
from mastlayout.geometry.main.standing import stand_of_carried
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.tack.cloth import State
from mastlayout.geometry.tack.directions import COUNT
from mastlayout.geometry.tack.drawn import Swept, swept
from mastlayout.geometry.tack.outlines import CARRIED_MM, STEP_MM, Outlines, outlines_of
from mastlayout.geometry.tack.standing import Stand, cut_at, stand
from mastlayout.geometry.tack.tack import Tack
from mastlayout.limits import limits_of
from mastlayout.once import lately

# A drag asks for another height with every move, and each view for its own.
_KEPT = 16
_DRAWN = ("bears", "whips", "gear", "rubs", "presses")
# What was found at a height to within this is what the finding says.
_SAME_MM = 0.005
_RULES = (TACK, CLOTH, CARRIED)
_swept = lately(_KEPT)(swept)
# What is eased holds its mainsail, and with it all that holds cloth: few are kept.
_eased = lru_cache(maxsize=4)(eased)


@dataclass(frozen=True)
class Called:
    """A state of a sail by the sail's id and the state's name: over edits it stays the same."""

    sail: str
    state: str


@dataclass(frozen=True)
class Sailed:
    """One state of a sail at a height; two are equal where the same cloth passes the same things.

    ``sails`` are the headsails or the mainsails, and ``number`` is the state's among theirs. ``hand``
    is the fitting in hand; ``finding`` what the report says of it and sails, at whatever height;
    ``guards`` are those that may stand outside it. Where the fitting does not reach the height it is
    taken in hand at, as on a spreader, it is measured at its own, ``own_z_mm``, to ``at_hand``.
    """

    sails: Tack | Main
    number: int
    z_mm: float
    hand: Placed | None
    guards: tuple[Placed, ...]
    swept: Swept | Eased = field(compare=False)
    finding: Finding | None
    own_z_mm: float
    at_hand: Swept | Eased | None = field(compare=False)

    @property
    def cloth(self) -> State:
        """The state of the sail."""
        return _state(self.sails, self.number)

    @property
    def called(self) -> Called:
        """The state by name."""
        return _called(self.cloth)

    @property
    def is_main(self) -> bool:
        """Tell whether it is a mainsail, which is eased, and not carried from tack to tack."""
        return isinstance(self.sails, Main)

    @cached_property
    def outlines(self) -> Array:
        """The support (q, COUNT) of what there is of the fitting in hand at the height it is measured at."""
        if self.hand is None or not len(self.hand.solids) or self.at_hand is None:
            return np.empty((0, COUNT))
        near_mm = 0.0 if self.own_z_mm == self.z_mm else STEP_MM
        return cut_at(self.hand.solids, self.own_z_mm, near_mm)

    @cached_property
    def stand(self) -> Stand | None:
        """How the fitting in hand stands at that height, None where it does not reach it."""
        return _stand(self.at_hand, self.outlines) if self.at_hand is not None else None

    def work_out(self) -> None:
        """Work out what the cloth sweeps, which is else done when it is first asked."""
        _drawn = self.swept.sailed, self.swept.whipped


def sailed_at(
    report: Report, z_mm: float, hand: str, chosen: frozenset[Key] = frozenset(), picked: Called | None = None
) -> Sailed | None:
    """Return the state that was picked, else the worst for what is in hand, else the one farthest aft.

    The worst is that of the finding looked at, ``chosen``, or of the loudest. None where there is no
    cloth at the height, or its luff lies within what would hold it.
    """
    scene = report.scene
    finding = sail_finding(report, hand, chosen)
    placed, guards = scene.placed.get(hand), guards_besides(scene, hand)
    own_z_mm = _own_height(placed, finding, z_mm)
    for sails, number in _picked(scene, picked) if picked else _wanted(scene, finding, z_mm):
        found = _at(scene, sails, number, z_mm, guards)
        if found is not None:
            own = found if own_z_mm == z_mm else _at(scene, sails, number, own_z_mm, guards)
            said = sail_finding(report, hand, chosen, _called(_state(sails, number)).sail)
            return Sailed(sails, number, z_mm, placed, guards, found, said, own_z_mm, own)
    return None


def states_of(scene: Scene) -> Iterator[tuple[Called, State]]:
    """Yield every state of a sail that the rules run over, by name: the headsails', then the mainsail's."""
    for sails, count in ((scene.tack, len(scene.tack.cloths)), (scene.main, len(scene.main.states))):
        for number in range(count):
            state = _state(sails, number)
            yield _called(state), state


def _called(state: State) -> Called:
    return Called(state.sail.id, in_words(state))


def _state(sails: Tack | Main, number: int) -> State:
    return sails.states[number].state if isinstance(sails, Main) else sails.cloths.states[number]


def _at(
    scene: Scene, sails: Tack | Main, number: int, z_mm: float, guards: tuple[Placed, ...]
) -> Swept | Eased | None:
    if isinstance(sails, Main):
        return _eased(sails, number, z_mm, limits_of(scene.layout)["main.belly"].value / 100.0)
    key = belly_of(backed=sails.cloths.states[number].backed)
    return _swept(sails, number, z_mm, guards, limits_of(scene.layout)[key].value / 100.0)


def _stand(way: Swept | Eased, outlines: Array) -> Stand | None:
    return way.stand(outlines) if isinstance(way, Eased) else stand(way, outlines)


def _own_height(placed: Placed | None, finding: Finding | None, z_mm: float) -> float:
    """Return at which height a fitting taken in hand at ``z_mm`` is measured: where it is there, there.

    What is not on the mast no section shows: it is measured where it is worst.
    """
    if placed is None or not len(placed.solids) or placed.z_mm != z_mm:
        return z_mm
    low, high = placed.solids.span_z()
    if placed.on_mast and ((low <= z_mm) & (z_mm <= high)).any():
        return z_mm
    worst = finding.z_mm if finding is not None else None
    return float(np.clip(z_mm, low.min(), high.max())) if worst is None else worst


def _picked(scene: Scene, picked: Called) -> Iterator[tuple[Tack | Main, int]]:
    """Yield the state of that name."""
    for sails, count in ((scene.tack, len(scene.tack.cloths)), (scene.main, len(scene.main.states))):
        for number in range(count):
            if _called(_state(sails, number)) == picked:
                yield sails, number


def _wanted(scene: Scene, finding: Finding | None, z_mm: float) -> Iterator[tuple[Tack | Main, int]]:
    """Yield the states to draw, the most wanted first."""
    if finding is not None:
        named = state_of(scene, finding)
        if named is not None:
            yield named
    cloths = scene.tack.cloths
    every = np.arange(len(cloths))
    z = np.full(len(every), z_mm)
    chord = cloths.chord(every, z)
    aft = chord - cloths.luffs.point(cloths.luff, z)[:, 0] if len(every) else chord
    # A sail that stands comes before one on its way up or down.
    passing = np.array([state.hoisting for state in cloths.states], dtype=bool)
    yield from ((scene.tack, int(i)) for i in np.lexsort((-aft, passing)) if chord[i] > 0)
    yield from ((scene.main, number) for number in range(len(scene.main.states)))


def sail_finding(
    report: Report, name: str, chosen: frozenset[Key] = frozenset(), sail: str = ""
) -> Finding | None:
    """Return what the report says of a fitting and sails: what is looked at, else the loudest.

    ``sail`` asks for what it says of that sail alone.
    """
    said = [found for rule in _RULES for found in report.said_by(rule.code, name)]
    if sail:
        said = [found for found in said if sail in found.subjects]
    looked_at = [found for found in said if found.key in chosen]
    return min(looked_at or said, key=_loud, default=None)


def _loud(finding: Finding) -> tuple[int, bool, float]:
    """Sort loud to quiet; what sails carry is not drawn, so of findings as loud the cloth's goes first."""
    return finding.rank[0], finding.code == CARRIED.code, finding.measured or 0.0


def state_of(scene: Scene, finding: Finding) -> tuple[Tack | Main, int] | None:
    """Return which state of cloth a finding names; what is carried goes by the sail on its way up or down."""
    if finding.code.startswith("tack/"):
        states = enumerate(scene.tack.cloths.states)
        named = (i for i, s in states if s.sail.id in finding.subjects and in_words(s) == finding.state)
        sails: Tack | Main = scene.tack
    else:
        carried = finding.code == CARRIED.code
        sails, own = scene.main, enumerate(swung.state for swung in scene.main.states)
        named = (
            i
            for i, s in own
            if s.sail.id in finding.subjects and (s.hoisting if carried else in_words(s) == finding.state)
        )
    number = next(named, None)
    return None if number is None else (sails, number)


def guards_besides(scene: Scene, name: str) -> tuple[Placed, ...]:
    """Return the guards other than one thing: a guard in hand is asked as what it is, a thing in the way."""
    return tuple(placed for placed in scene.placed.values() if placed.kind.guards and placed.id != name)


def worst_stand(scene: Scene, finding: Finding) -> tuple[Stand, float] | None:
    """Return how a fitting stands where cloth, or what it carries, touches it most, and that height.

    None where only a guard or the room that is wanted makes the finding.
    """
    placed, named = scene.placed.get(finding.subjects[0]), state_of(scene, finding)
    if placed is None or named is None or finding.z_mm is None or not len(placed.solids):
        return None
    family, _slash, word = finding.code.partition("/")
    if word not in _DRAWN and family != "main":
        return None
    cut = outlines_of(placed.solids, scene.tack.heights)
    worst: Stand | None = None
    for rows in _asked_first(scene, finding, named, cut):
        for there in (_stand_at(scene, finding, named, cut[row : row + 1]) for row in rows.tolist()):
            if there is not None and (worst is None or _off(there, finding) < _off(worst, finding)):
                worst = there
        if worst is not None and _off(worst, finding) < _SAME_MM:
            break
    return None if worst is None else (worst, finding.z_mm)


def _asked_first(
    scene: Scene, finding: Finding, named: tuple[Tack | Main, int], cut: Outlines
) -> Iterator[Whole]:
    """Yield the outlines (k,) in which a finding may have been measured, those of the likeliest height first.

    Those of a mainsail's cloth are asked all at once: the one is yielded that stands off as the finding says.
    """
    rows = [np.flatnonzero(cut.height == height) for height in _levels(cut, finding.z_mm or 0.0)]
    sails, number = named
    if finding.code == CARRIED.code or not isinstance(sails, Main) or not rows:
        yield from rows
        return
    every, state = np.concatenate(rows), sails.states[number]
    belly = limits_of(scene.layout)["main.belly"].value / 100.0
    straight, bellied = (off_each(sails, state, cut[every], k) for k in (0.0, belly))
    clear = np.where(straight < 0, straight, np.minimum(straight, bellied))
    yield every[[int(np.argmin(np.abs(clear - (finding.measured or 0.0))))]]


def _levels(cut: Outlines, z_mm: float) -> Array:
    """Return the heights, by their index, at which a finding may have been measured, the nearest first.

    A finding names no height beyond its fitting, whose ends are carried farther.
    """
    heights = np.unique(cut.height)
    away = np.abs(heights * STEP_MM - z_mm)
    return np.asarray(heights[np.argsort(away, kind="stable")][: int((away <= CARRIED_MM + STEP_MM).sum())])


def _stand_at(scene: Scene, finding: Finding, named: tuple[Tack | Main, int], cut: Outlines) -> Stand | None:
    """Return how one outline stands to what a finding is about."""
    z_mm = float(cut.height[0] * STEP_MM)
    if finding.code == CARRIED.code:
        gear = (own for own in scene.main.carried if own.sail.id in finding.subjects)
        stands = (stand_of_carried(scene.main, own, z_mm, cut.support) for own in gear)
        return min((own for own in stands if own), key=lambda own: _off(own, finding), default=None)
    found = _at(scene, *named, z_mm, ())
    return _stand(found, cut.support) if found is not None else None


def _off(stand: Stand, finding: Finding) -> float:
    return abs(stand.clear_mm - (finding.measured or 0.0))

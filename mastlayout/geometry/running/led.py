"""Where each line leads outside the mast, leg by leg, in each of its states."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Literal

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Whole, height_mm
from mastlayout.geometry.inside import THROUGH_WALL
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import StayInSpace, deck_point, mast_end
from mastlayout.geometry.running.passing import made_fast, rope_point
from mastlayout.geometry.running.reach import Reaches
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.solids import Solids, tubes
from mastlayout.model.layout import Layout
from mastlayout.model.rig import Stay
from mastlayout.model.sails import Halyard, Sail

# What a line may be doing; "led" is what of it always leads the same way, to its winch or its cleat.
Doing = Literal[
    "led", "hoisted", "reefed", "going up", "boom out to port", "boom out to starboard", "tied off",
    "let go", "stowed",
]  # fmt: skip
# With a sail hoisted on it a halyard is under load, and never slack.
_LOADED = ("hoisted", "reefed")
# A line's end this near the boom, up or down, beside it or past its end, is made fast on it.
_ON_BOOM_MM = 600.0
# A headboard hangs from its halyard this far abaft the track; common practice, no source.
_HEAD_MM = 40.0


@dataclass(frozen=True, eq=False)
class Way:
    """One line in one state: its straight legs (k, 2, 3), how thick and how much longer it is when slack.

    ``own`` are the fittings it passes: it is meant to touch those. ``reef`` names the reef.
    """

    line: str
    doing: Doing
    ends: Array
    round_mm: float
    slack_mm: Array
    own: frozenset[str] = frozenset()
    reef: str = ""


@dataclass(frozen=True, eq=False)
class Lines:
    """The legs of all ways with their owners, as ``nearest`` asks for them."""

    ids: tuple[str, ...]
    solids: Solids
    owner: Whole
    thick_mm: Array


@dataclass(frozen=True, eq=False)
class Running:
    """All running lines of a layout: every way, taut, and leg by leg as far as it reaches slack.

    ``passed`` are the fittings that any line passes, ``unmeasured`` the lines and states of which
    nobody knows where the line leads.
    """

    ways: tuple[Way, ...]
    taut: Lines
    slack: Reaches
    passed: Mapping[str, Placed | None]
    unmeasured: tuple[tuple[str, Doing], ...]


@dataclass(frozen=True, eq=False)
class _Aloft:
    """What lines hang on and lead to."""

    layout: Layout
    skin: Skin
    stays: Mapping[str, StayInSpace]
    placed: Mapping[str, Placed]
    main: Main
    slack: float


def running_of(
    layout: Layout,
    skin: Skin,
    stays: Mapping[str, StayInSpace],
    placed: Mapping[str, Placed],
    main: Main,
    slack: float,
) -> Running:
    """Return where every line leads; ``slack`` is how much longer than its way it is, as a part of that."""
    aloft = _Aloft(layout, skin, stays, placed, main, slack)
    ways: list[Way] = []
    lacking: list[tuple[str, Doing]] = []
    for halyard in layout.halyards:
        own = tuple(_of_line(aloft, halyard))
        ways += own
        lacking += ((halyard.id, doing) for doing in _lacking(aloft, halyard, own))
    for stay in stays.values():
        # A free luff goes below with its sail.
        if stay.item.removable and stay.item.role != "luff":
            ways += _of_stay(aloft, stay)
            if stay.item.stowed_at is None:
                lacking.append((stay.item.id, "stowed"))
    names = {point.fitting for halyard in layout.halyards for point in halyard.points}
    passed = {name: placed.get(name) for name in names if name is not None}
    return Running(tuple(ways), *_both(ways), passed, tuple(lacking))


def _both(ways: Sequence[Way]) -> tuple[Lines, Reaches]:
    """Return the legs of ways taut, and as far as they reach slack."""
    ids = tuple(way.line for way in ways)
    ends = np.concatenate([np.empty((0, 2, 3)), *(way.ends for way in ways)])
    owner = np.repeat(np.arange(len(ways)), [len(way.ends) for way in ways])
    thick = np.array([way.round_mm for way in ways])[owner]
    slack = np.concatenate([np.empty(0), *(way.slack_mm for way in ways)])
    return Lines(ids, tubes(ends[:, 0], ends[:, 1], thick), owner, thick), Reaches(ends, slack, thick)


def _way(
    aloft: _Aloft, line: Halyard, doing: Doing, legs: Sequence[tuple[Array, Array]], reef: str = ""
) -> Way:
    ends = np.array(legs).reshape(-1, 2, 3)
    long = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1)
    own = frozenset(point.fitting for point in line.points if point.fitting is not None)
    # What is left slack of a whole line, all of it may be in any of its legs.
    slack = np.full(len(ends), line.slack_mm) if line.slack_mm is not None else aloft.slack * long
    if doing in _LOADED and any(sail.halyard == line.id for sail in aloft.layout.sails):
        slack = np.zeros(len(ends))
    return Way(line.id, doing, ends, line.rope_mm / 2, slack, own, reef)


def _of_line(aloft: _Aloft, line: Halyard) -> Iterator[Way]:
    points = _points(aloft, line)
    led = [
        (one, other)
        for i, (one, other) in enumerate(pairwise(points))
        if one is not None and other is not None and not _runs_inside(line, i)
    ]
    on_boom = _to_boom(aloft, line, points)
    if on_boom is not None:
        yield from _swung(aloft, line, led[:-1], *on_boom)
    elif led:
        yield _way(aloft, line, "led", led)
    leads = _leads(line, points)
    for doing, reef, end in _ends(aloft, line):
        if leads:
            yield _way(aloft, line, doing, [(lead, end) for lead in leads], reef)
    if line.hoisted_at is not None and leads:
        used = made_fast(line.hoisted_at, aloft.skin.mast.rake_deg)
        if used is not None and _is_on_boom(aloft, used):
            yield from _swung(aloft, line, [], leads[0], used)
        elif used is not None:
            yield _way(aloft, line, "hoisted", [(leads[0], used)])


def _points(aloft: _Aloft, line: Halyard) -> list[Array | None]:
    """Return where the line passes each of its points: over the sheave that is nearest its next."""
    found: list[Array | None] = []
    towards: Array | None = made_fast(line.hoisted_at or line.tied_at, aloft.skin.mast.rake_deg)
    rough = [rope_point(aloft.skin, point, aloft.placed, None) for point in line.points]
    for i, point in enumerate(line.points):
        beyond = rough[i + 1] if i + 1 < len(rough) and not _runs_inside(line, i) else towards
        found.append(rope_point(aloft.skin, point, aloft.placed, beyond))
    return found


def _runs_inside(line: Halyard, i: int) -> bool:
    """Tell whether the leg from point ``i`` to the next runs inside the mast."""
    if line.inside == "outside":
        return False
    return line.points[i].at in THROUGH_WALL and line.points[i + 1].at in THROUGH_WALL


def _leads(line: Halyard, points: Sequence[Array | None]) -> list[Array]:
    """Return what the line hangs from aloft: its first point, and with 2 parts the one it comes back to."""
    parts = 2 if line.points and line.points[0].at == "end" and line.purchase == "2:1" else 1
    return [point for point in points[:parts] if point is not None]


def _ends(aloft: _Aloft, line: Halyard) -> Iterator[tuple[Doing, str, Array]]:
    """Yield where the line's end may be: at the heads of its sails, and where it is tied off."""
    length = aloft.skin.length_mm
    for sail in aloft.layout.sails:
        if sail.halyard != line.id:
            continue
        head = sail.head_mm if sail.head_mm is not None else sail.upper_mark_mm
        point = _head(aloft, sail, height_mm(length, head)) if head is not None else None
        if point is not None:
            yield "hoisted", "", point
        low = _low_mm(sail)
        lowered = _head(aloft, sail, height_mm(length, low)) if low is not None else None
        if lowered is not None:
            yield "going up", "", lowered
        for reef in sail.reefs if sail.role == "main" else ():
            if reef.head_mm is not None:
                reefed = _head(aloft, sail, height_mm(length, reef.head_mm))
                if reefed is not None:
                    yield "reefed", reef.name, reefed
    tied = made_fast(line.tied_at, aloft.skin.mast.rake_deg)
    if tied is not None:
        yield "tied off", "", tied


def _low_mm(sail: Sail) -> float | None:
    """Return the reading at which a sail's head is still down: on its stack, or at its tack."""
    if sail.role != "main":
        return sail.tack_mm
    return None if sail.lower_mark_mm is None else sail.lower_mark_mm - (sail.stack_mm or 0.0)


def _head(aloft: _Aloft, sail: Sail, z_mm: float) -> Array | None:
    """Return where (3,) the head of a sail is hoisted to: up its stay, or up the track."""
    if sail.role == "main":
        return np.array([float(aloft.skin.ring(z_mm).x.min()) - _HEAD_MM, 0.0, z_mm])
    stay = aloft.stays.get(sail.stay or "")
    if stay is None or stay.points is None or not stay.points[-1, 2] <= z_mm <= stay.points[0, 2]:
        return None
    points = stay.points[::-1]
    return np.array([np.interp(z_mm, points[:, 2], points[:, k]) for k in range(3)])


def _to_boom(aloft: _Aloft, line: Halyard, points: Sequence[Array | None]) -> tuple[Array, Array] | None:
    """Return the ends (3,) of a line's last leg where that leads to the boom."""
    if len(points) < 2 or line.points[-1].at != "end" or line.points[-1].fitting is not None:
        return None
    upper, lower = points[-2], points[-1]
    if upper is None or lower is None or not _is_on_boom(aloft, lower):
        return None
    return upper, lower


def _is_on_boom(aloft: _Aloft, end: Array) -> bool:
    aft = aloft.main.luff[0] - float(end[0])
    return any(
        abs(float(end[2]) - state.low_mm) < _ON_BOOM_MM
        and 0.0 < aft < state.width[0] + _ON_BOOM_MM
        and abs(float(end[1])) < _ON_BOOM_MM
        for state in aloft.main.states
    )


def _swung(
    aloft: _Aloft, line: Halyard, above: Sequence[tuple[Array, Array]], upper: Array, end: Array
) -> Iterator[Way]:
    """Yield a line down to the boom, the boom amidships and out as far as it goes on either side."""
    out = max(state.boom for state in aloft.main.states)
    turns: tuple[tuple[Doing, float], ...] = (
        ("hoisted", 0.0), ("boom out to port", -out), ("boom out to starboard", out),
    )  # fmt: skip
    for doing, angle in turns:
        x, y = end[:2] - aloft.main.luff
        cos, sin = np.cos(angle), np.sin(angle)
        turned = aloft.main.luff + np.array([cos * x - sin * y, sin * x + cos * y])
        yield _way(aloft, line, doing, [*above, (upper, np.array([*turned, end[2]]))])


def _of_stay(aloft: _Aloft, stay: StayInSpace) -> Iterator[Way]:
    """Yield a stay that is taken off: a runner as it is let go, and any as it is stowed."""
    item, rake = stay.item, aloft.skin.mast.rake_deg
    radius = (item.wire_mm or 0.0) / 2
    if item.role == "runner" and stay.points is not None:
        legs = np.stack([stay.points[:-1], stay.points[1:]], axis=1)
        yield Way(item.id, "let go", legs, radius, aloft.slack * _long(legs))
    if item.stowed_at is not None and rake is not None:
        legs = np.array([[_upper(aloft, item, stay), deck_point(item.stowed_at, item.side, rake)]])
        yield Way(item.id, "stowed", legs, radius, aloft.slack * _long(legs))


def _upper(aloft: _Aloft, item: Stay, stay: StayInSpace) -> Array:
    return stay.points[0] if stay.points is not None else mast_end(aloft.skin, item.upper)


def _long(legs: Array) -> Array:
    return np.asarray(np.linalg.norm(legs[:, 1] - legs[:, 0], axis=1))


def _lacking(aloft: _Aloft, line: Halyard, own: Sequence[Way]) -> Iterator[Doing]:
    """Yield the states of a line of which nobody knows where it leads.

    Where a sail's head is the rules about sails ask. A sail that stays furled on its stay leaves its
    halyard hoisted; a line that ends on deck, on the boom or at a cleat is led there and nowhere else.
    """
    doing = {way.doing for way in own}
    sails = [sail for sail in aloft.layout.sails if sail.halyard == line.id]
    ends = bool(line.points) and (line.points[0].at != "sheave" or line.inside == "outside")
    furls = any(sail.furled_mm is not None for sail in sails)
    if "hoisted" not in doing and not sails and (line.hoisted or not ends):
        yield "hoisted"
    if "tied off" not in doing and (line.tied_off or (sails and not furls)):
        yield "tied off"

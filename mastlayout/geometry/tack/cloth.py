"""Headsails in their states: where the luff is at each height, and how far the leech reaches from there.

A sail is flat, with straight lines between its corners and the widths that were measured: a hollow
nobody measured is not credited. Heights of clew and leech are those of the sail sheeted in, along
the centreline. Swung about its stay the sail turns as a door does, and all but the luff rises.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole, height_mm
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.tack.bend import Bend
from mastlayout.model.measure import Measure, measure_of
from mastlayout.model.sails import Reef, Sail

_NEEDED = ("lp_mm", "tack_mm", "clew_mm", "head_mm")
_WIDTHS = (("quarter_width_mm", 0.25), ("half_width_mm", 0.5), ("three_quarter_width_mm", 0.75))
# Corners of a leech from below: the tack, the clew, three widths, the head.
_CORNERS, _CLEW = 6, 1


@dataclass(frozen=True, eq=False)
class State:
    """One state of a headsail: full or a reef, sheeted or going up or down, its luff straight or sagged.

    ``backed`` tells that its clew is held to windward: wind presses it farther in between what holds it.
    """

    sail: Sail
    reef: Reef | None
    hoisting: bool
    sagged: bool
    backed: bool = False

    def measure_mm(self, name: str) -> float:
        """Return a measure of the sail, by its field: the reef's own where it has one."""
        own = getattr(self.reef, name) if self.reef else None
        return float(own if own is not None else getattr(self.sail, name))


@dataclass(frozen=True, eq=False)
class Luffs:
    """l luffs: their pins (l, 2, 3), the upper first, and how far each sags aft at its middle (l,)."""

    stays: tuple[str, ...]
    pins: Array
    sag_mm: Array
    bend: Bend

    def __len__(self) -> int:
        return len(self.sag_mm)

    def point(self, luff: Whole, z_mm: Array) -> Array:
        """Return the points (r, 2) of luffs (r,) at heights (r,)."""
        upper, lower = self.pins[luff, 0], self.pins[luff, 1]
        part = (z_mm - lower[:, 2]) / (upper[:, 2] - lower[:, 2])
        point = lower[:, :2] + part[:, None] * (upper[:, :2] - lower[:, :2])
        point[:, 0] += self.bend.of_line(part, upper[:, 2]) - self.bend.at(z_mm)
        point[:, 0] -= 4 * self.sag_mm[luff] * np.clip(part * (1 - part), 0.0, None)
        return np.asarray(point)

    @property
    def cosine(self) -> Array:
        """The cosine (l,) of each one's angle to the mast."""
        along = self.pins[:, 0] - self.pins[:, 1]
        return np.asarray(along[:, 2] / np.linalg.norm(along, axis=1))


@dataclass(frozen=True, eq=False)
class Cloths:
    """s states of cloth on l luffs; ``luff`` (s,) is which.

    ``corner_z`` and ``width`` (s, 6) are the heights of the leech's corners and their distances
    square to the luff, from below; ``begins_mm`` (s,) how far abaft the stay's middle the cloth
    begins. There is none below the deck, ``deck_mm``. ``held`` (s,) is the state with the same cloth
    that is not backed: of taut cloth only that one is asked.
    """

    states: tuple[State, ...]
    luffs: Luffs
    luff: Whole
    corner_z: Array
    width: Array
    begins_mm: Array
    deck_mm: float

    def __len__(self) -> int:
        return len(self.states)

    @cached_property
    def held(self) -> Whole:
        """The place (s,) of the state that differs from each in being held, not backed; else its own."""
        # ``_states`` names a sail's states on one luff: the full sail, each reef, going up, then backed.
        return np.array(
            [i - 2 - len(s.sail.reefs) if s.backed else i for i, s in enumerate(self.states)], dtype=int
        )

    @cached_property
    def backed(self) -> Mask:
        """Tell of each state (s,) whether it is backed."""
        return np.array([state.backed for state in self.states], dtype=bool)

    def chord(self, state: Whole, z_mm: Array, swung: Array | float = 0.0) -> Array:
        """Return the cloth (r,) square to the mast at heights, ``swung`` radians off the centreline.

        0 where there is none at that height.
        """
        cos = self.luffs.cosine[self.luff[state]]
        sin = np.sqrt(1 - cos**2)
        square = np.sqrt(1 - (sin * np.cos(swung)) ** 2)
        rise = sin * (1 - cos * np.cos(swung) / square)
        width = self.width[state]
        across = _widest(self.corner_z[state] + width * rise[:, None], width, z_mm)
        return np.asarray(
            np.where((across > 0) & (z_mm >= self.deck_mm), across / square + self.begins_mm[state], 0.0)
        )

    def longest(self, state: Whole, z_mm: Array, swung: Array) -> Array:
        """Return the longest cloth (r,) at heights, anywhere from the centreline to ``swung`` radians off it.

        A clew rises as it swings: just above where it hangs amidships, what sweeps past is longest on the
        way, where the clew comes past, and not at either end.
        """
        clew_past = np.minimum(self._swung_to(state, z_mm), swung)
        bearings = (np.zeros_like(swung), clew_past, swung)
        return np.asarray(np.maximum.reduce([self.chord(state, z_mm, bearing) for bearing in bearings]))

    def _swung_to(self, state: Whole, z_mm: Array) -> Array:
        """Return how far off the centreline (r,) the clew has risen to a height: ``chord``'s rise undone."""
        cos = self.luffs.cosine[self.luff[state]]
        sin = np.sqrt(1 - cos**2)
        risen = (z_mm - self.corner_z[state, _CLEW]) / np.maximum(self.width[state, _CLEW] * sin, 1e-9)
        left = np.clip(1 - risen, 0.0, 1.0)
        return np.asarray(np.arccos(np.clip(left / np.sqrt(cos**2 + (left * sin) ** 2), 0.0, 1.0)))


def _widest(corner_z: Array, width: Array, z_mm: Array) -> Array:
    """Return the width (r,) at heights of leeches with corners (r, c); 0 above head and below foot."""
    low, high = corner_z[:, :-1], corner_z[:, 1:]
    rise = high - low
    part = np.where(rise > 0, (z_mm[:, None] - low) / np.where(rise > 0, rise, 1.0), -1.0)
    at = width[:, :-1] + part * (width[:, 1:] - width[:, :-1])
    return np.asarray(np.where((part >= 0) & (part <= 1), at, 0.0).max(axis=1))


def missing(sail: Sail) -> tuple[Measure, ...]:
    """Return the measures without which nobody knows where its cloth is."""
    return tuple(measure_of(Sail, name) for name in _NEEDED if getattr(sail, name) is None)


def swings(sail: Sail, stays: Mapping[str, StayInSpace]) -> bool:
    """Tell whether a sail tacks about a stay whose place and whose own measures are all known."""
    stay = stays.get(sail.stay or "")
    known = stay is not None and stay.item.role != "luff" and _rises(stay)
    return sail.role in ("headsail", "staysail") and known and not missing(sail) and _sound(sail)


def _rises(stay: StayInSpace) -> bool:
    """Tell whether a stay goes up to the mast: about one that does not, nothing swings."""
    return stay.points is not None and bool(stay.points[0, 2] > stay.points[-1, 2])


def _sound(sail: Sail) -> bool:
    tack, clew, head = sail.tack_mm, sail.clew_mm, sail.head_mm
    return tack is not None and clew is not None and head is not None and head < clew and head < tack


def cloths(
    sails: Sequence[Sail],
    stays: Mapping[str, StayInSpace],
    bend: Bend,
    foil_mm: float,
    sag: float,
    deck_mm: float = 0.0,
) -> Cloths:
    """Return every state of every headsail that tacks about a stay.

    ``foil_mm`` is half the foil's width; ``sag`` the part of its length a stay sags by where the
    layout does not say.
    """
    states = [
        (state, (sail.stay or "", state.sagged))
        for sail in sails
        if swings(sail, stays)
        for state in _states(sail)
    ]
    luffs = tuple(dict.fromkeys(luff for _state, luff in states))
    own = [stays[name] for name, _sagged in luffs]
    corners = [_corners(state, bend.length_mm) for state, _luff in states]
    return Cloths(
        tuple(state for state, _luff in states),
        Luffs(
            tuple(name for name, _sagged in luffs),
            np.array([np.asarray(stay.points)[[0, -1]] for stay in own]).reshape(-1, 2, 3),
            np.array([_sag_mm(stay, sag) * sagged for stay, (_name, sagged) in zip(own, luffs, strict=True)]),
            bend,
        ),
        np.array([luffs.index(luff) for _state, luff in states], dtype=int),
        np.array([heights for heights, _widths in corners]).reshape(-1, _CORNERS),
        np.array([widths for _heights, widths in corners]).reshape(-1, _CORNERS),
        np.array([foil_mm + ((s.reef.rolled_mm or 0.0) / 2 if s.reef else 0.0) for s, _luff in states]),
        deck_mm,
    )


def _sag_mm(stay: StayInSpace, sag: float) -> float:
    return stay.item.sag_mm if stay.item.sag_mm is not None else sag * (stay.length_mm or 0.0)


def _states(sail: Sail) -> Iterator[State]:
    for sagged in (False, True):
        still = [State(sail, reef, hoisting=False, sagged=sagged) for reef in (None, *sail.reefs)]
        yield from still
        yield State(sail, None, hoisting=True, sagged=sagged)
        # Last, so that of states alike the simpler is named.
        yield from (replace(state, backed=True) for state in still)


def _corners(state: State, length_mm: float) -> tuple[Array, Array]:
    """Return the heights and widths (6,) of a leech's corners from below."""
    sail, reef = state.sail, state.reef
    lp, clew, head = (state.measure_mm(name) for name in ("lp_mm", "clew_mm", "head_mm"))
    top, foot = height_mm(length_mm, head), height_mm(length_mm, clew)
    tack = height_mm(length_mm, float(sail.tack_mm or 0.0))
    parts = np.linspace(0.0, 1.0, 5)
    widths = lp * (1 - parts)
    for i, (name, _part) in enumerate(_WIDTHS, start=1):
        measured = getattr(sail, name)
        if measured is not None and reef is None:
            widths[i] = measured
    # On its way up or down the clew comes past every height between deck and foot.
    below = (min(tack, foot), lp if state.hoisting or tack >= foot else 0.0)
    return (np.array([below[0], *(foot + parts * (top - foot))]), np.array([below[1], *widths]))

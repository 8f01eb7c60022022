"""Sails before a horn or in a radar's beam: over which bearings and heights cloth may stand, state by state.

Cloth stands on the lee side, so on each tack it covers one of the two sides; where the sheet holds it
nobody knows, so the whole sector that it sweeps about its luff is asked, as far as it reaches. A sail on
its way up or down is left out. Headsails swing from abeam to abeam, a mainsail as far as its boom.
"""

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.arcs import overlap_deg
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.main.cloth import missing as missing_of_main
from mastlayout.geometry.main.main import Main, angle_of
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.sector import seen_round
from mastlayout.geometry.tack.cloth import State, missing
from mastlayout.geometry.tack.tack import Tack
from mastlayout.limits import limits_of
from mastlayout.model.measure import Measure
from mastlayout.model.sails import Sail
from mastlayout.once import lately, once
from mastlayout.words import _

SOURCE = _("geometry: the sector that cloth sweeps about its luff, between the luff and the beam's edges")
FORMULA = _("bearing of the luff, to either side as far as a line touches the sector of its chord")
# Cloth is asked at heights so far apart.
_STEP_MM = 50.0
_LEAST_DEG = 0.05
# A yacht has a few horns and radars; a drag asks for another place of one with every move.
_KEPT = 16
_HEADSAILS = ("headsail", "staysail")


@dataclass(frozen=True, eq=False)
class SailBefore:
    """One state of a sail: the bearing of its luff, how far cloth is seen round to port and to starboard.

    Degrees; ``low_mm`` and ``high_mm`` are the heights from the heel between which it stands there.
    """

    state: State
    luff_deg: float
    port_deg: float
    starboard_deg: float
    low_mm: float
    high_mm: float

    @property
    def seen(self) -> tuple[float, float]:
        """Its bearings on either tack, clockwise from the first."""
        return self.luff_deg - self.port_deg, self.luff_deg + self.starboard_deg

    @property
    def all_round(self) -> bool:
        """Tell whether it may stand at any bearing, half of them on each tack."""
        return self.port_deg + self.starboard_deg > 360.0 - _LEAST_DEG

    def covers_deg(self, first_deg: float, last_deg: float) -> float:
        """Return how much of an arc cloth covers on the tack on which it covers more."""
        return float(covers_deg((self,), first_deg, last_deg)[0])


def sails_before(scene: Scene, point: Array, half_deg: float) -> list[SailBefore]:
    """Return the states of sails that a beam from a point (3,) meets, half as tall as ``half_deg``.

    The beam is level while the mast leans: it is taken so much taller, and never too low.
    """
    if not (len(scene.tack.cloths) or scene.main.states):
        return []
    half = half_deg + abs(scene.layout.mast.rake_deg or 0.0)
    place = (float(point[0]), float(point[1]), float(point[2]))
    return list(_met(scene.main, scene.skin.length_mm, place, half))


@lately(_KEPT)
def _met(
    main: Main, length_mm: float, place: tuple[float, float, float], half_deg: float
) -> tuple[SailBefore, ...]:
    """Return them as a tuple; while another fitting moves, sails and points stay the same."""
    rise, point = float(np.tan(np.radians(max(min(half_deg, 89.0), 1e-6)))), np.array(place)
    near = _farthest_mm(main, point) * rise
    swept = _swept(main, length_mm)
    rows = np.flatnonzero(np.abs(swept.z_mm - point[2]) <= near + _STEP_MM)
    if not len(swept.states) or not len(rows):
        return ()
    z_mm, shape = swept.z_mm[rows], (len(swept.states), len(rows))
    beyond = np.broadcast_to(np.abs(z_mm - point[2]) / rise, shape).ravel()
    sectors = (swept.apex[:, rows].reshape(-1, 2), swept.radius[:, rows].ravel())
    seen = seen_round(point[:2], *sectors, swept.half_angle[:, rows].ravel(), beyond)
    rounds = zip(swept.states, *(part.reshape(shape) for part in seen), strict=True)
    found = (_seen(state, point[2], z_mm, *own) for state, *own in rounds)
    return tuple(one for one in found if one is not None)


@dataclass(frozen=True, eq=False)
class _Swept:
    """The sectors that s states sweep at r heights: apex (s, r, 2), radius and half angle (s, r)."""

    z_mm: Array
    states: tuple[State, ...]
    apex: Array
    radius: Array
    half_angle: Array


@once
def _swept(main: Main, length_mm: float) -> _Swept:
    """Return what all sails sweep, at every height: it hangs on no point."""
    z_mm = np.arange(0.0, length_mm + _STEP_MM, _STEP_MM)
    sectors = [*_of_headsails(main.tack, z_mm), *_of_mains(main, z_mm)]
    states = tuple(state for state, *_sector in sectors)
    shape = (len(states), len(z_mm))
    apex = np.array([own[1] for own in sectors]).reshape(*shape, 2)
    return _Swept(z_mm, states, apex, *(np.array([own[i] for own in sectors]).reshape(shape) for i in (2, 3)))


def _farthest_mm(main: Main, point: Array) -> float:
    """Return how far off a point (3,) no cloth is farther, level: a bound."""
    cloths = main.tack.cloths
    luffs = [*cloths.luffs.pins[..., :2].reshape(-1, 2), main.luff]
    away = max(float(np.hypot(*(luff - point[:2]))) for luff in luffs)
    sags = float(cloths.luffs.sag_mm.max(initial=0.0))
    # Swung out a sloping luff's cloth is cut longer, by less than a half.
    widths = [float(cloths.width.max(initial=0.0)) * 1.5, *(float(own.width.max()) for own in main.states)]
    return away + sags + max(widths)


def widest(found: Iterable[SailBefore], first_deg: float, last_deg: float) -> SailBefore | None:
    """Return the state that covers most of an arc, of those alike the first; None where none covers any."""
    every = tuple(found)
    if not every:
        return None
    covered = covers_deg(every, first_deg, last_deg)
    most = int(covered.argmax())
    return every[most] if covered[most] > _LEAST_DEG else None


def covers_deg(found: Sequence[SailBefore], first_deg: float, last_deg: float) -> Array:
    """Return how much (n,) of an arc the cloth of n states covers on the tack on which it covers more."""
    sides = [side for one in found for side in ((one.seen[0], one.luff_deg), (one.luff_deg, one.seen[1]))]
    overlaps = overlap_deg(np.array(sides).reshape(-1, 2), first_deg, last_deg)
    return np.asarray(overlaps.reshape(-1, 2).max(axis=1))


def widest_of_each(found: Iterable[SailBefore]) -> list[SailBefore]:
    """Return of each sail the state that is seen widest, of those alike the first."""
    widest_: dict[str, SailBefore] = {}
    for one in found:
        known = widest_.setdefault(one.state.sail.id, one)
        if one.port_deg + one.starboard_deg > known.port_deg + known.starboard_deg + _LEAST_DEG:
            widest_[one.state.sail.id] = one
    return list(widest_.values())


def sail_figure(one: SailBefore, first_deg: float, last_deg: float) -> Figure:
    """Return how much of an arc a state of a sail covers on one tack."""
    covered = one.covers_deg(first_deg, last_deg)
    name, inputs = _("covered by cloth on the lee side"), {"luff_deg": one.luff_deg}
    return Figure(name, covered, "°", FORMULA, SOURCE, inputs)


def beam_figure(one: SailBefore) -> Figure:
    """Return over how much of the circle a state of a sail stands on the tack on which that is more."""
    name, inputs = _("in the beam on one tack"), {"luff_deg": one.luff_deg}
    return Figure(name, max(one.port_deg, one.starboard_deg), "°", FORMULA, SOURCE, inputs)


def _of_headsails(tack: Tack, z_mm: Array) -> Iterator[tuple[State, Array, Array, Array]]:
    """Yield state, apex (r, 2), radius and half angle (r,) of each headsail at heights."""
    cloths, abeam = tack.cloths, np.full(len(z_mm), np.pi / 2)
    for number, state in enumerate(cloths.states):
        # Backed, cloth hangs in a deeper belly within the same sector.
        if not (state.hoisting or state.backed):
            own = np.full(len(z_mm), number)
            yield state, cloths.luffs.point(cloths.luff[own], z_mm), cloths.longest(own, z_mm, abeam), abeam


def _of_mains(main: Main, z_mm: Array) -> Iterator[tuple[State, Array, Array, Array]]:
    """Yield the same of each mainsail."""
    apex = np.broadcast_to(main.luff, (len(z_mm), 2))
    for own in main.states:
        if not own.state.hoisting:
            yield own.state, apex, own.chord(z_mm), own.angle(z_mm)


def _seen(
    state: State, point_z_mm: float, z_mm: Array, luff: Array, port: Array, starboard: Array
) -> SailBefore | None:
    rows = np.flatnonzero(~np.isnan(port))
    if not len(rows):
        return None
    # A luff leans: its own bearing is told at the height nearest the beam's middle.
    middle = rows[np.abs(z_mm[rows] - point_z_mm).argmin()]
    turn = (luff[rows] - luff[middle] + 180.0) % 360.0 - 180.0
    return SailBefore(
        state,
        float(luff[middle]),
        float(min((port[rows] - turn).max(), 180.0)),
        float(min((starboard[rows] + turn).max(), 180.0)),
        float(z_mm[rows[0]]),
        float(z_mm[rows[-1]]),
    )


def not_known(scene: Scene) -> Iterator[tuple[Sail, Measure]]:
    """Yield each sail of which nobody knows where its cloth is, with the first measure that is missing."""
    for sail in scene.layout.sails:
        lacks: tuple[Measure, ...] = ()
        if sail.role in _HEADSAILS:
            stay = scene.stays.get(sail.stay or "")
            lacks = missing(sail) or (stay.unknown if stay is not None else ())
        elif sail.role == "main":
            boom = angle_of(sail, scene.skin, scene.stays, limits_of(scene.layout))
            lacks = missing_of_main(sail, boom)
        if lacks:
            yield sail, lacks[0]


def heights_from_masthead(scene: Scene, one: SailBefore) -> tuple[float, float]:
    """Return the heights between which a sail stands there, from the masthead, the upper first."""
    return height_mm(scene.skin.length_mm, one.high_mm), height_mm(scene.skin.length_mm, one.low_mm)

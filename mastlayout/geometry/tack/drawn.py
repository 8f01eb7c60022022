"""The tack at one height, to be drawn: how far from the luff the cloth of one state gets in each direction.

All of it is seen from the luff point, since what cloth sweeps is: along a ray it gets as far as its
length, or to the first of what holds it. Angles are from straight aft, positive to port. The
boundary is that of the checks, with the plan of a guard as one thing more that holds.
"""

from collections.abc import Iterator, Sequence
from functools import cached_property

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.tack.cloth import Cloths
from mastlayout.geometry.tack.directions import COUNT, corners
from mastlayout.geometry.tack.holding import guard_parts, holding
from mastlayout.geometry.tack.outlines import plans
from mastlayout.geometry.tack.reach import MAST_NAME, PAIR_MM, Boundary, boundary, sliced
from mastlayout.geometry.tack.tack import Tack

# Abeam to abeam: where cloth swings.
_ABEAM = np.pi / 2
_ARC_STEP = np.radians(0.5)
# Just beside an edge, radians: under 0.01 mm at 5 m.
_BESIDE = 1e-6
# A belly is drawn by so many points.
_POINTS = 17
# Cloth as near as this to where it would be touched lies there.
_LIES_MM = 2.0
# Half of a slider's way: so many times what holds the cloth, or so far where nothing does, radians.
_AROUND, _AROUND_NOTHING = 1.5, 0.1


@dataclass(frozen=True, eq=False)
class Rays:
    """Angles (n,) from starboard to port, and how far cloth gets in each.

    ``chord`` (n,) is how long the cloth is there, and ``laid`` (n,) how far all of it gets. ``held``
    (n,) is how far cloth gets that bears on what it meets, ``loose`` (n,) how far a loose leech gets
    that ends short of the mast.
    """

    angles: Array
    chord: Array
    laid: Array
    held: Array
    loose: Array


@dataclass(frozen=True, eq=False)
class Swept:
    """One state of cloth at one height: its luff point (2,) and what holds it, one slice of a boundary.

    ``holders`` are the ids of what holds it; between two of them it hangs in by ``belly`` of their distance.
    """

    cloths: Cloths
    state: int
    z_mm: float
    luff: Array
    edge: Boundary
    holders: tuple[str, ...]
    belly: float = 0.0

    @cached_property
    def bellied(self) -> Boundary:
        """What holds the cloth where it hangs in between."""
        return self.edge.bellied(self.belly)

    @cached_property
    def bellies(self) -> list[Array]:
        """The lines (k, 2) along which cloth hangs in between two things that hold it, as long as it is."""
        bridges, reached = self.edge.shades.bridges, self._reached
        hung = [int(self.edge.shades.bridge[one]) for one in self.edge.which[0, reached] if one >= 0]
        return [
            _hung(bridges.ends[0][row, b], bridges.ends[1][row, b], bridges.edges.normal[row, b], self.belly)
            for row in hung
            if row >= 0 and self.belly
            for b in np.flatnonzero(np.isfinite(bridges.edge_offset[row]))
        ]

    @property
    def _reached(self) -> int:
        """How many supports are within the cloth's length."""
        return int((self.edge.slices.distance[0] <= self.chord_at(0.0)).sum())

    @cached_property
    def rays(self) -> Rays:
        """How far cloth gets, seen from the luff."""
        return _rays(self.cloths, self.state, self.z_mm, self.edge)

    @cached_property
    def stopped(self) -> Mask:
        """Tell of each angle (n,) whether something holds the cloth there."""
        return np.asarray(self.rays.laid < self.rays.chord - PAIR_MM)

    @property
    def sailed(self) -> Array:
        """The outline (n + 1, 2) of what the cloth bears on, the luff first."""
        return np.concatenate([self.luff[None], self.at(self.rays.angles, self.rays.held)])

    @property
    def whipped(self) -> list[Array]:
        """The outlines (k, 2) of what only a loose leech gets at."""
        rays, found = self.rays, []
        for run in _runs(rays.loose > rays.held + PAIR_MM):
            wide = slice(max(run.start - 1, 0), run.stop + 1)
            near = rays.held[wide]
            far = np.maximum(rays.loose[wide], near)
            out, back = (self.at(rays.angles[wide], radius) for radius in (far, near))
            found.append(np.concatenate([out, back[::-1]]))
        return found

    @property
    def edges(self) -> list[Array]:
        """The lines (k, 2) along which what holds the cloth stops it."""
        return self._lines(self.stopped)

    @property
    def ends(self) -> list[Array]:
        """The lines (k, 2) that the leech draws where nothing stops it."""
        return self._lines(~self.stopped)

    def _lines(self, there: Mask) -> list[Array]:
        return [self.at(self.rays.angles[run], self.rays.laid[run]) for run in _runs(there)]

    def at(self, angle: Array | float, radius: Array | float) -> Array:
        """Return the points (…, 2) at angles and distances from the luff."""
        angle, radius = np.asarray(angle), np.asarray(radius)
        ways = np.stack([-np.cos(angle), np.sin(angle)], axis=-1)
        return np.asarray(self.luff + radius[..., None] * ways)

    def chord_at(self, swung: float) -> float:
        """Return how long the cloth is that swings so far off straight aft, on the way there too."""
        one = np.array([self.state])
        return float(self.cloths.longest(one, np.array([self.z_mm]), np.array([swung]))[0])

    def cloth(self, angle: float) -> Array:
        """Return the line (k, 2) of the cloth whose middle is carried from port to ``angle``.

        Where something holds it there, it lies on that, and the rest of it trails to port.
        """
        rays = self.rays
        laid = float(np.interp(angle, rays.angles, rays.laid))
        left = max(self.chord_at(abs(angle)) - laid, 0.0)
        trail = rays.angles > angle
        points = np.concatenate([self.at(angle, laid)[None], self.at(rays.angles[trail], rays.laid[trail])])
        return np.concatenate([self.luff[None], _first(points, left)])

    def carried(self, part: float) -> Array:
        """Return the line (k, 2) of the cloth carried a part of the way: ``angle``."""
        return self.cloth(self.angle(part))

    def hung(self, part: float) -> list[Array]:
        """Return the outlines (k, 2) of what cloth carried a part of the way hangs into, belly by belly."""
        import shapely  # noqa: PLC0415 - as where the fronts are made

        taut = shapely.linestrings(self.carried(part))
        ends = [shapely.points(line[[0, -1]]) for line in self.bellies]
        lies = [bool((shapely.distance(taut, both) < _LIES_MM).all()) for both in ends]
        return [line for line, on in zip(self.bellies, lies, strict=True) if on]

    @cached_property
    def beside(self) -> float:
        """How far off the middle, radians, the mast and what it shelters with still hold the cloth."""
        angles = self.rays.angles
        middle = int(np.argmin(np.abs(angles)))
        run = next((run for run in _runs(self.stopped) if run.start <= middle < run.stop), None)
        if run is None:
            return 0.0
        return float(max(-angles[run.start], angles[run.stop - 1]))

    def angle(self, part: float) -> float:
        """Return the angle of a part of the way from port abeam, -1, to starboard abeam, 1.

        Half of the way lies across what holds the cloth and a little to either side, where it matters.
        """
        slow = min(_AROUND * self.beside or _AROUND_NOTHING, _ABEAM / 2)
        return float(-np.interp(part, (-1.0, -0.5, 0.5, 1.0), (-_ABEAM, -slow, slow, _ABEAM)))


def swept(
    tack: Tack, state: int, z_mm: float, guards: Sequence[Placed] = (), belly: float = 0.0
) -> Swept | None:
    """Return what a state sweeps at a height; None where it has no cloth, or its luff lies in what holds."""
    z, own = np.array([z_mm]), np.array([state])
    chord = float(tack.cloths.chord(own, z)[0])
    if chord <= 0:
        return None
    luff = tack.cloths.luffs.point(tack.cloths.luff[own], z)
    held = holding(tack.rig, z)
    hoops = {guard.id: hoop for guard in guards if (hoop := _plan(guard, z_mm)) is not None}
    # A guard is of one piece with the mast: it holds from its nearest point, as the mast does.
    plans = np.array(list(hoops.values())).reshape(1, -1, COUNT)
    support = np.concatenate([held.support, plans], axis=1)
    name = np.concatenate([held.name, np.full((1, len(hoops)), MAST_NAME)], axis=1)
    edge = boundary(sliced(luff, support, name))
    if edge.slices.inside[0]:
        return None
    numbers = edge.slices.name[0][edge.slices.distance[0] <= chord]
    holders = dict.fromkeys((*hoops, *(held.names[i] for i in numbers)))
    return Swept(tack.cloths, state, z_mm, luff[0], edge, tuple(holders), belly)


def _hung(start: Array, end: Array, normal: Array, belly: float) -> Array:
    """Return the points (k, 2) of cloth between two it touches, hanging in against their line's normal."""
    parts = np.linspace(0.0, 1.0, _POINTS)[:, None]
    depth = 4 * belly * parts * (1 - parts) * float(np.linalg.norm(end - start))
    return np.asarray(start + parts * (end - start) - depth * normal)


def _plan(guard: Placed, z_mm: float) -> Array | None:
    """Return the support (COUNT,) of a guard's plan; None where it does not reach a height."""
    hoop = guard.solids[guard_parts(guard)]
    low, high = hoop.span_z()
    if not len(hoop) or not low.min() <= z_mm <= high.max():
        return None
    return np.asarray(plans(hoop).max(axis=0))


def _rays(cloths: Cloths, state: int, z_mm: float, edge: Boundary) -> Rays:
    distance = edge.slices.distance[0]
    groups = [group for group in np.unique(edge.which[0]).tolist() if group >= 0]
    seen = dict(zip(groups, _fronts(edge, groups) if groups else (), strict=True))
    angles = _asked(list(seen.values()))
    met = {group: _met(front, angles) for group, front in seen.items()}
    one = np.full(len(angles), state)
    chord = cloths.longest(one, np.full(len(angles), z_mm), np.abs(angles))
    reached = (distance <= chord[:, None]).sum(axis=1)
    name = edge.slices.name[0]
    place = np.flatnonzero(name == MAST_NAME).max(initial=-1)
    laid, held, loose = (np.zeros(len(angles)) for _each in range(3))
    for k in range(int(reached.max()) + 1):
        length = np.where(k == reached, chord, distance[k] if k < len(distance) else np.inf)
        shortest = distance[k - 1] + PAIR_MM if k else 0.0
        there = (k <= reached) & (length >= shortest)
        radius = np.minimum.reduce([length, *(met[int(group)] for group in edge.which[0, k] if group >= 0)])
        laid = np.where(k == reached, radius, laid)
        between = k > 0 and (place < 0 or k <= place)
        into = loose if between else held
        np.maximum(into, np.where(there, radius, 0.0), out=into)
    return Rays(angles, chord, laid, held, loose)


def _fronts(edge: Boundary, groups: Sequence[int]) -> Iterator[Array]:
    """Yield each hull's corners on the luff's side, from starboard to port: angles and distances (2, c)."""
    import shapely  # noqa: PLC0415 - 20 ms at the first sail that is drawn

    group, support = np.nonzero(edge.members[groups])
    points = corners(edge.slices.support[0])[support].reshape(-1, 2)
    hulls = shapely.convex_hull(shapely.multipoints(points, indices=np.repeat(group, COUNT)))
    turns = np.where(shapely.is_ccw(shapely.get_exterior_ring(hulls)), 1, -1)
    hull, whose = shapely.get_coordinates(hulls, return_index=True)
    ways = hull - edge.slices.luff[0]
    angle, away = np.arctan2(ways[:, 1], -ways[:, 0]), np.hypot(*ways.T)
    begins = np.searchsorted(whose, np.arange(len(groups) + 1))
    for turn, first, beyond in zip(turns.tolist(), begins[:-1].tolist(), begins[1:].tolist(), strict=True):
        count = beyond - first - 1  # a ring ends where it began
        own = angle[first : first + count]
        starboard, port = int(np.argmin(own)), int(np.argmax(own))
        # Against the clock a hull goes from starboard to port on the side that is seen.
        steps = np.arange((turn * (port - starboard)) % count + 1)
        near = first + (starboard + turn * steps) % count
        yield np.stack([angle[near], away[near]])


def _asked(fronts: list[Array]) -> Array:
    """Return the angles to be asked: even steps, every corner, and just beside the two ends of each front."""
    marks = [np.arange(-_ABEAM, _ABEAM + _ARC_STEP / 2, _ARC_STEP)]
    for angle, _away in fronts:
        marks += [angle, angle[[0, -1]] + np.array([-_BESIDE, _BESIDE])]
    every = np.unique(np.concatenate(marks))
    return np.asarray(every[np.abs(every) <= _ABEAM])


def _met(front: Array, angles: Array) -> Array:
    """Return how far (n,) along rays a front is met; inf where a ray misses it."""
    angle, away = front
    met = np.full(len(angles), np.inf)
    own = (angles >= angle[0]) & (angles <= angle[-1])
    met[own] = _ray(angle, away, angles[own])
    return met


def _ray(angle: Array, away: Array, asked: Array) -> Array:
    """Return how far along rays (n,) the chain of corners is met."""
    i = np.clip(np.searchsorted(angle, asked, side="right") - 1, 0, len(angle) - 2)
    turn, here, there = angle[i + 1] - angle[i], away[i], away[i + 1]
    on, off = asked - angle[i], angle[i + 1] - asked
    area = here * np.sin(on) + there * np.sin(off)
    ahead = here * there * np.sin(turn)
    return np.asarray(np.where(turn > 0, ahead / np.where(area > 0, area, 1.0), np.minimum(here, there)))


def _runs(there: Mask) -> list[slice]:
    """Return the runs of what is there."""
    steps = np.flatnonzero(np.diff(np.concatenate([[0], there.astype(int), [0]])))
    return [slice(int(a), int(b)) for a, b in zip(steps[::2], steps[1::2], strict=True)]


def _first(points: Array, length: float) -> Array:
    """Return the first ``length`` mm of a line through points (k, 2)."""
    legs = np.linalg.norm(np.diff(points, axis=0), axis=1)
    run = np.concatenate([[0.0], np.cumsum(legs)])
    whole: Whole = np.flatnonzero(run <= length)
    last = int(whole[-1])
    if last + 1 >= len(points) or legs[last] <= 0:
        return np.asarray(points[whole])
    part = (length - run[last]) / legs[last]
    return np.concatenate([points[whole], [points[last] + part * (points[last + 1] - points[last])]])

"""What a thing snaps to while it is dragged: centrelines, neighbours' heights, equal spacing."""

from collections.abc import Container, Iterable, Iterator
from itertools import pairwise

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Ring
from mastlayout.model.around import AFT, AHEAD, Around
from mastlayout.model.fitting import MAST
from mastlayout.ui.moving.girth import around_of
from mastlayout.ui.typed import written
from mastlayout.units import Units
from mastlayout.words import _

# A bearing names the widest place where it means the same to this.
_SAME_MM = 0.05
_QUARTERS = ((0.0, _("on top")), (90.0, _("ahead")), (180.0, _("below")), (270.0, _("abaft")))


@dataclass(frozen=True)
class Target:
    """A place that a thing snaps to, in the measure of its way, and what is said of it.

    ``place`` is what the edit is given: for a girth the centreline itself, not a number.
    """

    value: float
    words: str
    place: float | Around


def nearest(targets: Iterable[Target], wanted: float, reach: float, turn: float = 0.0) -> Target | None:
    """Return the nearest target within reach, the first of equals; ``turn`` is once round, 0 for a line."""

    def off(target: Target) -> float:
        away = abs(target.value - wanted)
        return min(away % turn, -away % turn) if turn else away

    best = min(targets, key=off, default=None)
    return best if best is not None and off(best) <= reach else None


# -- along


@dataclass(frozen=True)
class _Neighbour:
    along: float
    name: str
    kind: str


class Rungs:
    """The places along a host that a thing snaps to; its neighbours stand still while it is dragged.

    ``on`` is the host and ``kind`` the id of the thing's kind, "" where it has none; ``but`` are
    its own id, and that of what goes along with it, where it is in the scene already.
    """

    def __init__(self, scene: Scene, on: str, kind: str, units: Units, but: Container[str] = ()) -> None:
        self._units = units
        found = _on_mast(scene, but) if on == MAST else _on_rig(scene, on, kind, but)
        self._all = sorted(found, key=lambda neighbour: neighbour.along)
        self._row = [neighbour for neighbour in self._all if kind and neighbour.kind == kind]

    def near(self, wanted: float) -> Iterator[Target]:
        """Yield what a thing near a place may snap to: neighbours first, then equal spacing."""
        for neighbour in self._all:
            yield _target(neighbour.along, _("level with {name}").format(name=neighbour.name))
        yield from self._midway(self._row, wanted)
        yield from self._midway(self._all, wanted)
        yield from self._onward(wanted)

    def _midway(self, neighbours: list[_Neighbour], wanted: float) -> Iterator[Target]:
        for one, other in pairwise(neighbours):
            if one.along < wanted < other.along:
                middle = round((one.along + other.along) / 2, 2)
                gap = written(middle - one.along, self._units, 1)
                words = _("midway between {one} and {other}, {gap} from each")
                yield _target(middle, words.format(one=one.name, other=other.name, gap=gap))

    def _onward(self, wanted: float) -> Iterator[Target]:
        """Continue the spacing of the two nearest of its kind above, and below."""
        above = _apart([neighbour for neighbour in self._row if neighbour.along < wanted])
        below = _apart([neighbour for neighbour in reversed(self._row) if neighbour.along > wanted])
        for near in (above, below):
            if len(near) == 2:
                last, before = near
                on = round(2 * last.along - before.along, 2)
                gap = written(abs(last.along - before.along), self._units, 1)
                words = _("{gap} from {last}, as {last} from {before}")
                yield _target(on, words.format(gap=gap, last=last.name, before=before.name))


def _target(along: float, words: str) -> Target:
    return Target(along, words, along)


def _apart(towards: list[_Neighbour]) -> list[_Neighbour]:
    """Return the last of a row and the next before it that stands elsewhere."""
    if not towards:
        return []
    last = towards[-1]
    before = next((other for other in reversed(towards) if abs(other.along - last.along) > 1.0), None)
    return [last, before] if before else []


def _on_mast(scene: Scene, but: Container[str]) -> Iterator[_Neighbour]:
    length = scene.skin.length_mm
    for placed in scene.placed.values():
        if placed.skin is not None and placed.id not in but:
            yield _Neighbour(round(height_mm(length, placed.z_mm), 2), placed.fitting.name, placed.kind.id)
    for bar in scene.layout.spreaders:
        if bar.id not in but:
            yield _Neighbour(bar.from_masthead_mm, bar.name, "")
    for stay in scene.layout.stays:
        if stay.id not in but:
            yield _Neighbour(stay.upper.from_masthead_mm, stay.name, "")
    for hole in scene.layout.holes:
        if hole.id not in but:
            yield _Neighbour(hole.from_masthead_mm, hole.name, "")


def _on_rig(scene: Scene, host: str, kind: str, but: Container[str]) -> Iterator[_Neighbour]:
    """Yield what stands on the same spreader or stay, and its like on any other."""
    rig = {*scene.spreaders, *scene.stays}
    for placed in scene.placed.values():
        on, along = placed.fitting.on, placed.fitting.along_mm
        alike = placed.kind.id == kind and on in rig
        if placed.id not in but and along is not None and (on == host or alike):
            yield _Neighbour(along, placed.fitting.name, placed.kind.id if on == host else "")


# -- round


def girths(scene: Scene, z_mm: float, half_across_mm: float | None) -> list[Target]:
    """Return the centrelines, the widest places and the track's edges at a height.

    ``half_across_mm`` is half the width of the foot that stands clear of the track, None without one.
    """
    ring = scene.skin.ring(z_mm)
    half = ring.half_girth_mm
    found = [
        Target(half, _("on the forward centreline"), AHEAD),
        Target(0.0, _("on the middle of the track"), AFT),
    ]
    found += [
        _widest(ring, 1.0, _("at the widest, starboard")),
        _widest(ring, -1.0, _("at the widest, port")),
    ]
    track = scene.skin.half_track_mm
    if track is not None and half_across_mm is not None:
        edge = track + half_across_mm
        sides = ((1.0, _("foot at the track’s edge, starboard")), (-1.0, _("foot at the track’s edge, port")))
        found += [Target(s * edge, words, around_of(s * edge, ring)) for s, words in sides if edge < half]
    return found


def half_across_mm(placed: Placed | None) -> float | None:
    """Return half the width of a fitting's foot; None for what has none."""
    outline = None if placed is None else placed.outline
    return None if outline is None else float(np.ptp(outline[:, 0])) / 2


def _widest(ring: Ring, side: float, words: str) -> Target:
    wide = ring.y >= ring.y.max() - _SAME_MM
    girth = side * float(ring.girth[wide].min() + ring.girth[wide].max()) / 2
    bearing = 90.0 if side > 0 else 270.0
    if abs(ring.girth_at_bearing(bearing) - girth) <= _SAME_MM:
        return Target(girth, words, Around(origin="bearing", offset=bearing))
    return Target(girth, words, around_of(girth, ring))


def quarters(on_stay: bool) -> list[Target]:  # noqa: FBT001 - one question, asked in one place
    """Return the four sides of a spreader; round a stay the bearings carry no names of their own."""
    return [] if on_stay else [Target(value, words, value) for value, words in _QUARTERS]

"""What each light, antenna and horn reaches round the compass: one ring each, for window, print and JSON."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.limits import limits_of
from mastlayout.ranges.hidden import cast
from mastlayout.ranges.lights import Lens, lenses
from mastlayout.ranges.mouth import arc_of, in_front
from mastlayout.ranges.own_radar import holders, is_radar
from mastlayout.ranges.sound import is_sound
from mastlayout.words import _

Bearings = tuple[float, float]
_WAVES = ("radio", "radar", "echo")


@dataclass(frozen=True)
class Arc:
    """An arc over which something shows or hears: its name, colour and bearings clockwise from ahead."""

    name: str
    colour: str
    first_deg: float
    last_deg: float


@dataclass(frozen=True)
class InTheWay:
    """A thing that stands before a light or antenna, by its id.

    ``seen`` are the bearings it covers as seen from the middle; ``dark`` those over which it covers
    all of the lens, None where nowhere; ``share`` how much of it, 0 to 1, it covers at most. ``away_mm``
    is how far off the nearest of it is, corner or axis; 0 where nobody asked.
    """

    id: str
    seen: Bearings
    dark: Bearings | None
    share: float
    away_mm: float = 0.0


@dataclass(frozen=True)
class Ring:
    """One lens or antenna: its fitting, the arcs it shows over, what stands in its way, how wide it is."""

    id: str
    tag: int | None
    name: str
    arcs: tuple[Arc, ...]
    in_the_way: tuple[InTheWay, ...]
    is_light: bool
    wide_mm: float = 0.0


def every_ring(scene: Scene) -> Iterator[Ring]:
    """Yield a ring for each lens, antenna, radar and reflector, then for each mouth, masthead first."""
    yield from _seeing(scene)
    yield from _heard(scene)


def rings(scene: Scene) -> tuple[Ring, ...]:
    """Return a ring for each lens of a light, antenna, radar and reflector, masthead first."""
    return tuple(_seeing(scene))


def _seeing(scene: Scene) -> Iterator[Ring]:
    return (ring for placed in masthead_first(scene) for ring in rings_of(scene, placed))


def rings_of(scene: Scene, placed: Placed) -> Iterator[Ring]:
    """Yield a ring for each lens of one fitting, and one for its antenna."""
    limits = limits_of(scene.layout)
    asked = _Asked(
        limits["light.dim"].value / 100.0, limits["light.band"].value, limits["light.dim_arc"].value
    )
    yield from _rings_of(scene, placed, asked)


def mouth_rings(scene: Scene) -> tuple[Ring, ...]:
    """Return a ring for each horn and hailer, masthead first: the 90 degrees before its mouth."""
    return tuple(_heard(scene))


def _heard(scene: Scene) -> Iterator[Ring]:
    return (_mouth_ring(scene, placed) for placed in masthead_first(scene) if is_sound(placed))


@dataclass(frozen=True)
class _Asked:
    """What counts: the share of a lens, 0 to 1, the band about the level and the least arc, degrees."""

    dims: float
    band_deg: float
    least_deg: float
    apart: frozenset[str] = frozenset()


def _rings_of(scene: Scene, placed: Placed, asked: _Asked) -> Iterator[Ring]:
    for lens in lenses(placed):
        way, wide = _in_the_way(scene, placed, (lens.solid,), asked)
        yield Ring(*_named(placed), _arcs_of(lens), way, is_light=True, wide_mm=wide)
    radio = tuple(
        Arc(sector.name, "", sector.from_deg, sector.to_deg)
        for sector in placed.kind.sectors
        if sector.what in _WAVES
    )
    if radio and len(placed.solids):
        parts = _waved(placed)
        apart = holders(placed) if is_radar(placed) else frozenset()
        way, wide = _in_the_way(scene, placed, parts, replace(asked, band_deg=0.0, apart=apart))
        yield Ring(*_named(placed), radio, way, is_light=False, wide_mm=wide)


def _named(placed: Placed) -> tuple[str, int | None, str]:
    return placed.id, placed.fitting.tag, placed.fitting.name


def _mouth_ring(scene: Scene, placed: Placed) -> Ring:
    limits = limits_of(scene.layout)
    found = in_front(scene, placed, limits)
    way = tuple(InTheWay(one.id, one.seen, None, one.share, one.away_mm) for one in found)
    wide = found[0].mouth_mm if found else 0.0
    first, last = (bearing % 360.0 for bearing in arc_of(placed))
    arc = Arc(_("before its mouth"), "", first, last)
    return Ring(*_named(placed), (arc,), way, is_light=False, wide_mm=wide)


def _waved(placed: Placed) -> list[int]:
    """Return the numbers of the solids that send or catch waves: its rods, else its body, else all."""
    parts = placed.body.parts
    for wanted in ("antenna", "body"):
        own = [i for i, part in enumerate(parts) if part == wanted]
        if own:
            return own
    return list(range(len(parts)))


def _arcs_of(lens: Lens) -> tuple[Arc, ...]:
    colours = {"port": "red", "starboard": "green", "sail-red": "red", "sail-green": "green"}
    return tuple(
        Arc(role.name, colours.get(role.key, "white"), role.first_deg, role.last_deg) for role in lens.roles
    )


def _in_the_way(
    scene: Scene, placed: Placed, parts: Sequence[int], asked: _Asked
) -> tuple[tuple[InTheWay, ...], float]:
    """Return what stands in a source's way, by its bearings, and how wide the source is, mm."""
    seen = cast(scene, placed, placed.solids, parts, asked.dims, asked.band_deg, asked.apart)
    found = seen.found
    things = [
        InTheWay(
            seen.ids[int(found.owner[i])],
            (float(found.edge[i, 0]), float(found.edge[i, 1])),
            None if np.isnan(found.dark[i, 0]) else (float(found.dark[i, 0]), float(found.dark[i, 1])),
            float(found.share[i]),
            float(found.away_mm[i]),
        )
        for i in np.flatnonzero(found.dim[:, 1] - found.dim[:, 0] > asked.least_deg).tolist()
    ]
    return tuple(sorted(things, key=lambda thing: sum(thing.seen) % 720.0)), seen.wide_mm

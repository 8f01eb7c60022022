"""What one place gives one fitting: how far it reaches, what hides it, what it weighs up there."""

from collections.abc import Iterator, Mapping
from typing import Literal

import numpy as np

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.bearings import sectors
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import limits_of
from mastlayout.ranges.air_draught import air_draught
from mastlayout.ranges.asked import EXAMPLE, Asked
from mastlayout.ranges.heights import water_height
from mastlayout.ranges.lights import light_sectors
from mastlayout.ranges.own_radar import is_radar, radar_row
from mastlayout.ranges.reach import REACHES
from mastlayout.ranges.reflector import (
    FADES_SOURCE,
    ForShip,
    ReflectorRow,
    body_parts,
    is_reflector,
    middle_mm,
    reflector_row,
)
from mastlayout.ranges.rings import Arc, Bearings, Ring, rings_of
from mastlayout.ranges.sound import EARS, at_ear, is_sound
from mastlayout.ranges.weight import moment_of
from mastlayout.words import _

Job = Literal["echo", "radar", "radio", "light", "sound"]
JOBS: tuple[Job, ...] = ("echo", "radar", "radio", "light", "sound")
# What a height reaches for a job, by the keys of the reaches; the radio horizon of an echo is asked of ships.
_REACHES: Mapping[Job, tuple[str, ...]] = {
    "echo": (),
    "radar": ("radar_horizon_nm",),
    "radio": ("radio_line_of_sight_nm",),
    "light": ("geographic_range_nm",),
    "sound": (),
}
_OF_RADAR = ("nearest_sea_leeward_m", "nearest_sea_windward_m")


@dataclass(frozen=True, eq=False)
class Given:
    """What a place gives a fitting; ``reach`` is what its height does for its job, by key.

    ``before`` is over how much of its arcs something stands before it, None for a sound; ``reflector`` is
    there for an echo alone; ``moment`` is that of all that moves with it.
    """

    job: Job
    water: Figure
    reach: Mapping[str, Figure]
    before: Figure | None
    moment: Figure
    air: Figure
    reflector: ReflectorRow | None = None

    @property
    def ships(self) -> tuple[ForShip, ...]:
        """What ships see of it."""
        return self.reflector.ships if self.reflector else ()


def job_of(placed: Placed) -> Job | None:
    """Return what a fitting is up there for; None for what is no matter of height."""
    whats = {sector.what for sector in placed.kind.sectors}
    if is_reflector(placed):
        return "echo"
    if is_radar(placed):
        return "radar"
    if light_sectors(placed):
        return "light"
    if "radio" in whats:
        return "radio"
    return "sound" if is_sound(placed) else None


def given(scene: Scene, placed: Placed, moved: frozenset[str], asked: Asked = EXAMPLE) -> Given | None:
    """Return what its place gives a fitting, ``moved`` with it; None for what is no matter of height."""
    job = job_of(placed)
    if job is None:
        return None
    water = water_height(scene, middle_mm(placed, body_parts(placed)), asked)
    reflector = reflector_row(scene, placed, asked) if job == "echo" else None
    before = None if job == "sound" else _before(scene, placed)
    reach = dict(_reach(scene, placed, job, water, asked))
    air = air_draught(scene, limits_of(scene.layout), "whips", "laden")
    return Given(job, water, reach, before, moment_of(scene, moved), air, reflector)


def _reach(
    scene: Scene, placed: Placed, job: Job, water: Figure, asked: Asked
) -> Iterator[tuple[str, Figure]]:
    for reach in REACHES:
        if reach.key in _REACHES[job]:
            yield reach.key, reach.figure(water, asked)
    if job == "radar":
        figures = radar_row(scene, placed, asked).figures
        yield from ((key, figures[key]) for key in _OF_RADAR)
    if job == "sound":
        yield from ((ear, at_ear(scene, placed, ear)) for ear in EARS)


def longest_fade(ship: ForShip) -> Figure:
    """Return the longest stretch, NM, in which an echo fades for a ship short of where it is first seen.

    Short of the last fade, from which nothing comes back, where nobody knows the echo. 0 for none.
    """
    name, formula = _("longest fade, first seen and nearer"), _("where less than a tenth comes back")
    if ship.fades is None:
        return Figure(name, None, "NM", formula, FADES_SOURCE, missing=ship.horizon.missing)
    first = ship.first_seen.value
    inside = [fade for fade in ship.fades if not fade.horizon and (first is None or fade.from_nm < first)]
    longest = max((fade.to_nm - fade.from_nm for fade in inside), default=0.0)
    return Figure(name, longest, "NM", formula, FADES_SOURCE, ship.horizon.inputs)


# -- what stands before it


def _before(scene: Scene, placed: Placed) -> Figure:
    """Return over how much of its own arcs something stands before a light or an antenna, degrees."""
    found = [arc for ring in rings_of(scene, placed) for arc in _in_its_arcs(ring)]
    wide = sectors(np.array(found).reshape(-1, 2))
    total = float((wide[:, 1] - wide[:, 0]).sum())
    return Figure(
        _("something stands before it, in all"), total, "°", _("bearings within its arcs"), _("geometry")
    )


def _in_its_arcs(ring: Ring) -> Iterator[Bearings]:
    for thing in ring.in_the_way:
        for arc in ring.arcs:
            yield from _cut(thing.seen, arc)


def _cut(seen: Bearings, arc: Arc) -> Iterator[Bearings]:
    """Yield what of some bearings lies within an arc, and what of them begins anew once round."""
    wide = (arc.last_deg - arc.first_deg) % 360.0 or 360.0
    start = (seen[0] - arc.first_deg) % 360.0
    end = start + min(seen[1] - seen[0], 360.0)
    for first, last in ((start, min(end, wide)), (0.0, min(end - 360.0, wide))):
        if first < last:
            yield arc.first_deg + first, arc.first_deg + last

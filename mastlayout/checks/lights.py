"""Navigation lights beside their arcs: heights, level, heel, range, and what never shows together.

Heights have the rules' own datums: the gunwale (here the sheer at the shrouds), from 20 m on the hull
(the deck beside the mast, Annex I section 1), under 12 m the sidelights. A class is "12 metres or more".
"""

import math
from collections.abc import Callable, Iterator

import numpy as np

from mastlayout.checks.finding import Finding, Standing, Unit
from mastlayout.checks.rule import WholeRule
from mastlayout.geometry.frames import Array, lean_of, mast_to_boat
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import Fitting
from mastlayout.model.mast import Mast
from mastlayout.model.measure import Measure, measure_of
from mastlayout.ranges.lights import (
    ANCHOR,
    PORT,
    SAIL_GREEN,
    SAIL_RED,
    STARBOARD,
    STEAMING,
    STERN,
    Role,
    faces_deg,
    is_flood,
    is_tricolour,
    lens_point,
    lenses,
    light_sectors,
    required_nm,
    role_of,
)

_TINY_M, _SMALL_M, _LARGE_M, _TWO_M = 7.0, 12.0, 20.0, 50.0


def heights(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Hold each steaming light to its least height: over gunwale, hull from 20 m, sidelights under 12 m."""
    boat, length_m = scene.layout.boat, _length_m(scene)
    for placed in _with(scene, STEAMING):
        if length_m is None:
            yield _unknown("lights/height", placed, measure_of(Boat, "length_overall_mm"))
            continue
        limit, field = _datum(length_m)
        yield from _high_enough(
            scene, placed, STEAMING, f"lights/{limit.partition('.')[2]}", limit, field, limits
        )
    if length_m is None or length_m >= _SMALL_M or boat.sidelights_above_heel_mm is not None:
        yield from _sidelights(scene, limits)


def _datum(length_m: float) -> tuple[str, str]:
    """Return the limit of a steaming light's height by length, and the height it is measured from."""
    if length_m < _SMALL_M:
        return "light.over_sidelights", "sidelights_above_heel_mm"
    if length_m < _LARGE_M:
        return "light.masthead", "sheer_above_heel_mm"
    return "light.masthead_long", "deck_above_heel_mm"


def _high_enough(
    scene: Scene, placed: Placed, role: Role, code: str, limit: str, field: str, limits: Limits
) -> Iterator[Finding]:
    """Say where a light is less than a limit above a height of the yacht, or that one is not known."""
    missing = _missing(scene, field)
    if missing is not None:
        yield _unknown(code, placed, missing)
        return
    over = _upright_mm(scene, placed, role) - float(getattr(scene.layout.boat, field))
    yield from _less(code, placed, over, limits, limit, "mm")


def _sidelights(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Hold the sidelights to three quarters of the steaming light's height above the hull."""
    boat = scene.layout.boat
    for placed in _with(scene, STEAMING):
        missing = _missing(scene, "sidelights_above_heel_mm") or _missing(scene, "deck_above_heel_mm")
        if missing is not None:
            yield _unknown("lights/sidelights", placed, missing)
            continue
        deck = boat.deck_above_heel_mm or 0.0
        own = _upright_mm(scene, placed, STEAMING) - deck
        part = 100.0 * ((boat.sidelights_above_heel_mm or 0.0) - deck) / max(own, 1.0)
        most = list(_more("lights/sidelights", (placed.id,), part, limits, "light.sidelights", "%", placed))
        yield from most or _lantern(scene, placed, limits)


def _lantern(scene: Scene, placed: Placed, limits: Limits) -> Iterator[Finding]:
    """Hold a steaming light to a metre above sidelights that may be one combined lantern, under 20 m."""
    length_m, low = _length_m(scene), scene.layout.boat.sidelights_above_heel_mm
    if length_m is not None and low is not None and _SMALL_M <= length_m < _LARGE_M:
        over = _upright_mm(scene, placed, STEAMING) - low
        yield from _less("lights/lantern", placed, over, limits, "light.lantern", "mm", fault=False)


def level(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Hold each light to the level: what leans with the mast shines over the ships on one side."""
    for placed in _lights(scene):
        if scene.layout.mast.rake_deg is None:
            yield _unknown("lights/level", placed, measure_of(Mast, "rake_deg"))
            continue
        aft, off = lean_of(_up(placed), scene.layout.mast.rake_deg)
        lean = math.hypot(aft - placed.fitting.shim_deg, off)
        code = "lights/level-forward" if aft < placed.fitting.shim_deg else "lights/level"
        yield from _more(code, (placed.id,), lean, limits, "light.level", "deg", placed)


def heel(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Hold the heel of sailing to the band in which a light under sail has half its strength."""
    sailing = scene.layout.boat.sailing_heel_deg
    for placed in _lights(scene):
        if not any(role in (PORT, STARBOARD, STERN) for lens in lenses(placed) for role in lens.roles):
            continue
        if sailing is None:
            yield _unknown("lights/heel", placed, measure_of(Boat, "sailing_heel_deg"))
            continue
        _aft, off = lean_of(_up(placed), scene.layout.mast.rake_deg or 0.0)
        yield from _more(
            "lights/heel", (placed.id,), sailing + abs(off), limits, "light.sail_band", "deg", placed
        )


def turned(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Hold each light whose arc begins or ends somewhere to facing ahead."""
    for placed in _lights(scene):
        if all(role.all_round for lens in lenses(placed) for role in lens.roles):
            continue
        off = abs((faces_deg(placed) + 180.0) % 360.0 - 180.0)
        yield from _more("lights/turned", (placed.id,), off, limits, "light.turned", "deg", placed)


def arcs(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Say which lights show over no arc of Rule 21."""
    for placed in scene.placed.values():
        if any(role_of(sector) is None for sector in light_sectors(placed)):
            yield Finding("lights/arc", "caution", (placed.id,), z_mm=placed.z_mm)


def visible(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Hold what is on each light's plate to the least range of Rule 22 for her length."""
    length_m = _length_m(scene)
    for placed in _lights(scene):
        plate = placed.fitting.visible_nm
        if length_m is None or plate is None:
            field = (
                measure_of(Boat, "length_overall_mm")
                if length_m is None
                else measure_of(Fitting, "visible_nm")
            )
            yield _unknown("lights/visible", placed, field)
            continue
        least = max(required_nm(role, length_m) for lens in lenses(placed) for role in lens.roles)
        if plate < least:
            yield _said("lights/visible", "fault", (placed.id,), float(plate), least, "NM", placed)


def tricolour(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Hold a tricolour to yachts under 20 m, and to sailing without the two lights of Rule 25(c)."""
    length_m = _length_m(scene)
    sail_lights = tuple(placed.id for role in (SAIL_RED, SAIL_GREEN) for placed in _with(scene, role))
    for placed in _lights(scene):
        if not is_tricolour(placed):
            continue
        if length_m is None:
            yield _unknown("lights/tricolour", placed, measure_of(Boat, "length_overall_mm"))
        elif length_m >= _LARGE_M:
            most = limits["light.tricolour"].value
            yield _said("lights/tricolour", "fault", (placed.id,), length_m * 1000.0, most, "mm", placed)
        if sail_lights:
            yield Finding("lights/together", "caution", (placed.id, *sail_lights), z_mm=placed.z_mm)
        yield from _under_power(scene, placed, length_m)


def _under_power(scene: Scene, placed: Placed, length_m: float | None) -> Iterator[Finding]:
    """Say what a tricolour does not serve for: under power she needs a steaming light (Rule 23).

    Under 12 m an all-round white light does with the sidelights, under 7 m and 7 kn by itself.
    """
    white = _with(scene, ANCHOR)
    if _with(scene, STEAMING):
        yield Finding("lights/power", "note", (placed.id,), z_mm=placed.z_mm)
    elif length_m is not None and length_m < _TINY_M:
        yield Finding("lights/power-tiny", "note", (placed.id,), z_mm=placed.z_mm)
    elif white and length_m is not None and length_m < _SMALL_M:
        who = dict.fromkeys((placed.id, *(one.id for one in white)))
        yield Finding("lights/power-white", "note", tuple(who), z_mm=placed.z_mm)
    elif length_m is not None and length_m < _SMALL_M:
        yield Finding("lights/power-small", "caution", (placed.id,), z_mm=placed.z_mm)
    else:
        yield Finding("lights/no-steaming", "caution", (placed.id,), z_mm=placed.z_mm)


def apart(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Hold red over green to their order, how far apart, and how high the lower is, by her length."""
    reds, greens, length_m = _with(scene, SAIL_RED), _with(scene, SAIL_GREEN), _length_m(scene)
    long = "" if length_m is None or length_m < _LARGE_M else "_long"
    field = "deck_above_heel_mm" if long else "sheer_above_heel_mm"
    for red, green in zip(reds, greens, strict=False):
        if length_m is None:
            yield _unknown("lights/apart", red, measure_of(Boat, "length_overall_mm"))
            continue
        gap = _upright_mm(scene, red, SAIL_RED) - _upright_mm(scene, green, SAIL_GREEN)
        yield from _less("lights/apart", red, gap, limits, f"light.apart{long}", "mm", green.id)
        code, limit = f"lights/lowest{long}", f"light.lowest{long}"
        yield from _high_enough(scene, green, SAIL_GREEN, code, limit, field, limits)


def second(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Say where she is so long that one steaming light is not enough (Rule 23(a)(ii))."""
    length_m, own = _length_m(scene), _with(scene, STEAMING)
    if length_m is not None and length_m >= _TWO_M and len(own) == 1:
        most = 1000.0 * _TWO_M
        yield _said("lights/second", "caution", (own[0].id,), 1000.0 * length_m, most, "mm", own[0])


def foredeck(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Find a steaming light so low that the band it must fill strikes the pulpit and dazzles the helm."""
    stay = next((own for own in scene.stays.values() if own.item.role == "forestay"), None)
    if stay is not None and stay.points is None:
        for placed, measure in ((one, each) for one in _with(scene, STEAMING) for each in stay.unknown[:1]):
            yield _unknown("lights/foredeck", placed, measure)
    if stay is None or stay.points is None:
        return
    rake = scene.layout.mast.rake_deg or 0.0
    bow = mast_to_boat(np.asarray(stay.points)[-1], rake)
    for placed in _with(scene, STEAMING):
        lens = mast_to_boat(lens_point(placed, STEAMING), rake)
        down = math.degrees(math.atan2(lens[2] - bow[2], max(bow[0] - lens[0], 1.0)))
        yield from _less("lights/foredeck", placed, down, limits, "light.power_band", "deg", fault=False)


def floods(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Say once which lights are for the deck alone, never under way at night (Rule 20(b))."""
    own = tuple(placed.id for placed in scene.placed.values() if is_flood(placed))
    if own:
        yield Finding(
            "lights/floods" if own[1:] else "lights/flood", "note", own, z_mm=scene.placed[own[0]].z_mm
        )


def _lights(scene: Scene) -> list[Placed]:
    return [placed for placed in scene.placed.values() if lenses(placed)]


def _with(scene: Scene, role: Role) -> list[Placed]:
    return [placed for placed in _lights(scene) if any(role in lens.roles for lens in lenses(placed))]


def _length_m(scene: Scene) -> float | None:
    length = scene.layout.boat.length_overall_mm
    return None if length is None else length / 1000.0


def _up(placed: Placed) -> Array:
    """Return the way (3,) the axis of a light's glass points, upwards."""
    axis = placed.solids.axis[lenses(placed)[0].solid]
    return np.asarray(axis if axis[2] >= 0 else -axis)


def _upright_mm(scene: Scene, placed: Placed, role: Role) -> float:
    """Return how high a lens stands above the heel, plumb, upright on her marks."""
    return float(mast_to_boat(lens_point(placed, role), scene.layout.mast.rake_deg or 0.0)[2])


def _missing(scene: Scene, field: str) -> Measure | None:
    if scene.layout.mast.rake_deg is None:
        return measure_of(Mast, "rake_deg")
    return measure_of(Boat, field) if getattr(scene.layout.boat, field) is None else None


def _unknown(code: str, placed: Placed, measure: Measure) -> Finding:
    return Finding(code, "not checked", (placed.id,), measure=measure.key, z_mm=placed.z_mm)


def _said(
    code: str,
    standing: Standing,
    ids: tuple[str, ...],
    measured: float,
    required: float,
    unit: Unit,
    at: Placed,
) -> Finding:
    return Finding(code, standing, ids, measured, required, unit, None, None, at.z_mm)


def _less(
    code: str,
    at: Placed,
    measured: float,
    limits: Limits,
    limit: str,
    unit: Unit,
    *others: str,
    fault: bool = True,
) -> Iterator[Finding]:
    """Say what is less than its limit."""
    required = limits[limit].value
    if measured < required - _TOLERANCE[unit]:
        standing: Standing = "fault" if fault else "caution"
        yield Finding(code, standing, (at.id, *others), measured, required, unit, limit, None, at.z_mm)


def _more(
    code: str, ids: tuple[str, ...], measured: float, limits: Limits, limit: str, unit: Unit, at: Placed
) -> Iterator[Finding]:
    """Say, as a caution, what is more than its limit."""
    required = limits[limit].value
    if measured > required + _TOLERANCE[unit]:
        yield Finding(code, "caution", ids, measured, required, unit, limit, None, at.z_mm)


_TOLERANCE: dict[Unit, float] = {"mm": 0.01, "deg": 0.05, "%": 0.01}
_DEPENDS = frozenset({"mast", "fittings", "spreaders", "stays", "boat", "limits"})
_ASKED: tuple[tuple[str, Callable[[Scene, Limits], Iterator[Finding]]], ...] = (
    ("lights/height", heights),
    ("lights/level", level),
    ("lights/heel", heel),
    ("lights/turned", turned),
    ("lights/arc", arcs),
    ("lights/visible", visible),
    ("lights/tricolour", tricolour),
    ("lights/apart", apart),
    ("lights/second", second),
    ("lights/foredeck", foredeck),
    ("lights/flood", floods),
)
RULES = tuple(WholeRule(code, _DEPENDS, rule) for code, rule in _ASKED)  # type: ignore[arg-type] # as in rig

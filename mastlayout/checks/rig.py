"""The rig closes: lengths against pins, spreaders on their bisectors, port against starboard, I, J and P."""

from collections.abc import Iterator

import numpy as np

from mastlayout.checks.finding import Finding, Unit
from mastlayout.checks.rule import WholeRule
from mastlayout.geometry.frames import height_mm, mast_to_boat
from mastlayout.geometry.rig import SpreaderInSpace, StayInSpace
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.boat import Boat
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of
from mastlayout.model.pairs import mate_of
from mastlayout.model.rig import Spreader, Stay

# Two ends as near as this are one point: somebody typed one of them twice.
_NO_LENGTH_MM = 10.0


def lengths(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Compare each stay's measured length with the way over its pins and tips."""
    for name, stay in scene.stays.items():
        if stay.points is None:
            continue
        if float(np.linalg.norm(np.diff(stay.points, axis=0), axis=1).min()) < _NO_LENGTH_MM:
            yield Finding("rig/no-length", "caution", (name,), z_mm=float(stay.points[0, 2]))
        if stay.item.length_mm is None:
            yield Finding("rig/length", "not checked", (name,), measure=measure_of(Stay, "length_mm").key)
            continue
        off = abs(stay.item.length_mm - (stay.length_mm or 0.0))
        yield from _over("rig/length", (name,), off, limits, "rig.length", "mm")


def bisectors(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Compare each spreader's rise with the bisector of the wire that bends over its tip."""
    for name, bar in scene.spreaders.items():
        wire = next((s for s in scene.stays.values() if name in s.item.via and s.points is not None), None)
        if wire is None or bar.direction is None or bar.item.rise_deg is None:
            continue
        off = bar.item.rise_deg - bisector_rise_deg(bar, wire)
        yield from _over(
            "rig/bisector",
            (name, wire.item.id),
            abs(off),
            limits,
            "rig.bisector",
            "deg",
            z_mm=float(bar.root[2]),
        )


def bisector_rise_deg(bar: SpreaderInSpace, wire: StayInSpace) -> float:
    """Return the rise at which a spreader halves the angle of its wire, in the plane it points in.

    The wire's two pulls at the tip add up along their bisector; a spreader in that line is pushed
    straight into the mast and is not levered up or down.
    """
    points = np.asarray(wire.points)
    i = 1 + wire.item.via.index(bar.item.id)
    pulls = [(points[j] - points[i]) / np.linalg.norm(points[j] - points[i]) for j in (i - 1, i + 1)]
    outward = -(pulls[0] + pulls[1])
    level = np.array([*np.asarray(bar.direction)[:2], 0.0])
    return float(np.degrees(np.arctan2(outward[2], outward @ level / np.linalg.norm(level))))


def pairs(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Compare port with starboard, each with its like on the other side."""
    for name, bar in scene.spreaders.items():
        other = scene.spreaders.get(_starboard_of(scene, bar.item))
        if other is None:
            continue
        fields: list[tuple[str, str, Unit]] = [
            ("length_mm", "rig.pair", "mm"),
            ("from_masthead_mm", "rig.pair", "mm"),
            ("rise_deg", "rig.pair_angle", "deg"),
            ("sweep_deg", "rig.pair_angle", "deg"),
        ]
        for field, limit, unit in fields:
            a, b = getattr(bar.item, field), getattr(other.item, field)
            if a is not None and b is not None:
                yield from _over(
                    f"rig/pair-{field.rsplit('_', 1)[0].replace('_', '-')}",
                    (name, other.item.id),
                    abs(a - b),
                    limits,
                    limit,
                    unit,
                    z_mm=float(bar.root[2]),
                )
    for name, stay in scene.stays.items():
        twin = scene.stays.get(_starboard_of(scene, stay.item))
        if twin is not None and stay.length_mm is not None and twin.length_mm is not None:
            yield from _over(
                "rig/pair-stay",
                (name, twin.item.id),
                abs(stay.length_mm - twin.length_mm),
                limits,
                "rig.pair",
                "mm",
            )


def _starboard_of(scene: Scene, item: Spreader | Stay) -> str:
    mate = mate_of(scene.layout, item) if item.side == "port" else None
    return mate.id if mate else ""


def sail_plan(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Compare I, J and P with the points of the rig."""
    boat, mast = scene.layout.boat, scene.layout.mast
    yield from _height_i(scene, limits)
    forestay = next((s for s in scene.stays.values() if s.item.role == "forestay"), None)
    if boat.foretriangle_base_mm is not None and forestay and forestay.points is not None:
        off = abs(boat.foretriangle_base_mm - _base_j(scene, forestay))
        yield from _over("rig/j", (forestay.item.id,), off, limits, "rig.sail_plan", "mm")
    for sail in scene.layout.sails:
        if sail.p_mm is not None and sail.upper_mark_mm is not None and sail.lower_mark_mm is not None:
            off = abs(sail.p_mm - (sail.lower_mark_mm - sail.upper_mark_mm))
            yield from _over(
                "rig/p",
                (sail.id,),
                off,
                limits,
                "rig.sail_plan",
                "mm",
                z_mm=height_mm(mast.length_mm, sail.upper_mark_mm),
            )


def _height_i(scene: Scene, limits: Limits) -> Iterator[Finding]:
    boat, mast = scene.layout.boat, scene.layout.mast
    bearing = scene.layout.boat.foretriangle_top_mm
    if boat.foretriangle_height_mm is None or bearing is None:
        return
    for value, model, field in (
        (boat.sheer_above_heel_mm, Boat, "sheer_above_heel_mm"),
        (mast.rake_deg, Mast, "rake_deg"),
    ):
        if value is None:
            yield Finding("rig/i", "not checked", ("mast",), measure=measure_of(model, field).key)
            return
    z = height_mm(mast.length_mm, bearing)
    fore = float(scene.skin.ring(z).x[-1])
    top = mast_to_boat(np.array([fore, 0.0, z]), mast.rake_deg or 0.0)[2]
    off = abs(boat.foretriangle_height_mm - (float(top) - (boat.sheer_above_heel_mm or 0.0)))
    yield from _over("rig/i", ("mast",), off, limits, "rig.sail_plan", "mm", z_mm=z)


def _base_j(scene: Scene, forestay: StayInSpace) -> float:
    """Level distance from the mast's fore face to the forestay's lower pin, at the pin's height."""
    rake = scene.layout.mast.rake_deg or 0.0
    pin = mast_to_boat(np.asarray(forestay.points)[-1], rake)
    face = np.array([float(scene.skin.full.x[-1]), 0.0, 0.0])
    along = (pin[2] - mast_to_boat(face, rake)[2]) / np.cos(np.radians(rake))
    return float(pin[0] - mast_to_boat(face + (0.0, 0.0, along), rake)[0])


def _over(
    code: str,
    ids: tuple[str, ...],
    off: float,
    limits: Limits,
    limit: str,
    unit: Unit,
    z_mm: float | None = None,
) -> Iterator[Finding]:
    if off > limits[limit].value:
        yield Finding(code, "caution", ids, off, limits[limit].value, unit, limit, None, z_mm)


_RIG = frozenset({"mast", "stays", "spreaders", "boat", "sails", "limits"})
RULES = tuple(
    WholeRule(code, _RIG, rule)  # type: ignore[arg-type] # mypy widens the literals of a named set
    for code, rule in (
        ("rig/length", lengths),
        ("rig/bisector", bisectors),
        ("rig/pair", pairs),
        ("rig/sail-plan", sail_plan),
    )
)

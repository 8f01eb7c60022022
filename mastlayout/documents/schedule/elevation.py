"""The elevation from the scene: labels, outlines of new gear, stays, deck and water."""

import math
from collections.abc import Iterator
from itertools import takewhile

from shapely import MultiPolygon, Polygon, simplify, union_all

from mastlayout.checks.report import Report
from mastlayout.documents.rows import Elevation, ElevationRow, Outline, StayLine
from mastlayout.documents.schedule.made import made_words
from mastlayout.documents.schedule.places import face_up, height_of, is_on_top, tag_of
from mastlayout.geometry.frames import Face, above_water_mm, height_mm, reading
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import SpreaderInSpace
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.geometry.silhouette import FROM_STARBOARD, silhouettes
from mastlayout.units import Units
from mastlayout.words import _

_NAMED_STAYS = ("forestay", "backstay", "inner", "jumper")
_DRAWN_STAYS = (*_NAMED_STAYS, "lower")
# At 1 : 100 a tenth of a millimetre of paper.
_FINE_MM = 10.0


def elevation_of(report: Report, units: Units) -> Elevation:
    """Return the elevation of a layout."""
    scene = report.scene
    skin, boat, mast = scene.skin, scene.layout.boat, scene.layout.mast
    deck = boat.deck_above_heel_mm
    water = None
    if boat.heel_above_water_mm is not None and mast.rake_deg is not None:
        along = -boat.heel_above_water_mm / math.cos(math.radians(mast.rake_deg))
        water = height_mm(skin.length_mm, along)
    return Elevation(
        length_mm=skin.length_mm,
        profile=_profile(scene),
        rows=tuple(_paired([*_fittings(report, units), *_spreaders(scene, units), *_partners(scene, units)])),
        gear=tuple(_gear(scene)),
        stays=tuple(_stays(scene)),
        spreaders_mm=tuple(sorted({spreader.from_masthead_mm for spreader in scene.layout.spreaders})),
        deck_mm=height_mm(skin.length_mm, deck) if deck is not None else None,
        water_mm=water,
    )


def _profile(scene: Scene) -> Outline:
    skin = scene.skin
    heights = [0.0, skin.length_mm]
    if skin.taper:
        heights.insert(1, height_mm(skin.length_mm, skin.taper.from_masthead_mm))
    aft = [(float(skin.ring(z).x[0]), height_mm(skin.length_mm, z)) for z in heights]
    fore = [(float(skin.ring(z).x[-1]), height_mm(skin.length_mm, z)) for z in reversed(heights)]
    return (*aft, *fore)


def _water_mm(scene: Scene, z_mm: float) -> float | None:
    heel, rake = scene.layout.boat.heel_above_water_mm, scene.layout.mast.rake_deg
    return None if heel is None or rake is None else above_water_mm(z_mm, rake, heel)


def _fittings(report: Report, units: Units) -> Iterator[ElevationRow]:
    scene = report.scene
    faulty = {subject.partition("/")[0] for finding in report.faults for subject in finding.subjects}
    for placed in masthead_first(scene):
        top = is_on_top(placed, scene.skin)
        z = min(placed.z_mm, scene.skin.length_mm) if top else placed.z_mm
        yield ElevationRow(
            from_masthead_mm=height_mm(scene.skin.length_mm, z),
            height=height_of(placed, scene.skin, units),
            water_mm=_water_mm(scene, z),
            what=placed.fitting.name,
            face=_face_words(placed, scene),
            tag=tag_of(placed) if placed.fitting.new else "",
            strong=placed.fitting.new,
            fault=placed.id in faulty,
            made=made_words(placed),
        )


def _faces(one: str, other: str) -> str:
    """Return the faces of two that are each other's like: what both lie on is said once."""
    shared = one.rpartition(", ")[0]
    beside = other.removeprefix(f"{shared}, ") if shared else other
    return f"{one} {beside}"


def _face_words(placed: Placed, scene: Scene) -> str:
    if is_on_top(placed, scene.skin):
        return _("top")
    if isinstance(placed.host, SpreaderInSpace):
        return _side_words(placed.host.item.side)
    words: dict[Face, str] = {"forward": _("ahead"), "aft": _("aft"), "port": _("P"), "starboard": _("S")}
    face = face_up(placed)
    y = float(placed.seats.origin[0, 1])
    if face in ("port", "starboard") or abs(y) < 1.0:
        return words[face]
    return f"{words[face]}, {_('P') if y > 0 else _('S')}"


def _side_words(side: str) -> str:
    return {"port": _("P"), "starboard": _("S")}.get(side, _("ahead"))


def _spreaders(scene: Scene, units: Units) -> Iterator[ElevationRow]:
    length = scene.skin.length_mm
    for spreader in scene.layout.spreaders:
        place = spreader.from_masthead_mm
        yield ElevationRow(
            place,
            reading(place, length, units),
            _water_mm(scene, height_mm(length, place)),
            spreader.name,
            _side_words(spreader.side),
            strong=True,
        )


def _partners(scene: Scene, units: Units) -> Iterator[ElevationRow]:
    length = scene.skin.length_mm
    for stretch in scene.layout.mast.stretches or ():
        if stretch.kind == "partners":
            place = (stretch.from_masthead_mm + stretch.to_mm) / 2
            water = _water_mm(scene, height_mm(length, place))
            yield ElevationRow(place, reading(place, length, units), water, _("Partners"), "", strong=True)


def _paired(rows: list[ElevationRow]) -> Iterator[ElevationRow]:
    """Join a port and a starboard label of one height and one name but for the side, untagged ones only."""
    rows.sort(key=lambda row: (row.from_masthead_mm, row.what))
    while rows:
        first = rows.pop(0)
        twin = next((row for row in rows[:8] if _is_twin(first, row)), None)
        if twin is not None:
            rows.remove(twin)
            name = _shared(first.what, twin.what)
            yield ElevationRow(
                first.from_masthead_mm,
                first.height,
                first.water_mm,
                name,
                _faces(first.face, twin.face),
                strong=first.strong,
                fault=first.fault or twin.fault,
            )
        else:
            yield first


def _is_twin(one: ElevationRow, other: ElevationRow) -> bool:
    shared = len(_shared(one.what, other.what))
    return (
        not one.tag
        and not other.tag
        and one.height == other.height
        and one.face != other.face
        and shared >= 4
        and max(len(one.what), len(other.what)) - shared <= len(" starboard,")
    )


def _shared(one: str, other: str) -> str:
    """Return what two names begin with alike, without the comma before their sides."""
    pairs = takewhile(lambda pair: pair[0] == pair[1], zip(one, other, strict=False))
    return "".join(letter for letter, _other in pairs).rstrip(" ,(")


def _gear(scene: Scene) -> Iterator[Outline]:
    """Yield the outlines of new gear from starboard, the solids of one fitting grown together."""
    length = scene.skin.length_mm
    for placed in masthead_first(scene):
        if not placed.fitting.new or not len(placed.solids):
            continue
        shapes = [Polygon(outline).buffer(0) for outline in silhouettes(placed.solids, FROM_STARBOARD)]
        joined = simplify(union_all(shapes), _FINE_MM)
        for part in joined.geoms if isinstance(joined, MultiPolygon) else [joined]:
            if isinstance(part, Polygon) and not part.is_empty:
                yield tuple((x, height_mm(length, z)) for x, z in part.exterior.coords[:-1])


def _stays(scene: Scene) -> Iterator[StayLine]:
    """Yield the upper leg of each stay that is seen apart from the mast, starboard for a pair."""
    length = scene.skin.length_mm
    for stay in scene.stays.values():
        if stay.points is None or stay.item.role not in _DRAWN_STAYS or stay.item.side == "port":
            continue
        (x1, _y1, z1), (x2, _y2, z2) = stay.points[0], stay.points[1]
        name = stay.item.name if stay.item.role in _NAMED_STAYS else ""
        yield StayLine(
            name, (float(x1), height_mm(length, float(z1))), (float(x2), height_mm(length, float(z2)))
        )

"""The templates of the scene: each foot in hand unrolled on paper, and the feet of which there is none."""

from collections.abc import Iterable, Iterator, Sequence
from math import ceil, floor

import numpy as np
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon

from mastlayout.checks.report import Report
from mastlayout.documents.page import Point
from mastlayout.documents.rows import DrillBlock, NoTemplate, Outline, Rung, Template, TemplateHole
from mastlayout.documents.schedule.foot import cutout_outline
from mastlayout.documents.schedule.places import girth_reading
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import GIRTH_PARTS_PER_INCH, HEIGHT_PARTS_PER_INCH, Array, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.unrolled import Middle, Unrolled
from mastlayout.model.kind import Cutout, Foot
from mastlayout.units import MM_PER_INCH, Units, feet_inches, write_length
from mastlayout.words import _

# Level lines and the ruler reach this far beyond the foot and its holes.
_BEYOND_MM = 60.0
_RING_STEP_MM = 10.0
RUNG_MM, RUNG_INCHES = 10.0, 0.5


@dataclass(frozen=True, eq=False)
class _Subject:
    """A foot with what its template is made from."""

    placed: Placed
    skin: Skin
    foot: Foot
    block: DrillBlock
    paper: Unrolled
    units: Units

    @property
    def near_mm(self) -> float:
        """The offset of the foot's middle."""
        around, along = self.placed.places.around, np.array([self.placed.z_mm])
        return float(self.paper.offset(around, along)[0])

    def on_sheet(self, girth: Array, z: Array) -> Outline:
        """Return places of the skin on the sheet, in one piece round the foot's middle."""
        return _points(self.paper.at(girth, z, self.near_mm))


def templates_of(
    report: Report, units: Units, blocks: Iterable[DrillBlock]
) -> tuple[tuple[Template, ...], tuple[NoTemplate, ...]]:
    """Return a template for each foot in hand, and why there is none of the others."""
    made: list[Template] = []
    left: list[NoTemplate] = []
    for block in blocks:
        placed = report.scene.placed[block.fitting]
        if placed.skin is None or placed.foot is None:
            continue
        why = _why_not(placed, placed.skin, placed.foot, units)
        if why:
            left.append(NoTemplate(block.tag, block.name, why))
            continue
        middle: Middle = "aft" if block.face == "aft" else "forward"
        thick = report.limits["template.paper"].value
        paper = Unrolled(placed.skin, placed.z_mm, middle, thick)
        made.append(_template(_Subject(placed, placed.skin, placed.foot, block, paper, units)))
    return tuple(made), tuple(left)


def _why_not(placed: Placed, skin: Skin, foot: Foot, units: Units) -> str:
    if not placed.foot_known or placed.outline is None:
        return _("Its foot is typical: take it in hand, measure it, enter it and print again.")
    girth = 2 * skin.ring(placed.z_mm).half_girth_mm
    wide = float(np.ptp(placed.outline[:, 0]))
    if wide >= girth:
        return _(
            "Its foot is {wide} round, the mast {girth}: it would meet itself. Measure foot and mast."
        ).format(wide=write_length(wide, units), girth=write_length(girth, units))
    if not placed.outline[:, 1].min() >= 0.0 or placed.outline[:, 1].max() > skin.length_mm:
        return _("Its foot hangs over the end of the mast: paper cannot lie there. Offer up the part.")
    if not foot.holes and not foot.entry and not foot.cutouts:
        return _("Its foot has no hole. Mark its middle by the drilling schedule.")
    return ""


def _template(of: _Subject) -> Template:
    outline = (
        of.on_sheet(of.placed.outline[:, 0], of.placed.outline[:, 1]) if of.placed.outline is not None else ()
    )
    holes = tuple(_holes(of))
    (centre,) = of.on_sheet(of.placed.places.around, np.array([of.placed.z_mm]))
    ring, z = of.skin.ring(of.placed.z_mm), of.placed.z_mm
    half, track = ring.half_girth_mm, of.skin.half_track_mm
    edge_off = None if track is None else track if of.paper.middle == "aft" else half - track
    ends = of.paper.sheet(np.array([half, edge_off or 0.0]), np.array([z, z]))[:, 0]
    aft = girth_reading(of.skin, 0.0, z, of.units)
    kind = of.skin.mast.track.kind if of.skin.mast.track else "groove"
    return Template(
        block=of.block,
        middle=of.paper.middle,
        centre=centre,
        outline=outline,
        holes=holes,
        rungs=tuple(_rungs(of, [*outline, *(hole.at for hole in holes)])),
        ruler=tuple(_ruler(of)),
        half_mm=float(ends[0]),
        edge_mm=None if edge_off is None else float(ends[1]),
        half_girth=aft.text(aft.forward),
        edge=aft.text(aft.total) if of.paper.middle == "forward" else aft.text(-aft.track_edge),
        raised=kind == "track",
        paper_mm=of.paper.paper_mm,
        longer_mm=float(ends[0]) - half,
        girth=write_length(2 * half, of.units),
        warnings=tuple(_warnings(of, outline, holes)),
    )


def _holes(of: _Subject) -> Iterator[TemplateHole]:
    """Yield every opening that has a row on the drilling schedule, at its exact place."""
    holes, rows = of.placed.holes, {row.number: row for row in of.block.rows}
    if holes is None:
        return
    for count, opening in enumerate(holes.openings):
        row = rows.get(opening.number)
        if row is None:
            continue
        (at,) = of.on_sheet(holes.girth_mm[0, count : count + 1], holes.z_mm[0, count : count + 1])
        middle = float(holes.girth_mm[0, count]), float(holes.z_mm[0, count])
        yield TemplateHole(row, at, _cut(of, opening.cutout, middle) if opening.cutout else ())


def _cut(of: _Subject, cutout: Cutout, middle: tuple[float, float]) -> Outline:
    """Return the corners of a cut-out on the sheet about its middle, a girth and a height."""
    points = np.array(cutout_outline(of.placed, cutout))
    girth, z = (points - points.mean(axis=0) + middle).T
    return of.on_sheet(girth, z)


def _rungs(of: _Subject, points: Sequence[Point]) -> Iterator[Rung]:
    """Yield level lines at round readings from the masthead, well beyond foot and holes."""
    part = RUNG_MM if of.units == "metric" else RUNG_INCHES * MM_PER_INCH
    ups = [up for _right, up in points]
    here = height_mm(of.skin.length_mm, of.placed.z_mm)
    first, last = here - max(ups) - _BEYOND_MM, here - min(ups) + _BEYOND_MM
    half = of.skin.ring(of.placed.z_mm).half_girth_mm
    steps = (
        np.linspace(-half, half, 2 * ceil(half / _RING_STEP_MM) + 1)
        if of.skin.taper
        else np.array([-half, half])
    )
    for count in range(max(ceil(first / part), 0), floor(last / part) + 1):
        z = height_mm(of.skin.length_mm, count * part)
        if z < 0.0:
            break
        ring = of.paper.sheet(steps, np.full(len(steps), z))
        (line,) = of.paper.sheet(np.array([0.0]), np.array([z]))
        named = count % (5 if of.units == "metric" else 4) == 0
        yield Rung(_height_text(count, of.units), named, float(line[1]), _points(ring))


def _height_text(count: int, units: Units) -> str:
    if units == "metric":
        return f"{count * RUNG_MM:.0f}"
    return feet_inches(round(count * RUNG_INCHES * HEIGHT_PARTS_PER_INCH), HEIGHT_PARTS_PER_INCH)


def _ruler(of: _Subject) -> Iterator[tuple[float, str]]:
    """Yield round girths from the line, or from the track's edge beside it, where they lie on paper."""
    part = RUNG_MM if of.units == "metric" else RUNG_INCHES * MM_PER_INCH
    start = (of.skin.half_track_mm or 0.0) if of.paper.middle == "aft" else 0.0
    count = floor((of.skin.ring(of.placed.z_mm).half_girth_mm - start) / part)
    offsets = start + np.arange(count + 1, dtype=np.float64) * part
    places = of.paper.sheet(offsets, np.full(len(offsets), of.placed.z_mm))
    for number, (right, _up) in enumerate(places):
        text = (
            f"{number * RUNG_MM:.0f}"
            if of.units == "metric"
            else feet_inches(round(number * RUNG_INCHES * GIRTH_PARTS_PER_INCH), GIRTH_PARTS_PER_INCH)
        )
        yield float(right), text


def _warnings(of: _Subject, outline: Outline, holes: Sequence[TemplateHole]) -> Iterator[str]:
    """Yield what is odd about a foot and its place; the template is printed all the same."""
    foot = Polygon(outline)
    for hole in holes:
        round_hole = not hole.cut and hole.row.fastener != _("cable entry")
        if round_hole and not foot.covers(ShapelyPoint(hole.at)):
            yield _("{tag} lies outside its foot. Measure the part again.").format(tag=hole.row.tag)
        if _beyond_track(of, hole.at[0]):
            words = _(
                "{tag} lies beyond the edge of the track: it is not on this template. Offer up the part."
            )
            yield words.format(tag=hole.row.tag)
    if not of.skin.half_track_mm:
        yield _("The track is not measured: its edge is not drawn, and the straps end at its middle.")
    elif on_track(of.placed, of.skin):
        yield _("The foot lies over the track: paper cannot lie there. Offer up the part.")


def _beyond_track(of: _Subject, right_mm: float) -> bool:
    """Tell whether a place of a sheet about the forward centreline lies where that sheet must end."""
    if of.paper.middle == "aft":
        return False
    end = of.skin.ring(of.placed.z_mm).half_girth_mm - (of.skin.half_track_mm or 0.0)
    return abs(right_mm) > float(of.paper.sheet(np.array([end]), np.array([of.placed.z_mm]))[0, 0])


def on_track(placed: Placed, skin: Skin) -> bool:
    """Tell whether a foot covers a part of the track or of its groove."""
    if placed.outline is None or not skin.half_track_mm:
        return False
    low, high = placed.outline[:, 0].min(), placed.outline[:, 0].max()
    girth = 2 * skin.ring(placed.z_mm).half_girth_mm
    return any(
        low < turn + skin.half_track_mm and high > turn - skin.half_track_mm for turn in (-girth, 0.0, girth)
    )


def _points(places: Array) -> Outline:
    return tuple((float(right), float(up)) for right, up in places)

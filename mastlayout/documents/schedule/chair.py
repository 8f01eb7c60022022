"""The cards for the bosun's chair: what is fitted once the mast stands, height by height."""

from collections.abc import Iterator, Sequence

from mastlayout.checks.report import Report
from mastlayout.documents.rows import ChairCard
from mastlayout.documents.schedule.aloft import bring_words, warning_words
from mastlayout.documents.schedule.mount import rows_of
from mastlayout.documents.schedule.places import height_of, is_on_top, tag_of
from mastlayout.geometry.frames import above_water_mm, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.units import Units, write_length
from mastlayout.words import _

# How far apart two feet may be that are worked on from one place of the chair, and how far a landmark
# may be to measure from with a short rule (common practice, no source).
_REACH_MM, _NEAR_MM = 800.0, 1000.0
_LEVEL_MM = 1.0


def chair_cards(report: Report, units: Units, *, holes_checked: bool) -> tuple[ChairCard, ...]:
    """Return one card a height, from the masthead down; what is fitted on trestles makes no card.

    What nobody said when to fit is among the work: it may be left for the chair.
    """
    scene = report.scene
    new = [placed for placed in masthead_first(scene) if placed.fitting.new]
    work = [placed for placed in new if placed.fitting.fitted != "before stepping"]
    before = [placed for placed in new if placed.fitting.fitted == "before stepping"]
    return tuple(_card(group, before, report, units, holes_checked=holes_checked) for group in _heights(work))


def _heights(placed: Sequence[Placed]) -> Iterator[list[Placed]]:
    """Yield the fittings, from the masthead down, that one place of the chair reaches."""
    group: list[Placed] = []
    for one in placed:
        if group and group[0].z_mm - one.z_mm > _REACH_MM:
            yield group
            group = []
        group.append(one)
    if group:
        yield group


def _card(
    group: Sequence[Placed], before: Sequence[Placed], report: Report, units: Units, *, holes_checked: bool
) -> ChairCard:
    scene, highest, lowest = report.scene, group[0], group[-1]
    heel, rake = scene.layout.boat.heel_above_water_mm, scene.layout.mast.rake_deg
    jobs = rows_of(group, report, units, holes_checked=holes_checked)
    free = [placed for placed, job in zip(group, jobs, strict=True) if not job.hold]
    reach = highest.z_mm - _REACH_MM, lowest.z_mm + _REACH_MM
    return ChairCard(
        top=height_of(highest, scene.skin, units),
        bottom=height_of(lowest, scene.skin, units),
        water_mm=None if heel is None or rake is None else above_water_mm(highest.z_mm, rake, heel),
        near=_near(highest, scene, units),
        jobs=jobs,
        look=tuple(f"{tag_of(one)} {one.fitting.name}" for one in before if reach[0] <= one.z_mm <= reach[1]),
        bring=tuple(bring_words(free, units)),
        warnings=tuple(warning_words(free)),
    )


def _near(placed: Placed, scene: Scene, units: Units) -> str:
    """Return the nearest thing that is on the mast already, to measure from; "" where none is near."""
    z_mm, length = placed.z_mm, scene.skin.length_mm
    if is_on_top(placed, scene.skin):
        return _("on the masthead")
    known = [
        (height_mm(length, spreader.from_masthead_mm), _("root of {name}").format(name=spreader.name))
        for spreader in scene.layout.spreaders
    ]
    known += [(one.z_mm, one.fitting.name) for one in scene.placed.values() if not one.fitting.new]
    known.append((length, _("the masthead")))
    height, name = min(known, key=lambda one: (abs(z_mm - one[0]), -one[0], one[1]))
    far = abs(z_mm - height)
    off = write_length(far, units)
    if far > _NEAR_MM:
        return _("no landmark within {reach}: hoist a tape").format(reach=write_length(_NEAR_MM, units))
    if far < _LEVEL_MM:
        return _("level with {name}").format(name=name)
    words = _("{off} above {name}") if z_mm > height else _("{off} below {name}")
    return words.format(off=off, name=name)

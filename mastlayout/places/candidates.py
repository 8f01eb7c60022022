"""The places a fitting might go to: its own, the nearest free ones, the masthead, beside spreaders.

Each is the layout with the fitting there, checked whole, and what the place gives it.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal

from mastlayout.checks.ahead import ask_ahead
from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.report import Report, check
from mastlayout.checks.rules import FITTING_RULES
from mastlayout.errors import EditError
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, build
from mastlayout.geometry.skin import Skin
from mastlayout.model.around import Around
from mastlayout.model.edits import change
from mastlayout.places.clear import said
from mastlayout.places.family import Family, family_of
from mastlayout.places.survey import around, on_its_line
from mastlayout.places.ways import Fields, aimed, reach
from mastlayout.ranges.asked import EXAMPLE, Asked
from mastlayout.ranges.given import Given, given, job_of

Where = Literal["own", "highest", "higher", "lower", "masthead", "above", "below"]
# Places of one bearing nearer to each other than this are one.
_ALIKE_MM = 100.0
# Beside a spreader a fitting keeps a hand's breadth off it: common practice, no source.
BESIDE_MM = 100.0
# Of the free places of a kind so many are checked whole until one holds.
_TRIED = 4


@dataclass(frozen=True, eq=False)
class Candidate:
    """One place of the fitting ``name``: which it is, beside which spreader, and what is found there.

    ``fields`` are what an edit would change, none where it stays. ``found`` is what is said there about
    what is ``moved`` with its ``root``, and whatever is said of others that was not said before.
    """

    name: str
    where: Where
    beside: str
    fields: Fields
    report: Report
    given: Given
    found: tuple[Finding, ...]
    moved: frozenset[str]
    root: str

    def of(self, standing: Standing) -> tuple[Finding, ...]:
        """Return what is found there of a standing."""
        return tuple(own for own in self.found if own.standing == standing)

    @property
    def free(self) -> bool:
        """Tell whether nothing is at fault there, as far as it was checked."""
        return not self.of("fault") and not self.report.broken

    @property
    def placed(self) -> Placed:
        """The fitting as it would stand."""
        return self.report.scene.placed[self.name]

    @property
    def girth(self) -> Around | None:
        """Where round the mast it stands, or what it hangs on; None for what stands on no skin."""
        return self.report.scene.placed[self.root].fitting.girth

    @property
    def height_mm(self) -> float:
        """How high its foot stands, from the heel."""
        return self.placed.z_mm


def is_choice(placed: Placed) -> bool:
    """Tell whether a fitting is one whose height gives it something."""
    return job_of(placed) is not None


def may_move(family: Family) -> bool:
    """Tell whether a place is still to be chosen: new, on the mast itself, and not fitted yet."""
    root = family.root.fitting
    return isinstance(family.root.host, Skin) and root.new and not root.is_built


def candidates(
    report: Report, name: str, asked: Asked = EXAMPLE, *, survey: bool = True
) -> Iterator[Candidate | None]:
    """Yield the places of a fitting in no order; None between two steps of the work, which may be left.

    Nothing for what is no matter of height. What does not move has its own place alone; without
    ``survey`` no free places are looked for, and beside spreaders only the nearest two.
    """
    family = family_of(report.scene, name)
    own = _at(report, report, family, _Spot("own"), name, asked)
    if own is None:
        return
    yield own
    if not may_move(family):
        return
    kept = [own]
    fixed = _fixed(report, family) if survey else _near_by(report, family)
    # Free places are looked for last, and lazily: the window takes a step a turn.
    kinds = ([[spot] for spot in fixed], _free(report, family) if survey else ())
    for groups in map(list, kinds):
        yield None
        laid = _Laid(report, family, [spots[0] for spots in groups if spots])
        for spots in groups:
            yield None
            found = _first_that_holds(laid, spots, name, asked, kept)
            if found is not None:
                kept.append(found)
                yield found


def masthead_first(found: Iterable[Candidate | None]) -> tuple[Candidate, ...]:
    """Return every place, from the masthead down."""
    return tuple(sorted((one for one in found if one is not None), key=lambda one: -one.height_mm))


@dataclass(frozen=True)
class _Spot:
    """A place to be checked: which it is, beside which spreader, and the edit that brings it there."""

    where: Where
    beside: str = ""
    fields: Fields | None = None


class _Laid:
    """Layouts with a fitting at some places, checked as they are asked for; what can be, asked at once."""

    def __init__(self, report: Report, family: Family, spots: Sequence[_Spot]) -> None:
        self.report, self.family = report, family
        self._scenes = {id(spot): self._scene(spot) for spot in spots}
        scenes = [scene for scene in self._scenes.values() if scene is not None]
        self._ahead = ask_ahead(FITTING_RULES, report.scene, scenes, report.limits)

    def at(self, spot: _Spot) -> Report | None:
        """Return the report of the layout with the fitting at a place; None where it cannot stand there."""
        scene = self._scenes[id(spot)] if id(spot) in self._scenes else self._scene(spot)
        return check(scene, self.report, ahead=self._ahead) if scene else None

    def _scene(self, spot: _Spot) -> Scene | None:
        before = self.report.scene
        try:
            layout = change(before.layout, self.family.root.id, **(spot.fields or {}))
        except EditError:
            return None
        return build(layout, before)


def _fixed(report: Report, family: Family) -> Iterator[_Spot]:
    """Yield the masthead and the places above and below each spreader, on the line it stands on."""
    scene, skin = report.scene, family.root.host
    if not isinstance(skin, Skin):
        return
    least, most = reach(scene, family, skin)
    yield _Spot("masthead", "", {"from_masthead_mm": least})
    own, spans = family.root.z_mm, [one.span_z_mm for one in family.members]
    below, above = own - min(low for low, _high in spans), max(high for _low, high in spans) - own
    heights: set[float] = set()
    for bar in sorted(scene.spreaders.values(), key=lambda bar: bar.item.from_masthead_mm):
        z = height_mm(skin.length_mm, bar.item.from_masthead_mm)
        half = bar.item.thickness_root_mm / 2
        if any(abs(z - other) < BESIDE_MM for other in heights):
            continue
        heights.add(z)
        sides: tuple[tuple[Where, float], ...] = (
            ("above", z + half + BESIDE_MM + below),
            ("below", z - half - BESIDE_MM - above),
        )
        for where, height in sides:
            down = skin.length_mm - height
            if least <= down <= most:
                yield _Spot(where, bar.item.id, {"from_masthead_mm": down})


def _near_by(report: Report, family: Family) -> list[_Spot]:
    """Return the two places beside spreaders that are nearest, and the masthead for what looks all round."""
    here = family.root.fitting.from_masthead_mm or 0.0
    fixed = list(_fixed(report, family))
    beside = [spot for spot in fixed if spot.beside]
    beside.sort(key=lambda spot: abs(_down_mm(spot.fields or {}) - here))
    top = [] if aimed(family) else [spot for spot in fixed if not spot.beside]
    return [*top, *beside[:2]]


def _down_mm(fields: Fields) -> float:
    """Return how far an edit puts a fitting from the masthead."""
    down = fields.get("from_masthead_mm")
    return down if isinstance(down, float) else 0.0


def _free(report: Report, family: Family) -> Iterator[list[_Spot]]:
    """Yield places free of faults: the highest, the nearest higher and lower; round it where none is."""
    found = on_its_line(report.scene, family, report.limits) or around(report.scene, family, report.limits)
    here = family.root.fitting.from_masthead_mm or 0.0
    down = [(_down_mm(fields), fields) for fields in found]
    kinds: tuple[tuple[Where, list[tuple[float, Fields]]], ...] = (
        ("highest", sorted(down, key=lambda one: one[0])),
        ("higher", sorted((one for one in down if one[0] < here), key=lambda one: -one[0])),
        ("lower", sorted((one for one in down if one[0] > here), key=lambda one: one[0])),
    )
    for where, ordered in kinds:
        yield [_Spot(where, "", fields) for _down, fields in ordered[:_TRIED]]


def _first_that_holds(
    laid: _Laid, spots: Iterable[_Spot], name: str, asked: Asked, kept: list[Candidate]
) -> Candidate | None:
    """Return the first of some spots that is none of those kept; of free places, the first that is free."""
    for spot in spots:
        if any(spot.fields == other.fields for other in kept):
            return None
        after = laid.at(spot)
        found = _at(laid.report, after, laid.family, spot, name, asked) if after else None
        wanted = found is not None and (found.free or spot.where in ("masthead", "above", "below"))
        if found is not None and wanted:
            return None if any(_alike(found, other) for other in kept) else found
    return None


def _alike(one: Candidate, other: Candidate) -> bool:
    """Tell whether two places are one."""
    a, b = one.placed.seats.origin[0], other.placed.seats.origin[0]
    return float(abs(a - b).max()) < _ALIKE_MM


def _at(
    report: Report, after: Report, family: Family, spot: _Spot, name: str, asked: Asked
) -> Candidate | None:
    """Return what a checked layout tells of a place; None for what is no matter of height."""
    # What stays with its host is told alone, what moves with all that moves with it.
    moved = family.names if may_move(family) else frozenset({name})
    gives = given(after.scene, after.scene.placed[name], moved, asked)
    if gives is None:
        return None
    before = {own.key for own in said(report)}
    found = tuple(
        own
        for own in after.open
        if not moved.isdisjoint(own.things) or (after is not report and own.key not in before)
    )
    return Candidate(
        name, spot.where, spot.beside, spot.fields or {}, after, gives, found, family.names, family.root.id
    )

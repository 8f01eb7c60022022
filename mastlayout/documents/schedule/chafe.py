"""The rows of the chafe sheet: where each sail lies on rig and gear, and the patch that covers it."""

from collections.abc import Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace
from typing import TYPE_CHECKING, Literal

import numpy as np

from mastlayout.checks.main import CLOTH
from mastlayout.checks.report import Report
from mastlayout.checks.sentence import names_of
from mastlayout.checks.tack import TACK
from mastlayout.documents.rows import Chafe, ChafeRow, ChafeSail
from mastlayout.documents.schedule.chafed import Chafed, chafed_by_headsail, chafed_by_main, touched
from mastlayout.frozen import dataclass
from mastlayout.geometry.chafe.loft import Loft, leech_line, loft_of_headsail, loft_of_main
from mastlayout.geometry.chafe.patches import Margin, margin_of, patch
from mastlayout.geometry.frames import Array
from mastlayout.geometry.scene import Scene
from mastlayout.model.pairs import other_side_name, without_side
from mastlayout.once import once
from mastlayout.units import MM_PER_INCH, Units, feet_inches, write_length
from mastlayout.words import _

if TYPE_CHECKING:
    from shapely import LineString, Polygon

# Patches of both sides that differ by less are one row.
_ALIKE_MM = 30.0
# What stands this much within another's patch needs none of its own.
_COVERED = 0.9
# A patch taller than this is called a strip.
_STRIP_MM = 1500.0


Sort = Literal["wire", "tip", "fitting"]


@dataclass(frozen=True, eq=False)
class _Patch:
    """A patch: what it is for, in which state, its highest and lowest places (out, up), and its outline."""

    names: tuple[str, ...]
    when: str
    sort: Sort
    ends: tuple[Array, Array]
    shape: "Polygon"


def chafe_of(report: Report, units: Units) -> Chafe:
    """Return the chafe sheet's rows: every sail whose cloth can be followed, and why the others cannot."""
    scene, margin = report.scene, margin_of(report.limits)
    lofts = _known_lofts(report)
    sails = []
    for loft, found in lofts:
        patches = _patches(scene, loft, [one for one in found if one.does == "patched"], margin)
        sails.append(
            ChafeSail(
                loft.name,
                _facts(loft, units),
                _points(loft.outline),
                tuple(_row(one, loft, units) for one in patches),
                _called(scene, found, "rubs"),
                _called(scene, found, "moved"),
                loft.reefed_mm,
            )
        )
    above, below, beside = (_taped(mm, units) for mm in margin)
    left_out = tuple(_left_out(scene, {loft.sail.id for loft, _found in lofts}))
    return Chafe(tuple(sails), (above, below, beside), left_out)


@once  # the same report is printed in millimetres, in inches, and on every paper
def _known_lofts(report: Report) -> list[tuple[Loft, list[Chafed]]]:
    return list(_lofts(report))


def _lofts(report: Report) -> Iterator[tuple[Loft, list[Chafed]]]:
    """Yield each sail that can be followed, laid flat, and all that it lies on."""
    scene, limits = report.scene, report.limits
    on_the_tack, as_it_eases = (list(touched(report, rule)) for rule in (TACK, CLOTH))
    for number, state in enumerate(scene.tack.cloths.states):
        if not (state.hoisting or state.backed or state.sagged) and state.reef is None:
            loft = loft_of_headsail(scene.tack.cloths, number)
            yield loft, list(chafed_by_headsail(scene, limits, loft, on_the_tack))
    for number, swung in enumerate(scene.main.states):
        if not swung.state.hoisting:
            loft = loft_of_main(swung)
            yield loft, list(chafed_by_main(scene, limits, loft, as_it_eases, number))


def _patches(scene: Scene, loft: Loft, found: Sequence[Chafed], margin: Margin) -> list[_Patch]:
    names = names_of(scene.layout)
    made = []
    for (what, when), lines in _by_thing(found).items():
        shape = patch(loft, lines, margin)
        if shape is not None:
            ends = _ends(np.concatenate(lines))
            made.append(_Patch((names.get(what, what),), when, _sort(scene, what), ends, shape))
    return sorted(_covering(_both_sides(made)), key=lambda one: -float(one.ends[0][1]))


def _sort(scene: Scene, what: str) -> Sort:
    return "wire" if what in scene.stays else "tip" if what in scene.spreaders else "fitting"


def _ends(places: Array) -> tuple[Array, Array]:
    """Return the highest and the lowest place; of a level line the farthest out and the nearest."""
    by = 1 if np.ptp(places[:, 1]) > 1.0 else 0
    return places[places[:, by].argmax()], places[places[:, by].argmin()]


def _by_thing(found: Iterable[Chafed]) -> dict[tuple[str, str], list[Array]]:
    """Gather the lines along which one thing is met in one state."""
    groups: dict[tuple[str, str], list[Array]] = {}
    for one in found:
        groups.setdefault((one.what, one.when), []).append(one.line)
    return groups


def _both_sides(made: Iterable[_Patch]) -> list[_Patch]:
    """Make one of two that are each other's like on either side and lie at the same place."""
    kept: list[_Patch] = []
    for one in made:
        mate = next((at for at, other in enumerate(kept) if _mates(one, other)), None)
        if mate is None:
            kept.append(one)
        else:
            name = _("{name}, P and S").format(name=without_side(one.names[0]))
            kept[mate] = replace(kept[mate], names=(name,), shape=_joined(kept[mate].shape, one.shape))
    return kept


def _joined(one: "Polygon", other: "Polygon") -> "Polygon":
    """Return the outline of both: of those that lie at nearly the same place."""
    import shapely  # noqa: PLC0415 - 0.1 s, and a check needs none

    both = shapely.union(one, other)
    return both if isinstance(both, shapely.Polygon) else one


def _mates(one: _Patch, other: _Patch) -> bool:
    alike = np.abs(np.subtract(one.shape.bounds, other.shape.bounds)).max() < _ALIKE_MM
    named = other.names[0] == other_side_name(one.names[0]) != one.names[0]
    return one.when == other.when and named and bool(alike)


def _covering(made: Sequence[_Patch]) -> list[_Patch]:
    """Leave out a patch that lies within that of another wire or fitting, and name it there; tips stay."""
    kept: list[_Patch] = []
    for one in sorted(made, key=lambda patch: -patch.shape.area):
        within = next(
            (
                at
                for at, other in enumerate(kept)
                if one.sort == other.sort != "tip"
                and one.when == other.when
                and one.shape.intersection(other.shape).area > _COVERED * one.shape.area
            ),
            None,
        )
        if within is None:
            kept.append(one)
        else:
            kept[within] = replace(kept[within], names=(*kept[within].names, *one.names))
    return kept


def _row(one: _Patch, loft: Loft, units: Units) -> ChafeRow:
    leech, (high, low) = leech_line(loft), one.ends
    return ChafeRow(
        _("; ").join(one.names),
        one.when,
        _alike_once(_taped(float(end[1]), units) for end in (high, low)),
        _alike_once(_taped(float(end[0]), units) for end in (high, low)),
        _alike_once(_taped(_up_the_leech(leech, end), units) for end in (high, low)),
        _size(one, units),
        _points(np.asarray(one.shape.exterior.coords)[:-1]),
    )


def _alike_once(written: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(written))


def _up_the_leech(leech: "LineString", end: Array) -> float:
    import shapely  # noqa: PLC0415 - 0.1 s, and a check needs none

    return float(shapely.line_locate_point(leech, shapely.Point(end)))


def _size(one: _Patch, units: Units) -> tuple[str, str]:
    """Write how large a patch is: up and across; of a strip how wide it is."""
    left, low, right, high = one.shape.bounds
    if high - low <= _STRIP_MM:
        up, across = (_taped(side, units) for side in (high - low, right - left))
        return _("{up} up").format(up=up), _("{wide} wide").format(wide=across)
    wide = one.shape.area / float(np.hypot(*np.subtract(*one.ends)))
    return _("strip"), _("{wide} wide").format(wide=_taped(min(wide, right - left), units))


def _taped(length_mm: float, units: Units) -> str:
    """Write a length on cloth, which no tape reads nearer: in centimetres' steps or half inches."""
    if units == "inches":
        return feet_inches(round(length_mm / MM_PER_INCH * 2), 2)
    return write_length(round(length_mm, -1))


def _facts(loft: Loft, units: Units) -> str:
    luff, foot = write_length(loft.luff_mm, units), write_length(float(loft.leech[0, 0]), units)
    if loft.sine:
        return _("luff {luff}, LP {lp}").format(luff=luff, lp=foot)
    return _("luff {luff}, foot {foot}").format(luff=luff, foot=foot)


def _called(scene: Scene, found: Iterable[Chafed], does: str) -> tuple[str, ...]:
    """Call what cloth only rubs on, or what must be moved: by its tag too where it has one."""
    names, called = names_of(scene.layout), []
    for one in found:
        if one.does == does:
            tag = scene.placed[one.what].fitting.tag
            called.append(f"{tag} {names[one.what]}" if tag else names[one.what])
    return tuple(dict.fromkeys(called))


def _left_out(scene: Scene, known: AbstractSet[str]) -> Iterator[str]:
    for sail in scene.layout.sails:
        if sail.id in known:
            continue
        if sail.role in ("code sail", "spinnaker") or (sail.role != "main" and not sail.stay):
            yield _("{sail}: its luff is free: see on the water what it meets.").format(sail=sail.name)
        else:
            yield _("{sail}: not worked out, its measures are not known: see MEASURE FIRST.").format(
                sail=sail.name
            )


def _points(places: Array) -> tuple[tuple[float, float], ...]:
    return tuple((float(x), float(y)) for x, y in places)

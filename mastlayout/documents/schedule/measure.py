"""The rows of the measure list from what the checks could not ask."""

from collections.abc import Iterable, Iterator, Sequence

from mastlayout.checks.report import Report
from mastlayout.checks.sentence import asked, names_of
from mastlayout.checks.wanted import Wanted, wanted
from mastlayout.documents.rows import MeasureRow
from mastlayout.geometry.scene import Scene
from mastlayout.model.measure import Instruction
from mastlayout.words import _

_MOST_NAMES, _MOST_BOXES = 12, 16


def measure_rows(report: Report) -> tuple[MeasureRow, ...]:
    """Return what to measure: while the mast stands, on trestles, from the chair."""
    return tuple(row for one in wanted(report) for row in _rows(one, report.scene))


def first_rows(measures: Iterable[Instruction]) -> tuple[MeasureRow, ...]:
    """Return the measure list of a mast that nobody has entered yet."""
    return tuple(_row(measure, measure.serves, measure.boxes) for measure in measures)


def _rows(one: Wanted, scene: Scene) -> Iterator[MeasureRow]:
    """Yield one row with a box for each thing to measure, or a row for each where it has boxes of its own."""
    measure, things = one.instruction, one.things
    asks = _(" and ").join(asked(one))
    blocks = asks if one.blocked == things else f"{asks}: {_listed(_boxes(one.blocked, scene))}"
    if measure.boxes:
        for name in _called(things, scene):
            yield _row(measure, blocks, measure.boxes, name)
        return
    for start in range(0, len(things), _MOST_BOXES):
        boxes = _boxes(things[start : start + _MOST_BOXES], scene)
        yield _row(measure, blocks, boxes if things != ("mast",) else ())


def _row(measure: Instruction, blocks: str, boxes: tuple[str, ...], of: str = "") -> MeasureRow:
    title = f"{measure.title}: {of}" if of else measure.title
    return MeasureRow(
        measure.when, title, measure.how, blocks, measure.tool, measure.tolerance, measure.picture, boxes
    )


def _tags(scene: Scene) -> dict[str, str]:
    return {fitting.id: str(fitting.tag) for fitting in scene.layout.fittings if fitting.tag is not None}


def _boxes(things: Sequence[str], scene: Scene) -> tuple[str, ...]:
    """Name the boxes: a fitting by its tag, anything else by its name."""
    names, tags = names_of(scene.layout), _tags(scene)
    return tuple(tags.get(thing, names.get(thing, thing)) for thing in things)


def _called(things: Sequence[str], scene: Scene) -> list[str]:
    """Return tag and name of each thing."""
    names, tags = names_of(scene.layout), _tags(scene)
    return [f"{tags.get(thing, '')} {names.get(thing, thing)}".strip() for thing in things]


def _listed(names: Sequence[str]) -> str:
    words = ", ".join(names[:_MOST_NAMES])
    more = len(names) - _MOST_NAMES
    return words if more <= 0 else _("{names} and {more} more").format(names=words, more=more)

"""The rows as plain tables, for the spreadsheet and for comma separated files."""

from collections.abc import Iterator, Mapping, Sequence

from mastlayout.documents.faces import face_words
from mastlayout.documents.rows import DrillBlock, HoleRow, MountRow, OrderGroup, Plan, SheetHead
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Reading, RoundReading
from mastlayout.units import MM_PER_INCH
from mastlayout.words import _

Cell = str | float | int | None
GROUPS: Mapping[OrderGroup, str] = {
    "fittings": _("fittings"),
    "fasteners": _("fasteners"),
    "cables": _("cables"),
    "consumables": _("consumables"),
    "tools": _("tools"),
}


@dataclass(frozen=True)
class Table:
    """A table: its name, its heads, its rows. None is an empty cell: a box to fill, or not known."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def tables(plan: Plan) -> tuple[Table, ...]:
    """Return the tables of a plan; no order where nothing is bought."""
    order = (order_table(plan),) if plan.order else ()
    return holes_table(plan), fittings_table(plan), *order, findings_table(plan), measures_table(plan)


def _unit(head: SheetHead) -> str:
    return _("mm") if head.units == "metric" else _("ft-in")


def _height(reading: Reading, number: int) -> Cell:
    """Return one number of a height: a number of millimetres, or feet and inches in words."""
    return number if reading.units == "metric" else reading.text(number)


def _around(reading: RoundReading, number: int) -> Cell:
    return number / 2 if reading.units == "metric" else reading.text(number)


def holes_table(plan: Plan) -> Table:
    """Return one row a hole; a foot that is typical still has one row, its centre."""
    unit = _unit(plan.head)
    heads = (
        _("tag"), _("fitting"), _("face up"), _("from masthead, {unit}"), _("from heel, {unit}"),
        _("sum, {unit}"), _("round from forward centreline, {unit}"), _("from track edge, {unit}"),
        _("sum round, {unit}"), _("side"), _("diameter, mm"), _("drill, mm"), _("drill, in"),
        _("pilot, stop"), _("fastener"), _("stack"), _("marked"), _("measured again"), _("drilled"),
        _("deburred"), _("isolated"), _("as built"), _("held because"),
    )  # fmt: skip
    rows = tuple(row for block in plan.drill for row in _holes(block, plan.head))
    return Table(_("Drill"), tuple(head.format(unit=unit) for head in heads), rows)


def _holes(block: DrillBlock, head: SheetHead) -> Iterator[tuple[Cell, ...]]:
    for row in block.rows:
        yield _hole(row.tag, row, block, _held(row, block, head))
    if not block.rows:
        held = _("centre only: offer up the part, then print anew")
        yield _hole(_("{tag} centre").format(tag=block.tag), block.centre, block, _also(held, block, head))


def _hole(tag: str, row: HoleRow, block: DrillBlock, held: str) -> tuple[Cell, ...]:
    height, around, track = row.height, row.round, block.half_track is not None
    return (
        tag,
        block.name,
        face_words(block.face).title,
        _height(height, height.masthead),
        _height(height, height.heel),
        _height(height, height.total),
        _around(around, around.forward),
        _around(around, around.track_edge) if track else None,
        _around(around, around.total) if track else None,
        _side(around),
        row.diameter_mm,
        row.drill_mm,
        None if row.drill_mm is None else round(row.drill_mm / MM_PER_INCH, 3),
        row.how,
        row.fastener,
        row.stack,
        *(None,) * 5,
        row.built or None,
        held,
    )


def _side(around: RoundReading) -> str:
    if around.side is None:
        return _("on the track") if around.forward else _("on the forward centreline")
    return _("port") if around.side == "port" else _("starboard")


def _held(row: HoleRow, block: DrillBlock, head: SheetHead) -> str:
    return _also(row.stop.text if row.stop else "", block, head)


def _also(held: str, block: DrillBlock, head: SheetHead) -> str:
    unchecked = "" if head.holes_checked else _("hole rules not checked: do not drill")
    return "; ".join(part for part in (unchecked, block.fault.text if block.fault else "", held) if part)


def fittings_table(plan: Plan) -> Table:
    """Return one row a fitting, in the order of work."""
    unit = _unit(plan.head)
    heads = (
        _("no."), _("tag"), _("fitting"), _("from masthead, {unit}"), _("from heel, {unit}"),
        _("sum, {unit}"), _("face"), _("place"), _("mass, kg"), _("holes"), _("foot"),
        _("isolation"), _("cable"), _("dry run"),
        _("holes done"), _("bedded"), _("cable in"), _("photo"), _("hold"), _("notes"),
    )  # fmt: skip
    rows = tuple(_fitting(number, row) for number, row in enumerate(plan.mount, 1))
    return Table(_("Mount"), tuple(head.format(unit=unit) for head in heads), rows)


def _fitting(number: int, row: MountRow) -> tuple[Cell, ...]:
    height = row.height
    notes = " ".join(note.text for note in row.notes)
    return (
        number,
        row.tag,
        row.name,
        _height(height, height.masthead),
        _height(height, height.heel),
        _height(height, height.total),
        row.face,
        row.place,
        row.mass_kg,
        row.holes,
        row.foot,
        row.isolation,
        row.cable,
        *(None,) * 5,
        _("dry run only") if row.hold else "",
        f"{row.remark}: {notes}" if row.remark and notes else row.remark or notes,
    )


def order_table(plan: Plan) -> Table:
    """Return one row a thing to buy, with the cells to tick once it is ordered and once it is there."""
    heads = (
        _("group"), _("what"), _("size"), _("needed"), _("to buy"), _("unit"), _("for tags"), _("state"),
        _("ordered"), _("in hand"),
    )  # fmt: skip
    rows = tuple(
        (GROUPS[o.group], o.what, o.size, o.needed, o.buy, o.unit, o.for_, o.state, None, None)
        for o in plan.order
    )
    return Table(_("Order"), heads, rows)


def findings_table(plan: Plan) -> Table:
    """Return one row a finding, then one a limit that the owner set."""
    heads = (
        _("standing"), _("code"), _("what"), _("finding"), _("measured"), _("needed"), _("limit"),
        _("source"), _("remark"),
    )  # fmt: skip
    rows: list[tuple[Cell, ...]] = [
        (f.standing, f.code, f.subjects, f.sentence, f.measured, f.needed, f.limit, f.source, f.remark)
        for f in plan.findings
    ]
    own = _("limit set by the owner")
    rows += [(own, "", limit.title, "", "", limit.own, limit.value, own, limit.why) for limit in plan.limits]
    return Table(_("Findings"), heads, tuple(rows))


def measures_table(plan: Plan) -> Table:
    """Return one row a box of the measure list."""
    heads = (
        _("no."),
        _("when"),
        _("measure"),
        _("how"),
        _("it blocks"),
        _("with"),
        _("tolerance"),
        _("box"),
        _("answer"),
    )
    when = {
        "standing": _("while the mast stands"),
        "trestles": _("on trestles"),
        "chair": _("from the chair"),
    }
    rows = tuple(
        (number, when[row.group], row.title, row.how, row.blocks, row.tool, row.tolerance, box, None)
        for number, row in enumerate(plan.measure, 1)
        for box in row.boxes or ("",)
    )
    return Table(_("Measure"), heads, rows)


def widths(table: Table) -> Sequence[int]:
    """Return how many letters each column wants, between 6 and 60."""
    columns = zip(table.heads, *table.rows, strict=True)
    return [min(60, max(6, *(len(str(cell)) for cell in column if cell is not None))) for column in columns]

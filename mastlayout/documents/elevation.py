"""The elevation: the mast from starboard, forward to the right, and a column of heights beside it."""

from collections.abc import Sequence

from mastlayout.documents.lettering import fitted_lines, grouped, one_line, reading, width_mm
from mastlayout.documents.mastdrawing import (
    AXIS_X,
    BELOW_MM,
    ELBOW_MM,
    TOP_MM,
    MastFrame,
    levels,
    mast,
    stays,
    tape,
)
from mastlayout.documents.page import (
    BOX,
    DOTTED,
    THIN,
    Line,
    Marks,
    Page,
    PaperName,
    Polyline,
    Text,
    block_mm,
)
from mastlayout.documents.rows import Elevation, ElevationRow, SheetHead
from mastlayout.documents.sheet import (
    FOOT_MM,
    SheetName,
    column_heads,
    frame,
    tag_badge,
    title,
    written_lines,
)
from mastlayout.documents.spread import spread
from mastlayout.documents.states import state_sign
from mastlayout.frozen import dataclass
from mastlayout.units import MM_PER_INCH, Units, feet_inches, sixteenths
from mastlayout.words import _

# Labels stand this far apart; where one column cannot hold them so, closer, and then on further sheets.
PITCH_MM, TIGHT_MM = 5.3, 4.7
_SCALES = {
    "A4": (100, 150, 200, 300, 500),
    "Letter": (100, 150, 200, 300, 500),
    "A3": (50, 75, 100, 150, 200, 300),
}
_MADE_MM = 18.5
_HEAD_MM, _LABELS_TOP_MM, _LEADER_MM = 24.3, 33.5, 51.5


@dataclass(frozen=True)
class _Columns:
    """Right edges of the numbers, left edges of tag and words, and the numbers' two sizes."""

    masthead: float
    heel: float
    water: float
    tag: float
    what: float
    masthead_pt: float
    heel_pt: float


# Feet, inches and a fraction want more room than millimetres.
_COLUMNS: dict[Units, _Columns] = {
    "metric": _Columns(69.0, 84.5, 96.0, 98.5, 109.0, 11.5, 9.0),
    "inches": _Columns(74.0, 92.0, 103.0, 105.0, 114.5, 10.0, 8.4),
}


def elevation_pages(head: SheetHead, elevation: Elevation, paper: PaperName = "A4") -> list[Page]:
    """Return the elevation; more labels than one column holds go on further sheets of the same mast."""
    width, height = block_mm(paper, landscape=False)
    frame_ = MastFrame(width, height, _scale_of(elevation, height, _SCALES[paper]))
    rows = sorted(elevation.rows, key=lambda row: row.from_masthead_mm)
    parts = _parts(rows, frame_)
    pitch = _pitch(len(parts[0]), frame_)
    pages = []
    for number, part in enumerate(parts, 1):
        name = SheetName(_("ELEVATION"), number, len(parts), is_map=True)
        marks = (
            *frame(head, name, "elevation", (width, height)),
            *_sheet(head, elevation, part, frame_, pitch),
        )
        pages.append(Page(paper, landscape=False, marks=marks))
    return pages


def _parts(rows: Sequence[ElevationRow], frame_: MastFrame) -> list[Sequence[ElevationRow]]:
    """Share rows out among as few sheets as hold them, evenly: so each stands near its own height."""
    sheets = -(-max(len(rows), 1) // _room(TIGHT_MM, frame_))
    most = -(-max(len(rows), 1) // sheets)
    return [rows[start : start + most] for start in range(0, max(len(rows), 1), most)]


def _pitch(count: int, frame_: MastFrame) -> float:
    """Return how far apart the labels stand: closer where that saves a sheet."""
    return PITCH_MM if count <= _room(PITCH_MM, frame_) else TIGHT_MM


def _room(pitch: float, frame_: MastFrame) -> int:
    return int((frame_.bottom - _LABELS_TOP_MM) / pitch) + 1


def _scale_of(elevation: Elevation, height: float, scales: Sequence[int]) -> int:
    room = height - FOOT_MM - BELOW_MM - TOP_MM
    return next((scale for scale in scales if elevation.length_mm / scale <= room), scales[-1])


def _sheet(
    head: SheetHead, elevation: Elevation, rows: Sequence[ElevationRow], frame_: MastFrame, pitch: float
) -> Marks:
    yield from title(_("The mast from starboard, 1 : {scale}").format(scale=frame_.scale), 15.0, frame_.width)
    yield Text(0, 20.3, one_line(_summary(head), 8.2, frame_.width), 8.2)
    yield from _column_heads(frame_, _COLUMNS[head.units])
    yield from tape(head, elevation, frame_)
    yield from mast(elevation, frame_)
    yield from levels(elevation, frame_)
    yield from _labels(rows, elevation, frame_, head, pitch)
    yield from stays(elevation, frame_)
    yield from _bar(frame_, head)


def _summary(head: SheetHead) -> str:
    rake = (
        _("rake not known")
        if head.rake_deg is None
        else _("rake {rake}° not drawn").format(rake=f"{head.rake_deg:.1f}")
    )
    units = (
        _("MASTHEAD and HEEL in mm along the mast, WATER in m straight up")
        if head.units == "metric"
        else _("MASTHEAD and HEEL in feet-inches along the mast, WATER straight up")
    )
    return _("{day} · plan mark {mark} · mast {length} · {rake} · {units}").format(
        day=head.day,
        mark=head.plan_mark,
        length=grouped(head.total.text(head.total.total)),
        rake=rake,
        units=units,
    )


def _column_heads(frame_: MastFrame, at: _Columns) -> Marks:
    y = _HEAD_MM + 3.3
    yield Text(AXIS_X - 13.5, y, _("AFT"), 8, bold=True)
    yield Text(AXIS_X + 9.5, y, _("FORWARD"), 8, bold=True)
    tip = AXIS_X + 9.5 + width_mm(_("FORWARD"), 8, bold=True) + 1.0
    yield Polyline(((tip, y - 2.2), (tip + 2.4, y - 1.0), (tip, y + 0.2)), 0, closed=True, fill=1.0)
    yield from column_heads(
        (_LEADER_MM + 0.5, _HEAD_MM, frame_.width, _HEAD_MM + 4.8),
        7.6,
        starts=((at.what, _("WHAT")),),
        ends=(
            (at.masthead, _("MASTHEAD")),
            (at.heel, _("HEEL")),
            (at.water, _("WATER")),
            (_face_x(frame_), _("FACE")),
            (frame_.width - 1.0, _("AS BUILT")),
        ),
    )


def _face_x(frame_: MastFrame) -> float:
    return frame_.width - 20.0


def _labels(
    rows: Sequence[ElevationRow], elevation: Elevation, frame_: MastFrame, head: SheetHead, pitch: float
) -> Marks:
    places = [frame_.at((0, row.from_masthead_mm))[1] for row in rows]
    levels = spread(places, pitch, _LABELS_TOP_MM, frame_.bottom)
    fore = max(frame_.at(point)[0] for point in elevation.profile)
    for row, place, level in zip(rows, places, levels, strict=True):
        yield Polyline(((fore, place), (ELBOW_MM, level), (_LEADER_MM, level)), THIN)
        yield from _label(row, level + 1.4, frame_, head)
    left, below = _LEADER_MM + 1.0, max(levels, default=_LABELS_TOP_MM) + pitch
    yield from written_lines(below, frame_.bottom, _("Seen on the mast:"), frame_.width, left)


def _label(row: ElevationRow, y: float, frame_: MastFrame, head: SheetHead) -> Marks:
    height, at = row.height, _COLUMNS[head.units]
    yield from reading(at.masthead, y, height.text(height.masthead), at.masthead_pt, bold=True, anchor="end")
    yield from reading(at.heel, y, height.text(height.heel), at.heel_pt, anchor="end")
    yield Text(at.water, y, _water(row.water_mm, head), 9.0, anchor="end")
    if row.tag:
        yield from tag_badge(at.tag, y - 3.1, 7.0, 4.0, row.tag, 9.0)
    face = one_line(row.face, 8.0, 18.0)
    room = _face_x(frame_) - width_mm(face, 8.0) - at.what - 2.0 - (4.5 if row.fault else 0.0)
    size, (what,) = fitted_lines(row.what, (9.0, 8.0, 7.2), room, 1, bold=row.strong)
    yield Text(at.what, y, what, size, bold=row.strong)
    if row.fault:
        yield from state_sign("fault", at.what + 3.2 + width_mm(what, size, bold=row.strong), y - 1.2)
    yield Text(_face_x(frame_), y, face, 8.0, anchor="end")
    if row.made:
        yield Text(
            frame_.width, y, one_line(row.made, 8.0, _MADE_MM, bold=True), 8.0, bold=True, anchor="end"
        )
    else:
        yield Line(_face_x(frame_) + 2.0, y + 0.4, frame_.width, y + 0.4, THIN, DOTTED)


def _water(water_mm: float | None, head: SheetHead) -> str:
    if water_mm is None:
        return "?"
    if head.units == "inches":
        return feet_inches(round(water_mm / MM_PER_INCH), 1)
    return f"{water_mm / 1000:.2f}"


def _bar(frame_: MastFrame, head: SheetHead) -> Marks:
    """Yield the 100 mm bar: what is printed to scale says so, and is never measured from."""
    y = frame_.height - FOOT_MM - 12.5
    yield Line(0, y, 100.0, y, BOX)
    for count in range(11):
        end = count in (0, 10)
        yield Line(count * 10.0, y - (2.0 if end else 1.0), count * 10.0, y, BOX)
    yield Text(0, y + 3.4, _bar_words(frame_.scale, head), 7.4)
    right = frame_.width
    yield from tag_badge(right - 68.0, y - 3.1, 7.0, 4.0, "13", 9.0)
    yield Text(right - 59.5, y, _("new, its tag"), 7.6)
    yield from state_sign("fault", right - 38.0, y - 1.1)
    yield Text(right - 34.5, y, _("open fault: see findings"), 7.6)


def _bar_words(scale: int, head: SheetHead) -> str:
    """Return how much of the mast 100 mm of paper are."""
    mast_mm = scale * 100.0
    long = _("{metres} metres").format(metres=f"{mast_mm / 1000:g}")
    if head.units == "inches":
        long = _("{length} (feet-inches)").format(length=feet_inches(sixteenths(mast_mm)))
    words = _(
        "This bar is {long} of mast and 100 mm of paper. Tape it: if it is not 100, only the numbers count."
    )
    return words.format(long=long)

"""Cards for the bosun's chair: one a height, two a sheet, with what is done, brought and asked before."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import accumulate

from mastlayout.documents.lettering import (
    fitted_lines,
    grouped,
    leading_mm,
    one_line,
    reading,
    width_mm,
    wrapped,
)
from mastlayout.documents.page import (
    A3_ZOOM,
    DASHED,
    MEDIUM,
    THIN,
    Line,
    Marks,
    Page,
    PaperName,
    Rect,
    Text,
    moved,
)
from mastlayout.documents.rows import ChairCard, MountRow, SheetHead
from mastlayout.documents.sheet import (
    FOOT_MM,
    SheetName,
    cautions,
    frame,
    sign,
    tag_badge,
    tick_box,
    written_lines,
)
from mastlayout.words import _

_WIDTH_MM, _HEIGHT_MM = 259.0, 190.0
_CARD_MM, _TOP_MM, _BOTTOM_MM = 126.0, 9.5, _HEIGHT_MM - FOOT_MM - 1.0
_HEAD_MM, _BAND_MM, _JOB_MM, _LINE_PT = 24.0, 5.0, 19.0, 9.0
_BOX, _BOX_STEP = _CARD_MM - 29.0, 10.4
_NAME, _COLUMN_MM = 14.5, _CARD_MM / 2 - 2.0
_WORK_PT, _SAID_PT, _SAID_LINE_MM, _NAME_LINE_MM = 8.6, 7.8, 3.5, 4.8
_ASKED_MM = 4.9


def chair_pages(head: SheetHead, cards: Sequence[ChairCard], paper: PaperName = "A4") -> list[Page]:
    """Return the cards from the masthead down; none where nothing is fitted once the mast stands."""
    whole = [piece for card in cards for piece in _pieces(card)]
    sheets = [whole[start : start + 2] for start in range(0, len(whole), 2)]
    zoom = A3_ZOOM if paper == "A3" else 1.0
    pages = []
    for number, sheet in enumerate(sheets, 1):
        name = SheetName(_("CHAIR"), number, len(sheets))
        marks = [*frame(head, name, "chair", (_WIDTH_MM, _HEIGHT_MM))]
        marks.append(Line(_WIDTH_MM / 2, _TOP_MM, _WIDTH_MM / 2, _BOTTOM_MM, THIN, DASHED))
        for count, card in enumerate(sheet):
            marks += moved(_card(head, card), count * (_WIDTH_MM - _CARD_MM), 0.0)
        if len(sheet) == 1:
            spare = written_lines(_TOP_MM, _BOTTOM_MM, _("Notes:"), _CARD_MM)
            marks += moved(spare, _WIDTH_MM - _CARD_MM, 0.0)
        pages.append(Page(paper, landscape=True, marks=tuple(marks), zoom=zoom))
    return pages


def _pieces(card: ChairCard) -> Iterator[ChairCard]:
    """Split a card that holds too many jobs; what is brought and looked over stands on the first."""
    jobs, piece = card.jobs, card
    while True:
        room = _BOTTOM_MM - _TOP_MM - _fixed_mm(piece)
        many = _fitting_in(jobs, room)
        yield replace(piece, jobs=jobs[:many])
        jobs = jobs[many:]
        if not jobs:
            return
        piece = replace(card, look=(), bring=(), warnings=(), continued=True)


def _fitting_in(jobs: Sequence[MountRow], room_mm: float) -> int:
    """Return how many of some jobs, one at least, stand in so much height."""
    down = list(accumulate(map(_job_mm, jobs)))
    return max(sum(end <= room_mm for end in down), 1)


def _job_mm(job: MountRow) -> float:
    more = len(_work_lines(job)) - 1 + max(len(_said_lines(job)) - 1, 0)
    return _JOB_MM + (len(_name_of(job)[1]) - 1) * _NAME_LINE_MM + more * _SAID_LINE_MM


def _name_of(job: MountRow) -> tuple[float, list[str]]:
    return fitted_lines(job.name, (12.5, 11.0, 9.5), _BOX - _NAME - 1.5, 2, bold=True)


def _work_lines(job: MountRow) -> list[str]:
    work = " · ".join(words for words in (job.holes, job.isolation, job.cable) if words)
    return wrapped(work, _WORK_PT, _CARD_MM - _NAME)


def _said_lines(job: MountRow) -> list[str]:
    return wrapped(_said(job), _SAID_PT, _CARD_MM - _NAME)


def _fixed_mm(card: ChairCard) -> float:
    asked = _BAND_MM + _ASKED_MM * len(cautions("chair", "card")) + 2.0
    return _HEAD_MM + _BAND_MM + _bring_mm(card) + len(_more(card)) * leading_mm(_LINE_PT) + asked + 3.0


def _more(card: ChairCard) -> list[tuple[str, bool]]:
    """Return the lines below what is brought: warnings, bold, then what is looked over as well."""
    lines = [(line, True) for words in card.warnings for line in wrapped(words, 8.6, _CARD_MM, bold=True)]
    if card.look:
        words = _("Look over as well (fast, sealed, lit): {things}").format(things=", ".join(card.look))
        lines += [(line, False) for line in wrapped(words, 8.6, _CARD_MM)]
    return lines


def _columns(card: ChairCard) -> tuple[list[str], list[str]]:
    """Return what is brought in two columns of lines, numbered in the order used."""
    items = [
        [f"{number}  {first}", *(f"     {line}" for line in rest)]
        for number, words in enumerate(card.bring, 1)
        for first, *rest in [wrapped(words, _LINE_PT, _COLUMN_MM - 8.0)]
    ]
    half = (sum(map(len, items)) + 1) // 2
    left: list[str] = []
    right: list[str] = []
    for item in items:
        (right if right or len(left) + len(item) > half + 1 else left).extend(item)
    return left, right


def _bring_mm(card: ChairCard) -> float:
    if not card.bring:
        return 0.0
    return _BAND_MM + max(map(len, _columns(card))) * leading_mm(_LINE_PT) + 2.0


def _card(head: SheetHead, card: ChairCard) -> Marks:
    yield from _heading(head, card)
    y = _TOP_MM + _HEAD_MM
    yield from _band(_("FIT"), y)
    for count, words in enumerate((_("dry run"), _("fitted"), _("photo"))):
        x = _BOX + count * _BOX_STEP + 3.75
        yield Text(x, y + 3.5, words, 7.0, bold=True, anchor="middle", white=True)
    y += _BAND_MM
    for job in card.jobs:
        yield from _job(job, y)
        y += _job_mm(job)
        yield Line(0, y, _CARD_MM, y, MEDIUM)
    if card.bring:
        yield from _bring(card, y)
        y += _bring_mm(card)
    for words, bold in _more(card):
        y += leading_mm(_LINE_PT)
        yield Text(0, y, words, 8.6, bold=bold)
    asked = _BOTTOM_MM - _BAND_MM - _ASKED_MM * len(cautions("chair", "card"))
    yield from written_lines(y + 3.0, asked - 1.0, _("Found aloft:"), _CARD_MM)
    yield from _asked(asked)


def _heading(head: SheetHead, card: ChairCard) -> Marks:
    top, bottom = card.top, card.bottom
    y = _TOP_MM + 3.4
    yield Text(0, y, _("from the MASTHEAD"), 8.2, bold=True)
    words = head.yacht if not card.continued else _("{yacht}, continued").format(yacht=head.yacht)
    yield Text(_CARD_MM, y, one_line(words, 9, 60, bold=True), 9, bold=True, anchor="end")
    y += 9.8
    first = top.text(top.masthead) if top.masthead else _("TOP")
    yield from reading(0, y, first, 26, bold=True)
    if bottom.masthead != top.masthead:
        x = width_mm(grouped(first), 26, bold=True) + 3.0
        yield Text(x, y, _("to"), 12)
        yield from reading(x + 6.5, y, bottom.text(bottom.masthead), 26, bold=True)
    water = _("height above water not known")
    if card.water_mm is not None:
        water = _("{height} m above water").format(height=f"{card.water_mm / 1000:.2f}")
    yield Text(_CARD_MM, y, water, 9.5, anchor="end")
    yield Text(0, y + 7.2, one_line(card.near, 11, _CARD_MM, bold=True), 11, bold=True)


def _band(words: str, y: float) -> Marks:
    yield Rect(0, y, _CARD_MM, _BAND_MM, 0, 1.0)
    yield Text(1.0, y + 3.6, words, 8.8, bold=True, white=True)


def _job(job: MountRow, y: float) -> Marks:
    room = _BOX - _NAME - 1.5
    yield from _job_boxes(job, y)
    size, lines = _name_of(job)
    for count, line in enumerate(lines):
        yield Text(_NAME, y + 5.6 + count * _NAME_LINE_MM, line, size, bold=True)
    y += (len(lines) - 1) * _NAME_LINE_MM
    height = "" if job.top else grouped(job.height.text(job.height.masthead))
    place = " · ".join(words for words in (height, job.face, job.place) if words)
    yield Text(_NAME, y + 10.2, one_line(place, 9.5, room, bold=True), 9.5, bold=True)
    y += 14.2
    for line in _work_lines(job):
        yield Text(_NAME, y, line, _WORK_PT)
        y += _SAID_LINE_MM
    for line in _said_lines(job):
        yield Text(_NAME, y, line, _SAID_PT)
        y += _SAID_LINE_MM


def _job_boxes(job: MountRow, y: float) -> Marks:
    yield from tag_badge(0, y + 2.0, 12.5, 9.0, job.tag, 16)
    yield from tick_box(_BOX, y + 2.2)
    if job.hold:
        yield from sign(_BOX + _BOX_STEP, y + 2.0, _CARD_MM - _BOX - _BOX_STEP, 8.0, _("HOLD"), "", 13)
        return
    for count in (1, 2):
        yield from tick_box(_BOX + count * _BOX_STEP, y + 2.2)


def _said(job: MountRow) -> str:
    """Return why a job is held and what is noted of it."""
    return " · ".join([*([job.remark] if job.remark else ()), *(grouped(note.text) for note in job.notes)])


def _bring(card: ChairCard, y: float) -> Marks:
    yield from _band(_("BRING, in the order used"), y)
    for x, lines in zip((0.0, _CARD_MM / 2), _columns(card), strict=True):
        for count, words in enumerate(lines, 1):
            yield Text(x + 1.0, y + _BAND_MM + count * leading_mm(_LINE_PT), words, _LINE_PT)


def _asked(y: float) -> Marks:
    yield from _band(_("BEFORE GOING UP"), y)
    for count, words in enumerate(cautions("chair", "card")):
        top = y + _BAND_MM + count * _ASKED_MM
        yield from tick_box(0, top + 0.9, 3.6)
        yield Text(5.6, top + 4.0, one_line(words, 9, _CARD_MM - 6.0), 9)

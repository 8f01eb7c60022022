"""All papers of one layout as named files."""

from collections.abc import Callable, Iterable, Iterator

from mastlayout.checks.report import NOT_RUN, Report
from mastlayout.documents.chafe import chafe_pages
from mastlayout.documents.chair import chair_pages
from mastlayout.documents.drill import drill_pages
from mastlayout.documents.elevation import elevation_pages
from mastlayout.documents.filename import file_stem
from mastlayout.documents.findings import findings_pages
from mastlayout.documents.heights import heights_pages
from mastlayout.documents.labels import label_pages
from mastlayout.documents.lights import lights_pages
from mastlayout.documents.measure import measure_pages
from mastlayout.documents.mount import mount_pages
from mastlayout.documents.order import order_pages
from mastlayout.documents.page import Page, PaperName
from mastlayout.documents.pdf import pdf
from mastlayout.documents.rows import Plan, SheetHead
from mastlayout.documents.schedule.measure import first_rows
from mastlayout.documents.schedule.plan import day_in_words, plan_of
from mastlayout.documents.spreadsheet import spreadsheet
from mastlayout.documents.strips import strip_pages
from mastlayout.documents.table_csv import table_csv
from mastlayout.documents.tables import fittings_table, holes_table, order_table, tables
from mastlayout.documents.template.dxf import template_dxf
from mastlayout.documents.template.pages import template_pages
from mastlayout.documents.template.svg import template_svg
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import reading
from mastlayout.model.first_answers import FirstAnswers, first_measures
from mastlayout.units import Units
from mastlayout.words import _


@dataclass(frozen=True)
class Sheets:
    """The pages of one kind of sheet, with the kind's word in a file name and its name in words."""

    kind: str
    words: str
    pages: tuple[Page, ...]


@dataclass(frozen=True)
class Paper:
    """One file of a printing: its name, without a folder, and its bytes."""

    name: str
    data: bytes


def papers(report: Report, *, units: Units = "metric", paper: PaperName = "A4", day: str = "") -> list[Paper]:
    """Return every paper of a checked layout; ``day`` is the ISO date printed on it.

    A kind of sheet that has nothing to say is left out.
    """
    plan = plan_of(report, units, day)
    return [*(_file(plan, made) for made in sheets(plan, paper)), *_drawings(plan), *_tables(plan)]


def sheets(plan: Plan, paper: PaperName) -> Iterator[Sheets]:
    """Yield each kind of sheet that has something to say, drawn when it is asked for."""
    head = plan.head
    kinds: tuple[tuple[str, str, Callable[[], Iterable[Page]]], ...] = (
        ("drill", _("drilling schedule"), lambda: drill_pages(head, plan.drill, paper)),
        ("templates", _("templates"), lambda: template_pages(head, plan.templates, plan.no_templates, paper)),
        ("mount", _("mounting schedule"), lambda: mount_pages(head, plan.mount, paper)),
        ("order", _("order sheet"), lambda: order_pages(head, plan.order, paper)),
        (
            "labels",
            _("labels"),
            lambda: (*label_pages(head, plan.drill, paper), *strip_pages(head, plan.drill, paper)),
        ),
        ("chair", _("cards for the chair"), lambda: chair_pages(head, plan.chair, paper)),
        (
            "elevation",
            _("elevation"),
            lambda: elevation_pages(head, plan.elevation, paper) if plan.elevation else (),
        ),
        ("lights", _("lights"), lambda: lights_pages(head, plan.lights, paper)),
        ("heights", _("heights"), lambda: heights_pages(head, plan.heights, paper)),
        ("measure", _("measure first"), lambda: measure_pages(head, plan.measure, paper)),
        ("chafe", _("chafe sheet"), lambda: chafe_pages(head, plan.chafe, paper)),
        ("findings", _("findings"), lambda: findings_pages(head, plan.findings, plan.limits, paper, NOT_RUN)),
    )
    for kind, words, draw in kinds:
        pages = tuple(draw())
        if pages:
            yield Sheets(kind, words, pages)


def _file(plan: Plan, made: Sheets) -> Paper:
    yacht = plan.head.yacht
    return Paper(f"{file_stem(yacht)}-{made.kind}.pdf", pdf(made.pages, f"{yacht}, {made.words}"))


def _drawings(plan: Plan) -> Iterator[Paper]:
    """Yield the templates as drawings, each in one piece: for a plotter or a cutter, and for a browser."""
    for template in plan.templates:
        # The tag is the person's own and may be missing or doubled; the id is given once.
        tag, once = (
            template.block.tag,
            [one.block.tag for one in plan.templates].count(template.block.tag) == 1,
        )
        name = tag if once and tag.isdigit() else template.block.fitting
        stem = f"{file_stem(plan.head.yacht)}-template-{file_stem(name)}"
        yield Paper(f"{stem}.dxf", template_dxf(plan.head, template))
        yield Paper(f"{stem}.svg", template_svg(plan.head, template))


def _tables(plan: Plan) -> list[Paper]:
    stem, title = file_stem(plan.head.yacht), f"{plan.head.yacht}, {plan.head.plan_mark}"
    holes, fittings = table_csv(holes_table(plan)), table_csv(fittings_table(plan))
    order = [Paper(f"{stem}-order.csv", table_csv(order_table(plan)).encode("utf-8"))] if plan.order else []
    return [
        Paper(f"{stem}-schedule.xlsx", spreadsheet(tables(plan), title)),
        Paper(f"{stem}-holes.csv", holes.encode("utf-8")),
        Paper(f"{stem}-fittings.csv", fittings.encode("utf-8")),
        *order,
    ]


def first_paper(
    yacht: str, answers: FirstAnswers, *, units: Units = "metric", paper: PaperName = "A4", day: str = ""
) -> Paper:
    """Return the measure list of a mast that nobody has entered yet."""
    name = yacht or _("Mast")
    head = SheetHead(
        name, day_in_words(day), "----", reading(0.0, answers.mast_length_mm or 0.0, units), units
    )
    pages = measure_pages(head, first_rows(first_measures(answers)), paper)
    return Paper(f"{file_stem(name)}-measure.pdf", pdf(pages, f"{name}, {_('measure first')}"))

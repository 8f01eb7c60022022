"""All rows of a layout's papers."""

import datetime as dt
import hashlib

from mastlayout.checks.report import Report
from mastlayout.documents.rows import Plan, SheetHead
from mastlayout.documents.schedule.chafe import chafe_of
from mastlayout.documents.schedule.chair import chair_cards
from mastlayout.documents.schedule.drill import drill_blocks
from mastlayout.documents.schedule.elevation import elevation_of
from mastlayout.documents.schedule.findings import finding_rows, limit_rows
from mastlayout.documents.schedule.heights import heights_of
from mastlayout.documents.schedule.lights import lights_of
from mastlayout.documents.schedule.measure import measure_rows
from mastlayout.documents.schedule.mount import mount_rows
from mastlayout.documents.schedule.order import order_rows
from mastlayout.documents.schedule.template import templates_of
from mastlayout.geometry.frames import reading
from mastlayout.model.layout import Layout
from mastlayout.units import Units
from mastlayout.words import _


def plan_of(report: Report, units: Units = "metric", day: str = "") -> Plan:
    """Return all rows of a layout's papers; ``day`` is an ISO date, empty for none."""
    head = head_of(report, units, day)
    drill = drill_blocks(report, units)
    templates, no_templates = templates_of(report, units, drill)
    return Plan(
        head,
        drill,
        mount_rows(report, units, holes_checked=head.holes_checked),
        elevation_of(report, units),
        measure_rows(report),
        finding_rows(report, units),
        limit_rows(report),
        templates,
        no_templates,
        order_rows(report, units),
        chafe_of(report, units),
        lights_of(report, units),
        chair=chair_cards(report, units, holes_checked=head.holes_checked),
        heights=heights_of(report, units),
    )


def head_of(report: Report, units: Units, day: str) -> SheetHead:
    """Return what every sheet says of its yacht and plan."""
    layout = report.scene.layout
    return SheetHead(
        yacht=layout.boat.name,
        day=day_in_words(day),
        plan_mark=plan_mark(layout),
        total=reading(0.0, layout.mast.length_mm, units),
        units=units,
        rake_deg=layout.mast.rake_deg,
        holes_checked=report.holes_checked,
    )


def plan_mark(layout: Layout) -> str:
    """Return four signs that change with the plan; ticking a step as done changes no plan."""
    plan = layout.model_dump_json(exclude={"fittings": {"__all__": {"done"}}})
    return hashlib.sha256(plan.encode("utf-8")).hexdigest()[:4].upper()


def day_in_words(day: str) -> str:
    """Write an ISO date as paper does: 25 Nov 2026; anything else stays as it is."""
    months = [
        _("Jan"), _("Feb"), _("Mar"), _("Apr"), _("May"), _("Jun"), _("Jul"), _("Aug"), _("Sep"), _("Oct"),
        _("Nov"), _("Dec"),
    ]  # fmt: skip
    try:
        date = dt.date.fromisoformat(day)
    except ValueError:
        return day
    return f"{date.day} {months[date.month - 1]} {date.year}"

"""The rows of the order sheet: what is bought for the new fittings, counted from the plan itself.

What hangs on a wall nobody measured, or on a foot nobody has in hand, is listed and says so: it is
not bought yet.
"""

import math
from collections.abc import Iterable, Iterator

from mastlayout.checks.holes import will_be_drilled
from mastlayout.checks.report import Report
from mastlayout.documents.rows import OrderRow
from mastlayout.documents.schedule.bought import fastener_rows
from mastlayout.documents.schedule.packers import backing_rows, packer_rows
from mastlayout.documents.schedule.places import tag_of
from mastlayout.documents.schedule.tools import consumable_rows, tool_rows
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import masthead_first
from mastlayout.ranges.cable_loss import along_mm
from mastlayout.units import Units, write_size
from mastlayout.words import _

_M = 1000.0


def order_rows(report: Report, units: Units) -> tuple[OrderRow, ...]:
    """Return what to buy: fittings, fasteners, cables, consumables, tools; empty where nothing is new."""
    new = [placed for placed in masthead_first(report.scene) if placed.fitting.new]
    if not new:
        return ()
    drilled = [placed for placed in new if will_be_drilled(placed)]
    return (
        *_fittings(new),
        *fastener_rows(new, report.limits, units),
        *_cables(report, units),
        *packer_rows(new, report.limits, units),
        *backing_rows(new, units),
        *consumable_rows(new, units),
        *tool_rows(drilled),
    )


def _fittings(new: Iterable[Placed]) -> Iterator[OrderRow]:
    for placed in new:
        name, kind = placed.fitting.name, placed.kind.name
        size = "" if kind == name else kind
        buy = 0 if placed.foot_known else 1
        yield OrderRow("fittings", name, size, 1, buy, for_=tag_of(placed), state=_state(placed))


def _state(placed: Placed) -> str:
    if placed.foot_known:
        return _("part in hand")
    if placed.foot is None or not placed.foot.holes:
        return ""
    return _("foot typical: offer up")


def _cables(report: Report, units: Units) -> Iterator[OrderRow]:
    """Yield the new cables, each from its fitting to its exit with a tail, rounded up to whole metres."""
    scene, tail = report.scene, report.limits["order.cable"].value
    for cable in scene.layout.cables:
        if not cable.new:
            continue
        size = "" if cable.outside_mm is None else write_size(cable.outside_mm, units=units)
        length = along_mm(scene, cable)
        placed = scene.placed.get(cable.fitting or "")
        metres = None if length is None else math.ceil((length + tail) / _M - 1e-9)
        state = _("length after its exit is known") if metres is None else ""
        yield OrderRow(
            "cables", cable.name, _("outside {size}").format(size=size) if size else "", metres, metres,
            _("m"), tag_of(placed) if placed else "", state,
        )  # fmt: skip

"""Consumables and tools of the order sheet, in general words (common practice, no source)."""

import math
from collections.abc import Iterable, Iterator, Sequence

from mastlayout.documents.rows import OrderRow
from mastlayout.documents.schedule.places import tag_of, tags_of
from mastlayout.fastening.at_hole import choices
from mastlayout.fastening.drill import LARGEST_TWIST_MM, drill_mm, pilot_mm
from mastlayout.geometry.holes import Opening, openings
from mastlayout.geometry.placed import Placed
from mastlayout.units import Units, decimal_inches, write_size
from mastlayout.words import _

_SHEET_CM2, _M = 100, 1000.0
# A lever or power tool sets what a hand gun will not.
_HARD_RIVET_MM = 6.0


def consumable_rows(new: Sequence[Placed], units: Units) -> Iterator[OrderRow]:
    """Yield what isolates and seals the new feet, as much as they need, rounded up."""
    feet = [placed for placed in new if placed.foot is not None]
    tags = _("all")
    yield OrderRow(
        "consumables", _("Barrier paste"), _("for every hole and under every foot"), 1, 1, "", tags
    )
    lined = [placed for placed in feet if placed.foot and placed.foot.liner_mm]
    for liner in sorted({placed.foot.liner_mm for placed in lined if placed.foot}):
        own = [placed for placed in lined if placed.foot and placed.foot.liner_mm == liner]
        area = math.ceil(sum(_cm2(placed) for placed in own) / _SHEET_CM2) * _SHEET_CM2
        size = _("{liner} thick, does not soak").format(liner=write_size(liner, units=units))
        yield OrderRow(
            "consumables", _("Sheet of plastic for liners"), size, area, area, "cm²", _tags(own, feet)
        )
    metres = math.ceil(sum(_round_mm(placed) for placed in feet) / _M)
    if metres:
        yield OrderRow(
            "consumables", _("Isolating tape"), _("round every foot"), metres, metres, _("m"), tags
        )
    held = [o for placed in feet for o in _all(placed) if o.fastener.thread and o.fastener.how != "rivet nut"]
    if held:
        yield OrderRow(
            "consumables",
            _("Sleeves and washers of plastic"),
            _("one under each screw"),
            len(held),
            len(held),
            "",
            tags,
        )
        yield OrderRow("consumables", _("Thread lock"), _("for screws"), 1, 1, "", tags)
    yield OrderRow("consumables", _("Sealant, not acetic"), _("to bed every foot"), 1, 1, "", tags)
    yield from _grommets(feet, units)
    yield OrderRow("consumables", _("Masking tape and marker"), "", 1, 1)


def _grommets(feet: Iterable[Placed], units: Units) -> Iterator[OrderRow]:
    entries = [(o.diameter_mm or 0.0, placed) for placed in feet for o in _all(placed) if o.use == "entry"]
    for size in sorted({size for size, _placed in entries}):
        own = [placed for other, placed in entries if other == size]
        words = _("for a hole of {size}").format(size=write_size(size, units=units))
        yield OrderRow("consumables", _("Grommet"), words, len(own), len(own) + 1, "", _tags(own))


def tool_rows(drilled: Sequence[Placed]) -> Iterator[OrderRow]:
    """Yield drills in mm and inch, taps, and what sets the fasteners; a spare of each that breaks."""
    sizes: dict[float, list[Placed]] = {}
    taps: dict[str, list[Placed]] = {}
    rivets: dict[float, list[Placed]] = {}
    for placed in drilled:
        for opening in _all(placed):
            for size in _drills(opening):
                sizes.setdefault(size, []).append(placed)
            if opening.fastener.how == "tapped" and opening.fastener.thread:
                taps.setdefault(opening.fastener.thread, []).append(placed)
            if opening.fastener.rivet_mm:
                rivets.setdefault(opening.fastener.rivet_mm, []).append(placed)
    for size, own in sorted(sizes.items()):
        twist = size <= LARGEST_TWIST_MM
        what = _("Drill, cobalt") if twist else _("Step drill or hole saw")
        yield OrderRow("tools", what, _drill_words(size), 1, 2 if twist else 1, "", _tags(own), _state(own))
    for thread, own in sorted(taps.items()):
        yield OrderRow("tools", _("Tap"), thread, 1, 2, "", _tags(own), _state(own))
    for size, own in sorted(rivets.items()):
        how = _("lever or power tool") if size >= _HARD_RIVET_MM else _("hand tool")
        words = _("for {size}, {how}").format(size=f"{size:g}", how=how)
        yield OrderRow("tools", _("Rivet tool"), words, 1, 1, "", _tags(own), _state(own))
    if sizes:
        yield OrderRow("tools", _("Depth stops, centre punch, deburrer"), _("a collar for each drill"), 1, 1)


def _drills(opening: Opening) -> tuple[float, ...]:
    drill = drill_mm(opening) if opening.use != "cutout" else None
    if drill is None:
        return ()
    pilot = pilot_mm(drill)
    return (drill,) if pilot is None else (drill, pilot)


def _drill_words(size_mm: float) -> str:
    """Write a drill in millimetres and inches, whatever the sheet is in: shops sell both."""
    return _("{size} mm, {inches}").format(size=f"{size_mm:.1f}", inches=decimal_inches(size_mm))


def _all(placed: Placed) -> tuple[Opening, ...]:
    return openings(placed.foot) if placed.foot else ()


def _cm2(placed: Placed) -> float:
    return placed.foot.across_mm * placed.foot.along_mm / 100.0 if placed.foot else 0.0


def _round_mm(placed: Placed) -> float:
    return 2 * (placed.foot.across_mm + placed.foot.along_mm) if placed.foot else 0.0


def _state(own: Iterable[Placed]) -> str:
    """Return that a tool may yet be another, where nothing that it is for is settled."""
    settled = any(_is_settled(placed) for placed in own)
    return "" if settled else _("may still change")


def _is_settled(placed: Placed) -> bool:
    found = [choice for opening, choice in choices(placed) if opening.fastener.is_one]
    return placed.foot_known and all(choice is not None for choice in found)


def _tags(own: Iterable[Placed], every: Sequence[Placed] = ()) -> str:
    kept = tuple(own)
    return _("all") if every and len(dict.fromkeys(map(tag_of, kept))) == len(every) else tags_of(kept)

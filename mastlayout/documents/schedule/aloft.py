"""What goes up with the chair, in the order used, and what is better not done from it."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from mastlayout.documents.schedule.bought import held_by
from mastlayout.fastening.drill import drill_mm, pilot_mm
from mastlayout.fastening.words import bought_as
from mastlayout.geometry.holes import Opening, openings
from mastlayout.geometry.placed import Placed
from mastlayout.units import Units, write_drill
from mastlayout.words import _, ngettext

# What one hand can still do from a chair (common practice, no source).
_RIVET_MM, _TAPPED = 4.8, 4


def bring_words(fittings: Sequence[Placed], units: Units) -> Iterator[str]:
    """Yield what to bring for some fittings, in the order in which it is used."""
    if not fittings:
        yield _("tape, pencil, camera: nothing may be fitted yet")
        return
    yield _("tape, pencil, camera")
    yield _("the parts: {tags}").format(tags=", ".join(str(one.fitting.tag or one.id) for one in fittings))
    drilled = [o for placed in fittings for o in _drilled(placed) if drill_mm(o) is not None]
    if drilled:
        yield _("centre punch, battery drill, depth stop")
        yield _("drills {sizes}").format(sizes=", ".join(_drills(drilled, units)))
        yield _("deburrer, magnet or vacuum for chips")
    yield from _fasteners(fittings)
    yield _("paste, sealant (not acetic), rag")
    if any(placed.kind.cable_mm or placed.kind.cable_type for placed in fittings):
        yield _("messenger line, cable ties, meter, tape for joints")


def _drills(drilled: Iterable[Opening], units: Units) -> list[str]:
    sizes = {size for size in map(drill_mm, drilled) if size is not None}
    pilots = {pilot for pilot in map(pilot_mm, sizes) if pilot is not None}
    return [write_drill(size, units) for size in sorted(sizes | pilots)]


def _fasteners(fittings: Iterable[Placed]) -> Iterator[str]:
    held = [one for placed in fittings for one in held_by(placed)]
    counted = Counter(bought_as(choice) if choice else fastener.size for fastener, choice in held)
    for words, count in counted.items():
        yield _("{count} × {fastener}, one to spare").format(count=count + 1, fastener=words)
    every = [fastener for fastener, _choice in held]
    if any(one.how == "tapped" for one in every):
        taps = dict.fromkeys(one.thread for one in every if one.how == "tapped" and one.thread)
        yield _("tap {threads}, wrench, thread lock").format(threads=", ".join(taps))
    if any(one.rivet_mm for one in every):
        yield _("rivet tool and nosepiece")
    if any(one.thread for one in every):
        yield _("key and spanner to fit, on a lanyard")


def warning_words(fittings: Iterable[Placed]) -> Iterator[str]:
    """Yield what the trade does on trestles and not from a chair (common practice, no source)."""
    for placed in fittings:
        pattern = _drilled(placed)
        tag = str(placed.fitting.tag or placed.id)
        heavy = [o for o in pattern if (o.fastener.rivet_mm or 0.0) > _RIVET_MM]
        tapped = [o for o in pattern if o.fastener.how == "tapped"]
        cut = [o for o in _pattern(placed) if o.use == "cutout"]
        if heavy:
            size = max(o.fastener.rivet_mm or 0.0 for o in heavy)
            words = ngettext(
                "{tag}: {n} rivet {size} wants two hands and a long tool: on trestles if it can be",
                "{tag}: {n} rivets {size} want two hands and a long tool: on trestles if it can be",
                len(heavy),
            )
            yield words.format(tag=tag, n=len(heavy), size=f"{size:g}")
        if len(tapped) > _TAPPED:
            words = _("{tag}: {n} holes to tap by hand are too many for a chair")
            yield words.format(tag=tag, n=len(tapped))
        if cut:
            yield _("{tag}: no cut-out is made from a chair").format(tag=tag)


def _pattern(placed: Placed) -> tuple[Opening, ...]:
    return openings(placed.foot) if placed.foot is not None else ()


def _drilled(placed: Placed) -> list[Opening]:
    """Return what is drilled where a fitting goes: nothing where another fitting carries it."""
    bolted_on = isinstance(placed.host, Placed)
    return [] if bolted_on else [o for o in _pattern(placed) if o.use != "cutout"]

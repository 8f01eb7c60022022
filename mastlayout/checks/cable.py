"""Cables: entry against cable, plug and drip loop, conduit against what fills it; slots: see there."""

from collections.abc import Iterator

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.rule import TOLERANCE_MM, WholeRule
from mastlayout.checks.slots import entry_heights, of_slot
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import Cable
from mastlayout.model.mast import Conduit
from mastlayout.model.measure import measure_of

LOOSE = "loose"


def entries(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Ask of each new cable: where does it enter, is a slot of its conduit there, does its plug pass?"""
    for cable in scene.layout.cables:
        own = scene.placed.get(cable.fitting) if cable.fitting else None
        if cable.new and own is not None:
            placed = enters_at(scene, own)
            yield from _plug(cable, placed)
            yield from _width(cable, placed, limits)
            yield from _drip(cable, placed, limits)
            yield from of_slot(scene, cable, placed, limits)


def enters_at(scene: Scene, placed: Placed) -> Placed:
    """Return the fitting whose foot has the entry of a cable: its own fitting, or the one that carries it."""
    carrier: Placed | None = placed
    while carrier is not None:
        if carrier.foot is not None and carrier.foot.entry is not None:
            return carrier
        carrier = scene.placed.get(carrier.fitting.on)
    return placed


def entering_at(scene: Scene, placed: Placed) -> list[Cable]:
    """Return the cables that enter the mast by a fitting's foot: its own, and those of what it carries."""
    placed_of = ((cable, scene.placed.get(cable.fitting or "")) for cable in scene.layout.cables)
    return [cable for cable, own in placed_of if own is not None and enters_at(scene, own) is placed]


def _width(cable: Cable, placed: Placed, limits: Limits) -> Iterator[Finding]:
    """An entry is sized by its cable: narrower it is a fault, without room for a grommet a caution."""
    entry = placed.foot.entry if placed.foot else None
    if entry is None or placed.skin is None or not placed.fitting.new:
        return
    ids = (placed.id, cable.id)
    if cable.outside_mm is None:
        missing = measure_of(Cable, "outside_mm").key
        yield Finding("cable/entry", "not checked", ids, measure=missing, z_mm=placed.z_mm)
        return
    wanted = cable.outside_mm + limits["cable.entry"].value
    if entry.diameter_mm < wanted - TOLERANCE_MM:
        too_narrow = entry.diameter_mm < cable.outside_mm and placed.foot_known
        yield Finding(
            "cable/entry",
            "fault" if too_narrow else "caution",
            ids,
            entry.diameter_mm,
            wanted,
            limit="cable.entry",
            z_mm=(entry_heights(placed) or [placed.z_mm])[0],
            typical=not placed.foot_known,
        )


def _drip(cable: Cable, placed: Placed, limits: Limits) -> Iterator[Finding]:
    """A cable that enters beside its foot does so below it, in a loop; under the foot it is covered."""
    if placed.outline is None or placed.holes is None or not placed.fitting.new:
        return
    for i, opening in enumerate(placed.holes.openings):
        foot = placed.foot
        if opening.use != "entry" or foot is None:
            continue
        under = abs(opening.across_mm - foot.centre_across_mm) < foot.across_mm / 2
        under &= abs(opening.along_mm - foot.centre_along_mm) < foot.along_mm / 2
        below = float(placed.outline[:, 1].min() - placed.holes.z_mm[0, i])
        if not under and below < limits["cable.drip"].value - TOLERANCE_MM:
            yield Finding(
                "cable/drip",
                "caution",
                (placed.id, cable.id),
                below,
                limits["cable.drip"].value,
                limit="cable.drip",
                z_mm=float(placed.holes.z_mm[0, i]),
                typical=not placed.foot_known,
            )


def _plug(cable: Cable, placed: Placed) -> Iterator[Finding]:
    """A plug wider than its entry goes on after the pull: a caution, so that nobody orders it fitted."""
    entry = placed.foot.entry if placed.foot else None
    if entry is None or placed.skin is None:
        return
    if cable.plug_mm is None:
        missing = measure_of(Cable, "plug_mm").key
        yield Finding("cable/plug", "not checked", (placed.id, cable.id), measure=missing, z_mm=placed.z_mm)
    elif cable.plug_mm > entry.diameter_mm:
        yield Finding(
            "cable/plug",
            "caution",
            (placed.id, cable.id),
            entry.diameter_mm,
            cable.plug_mm,
            "mm",
            None,
            None,
            placed.z_mm,
            not placed.foot_known,
        )


def fill(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Compare what lies in each conduit with what it may hold: squares of diameters against the bore."""
    for pipe in scene.layout.mast.conduits or ():
        cables = [cable for cable in scene.layout.cables if cable.conduit == pipe.id]
        unknown = [cable for cable in cables if cable.outside_mm is None]
        for cable in unknown:
            missing = measure_of(Cable, "outside_mm").key
            yield Finding("cable/fill", "not checked", (cable.id, pipe.id), measure=missing)
        if pipe.bore_mm is None and cables:
            yield Finding("cable/fill", "not checked", (pipe.id,), measure=measure_of(Conduit, "bore_mm").key)
        elif pipe.bore_mm is not None:
            yield from _filled(pipe, cables, limits)


def fill_percent(cables: list[Cable], bore_mm: float) -> float:
    """Return 100 sum(d^2) / D^2 of the cables whose diameter is known (NFPA 70, Chapter 9)."""
    return 100.0 * sum((cable.outside_mm or 0.0) ** 2 for cable in cables) / bore_mm**2


def _filled(pipe: Conduit, cables: list[Cable], limits: Limits) -> Iterator[Finding]:
    key = {0: "cable.fill_one", 1: "cable.fill_one", 2: "cable.fill_two"}.get(len(cables), "cable.fill_more")
    percent = fill_percent(cables, pipe.bore_mm or 1.0)
    if percent > limits[key].value:
        standing: Standing = "fault" if percent > 100.0 else "caution"
        ids = (pipe.id, *(cable.id for cable in cables if cable.new))
        yield Finding("cable/fill", standing, ids, percent, limits[key].value, "%", key)


ENTRIES = WholeRule("cable/entry", frozenset({"mast", "fittings", "cables", "limits"}), entries)
FILL = WholeRule("cable/fill", frozenset({"mast", "cables", "limits"}), fill)

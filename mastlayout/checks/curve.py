"""Does a new foot fit the curve: the packer or saddle its edges want, and how a taper tilts it."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import Batch, Depends, Margins, Rule, findings, no_margins
from mastlayout.fastening.curve import fit_of
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.kind import Foot
from mastlayout.model.measure import Measure, measure_of


def gap(_scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure, with its sign turned, how far the edges of a flat or radiused foot stand off the skin.

    One that stands off the mast has its packer already; edges that pass beside it are said elsewhere.
    """
    placed, foot, skin = batch.placed, batch.placed.foot, batch.placed.skin
    places = len(batch.places)
    if not placed.fitting.new or skin is None or foot is None or foot.seat == "shaped":
        return no_margins(places)
    if foot.seat == "radiused" and foot.radius_mm is None:
        missing = measure_of(Foot, "radius_mm") if placed.foot_known else None
        return _one(batch, np.full(places, np.nan if missing else np.inf), 0.0, missing)
    off = np.abs(fit_of(skin, foot, batch.places).gap_mm)
    bare = batch.places.stand_off_mm <= 0.0
    return _one(batch, np.where(bare & ~np.isnan(off), -off, np.inf), -limits["seat.gap"].value, None)


def tilt(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure, with its sign turned, how far a taper leans a foot from the mast's axis."""
    placed, foot, skin = batch.placed, batch.placed.foot, batch.placed.skin
    places = len(batch.places)
    if not placed.fitting.new or skin is None or foot is None or scene.skin.taper is None:
        return no_margins(places)
    flat = replace_seat(foot)
    lean = np.abs(np.nan_to_num(fit_of(skin, flat, batch.places).tilt_deg))
    return _one(batch, -lean, -limits["seat.tilt"].value, None)


def replace_seat(foot: Foot) -> Foot:
    """Return a foot as if it were flat: a taper leans it all the same."""
    return foot if foot.seat == "flat" else foot.but(seat="flat")


def _one(batch: Batch, measured: Array, required: float, missing: Measure | None) -> Margins:
    return Margins(
        ((batch.placed.id,),),
        measured[:, None],
        np.full((len(measured), 1), required),
        batch.seats.origin[:, None],
        (missing,),
        typical=not batch.placed.foot_known,
    )


def _upright(rule: Rule) -> Callable[[Placed, Margins, Limits], list[Finding]]:
    """Return what says a rule's findings with their signs turned back: a gap, and what is allowed."""

    def judged(placed: Placed, margins: Margins, limits: Limits) -> list[Finding]:
        """Say what is short, as a gap and what it may be."""
        found = findings(rule, placed, margins, limits)
        return [
            one
            if one.measured is None or one.required is None
            else replace(one, measured=-one.measured, required=-one.required)
            for one in found
        ]

    return judged


_DEPENDS: frozenset[Depends] = frozenset({"mast", "fittings", "limits"})
_GAP = Rule("seat/gap", "seat.gap", _DEPENDS, gap, fault_below=-np.inf)
_TILT = Rule("seat/tilt", "seat.tilt", _DEPENDS, tilt, fault_below=-np.inf, otherwise="note", unit="deg")
GAP, TILT = (replace(rule, judge=_upright(rule)) for rule in (_GAP, _TILT))

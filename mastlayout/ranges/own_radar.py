"""The yacht's own radar at its place: the nearest sea, what heel takes, how far off to stand."""

import math
from collections.abc import Mapping

import numpy as np

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.limits import limits_of
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import BEAM, Fitting
from mastlayout.model.measure import measure_of
from mastlayout.ranges.asked import EXAMPLE, Asked
from mastlayout.ranges.asks import Ask
from mastlayout.ranges.blind import asks
from mastlayout.ranges.heights import water_height
from mastlayout.ranges.reflector import body_parts, middle_mm
from mastlayout.ranges.sails_before import SailBefore, sails_before
from mastlayout.ranges.scanner import (
    LOSS_SOURCE,
    POWER_SOURCE,
    SEA_SOURCE,
    gain,
    harmless_m,
    in_beam_deg,
    loss_db,
    nearest_sea_m,
)
from mastlayout.words import _

_PAPERS = _("the radar's manual")


@dataclass(frozen=True, eq=False)
class RadarRow:
    """One radar: its figures, the sails as high as it, those its beam meets, and what ships are asked."""

    id: str
    name: str
    figures: Mapping[str, Figure]
    sails: tuple[str, ...]
    met: tuple[SailBefore, ...]
    asked: tuple[Ask, ...]


def is_radar(placed: Placed) -> bool:
    """Tell whether a fitting is a radar's antenna."""
    return any(sector.what == "radar" for sector in placed.kind.sectors)


def holders(placed: Placed) -> frozenset[str]:
    """Return what a fitting stands on: made for it, its bracket hides it no more than its own foot."""
    return frozenset({placed.fitting.on}) if placed.fitting.mount else frozenset()


def radar_table(scene: Scene, asked: Asked = EXAMPLE) -> list[RadarRow]:
    """Return a row for each radar, masthead first."""
    return [radar_row(scene, placed, asked) for placed in masthead_first(scene) if is_radar(placed)]


def radar_row(scene: Scene, placed: Placed, asked: Asked = EXAMPLE) -> RadarRow:
    """Return the row of one radar."""
    return RadarRow(
        placed.id,
        placed.fitting.name,
        _figures(scene, placed, asked),
        sails_in_beam(scene, placed),
        tuple(sails_met(scene, placed)),
        asks(scene, placed, holders(placed)),
    )


def heel_of(scene: Scene, asked: Asked = EXAMPLE) -> Figure:
    """Return the heel a radar is asked at: that asked, else that of sailing, else a catamaran's own."""
    name, boat = _("heel"), scene.layout.boat
    if asked.heel_deg:
        return Figure(name, abs(asked.heel_deg), "°", _("as asked"), _("asked"))
    if boat.sailing_heel_deg is not None:
        return Figure(name, boat.sailing_heel_deg, "°", _("heel of sailing"), _("the yacht"))
    if boat.hull == "multihull":
        limit = limits_of(scene.layout)["radar.heel_multihull"]
        return Figure(name, limit.value, "°", limit.title, limit.source)
    missing = measure_of(Boat, "sailing_heel_deg").key
    return Figure(name, None, "°", _("heel of sailing"), _("the yacht"), missing=missing)


def _figures(scene: Scene, placed: Placed, asked: Asked) -> dict[str, Figure]:
    water = water_height(scene, middle_mm(placed, body_parts(placed)), asked)
    beam, heel = placed.fitting.beam_tall_deg, heel_of(scene, asked)
    return {
        "above_water_m": water,
        "heel_deg": heel,
        "nearest_sea_m": _sea(_("nearest sea seen, upright"), water, beam, _NO_HEEL, 0.0),
        "nearest_sea_leeward_m": _sea(_("nearest sea seen to leeward"), water, beam, heel, 1.0),
        "nearest_sea_windward_m": _sea(_("nearest sea seen to windward"), water, beam, heel, -1.0),
        "loss_abeam_db": _loss(beam, heel),
        "in_beam_deg": _in_beam(beam, heel),
        "harmless_m": harmless(scene, placed),
    }


_NO_HEEL = Figure("", 0.0, "°", "", "")


def _sea(name: str, water: Figure, beam: float | None, heel: Figure, side: float) -> Figure:
    formula = _("h / tan(β / 2)") if not side else _("h / tan(β / 2 {sign} heel)")
    formula = formula.format(sign="+" if side > 0 else "−")
    missing = water.missing or heel.missing or (BEAM.key if beam is None else None)
    if missing or water.value is None or heel.value is None or beam is None:
        return Figure(name, None, "m", formula, SEA_SOURCE, missing=missing)
    inputs = {"height_above_water_m": water.value, "beam_tall_deg": beam, "heel_deg": heel.value}
    near = float(nearest_sea_m(water.value, beam, side * heel.value))
    if math.isinf(near):
        never = _("none: heeled half its beam or more, the beam passes over the sea there")
        return Figure(name, None, "m", never, SEA_SOURCE, inputs)
    return Figure(name, near, "m", formula, SEA_SOURCE, inputs)


def _loss(beam: float | None, heel: Figure) -> Figure:
    name, formula = _("lost abeam, out and home"), "2 × 3 (heel / (β / 2))²"
    missing = heel.missing or (BEAM.key if beam is None else None)
    if heel.value is None or beam is None:
        return Figure(name, None, "dB", formula, LOSS_SOURCE, missing=missing)
    inputs = {"beam_tall_deg": beam, "heel_deg": heel.value}
    return Figure(name, 2 * float(loss_db(beam, heel.value)), "dB", formula, LOSS_SOURCE, inputs)


def _in_beam(beam: float | None, heel: Figure) -> Figure:
    name = _("horizon in the beam, from bow and stern")
    formula = "arcsin(sin(β / 2) / sin(heel))"
    missing = heel.missing or (BEAM.key if beam is None else None)
    if heel.value is None or beam is None:
        return Figure(name, None, "°", formula, LOSS_SOURCE, missing=missing)
    inputs = {"beam_tall_deg": beam, "heel_deg": heel.value}
    return Figure(name, float(in_beam_deg(beam, heel.value)), "°", formula, LOSS_SOURCE, inputs)


def harmless(scene: Scene, placed: Placed) -> Figure:
    """Return how far off the mean power in its beam is under the public limit, the beam standing still."""
    limit, fitting = limits_of(scene.layout)["radar.exposure"], placed.fitting
    name, formula = _("under the public limit beyond"), "√(P G / (4 π S)), G = 30 000 / (β × width)"
    tall, wide, power = fitting.beam_tall_deg, fitting.beam_wide_deg, fitting.mean_power_w
    if tall is None or wide is None or power is None:
        missing = BEAM.key if tall is None or wide is None else measure_of(Fitting, "mean_power_w").key
        return Figure(name, None, "m", formula, POWER_SOURCE, missing=missing)
    own = gain(wide, tall)
    beam = {"beam_tall_deg": tall, "beam_wide_deg": wide}
    inputs = {"mean_power_w": power, "gain": own, "limit_w_m2": limit.value} | beam
    away = harmless_m(power, own, limit.value)
    return Figure(name, away, "m", formula, f"{POWER_SOURCE}; {limit.source}", inputs)


def sails_met(scene: Scene, placed: Placed) -> list[SailBefore]:
    """Return the states of sails that a radar's beam meets; none where nobody knows how tall it is."""
    tall = placed.fitting.beam_tall_deg
    if tall is None or not len(placed.solids):
        return []
    parts = np.array(body_parts(placed))
    low, high = placed.solids[parts].span_z()
    middle = placed.solids.centre[parts].mean(axis=0)
    middle[2] = (low.min() + high.max()) / 2
    return sails_before(scene, middle, tall / 2)


def sails_in_beam(scene: Scene, placed: Placed) -> tuple[str, ...]:
    """Return the ids of the sails that stand as high as a radar: on one tack or the other it looks through.

    A headsail reaches from its tack to its head; one with neither known is told, to be safe.
    """
    low, high = placed.span_z_mm
    length = scene.layout.mast.length_mm
    found = []
    for sail in scene.layout.sails or ():
        head, tack = sail.head_mm, sail.tack_mm
        top = length if head is None else length - head
        foot = 0.0 if tack is None else length - tack
        if foot <= high and low <= top:
            found.append(sail.id)
    return tuple(found)

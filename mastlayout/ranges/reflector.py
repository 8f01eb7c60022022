"""What a radar reflector gives at its place: echo, what hides it, where it fades, what the rules ask."""

from collections.abc import Mapping

import numpy as np

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.bearings import sectors
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.limits import limits_of
from mastlayout.model.fitting import ECHO
from mastlayout.model.kind import Corner
from mastlayout.ranges.asked import EXAMPLE, Asked
from mastlayout.ranges.asks import Answer, Ask, answered
from mastlayout.ranges.echo import (
    BANDS,
    FORMULAS,
    S_BAND,
    X_BAND,
    Band,
    edge_needed_m,
    first_null_deg,
    most_when_tilted_m2,
    peak_m2,
)
from mastlayout.ranges.heights import water_height
from mastlayout.ranges.hidden import cast
from mastlayout.ranges.horizon import RADIO, range_nm
from mastlayout.ranges.two_ray import LEAST_S, LEAST_X, SHIPS_M, SOURCE, Fade, Least, fades, first_seen_nm
from mastlayout.words import _

# What MSC.164(78) asks of a reflector: m² in each band, at a height, over so much of the circle, its
# nulls, and the heel it holds to.
ASKED_M2: Mapping[str, float] = {"x": 7.5, "s": 0.5}
ASKED_HEIGHT_M, ASKED_ARC_DEG, ASKED_NULL_DEG, ASKED_APART_DEG = 4.0, 280.0, 10.0, 20.0
ASKED_HEEL_DEG = {"multihull": 10.0, "monohull": 20.0}
RULES_SOURCE = _("MSC.164(78), as ISO 8729-1")
_PAPERS = _("the reflector's papers")


@dataclass(frozen=True, eq=False)
class ForShip:
    """What a ship's radar at a height sees: how far at best, where first in each band, and where it fades.

    Fades are those of X band.
    """

    antenna_m: float
    horizon: Figure
    first_seen: Figure
    first_seen_s: Figure
    fades: tuple[Fade, ...] | None


@dataclass(frozen=True, eq=False)
class ReflectorRow:
    """One reflector: its figures by key, what is asked of it, and what ships see."""

    id: str
    name: str
    figures: Mapping[str, Figure]
    asked: tuple[Ask, ...]
    ships: tuple[ForShip, ...]


def is_reflector(placed: Placed) -> bool:
    """Tell whether a fitting is there to send a radar's beam back."""
    return any(sector.what == "echo" for sector in placed.kind.sectors)


def reflector_table(scene: Scene, asked: Asked = EXAMPLE) -> list[ReflectorRow]:
    """Return a row for each reflector, masthead first."""
    return [reflector_row(scene, placed, asked) for placed in masthead_first(scene) if is_reflector(placed)]


def reflector_row(scene: Scene, placed: Placed, asked: Asked = EXAMPLE) -> ReflectorRow:
    """Return the row of one reflector."""
    figures = _figures(scene, placed, asked)
    ships = tuple(_for_ship(ship, figures) for ship in SHIPS_M)
    return ReflectorRow(placed.id, placed.fitting.name, figures, asks(scene, placed), ships)


def middle_mm(placed: Placed, parts: list[int]) -> float:
    """Return the height along the mast, mm, of the middle of some parts of a fitting."""
    low, high = placed.solids[np.asarray(parts)].span_z()
    return float(low.min() + high.max()) / 2


def body_parts(placed: Placed) -> list[int]:
    """Return the numbers of the solids that see or are seen: not what holds or guards them."""
    own = [i for i, part in enumerate(placed.body.parts) if part == "body"]
    return own or list(range(len(placed.body.parts)))


def _figures(scene: Scene, placed: Placed, asked: Asked) -> dict[str, Figure]:
    hidden = dict(zip(("hidden_deg", "widest_hidden_deg"), _hidden(scene, placed), strict=True))
    return _of_itself(scene, placed, asked) | hidden


def _of_itself(scene: Scene, placed: Placed, asked: Asked) -> dict[str, Figure]:
    water = water_height(scene, middle_mm(placed, body_parts(placed)), asked)
    figures = {"above_water_m": water} | {f"echo_{band.key}_m2": echo_of(placed, band) for band in BANDS}
    figures |= _tilted(scene, placed)
    inputs = {"asked_m2": ASKED_M2["x"], "wave_mm": 1000.0 * X_BAND.wave_m}
    figures["edge_needed_mm"] = Figure(
        _("edge of a corner of three triangles that would do"),
        1000.0 * edge_needed_m(ASKED_M2["x"], X_BAND.wave_m), "mm", "(3 σ λ² / (4 π))^¼",
        FORMULAS["triangular"][1], inputs,
    )  # fmt: skip
    return figures


def echo_of(placed: Placed, band: Band) -> Figure:
    """Return the echoing area in a band: what its papers say, else the most that a formula allows."""
    name = _("echoing area, {band}").format(band=band.name)
    stated = placed.fitting.echo_x_m2 if band is X_BAND else placed.fitting.echo_s_m2
    if stated is not None:
        return Figure(name, stated, "m²", _("as stated"), _PAPERS)
    corner = placed.kind.corner
    if corner is None:
        return Figure(name, None, "m²", _("as stated"), _PAPERS, missing=ECHO.key)
    formula, source = FORMULAS[corner.shape]
    return Figure(
        _("echoing area, {band}, at most").format(band=band.name),
        peak_m2(corner, band), "m²", formula, source, _corner_inputs(corner, band),
    )  # fmt: skip


def _corner_inputs(corner: Corner, band: Band) -> dict[str, float]:
    inputs = {"edge_mm": corner.edge_mm, "wave_mm": 1000.0 * band.wave_m, "stacked": float(corner.stacked)}
    return inputs | ({"other_mm": corner.other_mm} if corner.other_mm else {})


def heel_asked_deg(scene: Scene) -> float:
    """Return the heel that a reflector must hold to on this yacht, degrees."""
    return ASKED_HEEL_DEG[scene.layout.boat.hull]


def _tilted(scene: Scene, placed: Placed) -> dict[str, Figure]:
    """Return what is left of the echo in X band at the heel that is asked, and where it first fails."""
    corner, heel = placed.kind.corner, heel_asked_deg(scene)
    name, formula = _("echoing area, X band, heeled, at most"), "σ / (2 π L sin φ / λ)²"
    source = _("a stack's crests when tilted, physical optics")
    left = None if corner is None else most_when_tilted_m2(corner, X_BAND, heel)
    if corner is None or left is None:
        return {"echo_heeled_m2": Figure(name, None, "m²", formula, source, missing=ECHO.key)}
    inputs = {"peak_m2": peak_m2(corner, X_BAND), "wave_mm": 1000.0 * X_BAND.wave_m, "heel_deg": heel}
    if corner.tall_mm is not None:
        inputs["tall_mm"] = corner.tall_mm
    found = {"echo_heeled_m2": Figure(name, left, "m²", formula, source, inputs)}
    if corner.tall_mm is not None:
        null = first_null_deg(corner.tall_mm / 1000.0, X_BAND.wave_m)
        inputs = {"tall_mm": corner.tall_mm, "wave_mm": 1000.0 * X_BAND.wave_m}
        found["first_null_deg"] = Figure(
            _("tilt at which it first sends nothing back"), null, "°", "arcsin(λ / 2 L)", source, inputs
        )
    return found


def dark_arcs(scene: Scene, placed: Placed) -> Array:
    """Return the bearings (q, 2), clockwise from ahead, between which one thing hides all of a reflector."""
    dims = limits_of(scene.layout)["radar.dim"].value / 100.0
    found = cast(scene, placed, placed.solids, body_parts(placed), dims, 0.0).found
    return found.dark[~np.isnan(found.dark[:, 0])]


def _hidden(scene: Scene, placed: Placed) -> tuple[Figure, Figure]:
    found = sectors(dark_arcs(scene, placed))
    wide = found[:, 1] - found[:, 0]
    formula, source = _("arcs in which one thing covers all of it"), _("geometry")
    inputs = {f"sector_{i}_deg": float(one) for i, one in enumerate(wide, 1)}
    return (
        Figure(_("hidden, in all"), float(wide.sum()), "°", formula, source, inputs),
        Figure(_("hidden, widest"), float(wide.max(initial=0.0)), "°", formula, source, inputs),
    )


# -- what is asked of it


def asks(scene: Scene, placed: Placed) -> tuple[Ask, ...]:
    """Return each thing that MSC.164(78) asks, with yes, no or unknown for this reflector at this place."""
    return _answers(scene, placed, _figures(scene, placed, EXAMPLE))


def asks_in_the_open(scene: Scene, placed: Placed) -> tuple[Ask, ...]:
    """Return the same as if nothing stood before the reflector: what it is by its papers and its corners."""
    return _answers(scene, placed, _of_itself(scene, placed, EXAMPLE))


def _answers(scene: Scene, placed: Placed, figures: Mapping[str, Figure]) -> tuple[Ask, ...]:
    bands = tuple(_echo_asked(placed, band, figures[f"echo_{band.key}_m2"]) for band in BANDS)
    water = figures["above_water_m"]
    height = Ask(
        "height", _("height above the water, upright"), ASKED_HEIGHT_M, water,
        answered(water.value, ASKED_HEIGHT_M), RULES_SOURCE,
    )  # fmt: skip
    return (*bands, height, *_round(placed, figures), _heel(scene, placed, figures))


def _echo_asked(placed: Placed, band: Band, figure: Figure) -> Ask:
    """A formula's peak below what is asked is a no; one above it proves nothing of the rest of the circle."""
    required = ASKED_M2[band.key]
    stated = placed.fitting.echo_x_m2 if band is X_BAND else placed.fitting.echo_s_m2
    answer = answered(figure.value, required)
    if stated is None and answer == "yes":
        answer = "unknown"
    words = _("echoing area, {band}").format(band=band.name)
    return Ask(f"echo_{band.key}", words, required, figure, answer, RULES_SOURCE)


def _stated(name: str, value: float | None) -> Figure:
    missing = ECHO.key if value is None else None
    return Figure(name, value, "°", _("as stated"), _PAPERS, missing=missing)


def _value(figures: Mapping[str, Figure], key: str) -> float:
    return (figures[key].value if key in figures else None) or 0.0


def _round(placed: Placed, figures: Mapping[str, Figure]) -> tuple[Ask, ...]:
    """Ask how much of the circle it serves: what stands before it takes from what its papers say."""
    fitting = placed.fitting
    total, widest = (_value(figures, key) for key in ("hidden_deg", "widest_hidden_deg"))
    arc, null = fitting.echo_arc_deg, fitting.echo_null_deg
    most = 360.0 if arc is None else arc
    kept = Figure(
        _("kept over, in all, less what is hidden"), None if arc is None else max(arc - total, 0.0), "°",
        _("as stated − hidden"), _PAPERS, {"stated_deg": most, "hidden_deg": total},
        ECHO.key if arc is None else None,
    )  # fmt: skip
    known = null is not None or widest > ASKED_NULL_DEG
    gap = Figure(
        _("widest null, stated or hidden"), max(null or 0.0, widest) if known else None, "°",
        _("the wider of both"), _PAPERS, {"stated_deg": null or 0.0, "hidden_deg": widest},
        None if known else ECHO.key,
    )  # fmt: skip
    never = most - total < ASKED_ARC_DEG
    apart = _stated(_("between nulls, at least"), fitting.echo_apart_deg)
    return (
        Ask("arc", _("kept over so much of the circle"), ASKED_ARC_DEG, kept,
            "no" if never else answered(kept.value, ASKED_ARC_DEG), RULES_SOURCE),
        Ask("null", _("widest null"), ASKED_NULL_DEG, gap,
            answered(gap.value, ASKED_NULL_DEG, most=True), RULES_SOURCE, most=True),
        Ask("apart", _("between nulls"), ASKED_APART_DEG, apart,
            answered(apart.value, ASKED_APART_DEG), RULES_SOURCE),
    )  # fmt: skip


def _heel(scene: Scene, placed: Placed, figures: Mapping[str, Figure]) -> Ask:
    required, left = heel_asked_deg(scene), figures["echo_heeled_m2"].value
    stated = _stated(_("stated to a heel of"), placed.fitting.echo_heel_deg)
    answer: Answer = answered(stated.value, required)
    if stated.value is None and left is not None and left < ASKED_M2["x"]:
        answer = "no"
    return Ask("heel", _("held to a heel of"), required, stated, answer, RULES_SOURCE)


# -- what ships see of it


def _for_ship(ship_m: float, figures: Mapping[str, Figure]) -> ForShip:
    water = figures["above_water_m"]
    name, formula = _("radar horizon to this reflector"), f"{RADIO.factor_nm:.2f} (√h + √H)"
    x, s = (
        _first_seen(ship_m, water, figures[f"echo_{band.key}_m2"], band, least)
        for band, least in ((X_BAND, LEAST_X), (S_BAND, LEAST_S))
    )
    if water.value is None or water.value <= 0.0:
        unseen = Figure(name, None, "NM", formula, RADIO.source, missing=water.missing)
        return ForShip(ship_m, unseen, x, s, None)
    far = float(range_nm(np.asarray(ship_m), water.value, RADIO))
    inputs = {"nm_per_root_m": RADIO.factor_nm, "height_above_water_m": water.value}
    horizon = Figure(name, far, "NM", formula, RADIO.source, inputs | {"antenna_height_m": ship_m})
    return ForShip(ship_m, horizon, x, s, fades(water.value, ship_m, X_BAND.wave_m))


def _first_seen(ship_m: float, water: Figure, area: Figure, band: Band, least: Least) -> Figure:
    """Return where a ship's radar first sees the reflector in a band, NM: an estimate."""
    name = _("first seen, an estimate") if band is X_BAND else _("first seen in S band, an estimate")
    formula = _("as far as σ F⁴ / R⁴ is that of {m2:g} m² at {nm:g} NM").format(m2=least.m2, nm=least.nm)
    missing = water.missing or area.missing
    if missing or water.value is None or water.value <= 0.0 or area.value is None:
        return Figure(name, None, "NM", formula, least.source, missing=missing)
    inputs = {
        "height_above_water_m": water.value,
        "antenna_height_m": ship_m,
        "echo_m2": area.value,
        "wave_mm": 1000.0 * band.wave_m,
    }
    value = first_seen_nm(area.value, water.value, ship_m, band.wave_m, least)
    return Figure(name, value, "NM", formula, least.source, inputs)


FADES_SOURCE = SOURCE

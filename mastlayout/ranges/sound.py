"""Horns and hailers: what a whistle must give by the yacht's length, and how loud it is where people stand.

Levels spread freely from the mouth: 20 log10 of the distance off. What radome, sail or mast take from
them, and what the horn gives less to its sides, is not credited: for ears that is the safe side.
"""

import math
from typing import Literal

import numpy as np

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.distance import gap
from mastlayout.geometry.frames import Array, Whole, bearing_of
from mastlayout.geometry.placed import Body, Placed
from mastlayout.geometry.rig import deck_point
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import tubes
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import Fitting
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of
from mastlayout.once import once
from mastlayout.words import _

Ear = Literal["helm_at", "foredeck_at"]
EARS: tuple[Ear, ...] = ("helm_at", "foredeck_at")
# COLREG Rule 33: below this length no whistle is asked, only a means of an efficient sound.
WHISTLE_FROM_M = 12.0
SOURCE = _("COLREG Annex III, section 1(c), as amended by A.910(22)")


OFF_AXIS_SOURCE = _("COLREG Annex III, section 1(d), in the horizontal plane")
# By key, in words, and how much less than on the axis, dB.
_OFF_AXIS = (
    ("least_within_45_deg_db", _("least within 45° of its axis"), 4.0),
    ("least_elsewhere_db", _("least in other directions"), 10.0),
)


@dataclass(frozen=True)
class Class:
    """What a whistle of a length class needs: tone, Hz; dB at 1 m by tone up to so many Hz; its range."""

    from_m: float
    to_m: float
    tone_hz: tuple[float, float]
    levels: tuple[tuple[float, float], ...]
    audible_nm: float


CLASSES = (
    Class(0.0, 20.0, (250.0, 700.0), ((450.0, 120.0), (800.0, 115.0), (2100.0, 111.0)), 0.5),
    Class(20.0, 75.0, (250.0, 700.0), ((math.inf, 130.0),), 1.0),
    Class(75.0, 200.0, (130.0, 350.0), ((math.inf, 138.0),), 1.5),
    Class(200.0, math.inf, (70.0, 200.0), ((math.inf, 143.0),), 2.0),
)


def class_of(length_m: float) -> Class:
    """Return the class of a length."""
    return next(one for one in CLASSES if one.from_m <= length_m < one.to_m)


def level_db(own: Class, tone_hz: float) -> float:
    """Return the least level, dB at 1 m, of a whistle of a class that sounds at a tone."""
    return next((least for to_hz, least in own.levels if tone_hz <= to_hz), own.levels[-1][1])


def at_distance_db(level_1m_db: float, metres: float) -> float:
    """Return the level at a distance from a level at 1 m; no nearer than that 1 m."""
    return level_1m_db - 20.0 * math.log10(max(metres, 1.0))


def is_sound(placed: Placed) -> bool:
    """Tell whether a fitting is a horn, a hailer or a loudspeaker."""
    return placed.kind.group == "sound"


def mouth_parts(body: Body) -> Whole:
    """Return the numbers of the solids that are its mouth; all of them where none is told apart."""
    own = [i for i, part in enumerate(body.parts) if part == "mouth"]
    return np.array(own or range(len(body.parts)), dtype=np.intp)


@once  # a fitting that moves keeps its body
def own_mouth(body: Body) -> Array:
    """Return the middle (3,) of its mouth in its own frame; where none is told apart, of its front."""
    if not len(body.solids):
        return np.zeros(3)
    own = body.solids[mouth_parts(body)]
    middle = own.centre.mean(axis=0)
    if "mouth" not in body.parts:
        middle[2] = own.support(np.array([0.0, 0.0, 1.0])).max()
    return np.asarray(middle)


def mouth(placed: Placed) -> Array:
    """Return the middle (3,) of a fitting's mouth where it stands."""
    return np.asarray(placed.seats.origin[0] + own_mouth(placed.body) @ placed.seats.axes[0])


def points_ahead(placed: Placed) -> bool:
    """Tell whether a fitting is made to be heard straight ahead: what points aft is for talking."""
    return any(
        sector.what == "sound"
        and (0.0 - sector.from_deg) % 360.0 <= (sector.to_deg - sector.from_deg) % 360.0
        for sector in placed.kind.sectors
    )


def axis_deg(placed: Placed) -> float:
    """Return the bearing its mouth points to, clockwise from ahead."""
    out = placed.seats.axes[0, 2]
    return bearing_of(float(out[0]), float(out[1]))


def pointing(placed: Placed) -> Figure:
    """Return the bearing its mouth points to, clockwise from ahead, degrees."""
    out = placed.seats.axes[0, 2]
    inputs = {"out_x": float(out[0]), "out_y": float(out[1])}
    formula = _("bearing of the way out of its foot")
    return Figure(_("points to"), axis_deg(placed), "°", formula, _("geometry"), inputs)


def required(scene: Scene, placed: Placed) -> Figure:
    """Return the least level at 1 m of a whistle on this yacht at the fitting's tone, dB."""
    name, formula = _("least level at 1 m"), _("by length class and tone")
    length, tone = scene.layout.boat.length_overall_mm, placed.fitting.tone_hz
    missing = measure_of(Fitting, "tone_hz") if tone is None else None
    if length is None:
        missing = measure_of(Boat, "length_overall_mm")
    if missing is not None or length is None or tone is None:
        return Figure(name, None, "dB", formula, SOURCE, missing=missing.key if missing else None)
    own = class_of(length / 1000.0)
    inputs = {"length_m": length / 1000.0, "tone_hz": float(tone), "audible_nm": own.audible_nm}
    return Figure(name, level_db(own, tone), "dB", formula, SOURCE, inputs)


def required_off_axis(scene: Scene, placed: Placed) -> dict[str, Figure]:
    """Return what a whistle must give at least beside its axis, dB at 1 m, by key."""
    own, found = required(scene, placed), {}
    for key, name, less in _OFF_AXIS:
        value = None if own.value is None else own.value - less
        formula = _("least on its axis \u2212 {less:g} dB").format(less=less)
        found[key] = Figure(name, value, "dB", formula, OFF_AXIS_SOURCE, own.inputs, own.missing)
    return found


def plate(placed: Placed) -> Figure:
    """Return the level at 1 m that the fitting's plate gives, dB."""
    own, missing = placed.fitting.level_db, measure_of(Fitting, "level_db")
    name, formula, source = _("level at 1 m"), _("its plate"), _("the part's own plate or manual")
    if own is None:
        return Figure(name, None, "dB", formula, source, missing=missing.key)
    return Figure(name, float(own), "dB", formula, source)


def at_ear(scene: Scene, placed: Placed, ear: Ear) -> Figure:
    """Return how loud a fitting is at the helm or on the foredeck, dB, by free spreading."""
    name = _("at the helm") if ear == "helm_at" else _("on the foredeck")
    formula, source = (
        _("level at 1 m − 20 log10(distance)"),
        _("free spreading; sides and shadows not credited"),
    )
    own, place, rake = plate(placed), getattr(scene.layout.boat, ear), scene.layout.mast.rake_deg
    missing = own.missing
    if place is None:
        missing = missing or measure_of(Boat, ear).key
    elif rake is None:
        missing = missing or measure_of(Mast, "rake_deg").key
    if missing is not None or own.value is None or place is None or rake is None:
        return Figure(name, None, "dB", formula, source, missing=missing)
    metres = float(np.linalg.norm(mouth(placed) - deck_point(place, "centre", rake))) / 1000.0
    inputs = {"level_1m_db": own.value, "distance_m": metres}
    return Figure(name, at_distance_db(own.value, metres), "dB", formula, source, inputs)


def compass_height_mm(scene: Scene) -> float | None:
    """Return the height of the compass, z in mm; None where it is not known."""
    place, rake = scene.layout.boat.compass_at, scene.layout.mast.rake_deg
    return None if place is None or rake is None else float(deck_point(place, "centre", rake)[2])


def from_compass(scene: Scene, placed: Placed) -> Figure:
    """Return how far the nearest of a fitting is from the middle of the compass, mm."""
    name, formula, source = _("from the steering compass"), _("nearest of it to the compass"), _("geometry")
    place, rake = scene.layout.boat.compass_at, scene.layout.mast.rake_deg
    if place is None or rake is None or not len(placed.solids):
        lacks = measure_of(Boat, "compass_at") if place is None else measure_of(Mast, "rake_deg")
        return Figure(name, None, "mm", formula, source, missing=lacks.key)
    middle = deck_point(place, "centre", rake)[None].repeat(len(placed.solids), axis=0)
    found = gap(placed.solids, tubes(middle, middle, 0.0))
    at = int(found.distance_mm.argmin())
    inputs = {
        f"{whose}_{axis}_mm": float(point[k])
        for whose, point in (("compass", middle[0]), ("nearest", found.on_a[at]))
        for k, axis in enumerate("xyz")
    }
    return Figure(name, max(float(found.distance_mm[at]), 0.0), "mm", formula, source, inputs)

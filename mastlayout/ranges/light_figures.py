"""The figures of each navigation light, each with its working: arc, range, strength, height, level."""

from collections.abc import Mapping

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import lean_of, mast_to_boat
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.limits import limits_of
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import Fitting
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of
from mastlayout.ranges.asked import EXAMPLE, Asked
from mastlayout.ranges.heights import water_height
from mastlayout.ranges.lights import (
    ANCHOR,
    ARCS_SOURCE,
    INTENSITY_SOURCE,
    STEAMING,
    VISIBLE_SOURCE,
    Role,
    intensity_cd,
    lens_point,
    lenses,
    range_nm,
    required_nm,
)
from mastlayout.words import _

# COLREG Annex I, 10: what a light must keep of its strength off the level, under power and under sail.
_UNDER_POWER, _UNDER_SAIL = 0.6, 0.5


@dataclass(frozen=True, eq=False)
class LightRow:
    """One light of a fitting: what it is, and its figures by key."""

    id: str
    name: str
    role: Role
    figures: Mapping[str, Figure]


def light_table(scene: Scene, asked: Asked = EXAMPLE) -> list[LightRow]:
    """Return a row for each light of each fitting, masthead first."""
    return [
        LightRow(placed.id, placed.fitting.name, role, _figures(scene, placed, role, asked))
        for placed in masthead_first(scene)
        for lens in lenses(placed)
        for role in lens.roles
    ]


def _figures(scene: Scene, placed: Placed, role: Role, asked: Asked) -> Mapping[str, Figure]:
    least, plate = _least(scene, role), _plate(placed)
    return {
        "arc_deg": _arc(role),
        "least_range_nm": least,
        "least_intensity_cd": _intensity(least),
        "plate_range_nm": plate,
        **_off_the_level(plate, role),
        "above_water_m": water_height(scene, float(lens_point(placed, role)[2]), asked),
        "above_gunwale_m": _above(scene, placed, role, "sheer_above_heel_mm", _("above the gunwale")),
        "above_hull_m": _above(scene, placed, role, "deck_above_heel_mm", _("above the hull")),
        "above_sidelights_m": _above(
            scene, placed, role, "sidelights_above_heel_mm", _("above the sidelights")
        ),
        "lean_aft_deg": _lean(scene, placed, asked),
        "level_band_left_deg": _band_left(scene, placed, asked),
    }


def _arc(role: Role) -> Figure:
    inputs = {"first_deg": role.first_deg, "last_deg": role.last_deg}
    return Figure(_("arc"), role.width_deg, "°", _("last bearing − first bearing"), ARCS_SOURCE, inputs)


def _least(scene: Scene, role: Role) -> Figure:
    name, formula = _("least range"), _("by her length overall")
    length = scene.layout.boat.length_overall_mm
    if length is None:
        missing = measure_of(Boat, "length_overall_mm").key
        return Figure(name, None, "NM", formula, VISIBLE_SOURCE, missing=missing)
    inputs = {"length_m": length / 1000.0}
    return Figure(name, required_nm(role, length / 1000.0), "NM", formula, VISIBLE_SOURCE, inputs)


def _intensity(least: Figure) -> Figure:
    name, formula = _("least intensity"), "3.43 × 10⁶ × 2 × 10⁻⁷ × D² × 0.8⁻ᴰ"
    if least.value is None:
        return Figure(name, None, "cd", formula, INTENSITY_SOURCE, missing=least.missing)
    inputs = {"range_nm": least.value}
    return Figure(name, float(intensity_cd(least.value)), "cd", formula, INTENSITY_SOURCE, inputs)


def _plate(placed: Placed) -> Figure:
    name, formula, source = _("range on its plate"), _("as read"), _("the light's plate")
    own = placed.fitting.visible_nm
    missing = measure_of(Fitting, "visible_nm").key if own is None else None
    return Figure(name, None if own is None else float(own), "NM", formula, source, missing=missing)


def _off_the_level(plate: Figure, role: Role) -> dict[str, Figure]:
    """Return how far a light is seen off the level, where it is bound to no more than a part of its strength.

    A steaming or anchor light keeps 60 % rolled to 7.5 degrees, one shown under sail half heeled to 25.
    """
    if role in (STEAMING, ANCHOR):
        name, formula = (
            _("range at 60 %, rolled to 7.5°"),
            _("the range at which 60 % of the intensity of the plate's range is enough"),
        )
        return {"rolled_range_nm": _weakened(plate, name, formula, _UNDER_POWER)}
    name, formula = (
        _("range at half strength, heeled to 25°"),
        _("the range at which the intensity of the plate's range, halved, is enough"),
    )
    return {"half_strength_range_nm": _weakened(plate, name, formula, _UNDER_SAIL)}


def _weakened(plate: Figure, name: str, formula: str, share: float) -> Figure:
    source = _("{strength}; section 10").format(strength=INTENSITY_SOURCE)
    if plate.value is None:
        return Figure(name, None, "NM", formula, source, missing=plate.missing)
    weak = share * float(intensity_cd(plate.value))
    inputs = {"range_nm": plate.value, "share": share, "intensity_cd": weak}
    return Figure(name, range_nm(weak), "NM", formula, source, inputs)


def _above(scene: Scene, placed: Placed, role: Role, field: str, name: str) -> Figure:
    formula, source = _("height of the lens, plumb from the heel − height of the datum"), _("geometry")
    datum, rake = getattr(scene.layout.boat, field), scene.layout.mast.rake_deg
    if datum is None or rake is None:
        missing = measure_of(Mast, "rake_deg") if rake is None else measure_of(Boat, field)
        return Figure(name, None, "m", formula, source, missing=missing.key)
    lens = float(mast_to_boat(lens_point(placed, role), rake)[2])
    inputs = {"lens_mm": lens, "datum_mm": datum, "rake_deg": rake}
    return Figure(name, (lens - datum) / 1000.0, "m", formula, source, inputs)


def _lean(scene: Scene, placed: Placed, asked: Asked) -> Figure:
    name, formula = _("leans aft"), _("lean of the glass with the mast − trim by the bow − wedge")
    rake = scene.layout.mast.rake_deg
    if rake is None:
        return Figure(name, None, "°", formula, _("geometry"), missing=measure_of(Mast, "rake_deg").key)
    axis = placed.solids.axis[lenses(placed)[0].solid]
    aft = lean_of(axis if axis[2] >= 0 else -axis, rake)[0]
    inputs = {"lean_deg": aft, "trim_deg": asked.trim_deg, "shim_deg": placed.fitting.shim_deg}
    return Figure(name, aft - asked.trim_deg - placed.fitting.shim_deg, "°", formula, _("geometry"), inputs)


def _band_left(scene: Scene, placed: Placed, asked: Asked) -> Figure:
    limit = limits_of(scene.layout)["light.band"]
    name, formula = _("left of the full-strength band"), _("band − lean either way")
    lean = _lean(scene, placed, asked)
    if lean.value is None:
        return Figure(name, None, "°", formula, limit.source, missing=lean.missing)
    inputs = {"band_deg": limit.value, "lean_deg": lean.value}
    return Figure(name, max(limit.value - abs(lean.value), 0.0), "°", formula, limit.source, inputs)

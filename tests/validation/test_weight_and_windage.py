"""Weight and windage aloft by hand, by shapely and by scipy; each figure with its source beside it."""

import math

import numpy as np
import pytest
from builders import LENGTH_MM, a_fitting, a_kind, a_layout, a_mast
from scipy.integrate import quad
from shapely import MultiPoint, unary_union

from mastlayout.geometry.scene import build
from mastlayout.geometry.silhouette import FROM_AHEAD, FROM_STARBOARD, silhouettes
from mastlayout.model.boat import Boat
from mastlayout.model.mast import Taper
from mastlayout.ranges.balance import balance
from mastlayout.ranges.drag import drag_figures
from mastlayout.ranges.weight import weight_figures
from mastlayout.ranges.windage import area_m2, drag_n
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

BALL = {"shape": "ball", "centre": (0, 0, 0), "radius_mm": 100.0}


def yacht(kg, height_m, displacement_kg, **fields):
    """A ball of a mass at a height above the water, on an upright mast that stands in the water."""
    boat = Boat(
        name="Test", heel_above_water_mm=0.0, displacement_kg=displacement_kg, gravity_above_water_mm=0.0
    )
    ball = BALL | {"centre": (0, 0, -100)}  # in the middle of the mast, so that y is 0 and x too
    fitting = a_fitting(from_masthead_mm=LENGTH_MM - 1000.0 * height_m, **fields)
    return build(a_layout(boat=boat, kinds=(a_kind(mass_kg=kg, solids=[ball]),), fittings=(fitting,)))


def values(scene, when="change"):
    """The figures' values by key."""
    return {key: figure.value for key, figure in weight_figures(scene, when).items()}


@pytest.mark.parametrize(
    ("kg", "height_m", "displacement_kg", "raised_mm"), [(6.0, 9.0, 7000.0, 7.7), (1.0, 17.0, 8000.0, 2.1)]
)
def test_a_radome_raises_her_centre_of_gravity(kg, height_m, displacement_kg, raised_mm):
    """Closed form by hand: m h / (displacement + m), her own centre at the water; printed to 0.1 mm."""
    found = values(yacht(kg, height_m, displacement_kg))
    assert found["centre_of_gravity_mm"] == pytest.approx(raised_mm, abs=0.05)


def test_a_radome_heels_her_and_slows_her_roll():
    """By hand: 6 kg at 9 m: 6 x 9.81 x 9 x sin 20 = 181 N m; 6 x 81 = 486 kg m²."""
    found = values(yacht(6.0, 9.0, 7000.0))
    assert found["mass_kg"] == 6.0
    assert found["moment_kgm"] == pytest.approx(54.0)
    assert found["heel_moment_nm"] == pytest.approx(181.0, abs=0.5)
    assert found["roll_inertia_kgm2"] == pytest.approx(486.0, abs=0.1)


def test_what_comes_off_for_it_is_taken_off():
    """Before: the old part; after: the new one; the change is their difference, at one height."""
    scene = yacht(6.0, 9.0, 7000.0, replaces_kg=2.5)
    assert [values(scene, when)["mass_kg"] for when in ("before", "after", "change")] == [2.5, 6.0, 3.5]
    assert values(scene)["moment_kgm"] == pytest.approx(3.5 * 9.0)


def test_no_sum_is_given_over_what_nobody_weighed():
    """Not a typical mass, and not nothing."""
    found = weight_figures(yacht(None, 9.0, 7000.0), "change")
    assert {(figure.value, figure.missing) for figure in found.values()} == {(None, "kind.mass")}


def test_without_the_water_only_mass_is_known():
    """And without her own centre of gravity only its rise is not."""
    layout = yacht(6.0, 9.0, 7000.0).layout
    dry = weight_figures(build(layout.but(boat=Boat(name="Test", displacement_kg=7000.0))), "change")
    assert dry["mass_kg"].value == 6.0
    assert {figure.missing for key, figure in dry.items() if key != "mass_kg"} == {"boat.water"}
    floats = weight_figures(build(layout.but(boat=layout.boat.but(gravity_above_water_mm=None))), "change")
    assert {key: f.missing for key, f in floats.items() if f.missing} == {
        "centre_of_gravity_mm": "boat.gravity"
    }


def test_drag_of_a_ball_by_hand():
    """½ 1.225 (20 x 0.51444)² 1.2 π 0.1²: 2.036 N; 40 kn is four times that. ISO 2533; Cd of a cylinder."""
    scene = yacht(6.0, 9.0, 7000.0)
    disc = math.pi * 0.01
    newton = 0.5 * 1.225 * (20 * 0.514444) ** 2 * 1.2 * disc
    found = drag_figures(scene, "change")
    for view in ("abeam", "ahead"):
        assert found[f"drag_{view}_20kn_n"].value == pytest.approx(newton, rel=0.003)
        assert found[f"drag_{view}_40kn_n"].value == pytest.approx(4 * newton, rel=0.003)
    assert found["wind_moment_20kn_nm"].value == pytest.approx(9.0 * newton, rel=0.003)
    assert drag_n(1.0, 20.0) == pytest.approx(77.81, abs=0.02)


def test_areas_are_those_of_shapely():
    """Of every fitting of the largest example, both ways: the union of the hulls of its outlines."""
    scene = build(open_document(demo_masts() / "whimbrel.toml").layout)
    for one in scene.placed.values():
        for seen, view in (("abeam", FROM_STARBOARD), ("ahead", FROM_AHEAD)):
            if len(one.solids):
                union = unary_union([MultiPoint(o).convex_hull for o in silhouettes(one.solids, view)])
                assert area_m2(one.solids, seen) == pytest.approx(union.area / 1e6, rel=0.01, abs=1e-5), (
                    one.id
                )


def test_the_balance_of_a_tapered_tube():
    """By scipy's quadrature of a girth that falls evenly, as a taper is cut."""
    taper = Taper(from_masthead_mm=5000.0, length_mm=100.0, width_mm=65.0)  # to half of the section
    scene = build(a_layout(mast=a_mast(taper=taper), fittings=()))

    def share(z):
        return 1.0 if z < 12000.0 else 1.0 - 0.5 * (z - 12000.0) / 5000.0

    kg, moment = (quad(f, 0.0, LENGTH_MM, points=[12000.0])[0] for f in (share, lambda z: z * share(z)))
    assert balance(scene).value == pytest.approx(moment / kg, abs=2.0)


def test_the_balance_with_a_mass_aloft():
    """The lever: 1020 kg at 8.5 m and 60 kg at 15 m balance at (8670 + 900) / 1080 m."""
    assert balance(yacht(60.0, 15.0, 7000.0)).value == pytest.approx(957.0 / 108.0 * 1000.0, abs=0.1)
    assert np.isfinite(balance(yacht(0.0, 15.0, 7000.0)).value)

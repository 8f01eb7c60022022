"""What a height gives: properties that hold for every height, and what is not known."""

import numpy as np
import pytest
from builders import a_fitting, a_layout, a_mast
from hypothesis import given
from hypothesis import strategies as st

from mastlayout.errors import NotAllowedError
from mastlayout.geometry.frames import above_water_mm
from mastlayout.geometry.scene import build
from mastlayout.model.boat import Boat
from mastlayout.ranges.asked import QUESTIONS, Asked
from mastlayout.ranges.heights import above_water_m, table, water_height
from mastlayout.ranges.reach import REACHES, reaches

heights = st.floats(-5.0, 100.0)
ends = st.floats(0.0, 100.0)


def scene(**boat):
    """A raked mast with one box."""
    known = {"heel_above_water_mm": 1000.0} | boat
    return build(
        a_layout(mast=a_mast(rake_deg=2.0), boat=Boat(name="Test", **known), fittings=(a_fitting(tag=1),))
    )


@given(low=heights, more=st.floats(0.0, 50.0), eye=ends, target=ends)
def test_higher_is_never_nearer(low, more, eye, target):
    """For every convention and every other end; nor does raising the other end bring it nearer."""
    asked = Asked(eye_height_m=eye, target_height_m=target, antenna_height_m=eye)
    raised = Asked(
        eye_height_m=min(eye + more, 100.0), target_height_m=target + more, antenna_height_m=eye + more
    )
    for reach in REACHES:
        near, far = reach.distance_nm(np.array([low, low + more]), asked)
        assert 0.0 <= near <= far
        assert reach.distance_nm(np.array(low), raised) >= near


@given(height=heights, eye=ends)
def test_a_range_is_the_same_from_both_ends(height, eye):
    """Who sees is seen, above the water."""
    there = Asked(eye_height_m=eye, antenna_height_m=eye, target_height_m=eye)
    back = Asked(*(max(height, 0.0),) * 3)
    for reach in REACHES:
        if reach.end is not None and height >= 0:
            to, fro = reach.distance_nm(np.array(height), there), reach.distance_nm(np.array(eye), back)
            assert to == pytest.approx(fro)


def test_nothing_under_the_water_is_seen():
    """A keel-stepped mast begins there; at the water itself the other end still sees its own horizon."""
    for reach in REACHES:
        below, at = reach.distance_nm(np.array([-0.25, 0.0]), Asked())
        assert below == 0.0
        assert at == 0.0 if reach.end is None else at > 0.0


def test_arrays_and_single_figures_are_one():
    """The chart's arrays, the table's figures and each row's working say the same."""
    built, asked = scene(), Asked(heel_deg=20.0)
    z = np.array([placed.z_mm for placed in built.placed.values()])
    water = above_water_m(built, z, asked)
    (row,) = table(built, asked)
    assert row.water.value == pytest.approx(water[0])
    for reach in REACHES:
        assert row.reaches[reach.key].value == pytest.approx(reach.distance_nm(water, asked)[0])


def test_every_figure_carries_its_working():
    """The factor and the heights that went in give the figure again, by hand."""
    for figure in reaches(water_height(scene(), 9000.0), Asked()).values():
        went_in = dict(figure.inputs)
        factor = went_in.pop("nm_per_root_m")
        assert figure.value == pytest.approx(factor * sum(height**0.5 for height in went_in.values()))
        assert f"{factor:.2f}" in figure.formula
        assert figure.source


def test_what_is_not_known_is_asked_for():
    """The waterline, then the rake, then the middle of the waterline, which only trim needs."""
    assert water_height(scene(heel_above_water_mm=None), 9000.0).missing == "boat.water"
    assert water_height(scene(), 9000.0, Asked(heel_deg=20.0)).missing is None
    assert water_height(scene(), 9000.0, Asked(trim_deg=1.0)).missing == "boat.flotation"
    assert water_height(scene(flotation_abaft_mast_mm=900.0), 9000.0, Asked(trim_deg=1.0)).missing is None
    assert above_water_m(scene(heel_above_water_mm=None), np.array([9000.0])) is None
    found = reaches(water_height(scene(), 9000.0), Asked(eye_height_m=None))
    assert found["geographic_range_nm"].value is None
    assert found["geographic_range_nm"].missing == "eye_height_m"
    assert found["radar_horizon_nm"].value is not None


@pytest.mark.parametrize(("key", "question"), QUESTIONS.items())
def test_what_cannot_be_is_refused_with_what_is_allowed(key, question):
    """Just out of bounds at either end; the bounds themselves are allowed."""
    for bound, off in ((question.least, -0.01), (question.most, 0.01)):
        assert Asked(**{key: bound}).value(key) == bound
        with pytest.raises(NotAllowedError, match=f"{question.most:g}.* is allowed"):
            Asked(**{key: bound + off})


@given(rake=st.floats(0.0, 8.0), z=st.floats(0.0, 40000.0), heel=st.floats(-60.0, 60.0))
def test_heel_lowers_what_is_above_the_water_alike_to_both_sides(rake, z, heel):
    """And no heel at all is the height upright."""
    upright = above_water_mm(z, rake, 500.0)
    heeled = above_water_mm(z, rake, 500.0, heel_deg=heel)
    assert heeled <= upright
    assert heeled == pytest.approx(above_water_mm(z, rake, 500.0, heel_deg=-heel))


def test_trim_by_the_rake_brings_a_mast_upright():
    """Bow down as far as the mast leans aft: it stands plumb, as long as it is above its own heel."""
    lean = 2.0
    foot, top = above_water_mm(np.array([0.0, 10000.0]), lean, 500.0, trim_deg=lean, flotation_abaft_mm=700.0)
    assert top - foot == pytest.approx(10000.0)

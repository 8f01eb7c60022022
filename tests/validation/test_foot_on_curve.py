"""Does the foot fit the curve: the packer under its edges against circles and ellipses by hand."""

import math

import numpy as np
import pytest
from asking import found
from builders import a_fitting, a_foot, a_layout, a_mast

from mastlayout.fastening.curve import fit_of
from mastlayout.geometry.scene import build
from mastlayout.model.mast import Ellipse, Taper

ROUND = a_mast(section=Ellipse(shape="ellipse", length_mm=120, width_mm=120))


def fit(mast, foot, **fields):
    """How a foot fits where one fitting stands."""
    scene = build(a_layout(mast=mast, fittings=(a_fitting(in_hand=foot, **fields),)))
    return fit_of(scene.skin, foot, scene.placed["box-1"].places)


def test_a_flat_foot_on_a_circle():
    """60 across on a radius of 60: 60 - sqrt(60^2 - 30^2) = 8.04."""
    found_fit = fit(ROUND, a_foot(seat="flat", across_mm=60))
    assert found_fit.gap_mm[0] == pytest.approx(60 - math.sqrt(60**2 - 30**2), abs=0.01)
    assert found_fit.tilt_deg[0] == pytest.approx(0.0, abs=1e-9)


def test_a_radiused_foot_of_the_masts_own_radius_fits():
    """Radius on radius leaves nothing; one of 80 on 60 leaves 8.04 less 80 - sqrt(80^2 - 30^2) = 5.84."""
    assert fit(ROUND, a_foot(seat="radiused", across_mm=60, radius_mm=60)).gap_mm[0] == pytest.approx(
        0, abs=0.01
    )
    wide = fit(ROUND, a_foot(seat="radiused", across_mm=60, radius_mm=80)).gap_mm[0]
    assert wide == pytest.approx(8.038 - (80 - math.sqrt(80**2 - 30**2)), abs=0.01)


def test_a_radius_too_small_stands_on_its_edges():
    """One of 40 on 60: its edges touch first, the middle stands off by 14.0 - 8.04... of its width."""
    tight = fit(ROUND, a_foot(seat="radiused", across_mm=60, radius_mm=40)).gap_mm[0]
    assert tight == pytest.approx(8.038 - (40 - math.sqrt(40**2 - 30**2)), abs=0.01)
    assert tight < 0


def test_a_flat_foot_on_the_nose_of_an_ellipse():
    """X = 100 sqrt(1 - (30/65)^2): the skin falls 11.28 at 30 aside of the nose of 200 x 130."""
    gap = fit(a_mast(), a_foot(seat="flat", across_mm=60)).gap_mm[0]
    assert gap == pytest.approx(100 * (1 - math.sqrt(1 - (30 / 65) ** 2)), abs=0.01)


def test_a_taper_leans_the_foot_and_is_no_gap():
    """Ahead the skin runs in by 200 - 150 over 5000, 0.573 degrees; under the foot is only the curve."""
    mast = a_mast(taper=Taper(from_masthead_mm=5000, length_mm=150, width_mm=130))
    narrow = fit(mast, a_foot(seat="flat", across_mm=8, along_mm=200), from_masthead_mm=2500.0)
    assert narrow.tilt_deg[0] == pytest.approx(math.degrees(math.atan(50 / 5000)), abs=0.01)
    assert abs(narrow.gap_mm[0]) < 0.3


@pytest.mark.parametrize(("across_mm", "clear"), [(21.8, True), (22.1, False)])
def test_a_millimetre_is_bedding_more_is_a_packer(across_mm, clear):
    """On a radius of 60 a chord of 21.82 stands off by 1: 2 sqrt(60^2 - 59^2) = 21.82."""
    assert 2 * math.sqrt(60**2 - 59**2) == pytest.approx(21.82, abs=0.01)
    layout = a_layout(
        mast=ROUND, fittings=(a_fitting(in_hand=a_foot(seat="flat", across_mm=across_mm, holes=[])),)
    )
    findings = found(layout, "seat/gap")
    assert [f.standing for f in findings] == ([] if clear else ["caution"])


def test_a_foot_on_its_packer_or_shaped_to_the_skin_asks_nothing():
    """A stand-off is a packer that somebody has planned."""
    flat = a_foot(seat="flat", across_mm=60)
    assert not found(a_layout(mast=ROUND, fittings=(a_fitting(in_hand=flat, stand_off_mm=9.0),)), "seat/gap")
    assert not found(a_layout(mast=ROUND), "seat/gap")


def test_a_radius_nobody_measured_is_asked_for():
    """Radiused, in hand, and how round is not known."""
    foot = a_foot(seat="radiused")
    findings = found(a_layout(mast=ROUND, fittings=(a_fitting(in_hand=foot),)), "seat/gap")
    assert [(f.standing, f.measure) for f in findings] == [("not checked", "foot.radius")]


def test_many_places_at_once():
    """Round the mast at once as one by one."""
    foot = a_foot(seat="flat", across_mm=50, along_mm=40)
    scene = build(a_layout(fittings=(a_fitting(in_hand=foot),)))
    one = scene.placed["box-1"].places
    around = np.linspace(-200, 200, 9)
    many = type(one)(np.full(9, 9000.0), around, np.zeros(9), np.full(9, 30.0))
    together = fit_of(scene.skin, foot, many).gap_mm
    alone = [
        fit_of(scene.skin, foot, type(one)(*(np.array([v]) for v in (9000.0, a, 0.0, 30.0)))).gap_mm[0]
        for a in around
    ]
    assert together == pytest.approx(alone, abs=1e-6)

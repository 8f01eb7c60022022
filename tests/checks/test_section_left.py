"""What is left of a section, as a rule: one that passes, one that fails, one at the limit, one not known."""

import pytest
from asking import found
from builders import a_fitting, a_foot, a_layout, a_mast

from mastlayout.checks.report import check
from mastlayout.geometry.scene import build
from mastlayout.model.edits import change
from mastlayout.model.fitting import OldHole
from mastlayout.model.layout import LimitOverride
from mastlayout.model.mast import Ellipse, Wall

# A tube of 100 with a wall of 4: its moduli are in the published table of tests/validation.
ROUND = a_mast(
    section=Ellipse(shape="ellipse", length_mm=100, width_mm=100),
    walls=[Wall(from_masthead_mm=8000.0, thickness_mm=4.0)],
)


def holed(diameter_mm, **parts):
    """One hole of a size ahead on the round tube."""
    hole = {"across_mm": 0.0, "along_mm": 0.0, "fastener": "none", "diameter_mm": diameter_mm}
    return a_layout(mast=ROUND, fittings=(a_fitting(in_hand=a_foot(holes=[hole])),), **parts)


def test_one_hole_of_twenty_at_the_extreme_fibre_is_said_and_one_of_ten_is_not():
    """By I - a y2 - A' ybar2, of 80 mm2 at 48: 80.3 % is left (see validation); of 40 about 90."""
    (finding,) = found(holed(20.0), "hole/modulus")
    assert (finding.standing, finding.unit) == ("caution", "%")
    assert finding.measured == pytest.approx(80.3, abs=0.6)
    assert not found(holed(10.0), "hole/modulus")


@pytest.mark.parametrize(("percent", "clear"), [(6.4, True), (6.3, False)])
def test_girth_at_its_limit(percent, clear):
    """20 of a girth of 314.16 are 6.37 %."""
    own = LimitOverride(key="hole.girth", value=percent, unit="%", why="to try it")
    assert (not found(holed(20.0, limits=(own,)), "hole/girth")) is clear


def test_old_holes_of_the_ring_count():
    """Three old holes of 12 round the same level: 20 + 36 of 314 are 17.8 % of the girth."""
    ring = tuple(
        OldHole(id=f"old-{b}", name="Old", from_masthead_mm=8000.0, girth=f"bearing {b}", diameter_mm=12.0)
        for b in ("090", "180", "270")
    )
    (finding,) = found(holed(20.0, holes=ring), "hole/girth")
    assert finding.measured == pytest.approx(100.0 - 100.0 * 56.0 / 314.159, abs=0.01)
    far = tuple(hole.but(from_masthead_mm=8200.0) for hole in ring)
    assert not found(holed(20.0, holes=far), "hole/girth")


def test_an_old_hole_of_unknown_size_in_the_ring_is_asked_for():
    """On the other side of the mast it is no neighbour, but it takes of the same ring."""
    hole = OldHole(id="old-1", name="Old", from_masthead_mm=8030.0, girth="bearing 180")
    findings = found(holed(5.0, holes=(hole,)), "hole/ring")
    assert [(f.standing, f.measure) for f in findings] == [("not checked", "hole.diameter")]


def test_without_any_reading_of_the_wall_nothing_is_said_to_be_left():
    """No wall, no section."""
    layout = holed(20.0).but(mast=ROUND.but(walls=()))
    assert [f.measure for f in found(layout, "hole/modulus")] == ["mast.wall"]


def test_a_neighbour_that_moves_into_the_ring_is_counted_at_once():
    """A drag asks again what stands near, with all of them together: as a check from nothing says."""
    slot = {"width_mm": 30.0, "length_mm": 60.0, "corner_radius_mm": 15.0}
    other = a_fitting("box-2", in_hand=a_foot(holes=[], cutouts=[slot]), girth="aft", from_masthead_mm=8600.0)
    far = holed(18.0)
    far = far.but(fittings=(*far.fittings, other))
    near = change(far, "box-2", from_masthead_mm=8000.0)
    before = check(build(far))
    after = check(build(near, before.scene), before)
    said = [f.measured for f in after.open if f.code == "hole/girth" and f.subjects == ("box-1",)]
    assert said == [
        f.measured for f in check(build(near)).open if f.code == "hole/girth" and f.subjects == ("box-1",)
    ]
    assert said == [pytest.approx(100.0 - 100.0 * 48.0 / 314.159, abs=0.01)]


@pytest.mark.parametrize("beside_mm", [0.0, 120.0, 185.0])
def test_an_old_hole_counts_the_same_all_along_the_straight_part_of_a_slot(beside_mm):
    """A slot of 20 by 400 has straight sides for 190 either way: a level cut there takes 20 + 25 of 314."""
    slot = {"across_mm": 0.0, "along_mm": 0.0, "width_mm": 20.0, "length_mm": 400.0, "corner_radius_mm": 10.0}
    own = a_fitting(in_hand=a_foot(holes=[], cutouts=[slot], along_mm=420.0))
    old = OldHole(
        id="old", name="Old", from_masthead_mm=8000.0 - beside_mm, girth="bearing 180", diameter_mm=25.0
    )
    strict = LimitOverride(key="hole.girth", value=10.0, unit="%", why="to see it")
    layout = a_layout(mast=ROUND, fittings=(own,), holes=(old,), limits=(strict,))
    (finding,) = found(layout, "hole/girth")
    assert finding.measured == pytest.approx(100.0 - 100.0 * 45.0 / 314.159, abs=0.01)

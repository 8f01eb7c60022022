"""Feet in a taper: a foot is as straight as the part, and does not lean with the girth that shrinks."""

import pytest
from builders import a_fitting, a_foot, a_layout, a_mast

from mastlayout.geometry.scene import build
from mastlayout.model.mast import Taper

TAPER = Taper(from_masthead_mm=2000, length_mm=120, width_mm=80)


def placed(**fitting):
    """Return a foot in hand 700 from the masthead of a mast that tapers over 2000."""
    known = {"in_hand": a_foot(), "from_masthead_mm": 700.0}
    fittings = (a_fitting(**(known | fitting)),)
    return build(a_layout(mast=a_mast(taper=TAPER), fittings=fittings)).placed["box-1"]


@pytest.mark.parametrize("girth", ["ahead", "aft"])
def test_a_foot_on_a_centreline_has_its_holes_alike_to_port_and_starboard(girth):
    """Mirrored in space to 0.001 mm: the mast is symmetric and so is the foot."""
    foot = placed(girth=girth)
    for a, b in ((0, 1), (2, 3)):
        x1, y1, z1 = foot.holes.point[0, a]
        x2, y2, z2 = foot.holes.point[0, b]
        assert (x1, -y1, z1) == pytest.approx((x2, y2, z2), abs=1e-3)
    across = foot.outline[:, 0] - foot.skin.half_girth(foot.outline[:, 1]) * (girth == "ahead")
    assert sorted(across) == pytest.approx([-55.0, -55.0, 55.0, 55.0], abs=1e-6)


@pytest.mark.parametrize("turn_deg", [0.0, 35.0, 90.0])
def test_a_foot_is_found_between_heights_where_its_outline_is(turn_deg):
    """Off its fitting's middle and turned: from the lowest corner to the highest, not a millimetre more."""
    foot = placed(in_hand=a_foot(centre_along_mm=30.0, centre_across_mm=20.0), turn_deg=turn_deg)
    low, high = foot.outline[:, 1].min(), foot.outline[:, 1].max()
    for z in (low - 0.1, low + 0.1, (low + high) / 2, high - 0.1, high + 0.1, high + 900.0):
        assert foot.foot_between(z, z) == (low <= z <= high)
    assert foot.foot_between(low - 500.0, high + 500.0)
    assert not foot.foot_between(low - 500.0, low - 0.1)


@pytest.mark.parametrize("bearing", [40, 110, 250])
def test_holes_on_a_foots_middle_line_stand_straight_up_the_mast(bearing):
    """Seen square to the foot, 100 above its middle and 100 below: over each other to 0.001 mm."""
    holes = [{"across_mm": 0.0, "along_mm": along, "fastener": "M6 tapped"} for along in (100.0, -100.0)]
    foot = placed(girth=f"bearing {bearing}", in_hand=a_foot(along_mm=240, holes=holes))
    offsets = (foot.holes.point[0] - foot.seats.origin[0]) @ foot.seats.axes[0, 0]
    assert offsets == pytest.approx([0.0, 0.0], abs=1e-3)

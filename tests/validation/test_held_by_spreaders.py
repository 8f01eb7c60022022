"""What a spreader holds cloth with, against its own plan: never larger than it is, at any angle."""

import numpy as np
import pytest
import shapely
from builders import a_layout, a_mast, a_spreader

from mastlayout.geometry.scene import build
from mastlayout.geometry.tack.directions import towards
from mastlayout.geometry.tack.holding import holding

# Where its cut is asked: level with its middle, 9,000 below a masthead at 17,000.
Z_MM = 8000.0
LONG_MM, ROOT_MM, TIP_MM = 1300.0, 95.0, 70.0


def plan(sweep_deg):
    """By hand: the trapezoid of a level spreader on the port side of an ellipse of 200 by 130."""
    out = np.array([-np.sin(np.radians(sweep_deg)), np.cos(np.radians(sweep_deg))])
    across = np.array([out[1], -out[0]])
    root = np.array([0.0, 65.0])
    tip = root + LONG_MM * out
    corners = [
        end + side * wide / 2 * across for end, wide in ((root, ROOT_MM), (tip, TIP_MM)) for side in (1, -1)
    ]
    return shapely.get_coordinates(shapely.convex_hull(shapely.multipoints(corners)).exterior)


@pytest.mark.parametrize("sweep_deg", [0.0, 1.0, 7.3, 20.0, 22.0])
def test_a_long_spreader_never_holds_more_than_it_is(sweep_deg):
    """2,000 directions by lot: never beyond its plan, at most 35 short of it, its flat side 1,300 long."""
    spreader = a_spreader(
        length_mm=LONG_MM, sweep_deg=sweep_deg, chord_root_mm=ROOT_MM, chord_tip_mm=TIP_MM,
        thickness_root_mm=30.0, thickness_tip_mm=30.0,
    )  # fmt: skip
    scene = build(a_layout(mast=a_mast(), spreaders=(spreader,)))
    held = holding(scene.tack.rig, np.array([Z_MM]))
    (slot,) = np.flatnonzero(held.name[0] == held.names.index("spreader-p"))
    angle = np.random.default_rng(11).uniform(0, 2 * np.pi, 2000)
    ways = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    asked = towards(ways)
    reach = asked.reach(np.repeat(held.support[:, slot], len(ways), axis=0)[:, :])
    true = (asked.normal @ plan(sweep_deg).T).max(axis=1)
    assert (reach - true).max() < 0.01
    assert (true - reach).max() < 35.0

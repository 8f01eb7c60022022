"""What lies in a conduit: circles at their size, none over another, none through the bore."""

import itertools
import math
from pathlib import Path

from mastlayout.desk import Desk
from mastlayout.ui.section.filling import filling_at, laid

DEMO = Path(__file__).parents[3] / "demo_masts" / "sanderling.toml"


def test_cables_lie_apart_within_the_bore():
    """Six cables of 10.3 to 6.0 in a bore of 40: each whole inside, each clear of the others."""
    circles = laid((10.3, 9.0, 7.4, 7.0, 6.1, 6.0), 40.0)
    assert [2 * circle[2] for circle in circles] == [10.3, 9.0, 7.4, 7.0, 6.1, 6.0]
    assert all(math.hypot(x, y) + radius <= 20.0 + 1e-5 for x, y, radius in circles)
    for one, other in itertools.combinations(circles, 2):
        assert math.dist(one[:2], other[:2]) >= one[2] + other[2] - 1e-5


def test_what_does_not_go_in_is_left_out():
    """Of three cables of 12 a bore of 25 takes two: three would need a circle of 25.9."""
    assert len(laid((12.0, 12.0, 12.0), 25.0)) == 2


def test_how_full_is_of_the_cables_at_that_height():
    """Above the hailer's and the radar's entries four run in conduit A: VHF, AIS, tricolour and wind."""
    scene = Desk.open(DEMO).scene
    pipe = scene.layout.mast.conduits[0]
    filling = filling_at(scene, pipe, 17400.0 - 5000.0)
    by_hand = (10.3**2 + 6.1**2 + 7.4**2 + 6.0**2) / 40.0**2 * 100
    others = [
        c for c in scene.layout.cables if c.conduit == pipe.id and c.fitting in ("hailer-1", "radome-1")
    ]
    assert len(others) == 2
    assert filling.count == 4
    assert abs(filling.full_percent - by_hand) < 1e-9

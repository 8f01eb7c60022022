"""Three invented rigs whose numbers were closed elsewhere: lengths, tips and pins to 1 mm, conduits."""

import math

import known
import numpy as np
import pytest
from builders import a_fitting, a_foot, a_layout, a_mast
from scipy.optimize import brentq

from mastlayout.checks.report import check
from mastlayout.geometry.frames import above_water_mm, boat_to_mast, mast_to_boat
from mastlayout.geometry.scene import build
from mastlayout.model.mast import Ellipse, RoundedBox, Wall

# Pin to pin over the tips, mm, as the three yachts were closed before they were entered here.
LENGTHS = {
    "whimbrel": {
        "forestay": 15974,
        "backstay": 16766,
        "cap": 15611,
        "intermediate": 10461,
        "lower-fore": 5525,
        "lower-aft": 5545,
        "inner-stay": 11047,
        "runner": 11686,
    },
    "sanderling": {
        "forestay": 16956,
        "cap": 16443,
        "lower": 9526,
        "diamond": 13731,
        "jumper": 7645,
        "code": 18062,
    },
    "turnstone": {"forestay": 10356, "cap": 10046, "lower": 5277, "backstay": 12730},
}
TIPS = {
    "whimbrel": [(0, 1146, 12088), (0, 1364, 7049)],
    "sanderling": [(-325, 967, 8202), (549, 0, 9700)],
    "turnstone": [(-327, 852, 4864)],
}
# Deck ends in the boat frame and the same in the mast frame, with the rake.
DECK = [
    (1.5, (4604, 0, 1880), (4652, 0, 1759)), (1.5, (-7050, 0, 1700), (-7003, 0, 1884)),
    (1.5, (440, 1490, 1590), (481, 1490, 1578)), (3.0, (5006, 0, -700), (4963, 0, -961)),
    (3.0, (-1750, 3150, -900), (-1795, 3150, -807)), (1.0, (3021, 0, -330), (3015, 0, -383)),
    (1.0, (-5250, 0, -400), (-5256, 0, -308)),
]  # fmt: skip


@pytest.fixture(scope="module", params=sorted(LENGTHS))
def rig(request):
    """A yacht's name and scene."""
    return request.param, known.report(request.param).scene


def test_every_stay_is_as_long_as_it_was_closed(rig):
    """Each row of the three tables, both sides, to 1 mm."""
    name, scene = rig
    for stem, length in LENGTHS[name].items():
        stays = [s for id_, s in scene.stays.items() if id_.startswith(stem)]
        assert stays, stem
        for stay in stays:
            assert stay.length_mm == pytest.approx(length, abs=1.0), stay.item.id


def test_every_tip_stands_where_it_was_closed(rig):
    """Tips to port and ahead, to 1 mm."""
    name, scene = rig
    tips = [bar.tip for bar in scene.spreaders.values() if bar.item.side != "starboard"]
    for wanted in TIPS[name]:
        assert min(np.abs(tip - wanted).max() for tip in tips) <= 1.0, wanted


@pytest.mark.parametrize(("rake", "boat", "mast"), DECK)
def test_rake_turns_the_boat_frame_into_the_masts(rake, boat, mast):
    """Each bracketed pair of the tables to 1 mm, and back to a thousandth."""
    assert boat_to_mast(np.array(boat, dtype=float), rake) == pytest.approx(mast, abs=1.0)
    assert mast_to_boat(boat_to_mast(np.array(boat, dtype=float), rake), rake) == pytest.approx(
        boat, abs=1e-3
    )


@pytest.mark.parametrize(
    ("length", "rake", "heel", "water_m"),
    [(17300, 1.5, -250, 17.04), (17400, 3.0, 2450, 19.83), (11400, 1.0, 1620, 13.02)],
)
def test_the_masthead_above_the_water(length, rake, heel, water_m):
    """Length times the cosine of the rake, and the heel: to a centimetre."""
    assert above_water_mm(length, rake, heel) / 1000 == pytest.approx(water_m, abs=0.01)


def against_conduit(section, bearing, outside, wall, round_mm, side):
    """What the rule measures from the edge of a 5.0 drill, square to the skin, to a conduit."""
    pipe = {
        "id": "pipe",
        "name": "Pipe",
        "outside_mm": float(outside),
        "runs": [{"from_masthead_mm": 100.0, "to_mm": 16900.0, "bearing_deg": float(bearing)}],
    }
    foot = a_foot(holes=[{"across_mm": 0.0, "along_mm": 0.0, "fastener": "M6 tapped"}])
    mast = a_mast(section=section, conduits=[pipe], walls=[Wall(from_masthead_mm=8000.0, thickness_mm=wall)])
    fitting = a_fitting(girth=f"{round_mm} to {side} of ahead", in_hand=foot)
    report = check(build(a_layout(mast=mast, fittings=(fitting,))))
    return next(f.measured for f in report.open if f.code == "hole/inside")


def test_a_conduit_beside_an_elliptic_nose():
    """206 x 139, wall 3.9, pipe 42 at bearing 315: 44 round to port it passes by 9.3 from the drill."""
    section = Ellipse(shape="ellipse", length_mm=206, width_mm=139)
    assert against_conduit(section, 315, 42, 3.9, 44, "port") == pytest.approx(9.3, abs=0.1)


def test_a_conduit_at_the_elliptic_nose_by_a_reckoning_of_its_own():
    """The pipe's centre lies on the ray where an offset of wall and radius touches, found by root search."""
    a, b, inset = 103.0, 69.5, 3.9 + 21.0
    t = np.linspace(0, 2 * np.pi, 200_001)
    outline = np.stack([a * np.cos(t), b * np.sin(t)], -1)
    ray = np.array([math.cos(math.radians(45)), math.sin(math.radians(45))])
    along = brentq(lambda s: np.hypot(*(outline - s * ray).T).min() - inset, 1.0, 60.0)
    # The hole 44 round from the nose: walk the outline, then drop the normal.
    girth = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(outline, axis=0).T))])
    i = int(np.searchsorted(girth, 44.0))
    normal = np.array([math.cos(t[i]) / a, math.sin(t[i]) / b])
    normal /= np.linalg.norm(normal)
    off = along * ray - outline[i]
    true = abs(off[0] * normal[1] - off[1] * normal[0]) - 21.0 - 2.5
    section = Ellipse(shape="ellipse", length_mm=206, width_mm=139)
    assert against_conduit(section, 315, 42, 3.9, 44, "port") == pytest.approx(true, abs=0.01)


def test_a_conduit_behind_a_rounded_nose():
    """238 x 148 with corners of 70, wall 4.2, pipe 44 ahead: 44 round it leaves 2.5."""
    section = RoundedBox(shape="rounded box", length_mm=238, width_mm=148, corner_radius_mm=70)
    assert against_conduit(section, 0, 44, 4.2, 44, "port") == pytest.approx(2.5, abs=0.1)

"""Navigation lights against the published rules, hidden arcs against shapely and closed forms."""

import math

import numpy as np
import pytest
from shapely import Point
from shapely.affinity import rotate

from mastlayout.geometry.arcs import Sources, hull_edges, overlap_deg, shadows
from mastlayout.geometry.obstacles import obstacles
from mastlayout.geometry.solids import cans, joined, tubes
from mastlayout.limits import built_in
from mastlayout.model.kind import Sector
from mastlayout.ranges.lights import (
    ANCHOR,
    PORT,
    STARBOARD,
    STEAMING,
    STERN,
    intensity_cd,
    range_nm,
    required_nm,
    role_of,
)


def test_arcs_of_rule_21():
    """COLREG Rule 21 (33 CFR 83.21): masthead 225, side 112.5, stern 135, to 22.5 abaft the beam."""
    assert [role.width_deg for role in (STEAMING, PORT, STARBOARD, STERN, ANCHOR)] == [
        225,
        112.5,
        112.5,
        135,
        360,
    ]
    assert STARBOARD.last_deg == 90.0 + 22.5
    assert STERN.last_deg - 180.0 == 67.5


@pytest.mark.parametrize(
    ("length_m", "masthead", "side", "stern"),
    [
        (7.0, 2, 1, 2),
        (11.99, 2, 1, 2),
        (12.0, 3, 2, 2),
        (19.99, 3, 2, 2),
        (20.0, 5, 2, 2),
        (49.99, 5, 2, 2),
        (50.0, 6, 3, 3),
    ],
)
def test_ranges_of_rule_22(length_m, masthead, side, stern):
    """COLREG Rule 22 (33 CFR 83.22); "12 metres or more" is the upper class."""
    found = [required_nm(role, length_m) for role in (STEAMING, PORT, STARBOARD, STERN, ANCHOR)]
    assert found == [masthead, side, side, stern, stern]


@pytest.mark.parametrize(
    ("range_", "printed", "exact"),
    [
        (1, 0.9, 0.8575),
        (2, 4.3, 4.2875),
        (3, 12, 12.0586),
        (4, 27, 26.7969),
        (5, 52, 52.3376),
        (6, 94, 94.2078),
    ],
)
def test_intensity_of_annex_i(range_, printed, exact):
    """COLREG Annex I, 8(b) (33 CFR 84.14): the printed table is the formula to two figures."""
    assert float(intensity_cd(range_)) == pytest.approx(exact, abs=5e-5)
    assert float(intensity_cd(range_)) == pytest.approx(printed, abs=0.5)
    assert range_nm(exact) == pytest.approx(range_, abs=1e-4)


def test_air_and_eye_of_annex_i():
    """Read, Annex I, 8(a): 2e-7 lux; K 0.8, in which one sees about 13 NM (5 % left: 13.425)."""
    clear = 4 * float(intensity_cd(1.0)) / float(intensity_cd(2.0))
    assert clear == pytest.approx(0.8)
    assert math.log(0.05) / math.log(clear) == pytest.approx(13.425, abs=5e-4)
    assert float(intensity_cd(1.0)) * clear / 3.43e6 == pytest.approx(2e-7)


@pytest.mark.parametrize(("plate", "share", "seen"), [(2, 0.5, 1.496), (1, 0.5, 0.7288), (3, 0.6, 2.4664)])
def test_range_at_a_part_of_the_strength(plate, share, seen):
    """Worked out from Annex I, 8 and the shares of 10(a) and 10(b)."""
    assert range_nm(share * float(intensity_cd(plate))) == pytest.approx(seen, abs=0.002)


def test_limits_are_those_of_annex_i():
    """COLREG Annex I, sections 2, 9 and 10 (33 CFR 84); Rule 25(b)."""
    limits = built_in()
    read = {
        "light.band": 5.0,
        "light.edge": 5.0,
        "light.all_round": 6.0,
        "light.power_band": 7.5,
        "light.sail_band": 25.0,
        "light.masthead": 2500.0,
        "light.over_sidelights": 1000.0,
        "light.sidelights": 75.0,
        "light.apart": 1000.0,
        "light.lowest": 2000.0,
        "light.tricolour": 20000.0,
    }
    assert {key: limits[key].value for key in read} == read
    assert all(limits[key].standing == "standard" for key in read)


ARCS = [(247.5, 112.5, STEAMING), (-112.5, 112.5, STEAMING), (0, 360, ANCHOR), (0, 200, None), (0, 0, None)]


@pytest.mark.parametrize(("first", "last", "role"), ARCS)
def test_an_arc_is_known_by_its_bearings(first, last, role):
    """However it is written; what is no arc of the rules is none."""
    sector = Sector(what="light", from_deg=first, to_deg=last, name="light", colour="white")
    assert role_of(sector) == role


@pytest.mark.parametrize(
    ("width", "away", "degrees"),
    [(120.0, 300.0, 23.1), (120.0, 450.0, 15.3), (10.0, 250.0, 2.3), (6.0, 200.0, 1.7), (25.0, 250.0, 5.7)],
)
def test_shadow_of_a_member_from_a_point(width, away, degrees):
    """2 asin(b / 2d) by hand: mast, wire, whip and tube at the distances of a masthead."""
    first, last = hull_edges(np.zeros((1, 1)), np.array([[away]]), np.array([[width / 2]]), 0.0)
    assert float(last[0] - first[0]) == pytest.approx(degrees, abs=0.05)


# Read, a siting note on ships' radars: a mast of 0.3 m at 1.0 m hides about 17 degrees. The rest by hand:
# (width m, distance m, 2 asin(w / 2 r) of a round one, 2 atan(w / 2 r) of a flat one).
HIDES = (
    (0.3, 1.0, 17.254, 17.062), (0.15, 0.5, 17.254, 17.062), (0.15, 1.0, 8.602, 8.578),
    (0.2, 0.4, 28.955, 28.072), (0.05, 0.3, 9.56, 9.527),
)  # fmt: skip


@pytest.mark.parametrize(("width", "away", "round_", "flat"), HIDES)
def test_blind_arcs_of_round_and_flat(width, away, round_, flat):
    """Of a disc, and of a plate square to the way to it, which is its two edges."""
    first, last = hull_edges(np.zeros((1, 1)), np.array([[away]]), np.array([[width / 2]]), 0.0)
    assert float(last[0] - first[0]) == pytest.approx(round_, abs=0.01)
    edges = np.array([[-width / 2], [width / 2]])
    first, last = hull_edges(edges, np.full((2, 1), away), np.zeros((2, 1)), 0.0)
    assert float(last[0] - first[0]) == pytest.approx(flat, abs=0.01)


def test_five_degrees_need_eleven_and_a_half_diameters():
    """1 / (2 sin 2.5 degrees) = 11.46: how far a radar stands off a mast for a ship's single sector."""
    first, last = hull_edges(np.zeros((1, 1)), np.array([[11.46]]), np.array([[0.5]]), 0.0)
    assert float(last[0] - first[0]) == pytest.approx(5.0, abs=0.005)


def test_six_degrees_need_nine_and_a_half_widths():
    """1 / (2 tan 3 degrees) = 9.5406: a mast of 150 needs 1.4311 m."""
    first, last = hull_edges(np.zeros((1, 1)), np.array([[1431.1]]), np.array([[75.0]]), 0.0)
    assert float(last[0] - first[0]) == pytest.approx(6.0, abs=0.01)


def covered(hull, source, half, bearing_deg):
    """How much of a source a hull covers as a ship at a bearing sees it, by shapely's own turning."""
    turned = rotate(hull, bearing_deg, origin=source)
    _x, low, _x2, high = turned.bounds
    ahead = turned.centroid.x > source[0]
    return max(min(high, source[1] + half) - max(low, source[1] - half), 0.0) / (2 * half) if ahead else 0.0


@pytest.mark.parametrize("seed", range(12))
def test_arcs_against_shapely(seed):
    """Hulls of two discs anywhere about a lens: what covers it all, and a fifth of it, bearing by bearing."""
    rng = np.random.default_rng(seed)
    half = rng.uniform(20, 60)
    middle = rng.uniform(200, 600) * np.array([np.cos(t := rng.uniform(0, 2 * np.pi)), np.sin(t)])
    step = rng.uniform(-90, 90, 2)
    radius = rng.uniform(5, 70)
    ends = np.array([[*(middle - step), 0.0], [*(middle + step), 0.0]])
    solid = tubes(ends[:1], ends[1:], radius)
    source = Sources(np.array([[30.0, -20.0, 0.0]]), half, 4.0)
    things = obstacles(("it",), solid, np.array([0]))
    found = shadows(source, things, 0.2, np.zeros(1))
    hull = Point(*ends[0, :2]).buffer(radius, 256).union(Point(*ends[1, :2]).buffer(radius, 256)).convex_hull
    bearings = np.arange(0.0, 360.0, 0.25)
    seen = np.array([covered(hull, (30.0, -20.0), half, b) for b in bearings])
    for least, arcs in ((0.9999, found.dark), (0.2, found.dim)):
        wide = 0.25 * np.count_nonzero(seen >= least)
        ours = float(np.nan_to_num(arcs[:, 1] - arcs[:, 0]).sum())
        assert ours == pytest.approx(wide, abs=0.6)
    if len(found.place):
        assert found.share[0] == pytest.approx(seen.max(), abs=0.02)


def test_one_above_the_other_hides_together():
    """Two short cans, each before half of the lens, hide all of it; side by side they would not."""
    lens = Sources(np.array([[0.0, 0.0, 0.0]]), 30.0, 20.0)
    wide = np.array([50.0])
    low = cans(np.array([[300.0, 0, -40]]), np.array([[300.0, 0, 0.0]]), wide, wide)
    high = cans(np.array([[300.0, 0, 0.0]]), np.array([[300.0, 0, 40.0]]), wide, wide)
    for parts, dark in (([low], False), ([low, high], True)):
        solids = joined(parts)
        things = obstacles(("it",), solids, np.zeros(len(solids), dtype=np.intp))
        (arc,) = shadows(lens, things, 0.2, np.zeros(1)).dark
        assert bool(np.isfinite(arc).all()) == dark
        if dark:
            assert arc[1] - arc[0] == pytest.approx(2 * math.degrees(math.asin(20.0 / 300.0)), abs=0.01)


@pytest.mark.parametrize(
    ("arc", "first", "last", "taken"),
    [
        ((350.0, 370.0), 0.0, 112.5, 10.0),
        ((350.0, 370.0), 247.5, 360.0, 10.0),
        ((-10.0, 10.0), 247.5, 112.5, 20.0),
        ((100.0, 260.0), 247.5, 112.5, 25.0),
        ((200.0, 210.0), 0.0, 360.0, 10.0),
        ((200.0, 210.0), 0.0, 112.5, 0.0),
    ],
)
def test_overlap_round_the_compass(arc, first, last, taken):
    """Arcs count round by way of ahead, and may take both ends of another."""
    assert float(overlap_deg(np.array([arc]), first, last)[0]) == pytest.approx(taken)

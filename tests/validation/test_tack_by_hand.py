"""The tack in one slice against figures worked out by hand: lengths from the deck plan, tangents, triangles.

The plain rig: the slice at 9 m with J 4.5 m and I 15 m, so that the luff is 1.80 m ahead of a section of
210 by 130, cap shrouds 1.1 m out, no belly. The yachts' wires are laid through their pins by hand.
"""

import numpy as np
import pytest
from chain import Oval, Slice, nearest, plate
from closed_rigs import (
    GENOA,
    JIB,
    SANDERLING_JUMPER,
    SANDERLING_STAY,
    TURNSTONE_STAY,
    WHIMBREL,
    at,
    chord_of,
    whimbrel_at,
    whimbrel_chord,
)
from random_rigs import disc
from scipy.optimize import brentq
from slice_of import answer

CHORDS = np.arange(1950.0, 3101.0, 25.0)
MAST = Oval(np.zeros(2), np.array([105.0, 65.0]))
LUFF = np.array([105.0 + 4500 * (1 - 9 / 15), 0.0])
CAPS = (disc(0, 1100, 5), disc(0, -1100, 5))
PLAIN = Slice(LUFF, MAST, CAPS)
BEHIND_JUMPER = Slice(LUFF, MAST, (disc(425, 0, 4), *CAPS))


def box_on(face, wide, proud):
    """A box on the fore face of a section, its foot square across, or with minus on the aft face."""
    return plate(np.array([face + np.sign(face) * proud / 2, 0.0]), (proud, wide))


def off_ellipse(semi, point):
    """How far a point is from an ellipse: the foot of the perpendicular by Lagrange's multiplier."""
    a, b = np.square(semi)
    x, y = np.abs(point)
    t = brentq(lambda t: (semi[0] * x / (a + t)) ** 2 + (semi[1] * y / (b + t)) ** 2 - 1, 0.0, 1e7)
    return np.hypot(x - a * x / (a + t), y - b * y / (b + t))


def beside_shade(luff_x, semi, point):
    """How far a point is inside the line from the luff that touches the section, negative outside."""
    slope = semi[1] / np.sqrt(luff_x**2 - semi[0] ** 2)
    return (slope * (luff_x - point[0]) - abs(point[1])) / np.hypot(1, slope)


def inside_line(start, radius, semi, point):
    """How far a point is inside the line that touches a wire ahead at (start, 0) and the section."""
    # Lines with normal (cos t, sin t): one offset for both.
    t = brentq(
        lambda t: start * np.cos(t) + radius - np.hypot(semi[0] * np.cos(t), semi[1] * np.sin(t)),
        0.1,
        np.pi / 2,
    )
    return start * np.cos(t) + radius - (point[0] * np.cos(t) + point[1] * np.sin(t))


@pytest.mark.parametrize("chord", CHORDS)
def test_a_hailer_ahead_bears_by_its_corner(chord):
    """200 wide and 150 proud: its corner stands 175 off the section."""
    held, _loose = answer(PLAIN, box_on(105, 200, 150), chord)
    assert off_ellipse(MAST.semi, (255, 100)) == pytest.approx(175, abs=1)
    assert held == pytest.approx(-off_ellipse(MAST.semi, (255, 100)), abs=0.5)


@pytest.mark.parametrize("chord", CHORDS)
def test_on_the_aft_face_what_is_no_wider_than_the_mast_is_sheltered(chord):
    """130 wide: the line from the luff that touches the mast passes 4 mm outside its foot."""
    held, loose = answer(PLAIN, box_on(-105, 130, 150), chord)
    assert beside_shade(LUFF[0], MAST.semi, (-105, 65)) == pytest.approx(3.7, abs=0.1)
    expected = max(2010 - chord, beside_shade(LUFF[0], MAST.semi, (-105, 65)))
    assert min(held, loose) == pytest.approx(expected, abs=0.5)


@pytest.mark.parametrize("chord", CHORDS)
def test_on_the_aft_face_a_wider_one_is_sheltered_until_the_leech_comes_past_its_foot(chord):
    """200 wide: the corners of its foot, 2,010 abaft the luff, stand 31 outside the mast's shade."""
    held, loose = answer(PLAIN, box_on(-105, 200, 150), chord)
    beside = beside_shade(LUFF[0], MAST.semi, (-105, 100))
    assert beside == pytest.approx(-31.3, abs=0.1)
    assert min(held, loose) == pytest.approx(max(2010 - chord, beside), abs=0.5)


@pytest.mark.parametrize("chord", CHORDS)
def test_behind_a_jumper_a_cluster_bears_and_a_tube_is_only_whipped(chord):
    """Their axis 130 off the face, the jumper 320 ahead of it: 230 across and 50 across."""
    line = inside_line(425, 4, MAST.semi, (235, 0))
    wire = 4 + 190 * np.sin(np.arcsin(4 / 1480))  # the half-width of the wire's own shade at the axis
    held, loose = answer(BEHIND_JUMPER, disc(235, 0, 115), chord)
    assert held == pytest.approx(line - 115, abs=0.5)
    assert line - 115 == pytest.approx(-83, abs=0.5)
    held, loose = answer(BEHIND_JUMPER, disc(235, 0, 25), chord)
    assert (held, loose) == pytest.approx((line - 25, wire - 25), abs=0.5)
    assert (line - 25, wire - 25) == pytest.approx((7, -20), abs=1)


@pytest.mark.parametrize("chord", CHORDS)
def test_a_shroud_and_the_mast_with_daylight_between_shelter_nothing_together(chord):
    """A box abaft, half-way between mast and cap shroud: the leech enters between them."""
    held, loose = answer(PLAIN, plate(np.array([-30.0, 550.0]), (60, 60)), chord)
    reach = nearest(LUFF, plate(np.array([-30.0, 550.0]), (60, 60)))
    assert (min(held, loose) < 0) == (chord > reach)


@pytest.mark.parametrize("chord", [3910.0, 4500.0, 5200.0, whimbrel_chord(GENOA, 4000)])
def test_the_forward_lowers_shelter_nothing_between_them(chord):
    """A box 120 proud and 114 wide on the fore face at z 4,000: its corner stands 130 off the section.

    Inside the hull of all supports it would be called sheltered by 57 or so.
    """
    rig = whimbrel_at(4000, "forward", "aft", "cap", "intermediate")
    proud = off_ellipse((103, 69.5), (223, 57))
    assert proud == pytest.approx(130, abs=1)
    lower = at(WHIMBREL["forward"], 4000)
    assert lower[0] + 4 > 223 + 50
    held, _loose = answer(rig, box_on(103, 114, 120), chord)
    assert held == pytest.approx(-proud, abs=0.5)


def test_the_genoa_bears_on_the_reflector_and_the_jib_just_does_not_reach_it():
    """The cluster of 230, its axis 130 off the face at z 13,065, is 245 proud; its lower end at 12,970."""
    cluster = disc(103 + 130, 0, 115)
    held, loose = answer(whimbrel_at(13065, "cap-upper"), cluster, whimbrel_chord(GENOA, 13065))
    assert min(held, loose) == pytest.approx(-245, abs=0.5)
    rig, chord = whimbrel_at(12970, "cap-upper"), whimbrel_chord(JIB, 12970)
    assert (chord, rig.luff[0] - 103) == pytest.approx((997, 1242), abs=1)
    assert min(answer(rig, cluster, chord)) == pytest.approx(0, abs=1)


def test_the_camera_looks_out_of_the_masts_shade():
    """From y 20 to 90 abaft the mast at z 11,340: 16 outside, and sheltered once it is inside y 69."""
    rig = whimbrel_at(11340, "cap-upper", "intermediate-upper")
    chord = whimbrel_chord(GENOA, 11340)
    for outer, expected in ((90.0, -16.5), (69.0, 4.5)):
        camera = plate(np.array([-103 - 45, (20 + outer) / 2]), (90, outer - 20))
        assert min(answer(rig, camera, chord)) == pytest.approx(expected, abs=0.5)
        assert beside_shade(rig.luff[0], (103, 69.5), (-103, outer)) == pytest.approx(expected, abs=0.1)


def test_the_flood_under_the_spreader_bears_where_the_leech_has_left_the_shrouds():
    """From y 390 to 490 at z 6,910, 120 long: its outer fore corner stands 424 off the section."""
    rig = whimbrel_at(6910, "cap", "intermediate")
    held, _loose = answer(rig, plate(np.array([0.0, 440.0]), (120, 100)), whimbrel_chord(GENOA, 6910))
    assert off_ellipse((103, 69.5), (60, 490)) == pytest.approx(424, abs=1)
    assert held == pytest.approx(-off_ellipse((103, 69.5), (60, 490)), abs=0.5)


def test_the_tube_on_the_port_side_is_touched_by_the_genoa_and_not_by_the_jib():
    """A tube of 50, 22 off the skin at bearing 250, on 130 by 86: 71 by one, clear by the other."""
    semi = np.array([65.0, 43.0])
    bearing = np.radians(360 - 250)
    skin = np.array([np.cos(bearing), np.sin(bearing)])
    skin /= np.hypot(*(skin / semi))
    out = skin / semi**2 / np.hypot(*(skin / semi**2))
    middle = skin + out * (22 + 25)
    rig = Slice(at(TURNSTONE_STAY, 6295), Oval(np.zeros(2), semi), ())
    genoa, jib = (chord_of(*sail, TURNSTONE_STAY, 6295) for sail in ((3980, 300, 9150), (2950, 550, 8950)))
    outside = 25 - beside_shade(rig.luff[0], semi, middle)
    assert outside == pytest.approx(71, abs=3)
    assert min(answer(rig, disc(*middle, 25), genoa)) == pytest.approx(-outside, abs=0.5)
    beyond = np.hypot(*(rig.luff - middle)) - 25 - jib
    assert beyond > 60
    assert min(answer(rig, disc(*middle, 25), jib)) == pytest.approx(beyond, abs=0.5)


@pytest.mark.parametrize(
    ("radius", "sheltered", "whipped"), [(25, 8, -20), (115, -79, None)], ids=["tube", "cluster"]
)
def test_the_tube_may_stay_behind_the_jumper_and_the_cluster_may_not(radius, sheltered, whipped):
    """Their axis 140 off the face of an ellipse of 238 by 148, z 10,445 and 10,315."""
    z_mm = 10445 if radius == 25 else 10315
    semi = np.array([119.0, 74.0])
    jumper = at(SANDERLING_JUMPER, z_mm)
    rig = Slice(at(SANDERLING_STAY, z_mm), Oval(np.zeros(2), semi), (disc(*jumper, 4),))
    held, loose = answer(rig, disc(119 + 140, 0, radius), chord_of(5240, 950, 14500, SANDERLING_STAY, z_mm))
    assert held == pytest.approx(inside_line(jumper[0], 4, semi, (259, 0)) - radius, abs=0.5)
    # The yacht was closed with a wire of no thickness.
    assert inside_line(jumper[0], 0, semi, (259, 0)) - radius == pytest.approx(sheltered, abs=1.2)
    assert whipped is None or loose == pytest.approx(whipped, abs=1)


@pytest.mark.parametrize(
    ("chord", "gap"),
    [
        ((whimbrel_chord(GENOA, 8210), 4034), (at(WHIMBREL["forestay"], 8210)[0] - 103, 2646)),
        ((whimbrel_chord(JIB, 8210), 2674), (at(WHIMBREL["forestay"], 8210)[0] - 103, 2646)),
        (
            (chord_of(5240, 950, 14500, SANDERLING_STAY, 10730), 1520),
            (at(SANDERLING_STAY, 10730)[0] - 119, 1390),
        ),
    ],
)
def test_chords_and_gaps_are_those_the_yachts_were_closed_with(chord, gap):
    """Lengths of cloth and of open water from the luff to the fore face, to 2 mm."""
    assert chord[0] == pytest.approx(chord[1], abs=2)
    assert gap[0] == pytest.approx(gap[1], abs=2)

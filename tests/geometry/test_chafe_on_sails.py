"""Where sails lie on the rig, laid flat: against points in space, shapely's hull, and sums by hand."""

import numpy as np
import pytest
import shapely
from builders import a_layout, a_main, a_stay
from hypothesis import given, settings
from hypothesis import strategies as st

from mastlayout.geometry.chafe.loft import loft_of_headsail, loft_of_main, polygon
from mastlayout.geometry.chafe.meets import eased, sheeted
from mastlayout.geometry.chafe.patches import Margin, patch
from mastlayout.geometry.scene import build
from mastlayout.geometry.tack.holding import middles
from mastlayout.model.layout import LimitOverride
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

MARGIN = Margin(150.0, 450.0, 150.0)


@pytest.fixture(scope="module")
def whimbrel():
    """The largest rig."""
    return build(open_document(demo_masts() / "whimbrel.toml").layout)


def genoa(scene, *, sagged=False):
    """The full genoa's state, sheeted, and its loft."""
    states = scene.tack.cloths.states
    number = next(
        i
        for i, state in enumerate(states)
        if state.sail.id == "genoa" and not state.reef and not state.hoisting and state.sagged == sagged
    )
    return number, loft_of_headsail(scene.tack.cloths, number)


def test_a_genoa_laid_flat_has_its_own_measures(whimbrel):
    """LP square from the luff to the clew, and the luff: what the sailmaker's tape gave, to 1 mm."""
    _number, loft = genoa(whimbrel)
    assert loft.leech[0, 0] == pytest.approx(6370.0)
    assert loft.luff_mm == pytest.approx(14680.0, abs=1.0)
    assert polygon(loft).area == pytest.approx(6370.0 * 14680.0 / 2, rel=1e-3)


@settings(max_examples=50)
@given(
    z_mm=st.floats(2500.0, 16000.0),
    away=st.floats(100.0, 6000.0),
    swung=st.floats(-1.5, 1.5, allow_nan=False),
)
def test_a_place_laid_flat_is_as_far_along_and_off_the_luff_as_in_space(whimbrel, z_mm, away, swung):
    """A flat sail turns about its luff as a door: along it and off it nothing changes (vectors in space)."""
    number, loft = genoa(whimbrel)
    luffs = whimbrel.tack.cloths.luffs
    upper, lower = luffs.pins[whimbrel.tack.cloths.luff[number]]
    unit = (upper - lower) / np.linalg.norm(upper - lower)

    def on_luff(z):
        return lower + (z - lower[2]) / unit[2] * unit

    place = on_luff(z_mm) + (away - loft.begins_mm) * np.array([-np.cos(swung), np.sin(swung), 0.0])
    from_tack = place - on_luff(loft.tack_mm)
    up = float(from_tack @ unit)
    out = float(np.linalg.norm(from_tack - up * unit))
    (laid,) = loft.lay(np.array([z_mm]), np.array([away]), np.array([swung]))
    assert laid == pytest.approx((out, up), abs=0.01)


def test_a_genoa_sheeted_in_lies_on_the_hull_round_her_shrouds(whimbrel):
    """At every half metre: what shapely's hull of luff, wires within reach and leech has for corners."""
    number, loft = genoa(whimbrel)
    tack, cloths = whimbrel.tack, whimbrel.tack.cloths
    found = list(sheeted(tack, loft, number, 10.0, port=True))
    assert {one.what for one in found} >= {"cap-p", "spreader-upper-p", "spreader-lower-p"}
    asked = 0
    for z_mm in np.arange(3000.0, 14000.0, 500.0):
        z = np.array([z_mm])
        luff = cloths.luffs.point(cloths.luff[[number]], z)[0]
        chord = float(cloths.chord(np.array([number]), z)[0])
        corners = {}
        for name, middle in middles(tack.rig, z).items():
            x, y = middle[0]
            swung = np.arctan2(y, luff[0] - x)
            if (
                y > 30
                and np.hypot(luff[0] - x, y) <= float(cloths.chord(np.array([number]), z, swung)[0]) + 10
            ):
                corners[name] = (x, y)
        hull = shapely.MultiPoint([luff, luff - (chord, 0.0), *corners.values()]).convex_hull
        on_hull = {n for n, place in corners.items() if hull.exterior.distance(shapely.Point(place)) < 1e-6}
        away = {n: np.hypot(luff[0] - x, y) for n, (x, y) in corners.items()}
        swung = {n: np.arctan2(y, luff[0] - x) for n, (x, y) in corners.items()}
        for name in corners:
            place = loft.lay(z, np.array([away[name]]), np.array([swung[name]]))[0]
            met = [one for one in found if one.what == name]
            near = any(np.hypot(*(one.line - place).T).min() < 25.0 for one in met)
            assert near == (name in on_hull), (z_mm, name)
            asked += name in on_hull
    assert asked > 15


def test_a_genoa_lies_on_the_spreaders_tip(whimbrel):
    """The tip of the lower spreader, 1,364 off and 7,049 up, is that far from the luff in space."""
    number, loft = genoa(whimbrel)
    (met,) = [
        one for one in sheeted(whimbrel.tack, loft, number, 10.0, port=True) if one.what == "spreader-lower-p"
    ]
    tip = whimbrel.spreaders["spreader-lower-p"].tip
    z = np.array([float(tip[2])])
    luff = whimbrel.tack.cloths.luffs.point(whimbrel.tack.cloths.luff[[number]], z)[0]
    sine = loft.sine
    away = np.hypot(luff[0] - tip[0], tip[1]) - loft.begins_mm
    along = away * sine * (luff[0] - tip[0]) / np.hypot(luff[0] - tip[0], tip[1])
    up = (z[0] - loft.tack_mm) / np.sqrt(1 - sine**2) + along
    assert met.line.mean(axis=0) == pytest.approx((np.sqrt(away**2 - along**2), up), abs=0.5)


def shrouded(**fields):
    """A mast with a shroud 1,000 abaft its axis at the height of the boom and 1,000 off, upright between."""
    stays = tuple(
        a_stay(
            f"cap-{side[0]}",
            name=f"Cap, {side[0].upper()}",
            role="cap",
            side=side,
            wire_mm=10.0,
            upper={"from_masthead_mm": 100.0, "girth": f"100 to {side} of aft"},
            deck={"ahead_mm": -1000.0, "off_mm": 1000.0, "above_mm": 0.0},
        )
        for side in ("port", "starboard")
    )
    taut = LimitOverride(key="slack.shroud", value=0.0, unit="%", why="a straight wire")
    return build(a_layout(sails=(a_main(**fields),), stays=stays, limits=(taut,)))


def met_by_main(scene, belly=0.0):
    """What the full main lies on to port."""
    state = scene.main.states[0]
    loft = loft_of_main(state)
    return loft, list(eased(scene.main, loft, state, belly, port=True))


def test_a_main_eased_lies_on_a_shroud_as_far_from_the_luff_as_that_stands():
    """By hand: the wire is a line from deck to hounds; how far it is from the track at each height."""
    scene = shrouded(boom_limit_deg=80.0)
    loft, (met,) = met_by_main(scene)
    upper, lower = scene.stays["cap-p"].points
    for out, up in met.line[::40]:
        part = (up + loft.tack_mm - lower[2]) / (upper[2] - lower[2])
        x, y = (lower + part * (upper - lower))[:2]
        assert out == pytest.approx(np.hypot(x - scene.main.luff[0], y) - 5.0, abs=4.0)


def test_a_main_that_swings_short_of_the_shroud_meets_it_only_full_of_wind():
    """At the boom the shroud is 47 to 48 degrees off; cloth at 40 reaches it by its belly alone."""
    scene = shrouded(boom_limit_deg=40.0)
    assert met_by_main(scene)[1] == []
    assert {one.what for one in met_by_main(scene, 0.10)[1]} == {"cap-p"}
    assert met_by_main(shrouded(boom_limit_deg=10.0), 0.10)[1] == []


def test_a_reefed_main_is_patched_higher_on_its_cloth():
    """Let down by 2,000, the cloth that lies on one place of the shroud is 2,000 farther up its luff."""
    reefed = shrouded(boom_limit_deg=80.0, reefs=({"name": "first reef", "head_mm": 3500.0},))
    full, reef = reefed.main.states[:2]
    low = [
        min(one.line[:, 1].min() for one in eased(reefed.main, loft_of_main(state), state, 0.0, port=True))
        for state in (full, reef)
    ]
    assert low[1] - low[0] == pytest.approx(2000.0)


def test_a_patch_is_what_lies_on_gear_and_its_margin():
    """One place in the middle of the sail: 150 above, 450 below, 150 beside; at the luff it is cut."""
    _number, loft = genoa(build(open_document(demo_masts() / "whimbrel.toml").layout))
    inside = patch(loft, [np.array([[2000.0, 6000.0]])], MARGIN)
    assert inside.bounds == pytest.approx((1850.0, 5550.0, 2150.0, 6150.0))
    at_luff = patch(loft, [np.array([[50.0, 6000.0]])], MARGIN)
    assert at_luff.bounds == pytest.approx((0.0, 5550.0, 200.0, 6150.0))
    assert patch(loft, [np.array([[9000.0, 6000.0]])], MARGIN) is None


def test_a_strip_covers_all_of_its_line():
    """Every place of a slanting line has its own margin round it (shapely)."""
    _number, loft = genoa(build(open_document(demo_masts() / "whimbrel.toml").layout))
    line = np.linspace((1000.0, 9000.0), (3000.0, 6000.0), 50)
    strip = patch(loft, [line], MARGIN)
    for out, up in line:
        own = shapely.box(out - 147, up - 447, out + 147, up + 147).intersection(polygon(loft))
        assert strip.buffer(1e-6).contains(own)


@pytest.mark.parametrize("yacht", ["whimbrel", "sanderling", "turnstone"])
def test_a_sagged_luff_lies_on_no_less(yacht):
    """Farther aft the leech reaches what it did, and more."""
    scene = build(open_document(demo_masts() / f"{yacht}.toml").layout)
    said = [
        {one.what for one in sheeted(scene.tack, loft, number, 10.0, port=True) if "spreader" in one.what}
        for number, loft in (genoa(scene, sagged=sag) for sag in (False, True))
    ]
    assert said[0] <= said[1]

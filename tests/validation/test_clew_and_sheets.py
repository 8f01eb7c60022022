"""What clews and sheets sweep: feet against triangles drawn by hand, bodies against python-fcl's."""

import fcl
import numpy as np
import pytest
import shapely
from builders import a_mast, a_stay
from test_distances import hull, turn

from mastlayout.geometry.clew.clews import Clews, clear_of, clews_of, foot_mm
from mastlayout.geometry.clew.swept import Swept
from mastlayout.geometry.distance import gap
from mastlayout.geometry.frames import boat_to_mast
from mastlayout.geometry.rig import place_stay
from mastlayout.geometry.skin import skin_of
from mastlayout.geometry.solids import joined, solids_of
from mastlayout.geometry.tack.bend import Bend
from mastlayout.geometry.tack.cloth import State, cloths
from mastlayout.model.kind import Box
from mastlayout.model.rig import DeckEnd
from mastlayout.model.sails import Sail

SAIL = Sail(
    id="jib", name="Jib", role="headsail", stay="forestay", lp_mm=4190, luff_mm=14000, tack_mm=15000,
    clew_mm=13900, head_mm=1500, clew_reach_mm=150,
    sheet_lead=DeckEnd(ahead_mm=-1000, off_mm=1100, above_mm=400),
)  # fmt: skip


def drawn(lp, rise, lean_deg):
    """The foot as a sailmaker draws it: where a level line meets the line LP abaft the luff."""
    lean = np.radians(lean_deg)
    luff, aft = np.array([-np.sin(lean), np.cos(lean)]), np.array([-np.cos(lean), -np.sin(lean)])
    leech = shapely.LineString([lp * aft - 40000 * luff, lp * aft + 40000 * luff])
    level = shapely.LineString([(-50000, rise), (50000, rise)])
    clew = leech.intersection(level)
    return shapely.Point(0, 0).distance(clew)


@pytest.mark.parametrize(
    ("lp", "rise", "lean"), [(6370, 680, 16.4), (4190, 1130, 16.4), (5240, 1200, 16.5), (2900, -50, 8.0)]
)
def test_the_foot_closes_with_lp_and_the_corners(lp, rise, lean):
    """To a hundredth of a millimetre."""
    state = State(SAIL.model_copy(update={"lp_mm": float(lp)}), None, hoisting=False, sagged=True)
    assert foot_mm(state, rise, float(np.cos(np.radians(lean)))) == pytest.approx(
        drawn(lp, rise, lean), abs=0.01
    )


def test_a_level_foot_square_to_an_upright_luff_is_lp():
    """Nothing leans, nothing rises."""
    state = State(SAIL, None, hoisting=False, sagged=True)
    assert foot_mm(state, 0.0, 1.0) == pytest.approx(4190)


def test_where_tack_and_leads_are_by_hand():
    """A raked mast of 17,000 with a bend of 40: the tack on its sagged stay, leads turned by the rake."""
    rake, bend = 2.0, Bend(17000.0, 40.0)
    skin = skin_of(a_mast(rake_deg=rake, prebend_mm=40.0))
    stay = place_stay(skin, a_stay(sag_mm=100.0), {})
    found = clews_of(cloths((SAIL,), {"forestay": stay}, bend, 20.0, 0.02, 300.0), 220.0, 500.0, rake)
    upper, lower = np.array([100 + 30, 0, 16800.0]), boat_to_mast(np.array([4600.0, 0, 0]), rake)
    part = (2000 - lower[2]) / (upper[2] - lower[2])
    bent = [4 * 40 * z / 17000 * (1 - z / 17000) for z in (2000, 16800)]
    x = lower[0] + part * (upper[0] - lower[0]) + part * bent[1] - bent[0] - 4 * 100 * part * (1 - part)
    assert found.tack[0] == pytest.approx([x, 0, 2000], abs=0.01)
    assert (found.low_mm[0], found.high_mm[0]) == (300, 17000 - 13900 + 500)
    assert found.reach_mm[0] - found.foot_mm[0] == pytest.approx(150)
    cos, sin = np.cos(np.radians(rake)), np.sin(np.radians(rake))
    lead = np.array([-1000 * cos + 400 * sin, 1100, 400 * cos + 1000 * sin])
    lead[0] -= 4 * 40 * lead[2] / 17000 * (1 - lead[2] / 17000)
    assert found.leads[0, 0] == pytest.approx(lead, abs=0.01)
    assert found.leads[0, 1] == pytest.approx(lead * [1, -1, 1], abs=0.01)


def of_one(reach, low, high, lead):
    """One clew whose tack is at the origin."""
    state = State(SAIL, None, hoisting=False, sagged=True)
    leads = np.array([[lead, np.array(lead) * [1, -1, 1]]], dtype=float)
    ends = (np.array([float(value)]) for value in (reach, low, high))
    reach_mm, low_mm, high_mm = ends
    return Clews((state,), np.zeros((1, 3)), reach_mm, reach_mm, low_mm, high_mm, leads)


def test_five_hundred_boxes_and_a_clew():
    """Against fcl's ball to 0.01 mm where a box is wholly between the heights; never clear where it meets."""
    dice, boxes, true, between = np.random.default_rng(2), [], [], []
    for _box in range(500):
        size, rotation, place = dice.uniform(20, 300, 3), turn(dice), dice.uniform(-900, 900, 3) * [1, 1, 0.6]
        boxes.append(
            solids_of([Box(shape="box", centre=(0, 0, 0), size=tuple(size))]).moved(
                place[None], rotation.T[None]
            )
        )
        ball = fcl.CollisionObject(fcl.Sphere(600.0), fcl.Transform())
        true.append(fcl.distance(fcl.CollisionObject(fcl.Box(*size), fcl.Transform(rotation, place)), ball))
        half = np.abs(rotation[2] * size / 2).sum()
        between.append((place[2] - half > -400, place[2] + half < 400))
    found = clear_of(of_one(600, -400, 400, (-900, 300, -300)), joined(boxes), 0.0).clew[:, 0]
    true, inside = np.array(true), np.array(between).all(axis=1)
    apart = inside & (true > 0)
    assert 50 < apart.sum() < inside.sum() - 50
    assert found[apart] == pytest.approx(true[apart], abs=0.01)
    assert (found[inside & (true <= 0)] <= 0).all()


def inscribed(reach, low, high, lead):
    """A hull of many points of a ball cut off at two heights, and of a lead: a little within the true one."""
    turns, rows = np.linspace(0, 2 * np.pi, 90, endpoint=False), np.linspace(low, high, 41)
    out = np.sqrt(reach**2 - rows**2)
    ring = np.stack([np.cos(turns), np.sin(turns)], axis=1)
    points = [
        np.column_stack([radius * ring, np.full(len(turns), z)]) for radius, z in zip(out, rows, strict=True)
    ]
    return hull(np.vstack([*points, lead]))


def test_boxes_and_a_sheet():
    """Against fcl's hull of the same: never farther, nearer by no more than its facets cut off."""
    dice, lead = np.random.default_rng(4), np.array([-900.0, 400.0, -350.0])
    body = fcl.CollisionObject(inscribed(500.0, -200.0, 300.0, lead), fcl.Transform())
    boxes, true = [], []
    for _box in range(150):
        size, rotation, place = dice.uniform(20, 150, 3), turn(dice), dice.uniform(-900, 600, 3)
        boxes.append(
            solids_of([Box(shape="box", centre=(0, 0, 0), size=tuple(size))]).moved(
                place[None], rotation.T[None]
            )
        )
        true.append(fcl.distance(fcl.CollisionObject(fcl.Box(*size), fcl.Transform(rotation, place)), body))
    ones, true = joined(boxes), np.array(true)
    many = np.full(len(ones), 500.0)
    swept = Swept(
        np.zeros((len(ones), 3)), many, many * 0 - 200, many * 0 + 300, np.tile(lead, (len(ones), 1))
    )
    found, apart = gap(ones, swept).distance_mm, true > 0
    # Facets of 4 degrees lie within a ball of 500 by 500 (1 - cos 2) = 0.3, seen both ways 0.4.
    assert 40 < apart.sum() < 140
    assert (found[apart] <= true[apart] + 0.01).all()
    assert (found[apart] >= true[apart] - 0.5).all()
    assert (found[~apart] <= 0.01).all()


def test_the_outline_of_a_sheet_is_its_hull():
    """Seen from above: a disc of 500 and a point 1,000 off, whose tangents close at twice 30 degrees."""
    swept = Swept(
        np.zeros((1, 3)), np.array([500.0]), np.array([-10.0]), np.array([10.0]), np.array([[-1000.0, 0, 0]])
    )
    seen = swept.outline(np.array([1.0, 0, 0]), np.array([0, 1.0, 0]))[0, :, :2]
    disc = shapely.Point(0, 0).buffer(500, quad_segs=64)
    whole = shapely.MultiPoint([*disc.exterior.coords, (-1000, 0)]).convex_hull
    assert shapely.Polygon(seen).area == pytest.approx(whole.area, rel=0.01)
    assert whole.buffer(1).contains(shapely.Polygon(seen))


def boxes_at(dice, count):
    """Boxes square to the axes: their solids, middles and half edges."""
    middle, half = (
        dice.uniform((-900, -500, -350), (600, 500, 400), (count, 3)),
        dice.uniform(10, 60, (count, 3)),
    )
    solids = [
        solids_of([Box(shape="box", centre=tuple(map(float, m)), size=tuple(map(float, 2 * h)))])
        for m, h in zip(middle, half, strict=True)
    ]
    return joined(solids), middle, half


def test_whatever_a_flying_clew_and_its_sheets_touch_is_found():
    """20,000 clews flung about, ropes straight and whipped aside: never clear where one meets."""
    dice = np.random.default_rng(6)
    reach, low, high, lead, slap = 500.0, -200.0, 250.0, np.array([-800.0, 350.0, -220.0]), 60.0
    solids, middle, half = boxes_at(dice, 80)
    clear = clear_of(of_one(reach, low, high, lead), solids, slap)
    clew = dice.uniform((-reach, -reach, low), (reach, reach, high), (40_000, 3))
    clew = clew[np.linalg.norm(clew, axis=1) <= reach][:20_000]
    met = 0
    for sheet, side in enumerate((1, -1)):
        at = clew + dice.uniform(0, 1, (len(clew), 1)) * (lead * [1, side, 1] - clew)
        aside = dice.normal(size=at.shape)
        aside *= slap * dice.uniform(0, 1, (len(at), 1)) / np.linalg.norm(aside, axis=1, keepdims=True)
        for points, found in (
            (clew, clear.clew),
            (at, clear.taut[:, :, sheet]),
            (at + aside, clear.slack[:, :, sheet]),
        ):
            level = points[(points[:, 2] >= low) & (points[:, 2] <= high)]
            touched = (np.abs(level[None] - middle[:, None]) <= half[:, None]).all(axis=2).any(axis=1)
            met += touched.sum()
            # What the clew itself meets is not asked of its sheets again.
            assert (np.minimum(found[:, 0], clear.clew[:, 0])[touched] <= 0).all()
            assert not touched.all()
    assert met > 100


def test_a_mirrored_rig_gives_mirrored_answers():
    """Port for starboard, to a hundredth."""
    dice = np.random.default_rng(12)
    clews = of_one(500, -200, 250, (-800, 350, -220))
    solids, middle, half = boxes_at(dice, 60)
    mirrored = joined([
        solids_of([Box(shape="box", centre=tuple(map(float, m * [1, -1, 1])), size=tuple(map(float, 2 * h)))])
        for m, h in zip(middle, half, strict=True)
    ])  # fmt: skip
    one, other = clear_of(clews, solids, 60.0), clear_of(clews, mirrored, 60.0)
    assert one.clew == pytest.approx(other.clew, abs=0.01)
    apart = (one.taut > 0) & np.isfinite(one.taut)
    assert apart.any()
    assert one.taut[apart] == pytest.approx(other.taut[:, :, ::-1][apart], abs=0.02)


def test_a_longer_foot_is_never_clearer():
    """Nor is a higher clew."""
    solids, _middle, _half = boxes_at(np.random.default_rng(13), 80)
    lead = (-800, 350, -220)
    short = clear_of(of_one(450, -200, 200, lead), solids, 60.0)
    for longer in (of_one(520, -200, 200, lead), of_one(450, -200, 260, lead)):
        found = clear_of(longer, solids, 60.0)
        assert (found.clew <= short.clew + 0.01).all()
        slack, before = (np.minimum(one.slack.min(axis=2), one.clew) for one in (found, short))
        assert (slack[before <= 0] <= 0).all()

"""The scene: what stays the same object, what moves with what, what has no place."""

import numpy as np
import pytest
from builders import a_fitting, a_kind, a_layout, a_mast, a_spreader, a_stay

from mastlayout.errors import NotKnownError
from mastlayout.geometry.scene import build, masthead_first
from mastlayout.geometry.skin import skin_of
from mastlayout.geometry.wall import thickness_mm
from mastlayout.model.edits import change
from mastlayout.model.mast import FreeOutline, Stretch, Wall

HOST = a_kind("host", mounts=[{"name": "top", "at": (0, 40, 60), "facing": "up"}])


def guests():
    """A fitting on a mount of another, one on a spreader's underside, one on a stay."""
    free = {"from_masthead_mm": None, "girth": None, "in_hand": None}
    return a_layout(
        kinds=(a_kind(), HOST),
        spreaders=(a_spreader(),),
        stays=(a_stay(),),
        fittings=(
            a_fitting("host-1", kind="host"),
            a_fitting("top-1", on="host-1", mount="top", **free),
            a_fitting("under-1", on="spreader-p", along_mm=400.0, round_deg=180.0, **free),
            a_fitting("wire-1", on="forestay", along_mm=1000.0, **free),
        ),
    )


def test_moving_one_keeps_every_other_part():
    """Found by identity: nothing is worked out twice."""
    layout = a_layout(fittings=(a_fitting(), a_fitting("box-2", from_masthead_mm=4000.0)), stays=(a_stay(),))
    before = build(layout)
    after = build(change(layout, "box-1", from_masthead_mm=8100.0), before)
    assert after.placed["box-2"] is before.placed["box-2"]
    assert after.placed["box-1"] is not before.placed["box-1"]
    assert after.skin is before.skin
    assert after.wires is before.wires


def test_guests_move_with_their_host():
    """Ten down is ten down."""
    layout = guests()
    before = build(layout)
    after = build(change(layout, "host-1", from_masthead_mm=8010.0), before)
    moved = after.placed["top-1"].seats.origin - before.placed["top-1"].seats.origin
    assert moved[0] == pytest.approx((0, 0, -10))
    assert after.placed["under-1"] is before.placed["under-1"]


def test_a_mount_facing_up_turns_its_guest():
    """Out is up, along is forward, across is to starboard, for a host ahead."""
    across, along, out = build(guests()).placed["top-1"].seats.axes[0]
    assert out == pytest.approx((0, 0, 1), abs=1e-6)
    assert along == pytest.approx((1, 0, 0), abs=1e-6)
    assert across == pytest.approx((0, -1, 0), abs=1e-6)


def test_below_a_spreader_faces_down():
    """Half the thickness below the axis, 400 out from the skin."""
    placed = build(guests()).placed["under-1"]
    part = 0.4
    thick = 30.0 + part * (25.0 - 30.0)
    assert placed.seats.origin[0] == pytest.approx((0, 65 + 400, 8000 - thick / 2), abs=0.01)
    assert placed.seats.axes[0, 2] == pytest.approx((0, 0, -1), abs=1e-6)


def test_a_stay_nobody_taped_leaves_its_guest_without_a_place():
    """What is missing is named, and the others are there."""
    layout = guests()
    scene = build(change(layout, "forestay", deck=None))
    assert "wire-1" not in scene.placed
    assert [m.key for m in scene.unplaced["wire-1"]] == ["stay.deck"]
    assert "under-1" in scene.placed


def test_masthead_comes_first():
    """The order of every list."""
    names = [placed.id for placed in masthead_first(build(guests()))]
    assert names.index("top-1") < names.index("host-1")


def test_the_wall_is_known_where_a_reading_speaks():
    """Within 500, not across a sleeve, the least of what speaks."""
    mast = a_mast(
        walls=[
            Wall(from_masthead_mm=1000.0, thickness_mm=4.0),
            Wall(from_masthead_mm=1400.0, thickness_mm=3.8),
        ],
        stretches=[Stretch(kind="sleeve", from_masthead_mm=1500.0, to_mm=2000.0)],
    )
    assert thickness_mm(mast, 1200.0) == 3.8
    assert thickness_mm(mast, 600.0) == 4.0
    assert thickness_mm(mast, 499.0) is None
    assert thickness_mm(mast, 1600.0) is None
    assert thickness_mm(mast, 2100.0) is None


def traced(dent=0.0, shift=0.0):
    """A tube of 100 traced in 72 points, dented ahead, its starboard quarters bulging."""
    angle = np.radians(np.arange(0, 360, 5))
    radius = 50 - dent * np.exp(-(((np.degrees(angle) + 180) % 360 - 180) ** 2) / 200)
    y = radius * np.sin(angle)
    points = np.stack([radius * np.cos(angle), np.where(y < 0, y - shift * np.abs(np.sin(2 * angle)), y)], -1)
    return FreeOutline(shape="points", points=[(float(x), float(y)) for x, y in points])


def test_the_tape_bridges_a_hollow():
    """A dent of 5 ahead is bridged: the girth there is no place on the metal."""
    skin = skin_of(a_mast(section=traced(dent=5.0)))
    half = skin.full.half_girth_mm
    assert skin.over_hollow(np.array([half, half / 2])).tolist() == [True, False]
    assert not len(skin_of(a_mast(section=traced())).hollow)


def test_a_lopsided_outline_is_refused():
    """Half a millimetre is allowed, two are not."""
    skin_of(a_mast(section=traced(shift=0.2)))
    with pytest.raises(NotKnownError, match="not symmetric"):
        skin_of(a_mast(section=traced(shift=4.0)))


@pytest.mark.parametrize("moved", ["host-1", "top-1", "under-1", "wire-1"])
def test_the_crowd_of_fittings_is_the_same_moved_or_made_anew(moved):
    """Whatever moves, alone or with its guests, the crowd holds every solid where a new scene has it."""
    layout = guests()
    field = {"host-1": "from_masthead_mm", "under-1": "along_mm", "wire-1": "along_mm"}.get(moved)
    after = change(layout, moved, **({field: 700.0} if field else {"turn_deg": 90.0}))
    step, anew = build(after, build(layout)).gear, build(after).gear
    assert step.ids == anew.ids
    for one, other in (
        (step.owner, anew.owner),
        (step.thick_mm, anew.thick_mm),
        (step.solids.ends, anew.solids.ends),
        (step.solids.axis, anew.solids.axis),
        (step.solids.spans, anew.solids.spans),
    ):
        assert np.array_equal(one, other)

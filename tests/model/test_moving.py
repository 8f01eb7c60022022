"""Moving, turning, mirroring and copying one thing of a layout."""

import pytest
from builders import a_fitting, a_kind, a_layout, a_spreader, a_stay

from mastlayout.errors import EditError
from mastlayout.model.around import AHEAD, Around
from mastlayout.model.copying import copied
from mastlayout.model.edits import change, item_of
from mastlayout.model.fitting import AsBuilt, OldHole
from mastlayout.model.mirror import mirrored, other_side
from mastlayout.model.moving import at_girth, end_at_height, turned
from mastlayout.model.pairs import other_side_name

FOUND = {"from_masthead_mm": 8010.0, "girth": "10 to port of ahead", "by": "Jo", "day": "2026-11-20"}
SWEPT = {"sweep_deg": 10.0}


def a_rig(**fitting):
    """A mast with a pair of spreaders, their shrouds, a forestay, an old hole, and one fitting."""
    spreaders = (
        a_spreader(name="Spreader, P", **SWEPT),
        a_spreader("spreader-s", name="Spreader, S", side="starboard", **SWEPT),
    )
    pin = {"from_masthead_mm": 300.0, "girth": "bearing 270"}
    deck = {"ahead_mm": -100.0, "off_mm": 900.0, "above_mm": 0.0}
    caps = tuple(
        a_stay(f"cap-{side[0]}", name=f"Cap shroud, {side[0].upper()}", role="cap", side=side, deck=deck,
               upper=pin | {"girth": f"bearing {bearing}"}, via=(f"spreader-{side[0]}",))
        for side, bearing in (("port", 270), ("starboard", 90))
    )  # fmt: skip
    hole = OldHole(id="hole-1", name="Old hole, port", from_masthead_mm=4000.0, girth="30 to port of aft")
    return a_layout(
        fittings=(a_fitting(**fitting),), spreaders=spreaders, stays=(*caps, a_stay()), holes=(hole,)
    )


def the(layout, name):
    """The item of an id."""
    return item_of(layout, name)[1]


@pytest.mark.parametrize(
    ("name", "other"),
    [
        ("Winch, S", "Winch, P"),
        ("Winch P", "Winch S"),
        ("Lower, P, aft", "Lower, S, aft"),
        ("Port winch", "Starboard winch"),
        ("Block to starboard", "Block to port"),
        ("LIGHT STARBOARD", "LIGHT PORT"),
        ("Hailer", "Hailer"),
        ("Portable S-hook", "Portable S-hook"),
        ("Plate p", "Plate p"),
    ],
)
def test_a_name_changes_its_side_and_nothing_else(name, other):
    """P and S, port and starboard; twice is the same."""
    assert other_side_name(name) == other
    assert other_side_name(other) == name


@pytest.mark.parametrize(
    ("place", "across"),
    [
        ("ahead", "ahead"),
        ("44 to port of ahead", "44 to starboard of ahead"),
        ("30 to starboard of aft", "30 to port of aft"),
        ("bearing 285", "bearing 75"),
        ("bearing 0", "bearing 0"),
    ],
)
def test_a_place_across_the_centreline(place, across):
    """As a person names it."""
    around = a_fitting(girth=place).girth
    assert str(other_side(around)) == across
    assert other_side(other_side(around)) == around


@pytest.mark.parametrize(
    ("name", "fitting"),
    [
        ("box-1", {"girth": "44 to port of ahead", "turn_deg": 30.0, "name": "Hailer, P"}),
        ("box-1", {"on": "spreader-p", "from_masthead_mm": None, "girth": None, "along_mm": 300.0,
                   "round_deg": 180.0}),
        ("box-1", {"on": "cap-s", "from_masthead_mm": None, "girth": None, "along_mm": 300.0,
                   "round_deg": 40.0}),
        ("hole-1", {}),
        ("spreader-p", {}),
        ("cap-s", {}),
    ],
)  # fmt: skip
def test_mirrored_twice_is_the_same_place(name, fitting):
    """And once is another."""
    layout = a_rig(**fitting)
    once = mirrored(layout, name)
    assert once != layout
    assert mirrored(once, name) == layout


def test_each_thing_is_mirrored_as_a_rigger_would():
    """Girth and turn change sign; on a spreader ahead stays ahead; on a stay the bearing is mirrored."""
    box = the(mirrored(a_rig(girth="44 to port of ahead", turn_deg=30.0), "box-1"), "box-1")
    assert (str(box.girth), box.turn_deg) == ("44 to starboard of ahead", -30.0)
    away = {"from_masthead_mm": None, "girth": None, "along_mm": 300.0, "round_deg": 90.0}
    box = the(mirrored(a_rig(on="spreader-p", **away), "box-1"), "box-1")
    assert (box.on, box.along_mm, box.round_deg) == ("spreader-s", 300.0, 90.0)
    box = the(mirrored(a_rig(on="cap-p", **away), "box-1"), "box-1")
    assert (box.on, box.round_deg) == ("cap-s", -90.0)
    cap = the(mirrored(a_rig(), "cap-p"), "cap-p")
    assert (cap.side, str(cap.upper.girth), cap.via) == ("starboard", "bearing 90", ("spreader-s",))


@pytest.mark.parametrize(
    ("name", "fitting", "why"),
    [
        ("forestay", {}, "on the centreline"),
        ("box-1", {"as_built": AsBuilt(**FOUND)}, "is fitted: Jo found it here on 2026-11-20"),
    ],
)
def test_what_cannot_be_mirrored_says_why(name, fitting, why):
    """And stays."""
    with pytest.raises(EditError, match=why):
        mirrored(a_rig(**fitting), name)


def test_a_spreader_without_its_like_has_nowhere_to_send_a_fitting():
    """The mate is named."""
    away = {"from_masthead_mm": None, "girth": None, "along_mm": 300.0}
    layout = a_layout(
        spreaders=(a_spreader(name="Spreader, P"),), fittings=(a_fitting(on="spreader-p", **away),)
    )
    with pytest.raises(EditError, match="no “Spreader, S”"):
        mirrored(layout, "box-1")


def test_a_copy_is_another_part():
    """New id and tag, its own foot to confirm; nothing found or done; 80 below: a foot of 60 and 20 clear."""
    layout = a_rig(tag=4, name="Exit, S", done=("h1 marked",), mass_kg=2.0)
    after, name = copied(layout, "box-1")
    copy = the(after, name)
    assert (name, copy.tag, copy.name) == ("box-2", 5, "Exit, S")
    assert (copy.from_masthead_mm, copy.girth) == (8080.0, AHEAD)
    assert (copy.in_hand, copy.mass_kg, copy.as_built, copy.done, copy.new) == (None, None, None, (), True)
    assert the(after, "box-1") is the(layout, "box-1")


def test_a_copy_of_what_is_fitted_stands_beside_where_it_was_found():
    """Not beside where it was planned."""
    after, name = copied(a_rig(as_built=AsBuilt(**FOUND)), "box-1")
    assert the(after, name).from_masthead_mm == 8090.0
    assert str(the(after, name).girth) == "10 to port of ahead"


def test_a_copy_at_the_heel_goes_above():
    """There is no mast below."""
    after, name = copied(a_rig(from_masthead_mm=16990.0), "box-1")
    assert the(after, name).from_masthead_mm == 16910.0


@pytest.mark.parametrize("name", ["hole-1", "spreader-p", "cap-p"])
def test_holes_and_rig_parts_are_copied_too(name):
    """80 lower."""
    layout = a_rig()
    after, copy = copied(layout, name)
    at = [getattr(the(after, n), "upper", the(after, n)).from_masthead_mm for n in (name, copy)]
    assert at[1] - at[0] == 80.0
    assert copy != name


def test_what_stands_on_a_mount_is_not_copied():
    """Its host is named."""
    kind = a_kind(mounts=[{"name": "top", "at": (0, 0, 120), "facing": "up"}])
    guest = a_fitting("box-2", on="box-1", mount="top", from_masthead_mm=None, girth=None)
    layout = a_layout(kinds=(kind,), fittings=(a_fitting(name="Plate"), guest))
    with pytest.raises(EditError, match="copy Plate instead"):
        copied(layout, "box-2")
    with pytest.raises(EditError, match="stands on Plate: mirror that"):
        mirrored(layout, "box-2")


def test_turns_add_up_to_half_a_turn_either_way():
    """Four quarter turns are none."""
    layout = a_rig()
    turns = []
    for _quarter in range(4):
        layout = turned(layout, "box-1", 90.0)
        turns.append(the(layout, "box-1").turn_deg)
    assert turns == [90.0, 180.0, -90.0, 0.0]
    assert layout == a_rig()


def test_only_a_fitting_is_turned_and_not_once_it_is_fitted():
    """Both say so."""
    with pytest.raises(EditError, match="no fitting"):
        turned(a_rig(), "forestay", 90.0)
    with pytest.raises(EditError, match="is fitted"):
        turned(a_rig(as_built=AsBuilt(**FOUND)), "box-1", 90.0)


def test_places_round_the_mast():
    """A fitting, a hole, a stay's upper end; a spreader has none."""
    to = Around(origin="aft", offset=33.333)
    assert str(the(at_girth(a_rig(), "box-1", to), "box-1").girth) == "33.33 to starboard of aft"
    assert str(the(at_girth(a_rig(), "hole-1", to), "hole-1").girth) == "33.33 to starboard of aft"
    assert str(the(at_girth(a_rig(), "cap-p", to), "cap-p").upper.girth) == "33.33 to starboard of aft"
    with pytest.raises(EditError, match="type its sweep"):
        at_girth(a_rig(), "spreader-p", to)
    with pytest.raises(EditError, match="is fitted"):
        at_girth(a_rig(as_built=AsBuilt(**FOUND)), "box-1", to)


def test_the_lower_end_of_a_diamond_moves_alone():
    """One on deck has none to move."""
    ends = {"upper": {"from_masthead_mm": 2000.0, "girth": "bearing 270"}, "deck": None,
            "lower": {"from_masthead_mm": 9000.0, "girth": "bearing 270"}}  # fmt: skip
    layout = a_layout(stays=(a_stay("diamond", role="diamond", side="port", **ends), a_stay()))
    moved = the(end_at_height(layout, "diamond", 9100.0, "lower"), "diamond")
    assert (moved.upper.from_masthead_mm, moved.lower.from_masthead_mm) == (2000.0, 9100.0)
    with pytest.raises(EditError, match="on deck"):
        end_at_height(layout, "forestay", 9100.0, "lower")
    assert change(layout, "diamond", name="diamond") is layout

"""Adding to the rig: only what must be known is in the layout, in the file nothing else."""

import pytest
from builders import a_fitting, a_kind, a_layout, a_spreader, a_stay

from mastlayout.errors import EditError
from mastlayout.geometry.scene import build
from mastlayout.model import adding
from mastlayout.model.around import AFT, AHEAD, Around
from mastlayout.model.edits import BOAT, change, item_of, looked, remove
from mastlayout.model.fitting import MAST, Cable
from mastlayout.model.hosting import Place, hung, offers, placed_new, suits, taken
from mastlayout.model.layout import Layout
from mastlayout.model.mast import Conduit
from mastlayout.storage.saving import plain

UP = {"name": "top", "at": (0, 25, 130), "facing": "up"}


def with_bracket():
    """A bracket that offers one mount, nothing on it."""
    kinds = (a_kind(mounts=[UP]), a_kind("whip", sits_on=("mount up",)))
    return a_layout(kinds=kinds, fittings=(a_fitting(tag=3),), spreaders=(a_spreader(),), stays=(a_stay(),))


def said(layout, name):
    """The keys a file would hold of an item."""
    return set(plain(item_of(layout, name)[1]))


@pytest.mark.parametrize(
    ("add", "part", "keys"),
    [
        (lambda b: adding.add_spreaders(b, 9000.0), "spreaders", {"side", "from_masthead"}),
        (lambda b: adding.add_strut(b, 9000.0), "spreaders", {"side", "from_masthead", "role"}),
        (lambda b: adding.add_stays(b, "forestay", 200.0, AHEAD), "stays", {"role", "upper"}),
        (lambda b: adding.add_sail(b, "headsail"), "sails", {"role"}),
        (lambda b: adding.add_halyard(b, "Main halyard", 10.0), "halyards", {"rope"}),
        (adding.add_cable, "cables", set()),
        (adding.add_conduit, "conduits", {"runs"}),
        (lambda b: adding.add_old_hole(b, 8000.0, AFT, None), "holes", {"from_masthead", "girth"}),
        (lambda b: adding.add_pole(b, 4500.0, 12000.0, 15000.0), "poles", {"length", "ring_from", "ring_to"}),
    ],
)
def test_what_is_added_holds_only_what_must_be_known(add, part, keys):
    """Beside its id and name; and it has a scene."""
    layout, name = add(a_layout())
    assert item_of(layout, name)[0] == part
    assert said(layout, name) == {"id", "name"} | keys
    build(layout)


def test_spreaders_come_in_pairs_with_their_side_in_the_name():
    """A second pair gets a number of its own."""
    layout, _first = adding.add_spreaders(a_layout(), 9000.0)
    layout, first = adding.add_spreaders(layout, 5000.0)
    assert [(bar.name, bar.side) for bar in layout.spreaders] == [
        ("Spreader, P", "port"), ("Spreader, S", "starboard"),
        ("Spreader 2, P", "port"), ("Spreader 2, S", "starboard"),
    ]  # fmt: skip
    assert first == layout.spreaders[2].id


def test_shrouds_are_each_others_mirror():
    """Bearing 80 to starboard is 280 to port; a girth changes its side."""
    pair = adding.add_stays(a_layout(), "cap", 200.0, Around(origin="bearing", offset=80.0))[0].stays
    assert [(stay.side, stay.upper.girth.offset) for stay in pair] == [("port", 280.0), ("starboard", 80.0)]
    assert adding.mirrored(Around(origin="aft", offset=40.0)).offset == -40.0
    assert adding.mirrored(AHEAD) is AHEAD


def test_a_diamond_asks_for_its_lower_pin_and_a_shroud_for_its_deck():
    """Nobody is sent on deck for what ends on the mast."""
    layout, diamond = adding.add_stays(a_layout(), "diamond", 4000.0, AHEAD)
    layout, shroud = adding.add_stays(layout, "cap", 200.0, AHEAD)
    stays = build(layout).stays
    assert [one.key for one in stays[diamond].unknown] == ["stay.lower"]
    assert [one.key for one in stays[shroud].unknown] == ["stay.deck"]


def test_a_conduit_nobody_has_found_may_be_anywhere():
    """Over the whole mast, without a bearing: no hole is clear of it."""
    layout, name = adding.add_conduit(a_layout())
    (pipe,) = (one for one in build(layout).conduits if one.id == name)
    assert (pipe.z_low_mm, pipe.z_high_mm, pipe.unknown.key) == (0.0, 17000.0, "conduit.place")


def test_readings_of_the_wall_and_stretches_join_the_masts_own():
    """The mast is taken in hand; nothing else of it changes."""
    layout, name = adding.add_wall(a_layout(), 8010.0, 3.4)
    assert name == MAST
    assert layout.mast.walls[-1].thickness_mm == 3.4
    layout, name = adding.add_stretch(layout, "sleeve", 8000.0, 8400.0)
    assert [(one.kind, one.to_mm) for one in layout.mast.stretches] == [("sleeve", 8400.0)]
    with pytest.raises(EditError, match="above from_masthead"):
        adding.add_stretch(layout, "weld", 8000.0, 7000.0)


def test_mast_yacht_and_conduits_change_as_any_other_thing():
    """By their names; a conduit's id is retired with it."""
    layout, pipe = adding.add_conduit(a_layout())
    layout = change(change(layout, MAST, rake_deg=1.5), BOAT, deck_above_heel_mm=1900.0)
    layout = change(layout, pipe, bore_mm=25.0)
    assert (layout.mast.rake_deg, layout.boat.deck_above_heel_mm) == (1.5, 1900.0)
    assert layout.mast.conduits[0].bore_mm == 25.0
    gone = remove(layout, pipe)
    assert (gone.mast.conduits, gone.retired) == ((), (pipe,))
    with pytest.raises(EditError, match="stay"):
        remove(layout, MAST)


def test_what_another_needs_stays_and_the_sentence_names_it():
    """A conduit with its cable in it, a spreader with its shroud, a bracket with its whip."""
    layout, pipe = adding.add_conduit(a_layout(spreaders=(a_spreader(),)))
    layout = layout.but(cables=(Cable(id="coax", name="Coax", conduit=pipe),))
    layout = layout.but(stays=(a_stay(role="cap", side="port", via=("spreader-p",)),))
    for name, other in ((pipe, "Coax"), ("spreader-p", "forestay")):
        with pytest.raises(EditError, match=f"“{other}” needs it"):
            remove(layout, name)


@pytest.mark.parametrize("part", ["stays", "spreaders", "halyards", "holes", "conduits", "stretches"])
def test_looking_and_finding_nothing_is_not_the_same_as_never_looking(part):
    """Both can be said, and back; a list that holds something is left alone."""
    bare = Layout.model_validate({"format": 1, "boat": {"name": "Bare"}, "mast": a_layout().mast})
    never = looked(bare, part, found_none=False)
    none = looked(never, part, found_none=True)
    holder = none.mast if part in ("conduits", "stretches") else none
    assert (part in plain(holder), plain(holder)[part]) == (True, [])
    again = looked(none, part, found_none=False)
    assert part not in plain(again.mast if part in ("conduits", "stretches") else again)


def test_a_list_that_holds_something_cannot_be_said_to_be_empty():
    """The stay is there."""
    layout = a_layout(stays=(a_stay(),))
    assert looked(layout, "stays", found_none=True) is layout
    assert looked(layout, "stays", found_none=False) is layout


# -- hosts


def test_every_host_is_offered_and_a_kind_says_which_it_suits():
    """Mast, spreader, stay and the bracket's mount; a whip wants the mount."""
    layout = with_bracket()
    whip = layout.kinds[1]
    assert [(offer.on, offer.seat) for offer in offers(layout)] == [
        (MAST, "mast"), ("spreader-p", "spreader"), ("forestay", "stay"), ("box-1", "mount up"),
    ]  # fmt: skip
    assert [offer.on for offer in offers(layout) if suits(whip, offer)] == ["box-1"]
    assert all(suits(layout.kinds[0], offer) for offer in offers(layout))


@pytest.mark.parametrize(
    "place",
    [
        Place(from_masthead_mm=7000.0, girth=AFT),
        Place(from_masthead_mm=0.0, girth=AHEAD),
        Place(on="spreader-p", along_mm=500.0, round_deg=180.0),
        Place(on="forestay", along_mm=3000.0),
        Place(on="box-1", mount="top"),
    ],
)
def test_a_new_fitting_goes_on_any_host_with_its_own_coordinates(place):
    """It is new, has the next tag, and stands in space."""
    layout, name = placed_new(with_bracket(), with_bracket().kinds[1], place)
    fitting = layout.fittings[-1]
    assert (fitting.id, fitting.tag, fitting.new, fitting.on) == (name, 4, True, place.on)
    assert name in build(layout).placed


def test_a_fitting_is_hung_on_another_host_and_back():
    """Its coordinates are those of the new host only; a mount is taken then."""
    layout, name = placed_new(with_bracket(), with_bracket().kinds[1], Place(on="box-1", mount="top"))
    mount = offers(layout)[3]
    assert taken(layout, mount)
    moved = hung(layout, name, Place(from_masthead_mm=100.0, girth=AHEAD))
    fitting = moved.fittings[-1]
    assert (fitting.on, fitting.mount, fitting.from_masthead_mm) == (MAST, None, 100.0)
    assert not taken(moved, mount)
    assert hung(moved, name, Place(on="box-1", mount="top")) == layout


def test_a_fitting_on_itself_or_too_deep_gets_the_models_sentence():
    """And the layout stays."""
    layout = with_bracket()
    place = Place(on="box-1", mount="top")
    with pytest.raises(EditError, match="cannot stand on itself"):
        hung(layout, "box-1", place)
    for n in range(1, 3):
        layout, _name = placed_new(layout, layout.kinds[0], Place(on=f"box-{n}", mount="top"))
    with pytest.raises(EditError, match="at most 3"):
        placed_new(layout, layout.kinds[0], Place(on="box-3", mount="top"))


def test_conduits_of_a_mast_nobody_looked_into_begin_with_the_first():
    """Not known becomes a list of one."""
    bare = a_layout(mast=a_layout().mast.but(conduits=None))
    layout, name = adding.add_conduit(bare)
    assert [type(pipe) for pipe in layout.mast.conduits] == [Conduit]
    assert layout.mast.conduits[0].id == name

"""The crosscheck: what only shows between items is told once, with its path and what is allowed."""

import math

import pytest
from builders import a_fitting, a_kind, a_layout, a_mast, a_spreader, a_stay

from mastlayout.model.crosscheck import Parts, crosscheck
from mastlayout.model.fitting import AsBuilt, Cable, OldHole
from mastlayout.model.layout import LimitOverride
from mastlayout.model.mast import Conduit, FreeOutline, Run, Slot, Stretch, Taper, Track, Wall
from mastlayout.model.outlines import outline_mistakes
from mastlayout.model.sails import Halyard, LinePoint, Pole, Sail


def told(layout, **how):
    """Return the sentence of each mistake by its path."""
    return dict(crosscheck(layout, **how))


def test_a_layout_that_hangs_together_has_no_mistake():
    """One mast, one kind, one fitting, a spreader and a stay over it."""
    layout = a_layout(spreaders=(a_spreader(),), stays=(a_stay(via=("spreader-p",)),))
    assert crosscheck(layout) == []


@pytest.mark.parametrize(
    "parts",
    [
        {"fittings": (a_fitting("x"), a_fitting("x"))},
        {
            "fittings": (a_fitting("x"),),
            "holes": (OldHole(id="x", name="X", from_masthead_mm=1, girth="aft"),),
        },
        {"fittings": (a_fitting("x"),), "mast": a_mast(conduits=(Conduit(id="x", name="X", runs=()),))},
    ],
)
def test_an_id_is_given_once_in_the_one_space(parts):
    """Two fittings, a fitting and an old hole, a fitting and a conduit of the mast."""
    ((path, sentence),) = crosscheck(a_layout(**parts))
    assert path[-1] == "id"
    assert "“x” is given already, in fittings" in sentence


def test_a_retired_id_or_tag_is_not_given_again():
    """Both stay on the mast's papers for ever."""
    layout = a_layout(fittings=(a_fitting("x", tag=12),), retired=("x", "tag 12"))
    found = told(layout)
    assert set(found) == {("fittings", 0, "id"), ("fittings", 0, "tag")}
    assert all("retired" in sentence for sentence in found.values())


@pytest.mark.parametrize("name", ["mast", "loose"])
def test_words_with_a_meaning_are_no_ids(name):
    """A fitting called mast could not be told from the mast it stands on."""
    assert ("fittings", 0, "id") in told(a_layout(fittings=(a_fitting(name),)))


def test_a_tag_is_given_once():
    """The second of two equal tags names the first."""
    layout = a_layout(fittings=(a_fitting("a", tag=7), a_fitting("b", tag=7)))
    assert "7 is on “a” already" in told(layout)["fittings", 1, "tag"]


def test_a_kind_is_there_once():
    """Two copies of one kind may differ."""
    assert ("kinds", 1, "id") in told(a_layout(kinds=(a_kind(), a_kind())))


@pytest.mark.parametrize(("names", "hint"), [((), "“box”"), (("boxes",), "“boxes” or “box”")])
def test_an_unknown_kind_is_answered_with_the_nearest(names, hint):
    """The layout's own kinds and those of the catalogue are offered."""
    sentence = told(a_layout(fittings=(a_fitting(kind="boxs"),)), kind_names=names)["fittings", 0, "kind"]
    assert "“boxs” is not a kind" in sentence
    assert f"did you mean {hint}" in sentence or all(word in sentence for word in hint.split(" or "))


def test_what_could_not_be_read_is_missed_by_nobody():
    """A broken host and a broken kind make no mistake of the fitting that names them."""
    layout = a_layout(fittings=(a_fitting(kind="k", on="h", from_masthead_mm=None, girth=None),))
    assert set(told(layout)) == {("fittings", 0, "kind"), ("fittings", 0, "on")}
    assert crosscheck(layout, unread={"k", "h"}) == []


def test_parts_without_a_mast_are_checked_for_the_rest():
    """Heights and conduits wait for the mast; a wrong stay of a sail does not."""
    sail = Sail(id="jib", name="Jib", role="headsail", stay="foresty")
    parts = Parts(
        sails=(sail,),
        stays=(a_stay(),),
        fittings=(a_fitting(from_masthead_mm=99999.0),),
        kinds=(a_kind(),),
        cables=(Cable(id="c", name="C", conduit="a"),),
    )
    ((path, sentence),) = crosscheck(parts)
    assert path == ("sails", 0, "stay")
    assert "did you mean “forestay”" in sentence


REFERENCES = {
    ("stays", 0, "via", 0): {"stays": (a_stay(via=("gone",)),)},
    ("sails", 0, "stay"): {"sails": (Sail(id="s", name="S", role="main", stay="gone"),)},
    ("sails", 0, "halyard"): {"sails": (Sail(id="s", name="S", role="main", halyard="gone"),)},
    ("cables", 0, "fitting"): {"cables": (Cable(id="c", name="C", fitting="gone"),)},
    ("cables", 0, "conduit"): {"cables": (Cable(id="c", name="C", conduit="gone"),)},
    ("cables", 0, "exit"): {"cables": (Cable(id="c", name="C", exit="gone"),)},
    ("halyards", 0, "points", 1, "fitting"): {
        "halyards": (
            Halyard(
                id="h",
                name="H",
                rope_mm=10.0,
                points=(LinePoint(at="sheave"), LinePoint(at="exit", fitting="gone")),
            ),
        )
    },
    ("fittings", 0, "on"): {"fittings": (a_fitting(on="gone"),)},
}


@pytest.mark.parametrize(("path", "parts"), REFERENCES.items(), ids=str)
def test_a_name_that_nothing_answers_to_is_told(path, parts):
    """Each way one item names another."""
    assert "“gone” is not" in told(a_layout(**parts))[path]


def test_a_cable_may_run_loose():
    """Loose is no conduit's id and no mistake."""
    assert crosscheck(a_layout(cables=(Cable(id="c", name="C", conduit="loose"),))) == []


HOSTED = a_kind("plate", mounts=[{"name": "top", "at": (0, 0, 30)}])


def on(host, **fields):
    """A fitting on another host than the mast, with no place of its own but what is given."""
    return a_fitting("guest", on=host, **({"from_masthead_mm": None, "girth": None} | fields))


@pytest.mark.parametrize(
    ("fitting", "keys"),
    [
        (a_fitting(from_masthead_mm=None), {"from_masthead"}),
        (a_fitting(girth=None), {"girth"}),
        (a_fitting(along_mm=3.0), {"along"}),
        (a_fitting(mount="top"), {"mount"}),
        (on("spreader-p"), {"along"}),
        (on("forestay", along_mm=1.0, girth="ahead"), {"girth"}),
        (on("plate-1"), {"mount"}),
        (on("plate-1", mount="top", along_mm=1.0), {"along"}),
    ],
)
def test_each_host_has_its_own_coordinates(fitting, keys):
    """The mast wants height and girth, a spreader or stay along, another fitting a mount."""
    plate = a_fitting("plate-1", kind="plate")
    layout = a_layout(
        kinds=(a_kind(), HOSTED), fittings=(fitting, plate), spreaders=(a_spreader(),), stays=(a_stay(),)
    )
    assert set(told(layout)) == {("fittings", 0, key) for key in keys}


def test_a_mount_must_be_one_that_the_host_offers():
    """What the host's kind offers is in the sentence; a kind without mounts says so."""
    plate = a_fitting("plate-1", kind="plate")
    kinds = (a_kind(), HOSTED)
    wrong = told(a_layout(kinds=kinds, fittings=(on("plate-1", mount="tip"), plate)))
    assert "“top”" in wrong["fittings", 0, "mount"]
    bare = told(a_layout(fittings=(on("box-1", mount="top"), a_fitting())))
    assert "offers no mount" in bare["fittings", 0, "mount"]


def chain(*hosts):
    """Fittings f0, f1, … each on the host given, with a mount where that is a fitting."""
    return tuple(
        a_fitting(f"f{i}", kind="plate")
        if host == "mast"
        else a_fitting(f"f{i}", kind="plate", on=host, from_masthead_mm=None, girth=None, mount="top")
        for i, host in enumerate(hosts)
    )


def test_three_may_stand_on_one_another_and_a_fourth_may_not():
    """f0 is on the mast, f1 on it, f2 on that; f3 is one too many."""
    kinds = (HOSTED,)
    assert crosscheck(a_layout(kinds=kinds, fittings=chain("mast", "f0", "f1"))) == []
    found = told(a_layout(kinds=kinds, fittings=chain("mast", "f0", "f1", "f2")))
    assert set(found) == {("fittings", 3, "on")}
    assert "4 deep" in found["fittings", 3, "on"]


def test_what_stands_on_itself_is_told_and_what_leads_there_is_not():
    """f0 and f1 stand on each other; f2 only stands on f1."""
    found = told(a_layout(kinds=(HOSTED,), fittings=chain("f1", "f0", "f1")))
    assert set(found) == {("fittings", 0, "on"), ("fittings", 1, "on")}
    assert "“f0” on “f1” on “f0”" in found["fittings", 0, "on"]


HEIGHTS = {
    ("fittings", 0, "from_masthead"): {"fittings": (a_fitting(from_masthead_mm=17350.0),)},
    ("fittings", 0, "as_built", "from_masthead"): {
        "fittings": (a_fitting(as_built=AsBuilt(from_masthead_mm=17350.0, by="A", day="2026-01-01")),)
    },
    ("holes", 0, "from_masthead"): {
        "holes": (OldHole(id="o", name="O", from_masthead_mm=17350, girth="aft"),)
    },
    ("cables", 0, "exit_from_masthead"): {"cables": (Cable(id="c", name="C", exit_from_masthead_mm=17350),)},
    ("spreaders", 0, "from_masthead"): {"spreaders": (a_spreader(from_masthead_mm=17350.0),)},
    ("stays", 0, "upper", "from_masthead"): {
        "stays": (a_stay(upper={"from_masthead_mm": 17350.0, "girth": "ahead"}),)
    },
    ("mast", "gooseneck"): {"mast": a_mast(gooseneck_mm=17350.0)},
    ("mast", "track", "lower_end"): {
        "mast": a_mast(track=Track(kind="groove", width_mm=5.0, lower_end_mm=17350))
    },
    ("mast", "walls", 0, "from_masthead"): {
        "mast": a_mast(walls=(Wall(from_masthead_mm=17350, thickness_mm=4),))
    },
    ("mast", "taper", "from_masthead"): {
        "mast": a_mast(taper=Taper(from_masthead_mm=17350, length_mm=90, width_mm=60))
    },
    ("mast", "stretches", 0, "to"): {
        "mast": a_mast(stretches=(Stretch(kind="weld", from_masthead_mm=1, to_mm=17350),))
    },
    ("mast", "conduits", 0, "slots", 0, "from_masthead"): {
        "mast": a_mast(
            conduits=(Conduit(id="a", name="A", runs=(), slots=(Slot(from_masthead_mm=17350, length_mm=9),)),)
        )
    },
}


@pytest.mark.parametrize(("path", "parts"), HEIGHTS.items(), ids=str)
def test_a_height_below_the_heel_says_what_is_allowed(path, parts):
    """17,350 from the masthead of a mast of 17,000."""
    found = told(a_layout(**parts))
    assert set(found) == {path}
    assert found[path] == f"{path[-1]} 17,350 is below the heel: 0 to 17,000 is allowed"


def test_a_height_above_the_masthead_is_told():
    """A halyard's point on the skin cannot be 20 above the tube's end."""
    point = LinePoint(at="sheave", from_masthead_mm=-20.0, girth="ahead")
    layout = a_layout(halyards=(Halyard(id="h", name="H", rope_mm=10.0, points=(point,)),))
    sentence = told(layout)["halyards", 0, "points", 0, "from_masthead"]
    assert sentence == "from_masthead -20 is above the masthead: 0 to 17,000 is allowed"


def test_a_pole_stowed_above_the_masthead_is_told():
    """Its upper end is on the mast, or nowhere."""
    pole = Pole(id="p", name="P", length_mm=3e3, ring_from_mm=9e3, ring_to_mm=9e3, stowed_top_mm=-300.0)
    sentence = told(a_layout(poles=(pole,)))["poles", 0, "stowed_top"]
    assert sentence == "stowed_top -300 is above the masthead: 0 to 17,000 is allowed"


def test_a_stretch_or_a_run_has_its_upper_end_first():
    """900 is nearer the masthead than 1,000."""
    mast = a_mast(
        conduits=(Conduit(id="a", name="A", runs=(Run(from_masthead_mm=1000, to_mm=900),)),),
        stretches=(Stretch(kind="sleeve", from_masthead_mm=1000, to_mm=900),),
    )
    found = told(a_layout(mast=mast))
    assert set(found) == {("mast", "conduits", 0, "runs", 0, "to"), ("mast", "stretches", 0, "to")}


def test_a_limit_of_ones_own_needs_a_reason():
    """Three blanks are as long as a reason must be, and are none."""
    layout = a_layout(limits=(LimitOverride(key="k", value=1.0, unit="mm", why="   "),))
    assert "why" in told(layout)["limits", 0, "why"]


def ellipse(count, ahead=100.0, port=65.0):
    """Points of an ellipse about (40, -7): an outline may have any origin."""
    turns = (2 * math.pi * i / count for i in range(count))
    return tuple((40 + ahead * math.cos(t), -7 + port * math.sin(t)) for t in turns)


def test_an_ellipse_about_any_point_is_a_good_outline():
    """Four hundred points, the same on both sides to the last digit but one."""
    assert outline_mistakes(ellipse(400)) == ()


@pytest.mark.parametrize(("by", "count"), [(0.4, 0), (0.6, 1)])
def test_an_outline_is_the_same_on_both_sides_to_half_a_millimetre(by, count):
    """One corner of an octagon moved outwards by less and by more than is allowed."""
    corners = [(60, 25), (25, 60), (-25, 60), (-60, 25), (-60, -25), (-25, -60), (25, -60), (60, -25)]
    corners[0] = (60 + by, 25)
    assert len(outline_mistakes(tuple((float(x), float(y)) for x, y in corners))) == count


def test_an_outline_that_crosses_itself_is_told():
    """Two neighbours of an octagon changed over make a bow tie."""
    points = list(ellipse(8))
    points[2], points[3] = points[3], points[2]
    layout = a_layout(mast=a_mast(section=FreeOutline(shape="points", points=tuple(points))))
    ((path, sentence),) = crosscheck(layout)
    assert path[:3] == ("mast", "section", "points")
    assert "crosses itself" in sentence


def test_repeated_points_are_no_crossing():
    """A traced outline often gives its first point again at the end."""
    points = ellipse(40)
    assert outline_mistakes((*points, points[0])) == ()

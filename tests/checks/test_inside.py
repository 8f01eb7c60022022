"""What halyards meet inside the mast: one another, bolts, ends of screws, conduits, edges of sleeves."""

import pytest
from asking import of_rules
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast

from mastlayout.checks import chafe, inside
from mastlayout.checks.report import check
from mastlayout.checks.sentence import sentence
from mastlayout.geometry.scene import build
from mastlayout.model.mast import Conduit, Run, Stretch, Wall
from mastlayout.model.sails import Halyard, LinePoint
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

FOUR = tuple(Wall(from_masthead_mm=float(z), thickness_mm=4.0) for z in range(0, 17001, 400))

# The mast is an ellipse 200 x 130, its walls 4 thick; the masthead is at 17,000.


def line(name, top, bottom, rope=12.0, **fields):
    """A halyard straight from (x, y, z) to (x, y, z)."""
    points = tuple(
        LinePoint(at=at, from_masthead_mm=17000.0 - z, ahead_mm=x, port_mm=y)
        for at, (x, y, z) in (("sheave", top), ("exit", bottom))
    )
    return Halyard(
        **({"id": name, "name": name, "rope_mm": rope, "inside": "straight", "points": points} | fields)
    )


DOWN = line("down", (0.0, 0.0, 16000.0), (0.0, 0.0, 3000.0))


def said(*halyards, **parts):
    """What is said of the inside."""
    report = check(build(a_layout(halyards=halyards, **parts)))
    assert not report.broken
    return [f for f in report.open if f.code.startswith("inside/")]


# Across the first at 9,500, past it fore and aft by ``apart``: 12 between their middles is a touch.
@pytest.mark.parametrize(
    ("apart", "measured"), [(0.0, -12.0), (12.0, 0.0), (16.9, 4.9), (17.0, None), (40.0, None)]
)
def test_halyards_that_cross(apart, measured):
    """By hand: the gap of two ropes of 12 whose middles pass so far apart; five is wanted."""
    other = line("other", (apart, -50.0, 16000.0), (apart, 50.0, 3000.0))
    found = said(DOWN, other)
    assert [f.code for f in found] == ([] if measured is None else ["inside/crosses"])
    if measured is not None:
        assert found[0].standing == "note"
        assert found[0].subjects == ("down", "other")
        assert found[0].measured == pytest.approx(measured, abs=1e-6)
        assert found[0].z_mm == pytest.approx(9500.0)


def test_halyards_that_do_not_cross_say_nothing():
    """Side by side all the way."""
    assert not said(DOWN, line("other", (40.0, 0.0, 16000.0), (40.0, 0.0, 3000.0)))


# Two sheaves side by side, 36 between their middles; a rope hangs from the inner rim, at the mast's axis.
BOX = a_kind(
    "sheaves", group="halyard", foot=None,
    solids=[
        {"shape": "can", "part": "sheave", "start": (x, 0, -50), "end": (x + 20, 0, -50), "radius_mm": 50}
        for x in (-28, 8)
    ],
)  # fmt: skip


def over_one_box(port_exits, starboard_exits, sheaves=(None, None), box=BOX):
    """Two halyards from one box ahead at 16,000, to exits so far to port, at 3,000 and at 4,000."""
    ends = zip((3000.0, 4000.0), (port_exits, starboard_exits), strict=True)
    lines = [
        line(name, (0, 0, 16000.0), (0.0, y, z)).but(
            points=(
                LinePoint(at="sheave", fitting="sheaves", sheave=sheave),
                LinePoint(at="exit", from_masthead_mm=17000.0 - z, ahead_mm=0.0, port_mm=y),
            )
        )
        for name, sheave, (z, y) in zip(("one", "other"), sheaves, ends, strict=True)
    ]
    fitting = a_fitting("sheaves", kind="sheaves", from_masthead_mm=1000.0, in_hand=None)
    return said(*lines, kinds=(box,), fittings=(fitting,))


def test_over_one_sheave_box_that_cross_either_way():
    """By hand: exits lie as the sheaves do one way only; written down it is said."""
    (found,) = over_one_box(-30.0, 50.0, sheaves=(1, 2))
    assert (found.code, found.standing) == ("inside/crosses", "note")
    # In one plane both are straight, 18 - 48 t and -18 + 68 s: they meet, so the ropes are 12 deep.
    assert found.measured == pytest.approx(-12.0, abs=0.5)
    assert not over_one_box(-30.0, 50.0, sheaves=(2, 1)), "each on its own side they never meet"


def test_over_one_sheave_box_and_nobody_wrote_down_which():
    """One way round they cross, the other they do not: both lines are asked for, and nothing else is said."""
    found = over_one_box(-30.0, 50.0)
    assert {f.standing for f in found} == {"not checked"}
    assert {(f.subjects, f.measure) for f in found} == {
        (("one",), "halyard.sheave"), (("other",), "halyard.sheave"),
    }  # fmt: skip
    # One that is known leaves one sheave for the other.
    assert not over_one_box(-30.0, 50.0, sheaves=(2, None))
    assert over_one_box(-30.0, 50.0, sheaves=(None, 2))[0].code == "inside/crosses"


def test_over_a_box_whose_sheaves_are_not_drawn_nobody_can_tell():
    """What the catalogue does not draw is not checked, whatever was written down."""
    bare = a_kind("sheaves", foot=None, group="halyard")
    assert {f.standing for f in over_one_box(-30.0, 50.0, (1, 2), bare)} == {"not checked"}


def test_a_sheave_its_box_does_not_have_is_named():
    """The third of two: it is said, and what hangs from it is not known."""
    found = {f.code: f for f in over_one_box(-30.0, 50.0, sheaves=(3, 2))}
    assert found["inside/sheave"].subjects == ("one", "sheaves")
    assert sentence(build(a_layout()), found["inside/sheave"], {"one": "One", "sheaves": "Box"}).startswith(
        "One: written down over sheave 3 of Box, which has fewer."
    )
    assert not [f for f in over_one_box(-30.0, 50.0, sheaves=(2, 1)) if f.code == "inside/sheave"]


def test_to_one_winch_two_halyards_are_asked():
    """They share what stands outside, and nothing inside parts them."""
    winch = LinePoint(at="winch", fitting="box-1")
    other = line("other", (0.0, -50.0, 16000.0), (0.0, 50.0, 3000.0))
    both = [one.but(points=(*one.points, winch)) for one in (DOWN, other)]
    assert [f.code for f in said(*both, fittings=(a_fitting(),))] == ["inside/crosses"]


# -- bolts right through: M10, drilled 11, in a tube 3 thicker all round: 8.5 from its middle


def through(*, x=0.0, in_hand=True, z=9000.0):
    """Two tangs on one bolt athwart."""
    foot = a_foot(seat="flat", holes=[{"across_mm": -x, "along_mm": 0.0, "fastener": "M10 through"}])
    other = a_foot(seat="flat", holes=[{"across_mm": x, "along_mm": 0.0, "fastener": "M10 through"}])
    kind = a_kind("tang", group="stay", foot=foot)
    known = (foot, other) if in_hand else (None, None)
    tangs = [
        a_fitting(
            f"tang-{n}", kind="tang", girth=f"bearing {bearing}", from_masthead_mm=17000 - z, new=False,
            in_hand=own,
        )
        for n, bearing, own in (("p", "270", known[0]), ("s", "090", known[1]))
    ]  # fmt: skip
    return {"kinds": (kind,), "fittings": tuple(tangs)}


@pytest.mark.parametrize(
    ("ahead", "measured", "standing"),
    [
        (0.0, -14.5, "caution"),  # 8.5 and the rope's 6
        (14.6, 0.1, "note"),
        (19.4, 4.9, "note"),
        (19.5, None, None),  # five: at the limit
        (60.0, None, None),
    ],
)
def test_a_bolt_right_through(ahead, measured, standing):
    """Beside a bolt in its tube a halyard may hang; one in its way it chafes on. One bolt is one matter."""
    found = said(line("aft", (ahead, 0, 16000.0), (ahead, 0, 3000.0)), **through())
    assert [(f.code, f.standing, f.subjects) for f in found] == (
        [("inside/bolt", standing, ("tang-p/h1", "aft"))] if standing else []
    )
    if measured is not None:
        assert found[0].measured == pytest.approx(measured, abs=0.01)
        assert not found[0].typical


def test_a_typical_bolt_is_asked_too_and_says_so():
    """The foot of what is there already nobody has in hand: offer up the part."""
    (one,) = said(DOWN, **through(in_hand=False))
    assert one.typical
    assert one.standing == "caution"


def test_two_halyards_against_one_bolt_are_one_matter():
    """Both are named, with the less of their gaps."""
    other = line("other", (16.0, 0, 16000.0), (16.0, 0, 3000.0), rope=6.0)
    (one,) = said(DOWN, other, **through())
    assert one.subjects == ("tang-p/h1", "down", "other")
    assert one.measured == pytest.approx(-14.5, abs=0.01)


def test_above_and_below_the_halyard_no_bolt_minds():
    """The halyard ends at 3,000."""
    assert not said(DOWN, **through(z=2900.0))


# -- ends of screws: M6 tapped, drilled 5; up to 15 behind the skin


@pytest.mark.parametrize(
    ("fastener", "new", "behind", "many"),
    [
        ("M6 tapped", False, 20.0, 1),  # its rope begins at 14
        ("M6 tapped", False, 28.4, 1),  # 15, its half of 2.5, the rope's 6: 4.9 are left
        ("M6 tapped", False, 28.5, 0),  # five: at the limit
        ("rivet 4.8", False, 20.0, 0),  # blunt
        ("M6 tapped", True, 20.0, 0),  # not drilled yet: the rules about holes follow its drill
    ],
)
def test_the_end_of_a_screw_that_is_there(fastener, new, behind, many):
    """A halyard close behind the fore wall, the skin 100 ahead of the axis."""
    foot = a_foot(holes=[{"across_mm": 0.0, "along_mm": 0.0, "fastener": fastener}])
    fitting = a_fitting(new=new, in_hand=foot)
    behind_it = line("line", (100.0 - behind, 0, 16000.0), (100.0 - behind, 0, 3000.0))
    found = [f for f in said(behind_it, fittings=(fitting,)) if f.code == "inside/screw"]
    assert len(found) == many
    assert all(f.standing == "caution" and f.subjects == ("box-1/h1", "line") for f in found)


# -- conduits: 30 outside, against the wall at bearing 0, its middle 100 - 4 - 15 ahead


def pipe(bearing=0.0):
    """A mast with one conduit."""
    runs = (Run(from_masthead_mm=1000.0, to_mm=15000.0, bearing_deg=bearing),)
    return a_mast(
        walls=FOUR,
        conduits=(Conduit(id="pipe", name="Pipe", bore_mm=25, outside_mm=30, runs=runs, slots=()),),
    )


@pytest.mark.parametrize(("ahead", "measured"), [(81.0, -21.0), (60.0, 0.0), (55.1, 4.9), (55.0, None)])
def test_a_halyard_against_a_conduit(ahead, measured):
    """Its middle at 81: less its 15 and the rope's 6."""
    found = said(line("line", (ahead, 0, 15500.0), (ahead, 0, 3000.0)), mast=pipe())
    assert [f.code for f in found] == ([] if measured is None else ["inside/conduit"])
    if measured is not None:
        assert found[0].measured == pytest.approx(measured, abs=0.05)


def test_a_conduit_nobody_has_found_is_not_checked():
    """Once, with every halyard beside it."""
    (one,) = said(DOWN, mast=pipe(None))
    assert (one.code, one.standing, one.measure) == ("inside/known", "not checked", "conduit.place")
    assert one.subjects == ("pipe", "down")


# -- inner sleeves: the wall 4, the sleeve 6, the rope's 6: it is clear from 16 + 5 off the skin


@pytest.mark.parametrize(("ahead", "many"), [(0.0, 0), (79.0, 0), (79.1, 1), (90.0, 1)])
def test_the_edge_of_an_inner_sleeve(ahead, many):
    """A halyard close behind the fore wall, and one clear of it."""
    sleeve = Stretch(kind="sleeve", from_masthead_mm=8000.0, to_mm=8700.0)
    found = said(
        line("line", (ahead, 0, 16000.0), (ahead, 0, 3000.0)), mast=a_mast(walls=FOUR, stretches=(sleeve,))
    )
    assert [f.code for f in found] == ["inside/sleeve"] * many


def test_a_halyard_nobody_looked_at_is_not_checked():
    """Never a silent pass; one that stays outside is none of it."""
    (one,) = said(DOWN.but(inside=None))
    assert (one.code, one.standing, one.measure) == ("inside/known", "not checked", "halyard.inside")
    assert not said(DOWN.but(inside="outside"))


def test_over_a_sheave_it_hangs_from_the_inner_rim():
    """A sheave of 40 in its box, its middle 30 within the skin at 100: down from 100 - 30 - 40."""
    sheave = {"shape": "can", "part": "sheave", "start": (-5, 0, -30), "end": (5, 0, -30), "radius_mm": 40}
    kind = a_kind("sheave", group="halyard", foot=None, solids=[sheave])
    fitting = a_fitting("sheave", kind="sheave", from_masthead_mm=1000.0, in_hand=None)
    runs = DOWN.but(points=(LinePoint(at="sheave", fitting="sheave"), DOWN.points[1]))
    scene = build(a_layout(kinds=(kind,), fittings=(fitting,), halyards=(runs,)))
    assert scene.halyards[0].start[0] == pytest.approx((30.0, 0.0, 16000.0))


# What a rigger expects inside the three (common practice, no source), and what he is not bothered with.
FOUND = [
    ("whimbrel", "inside/bolt", "tang-cap-p/h1"),  # the bolt of the cap tangs, just below the sheaves
    ("whimbrel", "inside/sleeve", "topping-lift"),  # it hugs the wall down to its exit
    ("sanderling", "inside/bolt", "spreader-bracket-p/h4"),
]
NOT_FLAGGED = [
    ("whimbrel", "tang-cap-s"),  # the other end of the same bolt
    ("whimbrel", "gooseneck"),  # below the exits
    ("whimbrel", "winch-s"),
    ("sanderling", "tang-lower-p"),
    ("turnstone", "spreader-socket-p"),  # its bolt is before the main halyard
]


@pytest.fixture(scope="module")
def reports():
    """What is said of the inside of the three yachts."""
    rules = (*inside.RULES, chafe.BOLTS, chafe.SCREWS)
    return {path.stem: of_rules(open_document(path).layout, rules) for path in demo_masts().glob("*.toml")}


@pytest.mark.parametrize(("yacht", "code", "subject"), FOUND)
def test_what_a_rigger_expects(reports, yacht, code, subject):
    """Found once."""
    assert len([f for f in reports[yacht] if f.code == code and f.subjects[0] == subject]) == 1


@pytest.mark.parametrize(("yacht", "name"), NOT_FLAGGED)
def test_what_nobody_is_bothered_with(reports, yacht, name):
    """Nothing is said of it."""
    assert not [f for f in reports[yacht] if name in f.things]

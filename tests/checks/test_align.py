"""Alignment in a row or a ring: what was meant to be in line and is not; common practice, no source."""

import known
import pytest
from asking import found
from builders import a_fitting, a_foot, a_kind, a_layout

from mastlayout.checks.report import check
from mastlayout.checks.sentence import names_of, sentence
from mastlayout.geometry.scene import build
from mastlayout.model.fitting import AsBuilt
from mastlayout.model.layout import LimitOverride

CODES = ("align/fore", "align/aft", "align/level", "align/mirror", "align/row", "align/ring")
EYES = (a_kind(), a_kind("eye", foot=a_foot(across_mm=20, along_mm=40, holes=[])))


def eye(name, from_masthead_mm=8000.0, girth="ahead", **fields):
    """A small eye of its own name, a kind of its own."""
    known = {"name": name, "kind": "eye", "in_hand": None}
    own = name.lower().replace(", ", "-").replace(" ", "-")
    return a_fitting(own, from_masthead_mm=from_masthead_mm, girth=girth, **(known | fields))


def said(*fittings, **parts):
    """Code, subjects and figure of each finding of alignment."""
    report = check(build(a_layout(kinds=EYES, fittings=fittings, **parts)))
    assert not report.broken
    return [(f.code, f.subjects, round(f.measured, 2)) for f in report.open if f.code.startswith("align/")]


LINES = [
    ("ahead", None),
    ("1 to port of ahead", None),  # at the limit
    ("1.1 to port of ahead", ("align/fore", 1.1)),
    ("4 to starboard of ahead", ("align/fore", 4.0)),
    ("10 to port of ahead", ("align/fore", 10.0)),
    ("10.1 to port of ahead", None),  # too far off to be meant for it
    ("aft", None),
    ("3 to port of aft", ("align/aft", 3.0)),
]


@pytest.mark.parametrize(("girth", "expected"), LINES)
def test_a_fitting_just_off_a_centreline(girth, expected):
    """On it, or clearly off it; a note, since nothing is weaker for it."""
    findings = said(eye("Eye", girth=girth))
    assert findings == ([] if expected is None else [(expected[0], ("eye", "mast"), expected[1])])


PAIRS = [
    (8000.0, "100 to starboard of ahead", []),
    (8001.0, "101 to starboard of ahead", []),
    (8003.0, "100 to starboard of ahead", [("align/level", 3.0)]),
    (8050.0, "104 to starboard of ahead", [("align/level", 50.0), ("align/mirror", 4.0)]),
    (8051.0, "111 to starboard of ahead", []),  # staggered on purpose
]


@pytest.mark.parametrize(("from_masthead_mm", "girth", "expected"), PAIRS)
def test_port_against_starboard(from_masthead_mm, girth, expected):
    """A pair is called so: level with each other, and as far round; said once for both."""
    findings = said(eye("Eye, P", girth="100 to port of ahead"), eye("Eye, S", from_masthead_mm, girth))
    assert findings == [(code, ("eye-p", "eye-s"), off) for code, off in expected]


def test_a_pair_close_to_the_line_is_not_meant_to_be_on_it():
    """Two flag halyards 8 either side of the line: each is where it should be."""
    assert (
        said(eye("Eye, P", girth="8 to port of ahead"), eye("Eye, S", girth="8 to starboard of ahead")) == []
    )


ROWS = [
    (8400.0, "100 to port of ahead", None),
    (8400.0, "101 to port of ahead", None),
    (8400.0, "103 to port of ahead", ("align/row", 3.0)),
    (8400.0, "111 to port of ahead", None),
    (10001.0, "103 to port of ahead", None),  # too far up the mast for a row
    (8004.0, "140 to port of ahead", ("align/ring", 4.0)),
    (8011.0, "140 to port of ahead", None),
]


@pytest.mark.parametrize(("from_masthead_mm", "girth", "expected"), ROWS)
def test_one_of_a_row_or_of_a_ring(from_masthead_mm, girth, expected):
    """Parts of one kind above each other, or round the mast, are in line or clearly staggered."""
    findings = said(eye("Eye one", girth="100 to port of ahead"), eye("Eye two", from_masthead_mm, girth))
    assert findings == ([] if expected is None else [(expected[0], ("eye-one", "eye-two"), expected[1])])


def test_other_kinds_make_no_row():
    """A light 3 beside the line of an eye was never meant to stand over it."""
    light = eye("Light", 8400.0, "103 to port of ahead", kind="box")
    assert said(eye("Eye one", girth="100 to port of ahead"), light) == []


def test_what_is_there_already_bothers_nobody_but_a_new_one_is_held_against_it():
    """Old against old: it stands. New against old: in the row, or not."""
    old = [eye(f"Eye {n}", 8000.0 + 400 * n, f"{100 + 3 * n} to port of ahead", new=False) for n in (0, 1)]
    assert said(*old) == []
    new = eye("Eye new", 8800.0, "106 to port of ahead")
    assert said(*old, new) == [("align/row", ("eye-new", "eye-1"), 3.0)]


def test_it_is_asked_where_it_was_found():
    """Planned on the line, built 4 beside it."""
    built = AsBuilt(girth="4 to port of ahead", by="Jo", day="2026-11-26")
    assert said(eye("Eye", as_built=built)) == [("align/fore", ("eye", "mast"), 4.0)]


def test_an_owner_may_allow_more():
    """Nothing to measure is missing here: a place is always known, and what hangs elsewhere is not asked."""
    own = LimitOverride(key="align.off", value=5.0, unit="mm", why="nobody will see it")
    assert said(eye("Eye", girth="4 to port of ahead"), limits=(own,)) == []


def test_it_says_what_to_do():
    """In words, with what is allowed; in inches as a size, never the same as what is allowed."""
    layout = a_layout(kinds=EYES, fittings=(eye("Eye", girth="1.04 to port of ahead"),))
    (finding,) = found(layout, "align/fore")
    scene, names = build(layout), names_of(layout)
    assert "Eye: 1.04 off the forward centreline, 1 is allowed" in sentence(scene, finding, names)
    assert finding.standing == "note"


@pytest.mark.parametrize("demo", ["whimbrel", "sanderling", "turnstone"])
def test_the_yachts_are_in_line(demo):
    """A rigger is not bothered with what stands where it should."""
    report = known.report(demo)
    assert not [f for f in report.open if f.code in CODES]

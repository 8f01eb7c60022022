"""The desk: what an edit changes, and a file that keeps its comments."""

import pytest
from agreement import assert_same_report, assert_same_scene
from builders import a_fitting, a_kind, a_layout, a_mast, a_spreader, a_stay

from mastlayout.desk import Desk
from mastlayout.model.around import read_around
from mastlayout.model.edits import add, change, move, remove
from mastlayout.model.layout import Layout
from mastlayout.model.sails import Halyard


def a_desk():
    """Two fittings 84 apart, a spreader and a stay."""
    fittings = (a_fitting(), a_fitting("box-2", from_masthead_mm=8084.0))
    return Desk(a_layout(fittings=fittings, spreaders=(a_spreader(),), stays=(a_stay(),)))


def test_show_names_the_shapes_and_findings_that_changed():
    """Moving one box away changes one shape, and their finding goes."""
    desk = a_desk()
    changed = desk.show(change(desk.layout, "box-2", from_masthead_mm=7000.0))
    assert changed.shapes == {"box-2"}
    assert "clearance/fitting" in {finding.code for finding in changed.went}
    assert not changed.came


def test_an_edit_that_changes_nothing_changes_no_shape():
    """The very same layout is shown without a change."""
    desk = a_desk()
    changed = desk.show(change(desk.layout, "box-2", from_masthead_mm=8084.0))
    assert (changed.shapes, changed.came, changed.went) == (frozenset(), (), ())


def test_a_saved_edit_is_one_changed_line(tmp_path):
    """From file to desk to file."""
    path = tmp_path / "layout.toml"
    a_desk().save(path)
    text = path.read_text().replace("[[fittings]]", "# mine\n[[fittings]]", 1)
    path.write_text(text)
    desk = Desk.open(path)
    desk.show(change(desk.layout, "box-2", from_masthead_mm=8500.0))
    desk.save()
    old, new = text.splitlines(), path.read_text().splitlines()
    assert [(a, b) for a, b in zip(old, new, strict=True) if a != b] == [
        ("from_masthead = 8084.0", "from_masthead = 8500")
    ]


def a_room(name):
    """A kind like the box that needs 300 of room out from the skin, and as much to either side."""
    room = {"shape": "box", "centre": (0, 0, 150), "size": (300, 300, 300), "part": "room"}
    body = {"shape": "box", "centre": (0, 0, 60), "size": (100, 80, 120)}
    return a_kind(name, solids=[body, room])


def a_line(**fields):
    """A halyard inside the mast from the sheave on box-2 down to an exit ahead."""
    points = [
        {"at": "sheave", "fitting": "box-2"},
        {"at": "exit", "from_masthead_mm": 9000.0, "girth": "30 to port of ahead"},
    ]
    return Halyard(id="line", name="Line", rope_mm=10.0, inside="straight", points=points, **fields)


def a_boom(*fittings, gooseneck_mm=8200.0):
    """Fittings on a mast whose gooseneck's pin is among them; the kind "boom" carries a boom."""
    kinds = (a_kind(), a_kind("boom", group="boom"))
    return a_layout(mast=a_mast(gooseneck_mm=gooseneck_mm), kinds=kinds, fittings=fittings)


EDITS_NEAR = {
    "an old fitting whose holes are known moves up to holes that will be drilled": (
        a_layout(fittings=(a_fitting(), a_fitting("box-2", from_masthead_mm=8500.0, new=False))),
        lambda layout: change(layout, "box-2", from_masthead_mm=8045.0),
    ),
    "a fitting's own room moves over another": (
        a_layout(
            kinds=(a_kind(), a_room("roomy")),
            fittings=(a_fitting(), a_fitting("box-2", kind="roomy", from_masthead_mm=9500.0)),
        ),
        lambda layout: change(layout, "box-2", from_masthead_mm=8150.0),
    ),
    "a sheave moves, and its halyard with it": (
        a_layout(
            fittings=(a_fitting(), a_fitting("box-2", from_masthead_mm=8700.0, girth="bearing 90")),
            halyards=(a_line(),),
        ),
        lambda layout: move(layout, "box-2", 7000.0, read_around("30 to port of ahead")),
    ),
    "a fitting comes that hangs where nobody knows": (
        a_layout(spreaders=(a_spreader(length_mm=None),)),
        lambda layout: add(
            layout,
            "fittings",
            a_fitting("box-2", on="spreader-p", from_masthead_mm=None, girth=None, along_mm=500.0),
        ),
    ),
    "a boom's fitting comes to the pin that nobody had a fitting for": (
        a_boom(a_fitting(), a_fitting("vang", kind="boom", from_masthead_mm=12000.0)),
        lambda layout: change(layout, "vang", from_masthead_mm=8200.0),
    ),
    "one of two that stand level moves": (
        a_boom(
            a_fitting(),
            a_fitting("boom-1", kind="boom", from_masthead_mm=8200.0, girth="bearing 90"),
            a_fitting("boom-2", kind="boom", from_masthead_mm=8210.0, girth="bearing 270"),
        ),
        lambda layout: change(layout, "boom-2", from_masthead_mm=8220.0),
    ),
    "the only boom's fitting goes, and nobody measured the pin": (
        a_boom(
            a_fitting(from_masthead_mm=16500.0),
            a_fitting("boom-1", kind="boom", from_masthead_mm=13000.0),
            gooseneck_mm=None,
        ),
        lambda layout: remove(layout, "boom-1"),
    ),
    "somebody looked for old holes": (
        Layout(**{name: getattr(a_layout(), name) for name in a_layout().model_fields_set - {"holes"}}),
        lambda layout: layout.but(holes=()),
    ),
}


@pytest.mark.parametrize("case", EDITS_NEAR)
def test_what_an_edit_keeps_is_what_a_fresh_desk_finds(case):
    """Each changes what is found; there and back, scene and report are those of a desk made anew."""
    layout, edit = EDITS_NEAR[case]
    desk, edited = Desk(layout), edit(layout)
    before = desk.report.open
    for shown in (edited, layout, edited):
        desk.show(shown)
        fresh = Desk(shown)
        assert_same_scene(desk.scene, fresh.scene)
        assert_same_report(desk.report, fresh.report)
    assert before != desk.report.open


def test_what_is_put_back_is_saved_with_its_comments(tmp_path):
    """A fitting taken off, saved, put back and saved: the very bytes that were opened."""
    path = tmp_path / "layout.toml"
    a_desk().save(path)
    path.write_text(path.read_text().replace("[[fittings]]", "# mine\n[[fittings]]"))
    whole = path.read_bytes()
    desk = Desk.open(path)
    before = desk.layout
    desk.show(remove(before, "box-2"))
    desk.save()
    assert b"box-2" in whole
    assert path.read_bytes() != whole
    desk.show(before)
    desk.save()
    assert path.read_bytes() == whole

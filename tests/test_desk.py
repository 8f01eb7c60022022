"""The desk: what an edit changes, and a file that keeps its comments."""

from builders import a_fitting, a_layout, a_spreader, a_stay

from mastlayout.desk import Desk
from mastlayout.model.edits import change


def a_desk():
    """Two fittings 84 apart, a spreader and a stay."""
    fittings = (a_fitting(), a_fitting("box-2", from_masthead_mm=8084.0))
    return Desk(a_layout(fittings=fittings, spreaders=(a_spreader(),), stays=(a_stay(),)))


def test_show_names_the_shapes_and_findings_that_changed():
    """Moving one box away changes one shape, and their finding goes."""
    desk = a_desk()
    changed = desk.show(change(desk.layout, "box-2", from_masthead_mm=8500.0))
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

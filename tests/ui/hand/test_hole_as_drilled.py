"""A hole as it was drilled: recorded with its photo, said to be wrong, and the ways out as undo steps."""

import pytest
from builders import a_fitting, a_foot, a_layout
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QFileDialog

from mastlayout.desk import Desk
from mastlayout.model.edits import hole_built, tick
from mastlayout.model.fitting import HoleBuilt
from mastlayout.storage.saving import save
from mastlayout.ui.hand.built import BuiltDialog
from mastlayout.ui.session import Session

HOLES = [{"across_mm": 0.0, "along_mm": along, "fastener": "M5 tapped"} for along in (30.0, -30.0)]


def a_desk():
    """A fitting ahead, 8000 from the masthead, with holes at 7970 and 8030."""
    foot = a_foot(across_mm=60, along_mm=110, holes=HOLES)
    return Desk(a_layout(fittings=(a_fitting(in_hand=foot, tag=7),)))


@pytest.fixture
def session():
    """A session on it."""
    return Session(a_desk())


def opened(qtbot, session, hole=1):
    """The form, on a hole."""
    dialog = BuiltDialog(session, session.desk.scene.placed["box-1"], hole=hole)
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.by.setText("Jo")
    return dialog


def opened_as_it_is(qtbot, session):
    """The form on hole 1, nothing typed."""
    dialog = BuiltDialog(session, session.desk.scene.placed["box-1"], hole=1)
    qtbot.addWidget(dialog)
    dialog.show()
    return dialog


def record(qtbot, dialog, **typed):
    """Type into fields and record."""
    for name, text in typed.items():
        getattr(dialog, name).setText(text)
    qtbot.mouseClick(dialog.button, Qt.MouseButton.LeftButton)


def built(session):
    """What is kept of holes as drilled."""
    return session.layout.fittings[0].holes_built


@pytest.mark.parametrize("units", ["metric", "inches"])
def test_what_is_left_as_it_stands_is_kept_to_the_hundredth(qtbot, session, units):
    """Only who measured is typed: the hole is where it was planned, as wide as planned, in both units."""
    session.write_in(units)
    dialog = opened(qtbot, session)
    assert [dialog.what.itemText(i) for i in range(3)] == ["Middle of the foot", "Hole 7.1", "Hole 7.2"]
    record(qtbot, dialog)
    (hole,) = built(session)
    assert (hole.number, hole.from_masthead_mm, hole.diameter_mm, hole.by) == (1, 7970.0, None, "Jo")
    assert session.desk.scene.placed["box-1"].holes.z_mm[0] == pytest.approx([9030.0, 8970.0])
    assert not dialog.isVisible()
    assert session.undo.undoText() == "Record hole 7.1 as drilled"


def test_a_wrong_hole_keeps_the_form_open_with_three_ways_out(qtbot, session):
    """Recorded it is; what helps stands below, as buttons with their figures."""
    dialog = opened(qtbot, session)
    record(qtbot, dialog, reading="7968", girth="1 to port of ahead", diameter="4.5")
    assert built(session)[0].diameter_mm == 4.5
    assert dialog.isVisible()
    said = [button.text() for button in dialog.ways.buttons]
    assert [words.split()[0] for words in said] == ["Move", "Enlarge", "Fill"]
    # 4.5 wide and 2.24 off: 8.97 must be taken in; M12 is tapped in 10.3, M10 in 8.5.
    assert "10.3 for M12 tapped" in said[1]
    dialog.what.setCurrentIndex(2)
    assert not dialog.ways.buttons
    session.undo.undo()
    assert built(session) == ()


def test_the_fitting_moves_off_and_leaves_filled_holes_behind(qtbot, session):
    """What was ticked as drilled stays behind too; one undo step takes all of it back."""
    session.edit(tick(session.layout, "box-1", 2, "drilled", ticked=True), "Tick")
    dialog = opened(qtbot, session)
    record(qtbot, dialog, reading="7967")
    before = session.layout
    qtbot.mouseClick(dialog.ways.buttons[0], Qt.MouseButton.LeftButton)
    fitting, holes = session.layout.fittings[0], session.layout.holes
    assert [(h.from_masthead_mm, h.diameter_mm, h.state) for h in holes] == [
        (7967.0, 4.2, "filled"), (8030.0, 4.2, "filled"),
    ]  # fmt: skip
    assert (fitting.holes_built, fitting.done) == ((), ())
    # By hand: 12.6 below the wrong hole is 9.6 below the plan, and then 8030 stands 9.6 from hole 2.
    assert fitting.from_masthead_mm == pytest.approx(8009.6)
    session.undo.undo()
    assert session.layout == before


def test_the_hole_is_filled_or_enlarged(qtbot, session):
    """Filled it is an old hole; enlarged it wants a larger thread in its own place."""
    dialog = opened(qtbot, session)
    record(qtbot, dialog, reading="7968.5")
    qtbot.mouseClick(dialog.ways.buttons[-1], Qt.MouseButton.LeftButton)
    assert [(h.from_masthead_mm, h.state) for h in session.layout.holes] == [(7968.5, "filled")]
    # Its own place is 1.5 from it, 12.6 are wanted: nobody shall drill there.
    assert session.undo.undoText() == "Fill the hole, leave it out"
    placed = session.desk.scene.placed["box-1"]
    assert [opening.number for opening in placed.holes.openings] == [2]
    assert not [f for f in session.desk.report.open if f.code == "hole/spacing"]
    session.undo.undo()
    dialog = opened(qtbot, session)
    # 4.2 wide and 1.5 off: 7.2 takes it in; M10 is tapped in 8.5 (M8 in 6.8).
    (way,) = (b for b in dialog.ways.buttons if b.text().startswith("Enlarge"))
    assert "8.5 for M10 tapped" in way.text()
    qtbot.mouseClick(way, Qt.MouseButton.LeftButton)
    foot = session.layout.fittings[0].in_hand
    assert [str(hole.fastener) for hole in foot.holes] == ["M10 tapped", "M5 tapped"]
    assert built(session) == ()


def test_what_is_added_later_keeps_who_measured_and_when(qtbot, session):
    """A remark alone: the record stands as it was."""
    first = HoleBuilt(number=1, from_masthead_mm=7970.5, girth="ahead", by="Ann", day="2026-11-20")
    session.edit(hole_built(session.layout, "box-1", first), "Record")
    record(qtbot, opened_as_it_is(qtbot, session), remark="slipped")
    assert built(session) == (first.but(remark="slipped"),)


def test_a_recorded_hole_goes_back_to_the_plan(qtbot, session):
    """As one undo step with a name."""
    record(qtbot, opened(qtbot, session), reading="7969.5")
    dialog = opened(qtbot, session)
    qtbot.mouseClick(dialog.forget_button, Qt.MouseButton.LeftButton)
    assert built(session) == ()
    assert session.undo.undoText() == "Forget hole 7.1 as drilled"


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("reading", "17001", "0 to 17\u2009000 from the masthead is allowed"),
        ("diameter", "300", "more than 0 and at most 200 is allowed"),
        ("diameter", "wide", "wide"),
        ("by", "  ", "a name is needed"),
        ("day", "yesterday", "is no day"),
    ],
)
def test_a_wrong_entry_says_what_is_allowed(qtbot, session, field, typed, said):
    """And nothing is recorded."""
    dialog = opened(qtbot, session)
    record(qtbot, dialog, **{field: typed})
    assert said in dialog.said.text()
    assert built(session) == ()


# -- photos


@pytest.fixture
def saved(tmp_path):
    """The layout in a folder of its own, with a photo beside it."""
    desk = a_desk()
    path = tmp_path / "yacht" / "plan.toml"
    path.parent.mkdir()
    image = QImage(800, 600, QImage.Format.Format_RGB32)
    image.fill(0x336699)
    image.save(str(path.parent / "hole.png"))
    desk.document = save(desk.layout, path, None)
    return Session(desk), path.parent


def test_a_photo_beside_the_layout_is_shown_and_kept_in_the_file(qtbot, saved):
    """Small, by its name alone."""
    session, folder = saved
    dialog = opened(qtbot, session)
    dialog.photo.fill("hole.png")
    assert dialog.photo.picture.isVisible()
    assert dialog.photo.picture.pixmap().width() <= 300
    record(qtbot, dialog)
    session.desk.save()
    assert built(Session(Desk.open(folder / "plan.toml")))[0].photo == "hole.png"


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("gone.png", "The photo gone.png is gone"),
        ("broken.png", "cannot be shown"),
        ("link.png", "lies outside the layout's folder"),
        ("../hole.png", "is no photo beside the layout"),
    ],
)
def test_a_photo_that_cannot_be_shown_says_why(qtbot, saved, name, said):
    """What is gone or broken is kept by name all the same; nothing outside the folder is opened."""
    session, folder = saved
    (folder / "broken.png").write_text("no picture")
    (folder.parent / "outside.png").write_bytes((folder / "hole.png").read_bytes())
    (folder / "link.png").symlink_to(folder.parent / "outside.png")
    dialog = opened(qtbot, session)
    dialog.photo.fill(name)
    assert said in dialog.photo.said.text()
    assert not dialog.photo.picture.isVisible()
    record(qtbot, dialog)
    assert bool(built(session)) == (not name.startswith(".."))


def test_a_photo_is_chosen_from_beside_the_layout_only(qtbot, saved, monkeypatch):
    """One from elsewhere says where it must lie."""
    session, folder = saved
    dialog = opened(qtbot, session)
    for chosen, name in ((folder / "hole.png", "hole.png"), (folder.parent / "other.png", "hole.png")):
        monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_args, c=chosen: (str(c), ""))
        qtbot.mouseClick(dialog.photo.choose_button, Qt.MouseButton.LeftButton)
        assert dialog.photo.name.text() == name
    assert "copy it there first" in dialog.photo.said.text()


def test_a_layout_that_was_never_saved_has_no_folder_for_photos(qtbot, session):
    """It says so."""
    dialog = opened(qtbot, session)
    dialog.photo.fill("hole.png")
    assert "never saved" in dialog.photo.said.text()

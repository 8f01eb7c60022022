"""What is drawn over the mast: worst places, the nearest thing, cables; and the tape in feet and inches."""

import numpy as np
import pytest
from builders import a_fitting, a_foot
from PySide6.QtCore import QPointF, QRectF

from mastlayout.checks.clearance import nearest_thing
from mastlayout.desk import Desk
from mastlayout.model.fitting import Cable
from mastlayout.resources import demo_masts
from mastlayout.ui.elevation.cables import cable_lines
from mastlayout.ui.elevation.panel import ElevationPanel
from mastlayout.ui.elevation.pointed import nearest_place, pointed_box, said, worst_places
from mastlayout.ui.elevation.span import GUTTER_PX, Span
from mastlayout.ui.session import Session


def test_the_nearest_thing_is_named_with_its_gap(session):
    """The horn's body begins 84 below box-1's middle, each 40 high from it: 4 apart."""
    placed = session.desk.scene.placed["box-1"]
    name, gap = nearest_thing(session.desk.scene, placed, 600.0)
    assert name == "box-3"
    assert gap == pytest.approx(4.0, abs=0.02)
    session.pick("box-1")
    found = nearest_place(session)
    assert found.words == "to Horn"
    assert np.linalg.norm(np.subtract(found.worst.at, found.worst.other)) == pytest.approx(gap, abs=0.05)


def test_nothing_is_named_far_off(session):
    """Alone on the mast, or with nothing in hand."""
    far = a_fitting("box-9", name="Far", from_masthead_mm=15000.0)
    session.take(session.layout.but(fittings=(far,)))
    session.pick("box-9")
    assert nearest_place(session) is None
    session.pick("")
    assert nearest_place(session) is None


def test_the_chosen_finding_is_pointed_at(session):
    """Between the two bodies that are too near, at the height the finding has."""
    finding = next(found for found in session.desk.report.open if found.code == "clearance/fitting")
    assert worst_places(session) == []
    session.choose(frozenset({finding.key}))
    (found,) = worst_places(session)
    assert found.state == finding.standing
    assert found.worst.at[2] == pytest.approx(finding.z_mm, abs=45.0)


def test_words_keep_clear_of_the_labels(session):
    """In a narrow room the number stands alone; nowhere do they reach into the gutter."""
    session.pick("box-1")
    found = nearest_place(session)
    z = found.worst.at[2]
    for width in (300.0, 420.0, 460.0, 900.0):
        span = Span(width, 600.0, z, 0.3)
        box, words = said(span, "starboard", found, (-75.0, 75.0))
        assert words in ("", found.words)
        assert box.left() >= 0.0
        assert box.right() <= span.room_px - GUTTER_PX or box.left() == 0.0


def test_words_stand_above_the_worst_place_not_over_it(session):
    """Of the finding that is looked at, where its line runs through them."""
    session.pick("box-1")
    found = nearest_place(session)
    span = Span(900.0, 600.0, found.worst.at[2], 0.3)
    box, words = said(span, "starboard", found, (-75.0, 75.0))
    across = QRectF(box.left() + 10, box.center().y() - 4, 30, 8)
    moved, same = said(span, "starboard", found, (-75.0, 75.0), [across])
    assert same == words
    assert not moved.intersects(across)
    assert moved.size() == box.size()
    assert said(span, "starboard", found, (-75.0, 75.0), [across.translated(0, 200)])[0] == box


def test_the_ring_and_both_places_are_in_the_box_of_a_worst_place(session):
    """In pixels, where the drawing has them."""
    finding = next(found for found in session.desk.report.open if found.code == "clearance/fitting")
    session.choose(frozenset({finding.key}))
    (found,) = worst_places(session)
    span = Span(900.0, 600.0, found.worst.at[2], 0.3)
    box = pointed_box(span, "starboard", found)
    for ahead, _port, up in (found.worst.at, found.worst.other):
        assert box.contains(QPointF(span.x_px(ahead), span.y_px(up)))


def test_a_cable_runs_from_its_entry_to_its_conduit_and_out(session):
    """A ring where the scene has the entry; inside, from that height down to where it comes out."""
    foot = a_foot(entry={"across_mm": 0.0, "along_mm": -20.0, "diameter_mm": 12.0})
    fitting = a_fitting("box-1", tag=1, in_hand=foot)
    cable = Cable(id="c", name="Power", fitting="box-1", conduit="pipe", exit_from_masthead_mm=16000.0)
    session.take(session.layout.but(fittings=(fitting,), cables=(cable,)))
    scene = session.desk.scene
    (line,) = cable_lines(scene, "starboard")
    holes = scene.placed["box-1"].holes
    entry = next(i for i, one in enumerate(holes.openings) if one.use == "entry")
    x, _y, z = holes.point[0, entry]
    assert line.entry == pytest.approx([x, z])
    inside = line.inside.boundingRect()
    assert (inside.top(), inside.bottom()) == pytest.approx((1000.0, z))


@pytest.mark.parametrize("lack", ["foot", "conduit", "where it lies"])
def test_what_nobody_knows_of_a_cable_is_not_drawn(session, lack):
    """No entry without the foot in hand; no way inside without a conduit whose place is known."""
    foot = a_foot(entry={"across_mm": 0.0, "along_mm": -20.0, "diameter_mm": 12.0})
    fitting = a_fitting("box-1", tag=1, in_hand=None if lack == "foot" else foot)
    cable = Cable(id="c", name="Power", fitting="box-1", conduit=None if lack == "conduit" else "pipe")
    mast = session.layout.mast
    if lack == "where it lies":
        runs = tuple(run.but(bearing_deg=None) for run in mast.conduits[0].runs)
        mast = mast.but(conduits=(mast.conduits[0].but(runs=runs),))
    session.take(session.layout.but(mast=mast, fittings=(fitting,), cables=(cable,)))
    lines = list(cable_lines(session.desk.scene, "starboard"))
    assert lines == [] if lack == "foot" else [line.inside for line in lines] == [None]


def test_a_tape_in_feet_and_inches_lies_on_the_same_heights(session, theme, qtbot):
    """120 inches from the heel are 3048 mm; each written mark is whole inches."""
    panel = ElevationPanel(session, theme)
    qtbot.addWidget(panel)
    panel.resize(900, 900)
    panel.show()
    session.go_to(3048.0)
    session.write_in("inches")
    marks = {read: y for y, read in panel.tape.marks(from_heel=True)}
    assert marks[120] == pytest.approx(panel.canvas.span.y_px(3048.0), abs=0.5)
    from_masthead = {read: y for y, read in panel.tape.marks(from_heel=False)}
    assert from_masthead[540] == pytest.approx(panel.canvas.span.y_px(17000.0 - 540 * 25.4), abs=0.5)
    assert "ft, true both ways" in panel.bar.length()[1]


def test_typical_feet_alone_are_unsure(theme, qtbot):
    """A new fitting whose part nobody offered up is marked, one that is confirmed is not."""
    panel = ElevationPanel(Session(Desk.open(demo_masts() / "sanderling.toml")), theme)
    qtbot.addWidget(panel)
    items = panel.canvas._fittings
    assert items["reflector-1"].typical
    assert not items["hailer-1"].typical

"""Old holes on the elevation: where the scene has them, picked and moved like anything else."""

import dragging
import numpy as np
import pytest
from builders import a_layout
from PySide6.QtCore import QPointF

from mastlayout.desk import Desk
from mastlayout.model.fitting import OldHole
from mastlayout.ui.elevation.panel import ElevationPanel
from mastlayout.ui.session import Session


@pytest.fixture
def canvas(qtbot, qapp, theme):
    """The elevation of a mast of 200 by 130 with a hole of 20 on its starboard side and one to port."""
    holes = tuple(
        OldHole(
            id=f"old-{side}", name=f"Old hole {side}", from_masthead_mm=8000.0, girth=girth, diameter_mm=20.0
        )
        for side, girth in (("s", "bearing 90"), ("p", "bearing 270"))
    )
    session = Session(Desk(a_layout(holes=(holes[0], holes[1].but(from_masthead_mm=8200.0)))))
    panel = ElevationPanel(session, theme)
    qtbot.addWidget(panel)
    panel.resize(700, 800)
    panel.show()
    session.go_to(8900.0)
    panel.canvas.parent_panel = panel
    return panel.canvas


def pixel(canvas, right_mm, from_masthead_mm):
    """Where a place of the mast is on the canvas."""
    return QPointF(canvas.span.x_px(right_mm), canvas.span.y_px(17000.0 - from_masthead_mm))


def test_holes_lie_where_the_skin_has_them(canvas):
    """Athwart of the axis both, the one to port behind when the mast is seen from starboard."""
    seen = {hole.id: hole for hole in canvas._old_holes.seen}
    assert seen["old-s"].at == pytest.approx((0.0, 9000.0), abs=0.01)
    assert seen["old-p"].at == pytest.approx((0.0, 8800.0), abs=0.01)
    assert (seen["old-s"].behind, seen["old-p"].behind) == (False, True)
    canvas.session.look_from("port")
    assert {hole.id: hole.behind for hole in canvas._old_holes.seen} == {"old-s": True, "old-p": False}
    canvas.session.look_from("ahead")
    assert np.array([hole.at[0] for hole in canvas._old_holes.seen]) == pytest.approx((-65, 65), abs=0.01)


def test_a_hole_is_painted_at_its_size(canvas):
    """Twenty across: its own colour inside that, the mast's outside."""
    image, at = canvas.grab().toImage(), pixel(canvas, 0.0, 8000.0)
    ink = canvas.theme.colours["second"]
    scale = canvas.span.scale
    dark = [x for x in range(-20, 21) if image.pixelColor(round(at.x()) + x, round(at.y())) == ink]
    assert len(dark) == pytest.approx(20 * scale, abs=2)


def test_a_hole_is_picked_and_dragged(canvas):
    """Thirty pixels down are as many pixels' worth of millimetres, snapping apart; one undo step."""
    session, at = canvas.session, pixel(canvas, 0.0, 8000.0)
    view = canvas.viewport()
    assert canvas.thing_at(at) == "old-s"
    dragging.press(view, at)
    dragging.move(view, at + QPointF(0, 30), dragging.CONTROL)
    dragging.release(view, at + QPointF(0, 30))
    assert session.hand == "old-s"
    hole = next(hole for hole in session.layout.holes if hole.id == "old-s")
    assert hole.from_masthead_mm == pytest.approx(8000 + 30 / canvas.span.scale, abs=1)
    assert session.undo.count() == 1

"""The form of the foot: typical until it is typed from the part in hand."""

import pytest
from builders import a_foot
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from mastlayout.model.edits import change
from mastlayout.ui.hand.foot import FootDialog
from mastlayout.ui.hand.panel import HandPanel


@pytest.fixture
def form(session, theme, qtbot):
    """The form of a fitting whose foot is typical, opened with the button."""
    session.take(change(session.layout, "box-2", in_hand=None))
    panel = HandPanel(session, theme)
    qtbot.addWidget(panel)
    panel.resize(694, 400)
    with qtbot.waitActive(panel):
        panel.show()
    session.pick("box-2")
    assert panel.grid.text_of("foot") == "110 × 60, typical"
    panel.grid.foot.setFocus()
    QTest.keyClick(panel.grid.foot, Qt.Key.Key_Space)
    yield panel.foot_form
    panel.close()


def in_hand(session):
    """The foot in hand of the fitting."""
    return next(one.in_hand for one in session.layout.fittings if one.id == "box-2")


def test_confirmed_as_it_is_the_typical_foot_is_in_hand(form, session):
    """The very pattern of the kind, as one undo step."""
    form.confirm()
    assert in_hand(session) == session.layout.kinds[0].foot
    assert session.undo.undoText() == "Confirm the foot of Hailer"


def test_size_and_every_hole_can_be_typed(form, session):
    """In any unit; a hole added takes the fastener above it, one taken away is gone."""
    form.sizes["across_mm"].setText("9 cm")
    form.holes.item(0, 0).setText("-25")
    form.holes.item(0, 2).setText("M5 tapped, stainless")
    form.holes.setCurrentCell(1, 0)
    form.remove_hole()
    form.add_hole()
    form.holes.item(3, 1).setText("1/2 in")
    form.confirm()
    foot = in_hand(session)
    assert (foot.across_mm, foot.along_mm) == (90.0, 60.0)
    assert [(hole.across_mm, hole.along_mm, str(hole.fastener)) for hole in foot.holes] == [
        (-25.0, 15.0, "M5 tapped, stainless"),
        (-30.0, -15.0, "M6 tapped, aluminium"),
        (30.0, -15.0, "M6 tapped, aluminium"),
        (0.0, 12.7, "M6 tapped, aluminium"),
    ]


@pytest.mark.parametrize(
    ("column", "typed", "said"),
    [
        (0, "far", "Hole 2, across: “far” is not a length"),
        (2, "glue", "is no fastener"),
        (3, "0", "Hole 2, diameter: 0 is no size of a foot"),
    ],
)
def test_a_wrong_hole_is_named_and_nothing_is_recorded(form, session, column, typed, said):
    """The form stays open with its sentence."""
    form.holes.item(1, column).setText(typed)
    form.confirm()
    assert said in form.said.text()
    assert form.isVisible()
    assert in_hand(session) is None
    assert session.undo.count() == 0


def test_a_foot_without_size_is_refused(form, session):
    """More than 0 is needed across."""
    form.sizes["across_mm"].setText("0")
    form.confirm()
    assert "Across, along the girth: 0 is no size of a foot" in form.said.text()
    assert in_hand(session) is None


def test_a_foot_longer_than_the_mast_is_refused(form, session):
    """A slipped digit: the mast is 17000 long."""
    form.sizes["along_mm"].setText("60000")
    form.confirm()
    assert (
        "Along the mast: 60000 is no size of a foot: more than 0 to 17\u2009000 is allowed"
        in form.said.text()
    )
    assert in_hand(session) is None


def test_thickness_and_liner_can_be_typed(form, session):
    """By the calliper; no liner is 0, less is refused, and what nobody typed is not written down."""
    form.sizes["thickness_mm"].setText("1/4 in")
    form.sizes["liner_mm"].setText("-1")
    form.confirm()
    assert "Liner under it: -1 is no size of a foot: 0 to 17\u2009000 is allowed" in form.said.text()
    assert in_hand(session) is None
    form.sizes["liner_mm"].setText("0")
    form.confirm()
    foot = in_hand(session)
    assert (foot.thickness_mm, foot.liner_mm) == (6.35, 0.0)
    typical = session.layout.kinds[0].foot
    assert foot.model_fields_set == typical.model_fields_set | {"thickness_mm", "liner_mm"}


def test_how_it_lies_its_radius_and_its_bar_can_be_typed(form, session):
    """The radius asked for by the measure list is typed here; left empty it is not known."""
    form.seat.setCurrentIndex(form.seat.findData("radiused"))
    form.sizes["backing_mm"].setText("4")
    form.confirm()
    assert (in_hand(session).seat, in_hand(session).radius_mm, in_hand(session).backing_mm) == (
        "radiused", None, 4.0
    )  # fmt: skip
    session.undo.undo()
    form.lacking["radius_mm"].setText("-3")
    form.confirm()
    assert "Radius of its underside: -3 is no size of a foot" in form.said.text()
    form.lacking["radius_mm"].setText("70")
    form.confirm()
    assert in_hand(session).radius_mm == 70.0


def test_in_inches_a_foot_is_read_by_the_calliper(session, theme, qtbot):
    """30 and 15 are 1.181 and 0.591 in, not 1 3/16 and 9/16; what nobody types anew is kept."""
    session.write_in("inches")
    fitting = next(one for one in session.layout.fittings if one.id == "box-2")
    foot = session.layout.kinds[0].foot
    dialog = FootDialog(session, fitting, foot)
    qtbot.addWidget(dialog)
    assert [dialog.holes.item(0, column).text() for column in (0, 1)] == [
        "\N{MINUS SIGN}1.181 in (\N{MINUS SIGN}30 mm)",
        "0.591 in (15 mm)",
    ]
    dialog.holes.item(0, 0).setText("-1.2 in")
    assert dialog.typed().holes[0].across_mm == pytest.approx(-30.48)
    assert dialog.typed().holes[1:] == foot.holes[1:]


def test_corners_of_its_cut_outs_can_be_typed(session, theme, qtbot):
    """All of a foot's at once; left as they are they stay as they were."""
    foot = a_foot(cutouts=[{"width_mm": 16, "length_mm": 80}], along_mm=120)
    dialog = FootDialog(session, session.layout.fittings[0], foot)
    qtbot.addWidget(dialog)
    assert dialog.typed().cutouts == foot.cutouts
    dialog.lacking["corner_mm"].setText("8")
    assert [cut.corner_radius_mm for cut in dialog.typed().cutouts] == [8.0]

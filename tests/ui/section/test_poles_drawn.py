"""Poles in the section: which are drawn, called what, and picked."""

import pytest

from mastlayout.desk import Desk
from mastlayout.model.edits import change
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document
from mastlayout.ui.section.canvas import SectionCanvas
from mastlayout.ui.section.poles import poles_at


@pytest.fixture
def canvas(session, theme, qtbot):
    """The section of Turnstone on screen."""
    session.open(Desk(open_document(demo_masts() / "turnstone.toml").layout))
    made = SectionCanvas(session, theme)
    qtbot.addWidget(made)
    made.resize(420, 420)
    with qtbot.waitExposed(made):
        made.show()
    return made


def words(canvas):
    """What its call-outs say of the pole."""
    canvas.arrange()
    return {row.callout.words for row in canvas.rows if row.callout.id == "spinnaker-pole"}


def test_a_pole_is_drawn_where_it_swings_and_where_it_is_stowed(canvas, session):
    """Level with its ring both; above its reach the stowed tube; above that nothing."""
    for z_mm, said in (
        (960.0, {"Spinnaker pole swings here", "Spinnaker pole, stowed"}),
        (2600.0, {"Spinnaker pole, stowed"}),
        (3400.0, set()),
    ):
        session.go_to(z_mm)
        assert words(canvas) == said
    assert not canvas.grab().isNull()


def test_with_the_sails_put_away_only_the_pole_in_hand_is_drawn(canvas, session):
    """As the cloth is."""
    session.go_to(960.0)
    session.draw_sails(drawn=False)
    assert not list(poles_at(session))
    session.pick("spinnaker-pole")
    session.go_to(960.0)
    assert [one.id for one in poles_at(session)] == ["spinnaker-pole"]


def test_an_edited_pole_is_drawn_as_it_is_now(canvas, session):
    """Shown at once, though nothing else at that height changed."""
    session.go_to(960.0)
    session.pick("spinnaker-pole")
    session.go_to(960.0)
    assert "Spinnaker pole, stowed" in {row.callout.words for row in canvas.rows}
    session.edit(change(session.layout, "spinnaker-pole", stowed_on="deck"), "Change Spinnaker pole")
    assert "Spinnaker pole, stowed" not in {row.callout.words for row in canvas.rows}
    assert "Spinnaker pole swings here" in {row.callout.words for row in canvas.rows}

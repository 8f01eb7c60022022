"""The first layout holds what was answered, and leaves the rest unknown."""

import pytest

from mastlayout.desk import Desk
from mastlayout.errors import NotKnownError
from mastlayout.model.first_answers import FirstAnswers
from mastlayout.model.first_layout import first_layout
from mastlayout.model.mast import Ellipse

SECTION = Ellipse(shape="ellipse", length_mm=206.0, width_mm=139.0)


def test_length_and_section_are_enough():
    """A mast of two answers has a scene; everything else stays unknown."""
    made = first_layout("", FirstAnswers(mast_length_mm=17300.0, section_known=True), SECTION)
    assert Desk(made).scene.skin.length_mm == 17300.0
    assert made.mast.step is None
    assert made.mast.track is None
    assert made.model_fields_set.isdisjoint({"spreaders", "sails", "stays", "fittings"})


@pytest.mark.parametrize(
    ("length", "section"), [(None, SECTION), (17300.0, None)], ids=["no length", "no section"]
)
def test_without_length_or_section_there_is_no_mast(length, section):
    """Neither is ever made up."""
    with pytest.raises(NotKnownError, match="length and its section"):
        first_layout("Tern", FirstAnswers(mast_length_mm=length), section)


def test_none_is_an_answer():
    """No spreaders and no headsail are recorded as lists that somebody looked for."""
    made = first_layout("Tern", FirstAnswers(9000.0, True, "deck", 0, "none"), SECTION)
    assert {"spreaders", "sails"} <= made.model_fields_set
    assert made.mast.step == "deck"
    assert made.note == ""


def test_an_answer_without_a_height_is_kept_as_a_note():
    """Two pairs of spreaders and a radar are not lost, and not placed either."""
    made = first_layout("Tern", FirstAnswers(9000.0, True, "keel", 2, "furled", ("Radar", "Horn")), SECTION)
    assert "Pairs of spreaders: 2" in made.note
    assert "on a furler" in made.note
    assert "Radar, Horn" in made.note
    assert not made.fittings


def test_a_length_no_mast_has_is_refused_with_a_sentence():
    """A kilometre is out of what a tape reads here."""
    with pytest.raises(NotKnownError, match="1e\\+06 mm cannot be"):
        first_layout("Tern", FirstAnswers(1_000_000.0, True), SECTION)

"""Names where room is short."""

import pytest
from PySide6.QtGui import QFontMetricsF

from mastlayout.ui.inwords import in_words
from mastlayout.ui.look import BODY, font, load_fonts


@pytest.mark.parametrize(
    ("name", "room_of", "said"),
    [
        ("Tang, lower, P", "Tang, lower, P", "Tang, lower, P"),
        (
            "Diamond tang, lower, with turnbuckle, P",
            "Diamond tang, lower, with …, P",
            "Diamond tang, lower, with …, P",
        ),
        ("Diamond tang, lower, with turnbuckle, P", "Diamond tang, lower …, P", "Diamond tang, lower …, P"),
        ("Steaming and deck light, in a hoop", "Steaming and deck …", "Steaming and deck …"),
    ],
)
def test_whole_words_go_and_the_side_stays(qapp, name, room_of, said):
    """In the room of what is expected, and one pixel over, that is what stands."""
    load_fonts()
    metrics = QFontMetricsF(font(BODY))
    for spare in (0.01, 1.0):
        assert in_words(name, metrics, metrics.horizontalAdvance(room_of) + spare) == said


def test_one_word_too_long_is_cut_at_its_end(qapp):
    """Nothing is wider than its room."""
    load_fonts()
    metrics = QFontMetricsF(font(BODY))
    said = in_words("Mastheadtricolouranchorlight", metrics, 80.0)
    assert metrics.horizontalAdvance(said) <= 80.0
    assert said.endswith("…")

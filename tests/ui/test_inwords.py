"""Names where room is short."""

import pytest
from PySide6.QtGui import QFontMetricsF

from mastlayout.resources import demo_masts
from mastlayout.storage.reading import load
from mastlayout.ui.elevation.span import LEAST_WORDS_PX
from mastlayout.ui.inwords import in_words
from mastlayout.ui.look import BODY, LABEL, font, load_fonts


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


DIAMONDS = ("Diamond tang, lower, with turnbuckle, P", "Diamond tang, upper, P", "Diamond spreader, P",
            "Diamond spreader bracket, P", "Diamond tang, upper, S", "Diamond tang, lower, P")  # fmt: skip


@pytest.mark.parametrize(
    ("name", "room_of", "said"),
    [
        (DIAMONDS[1], "Diamond … upper, P", "Diamond … upper, P"),
        (DIAMONDS[0], "Diamond … turnbuckle, P", "Diamond … turnbuckle, P"),
        (DIAMONDS[3], "Diamond … bracket, P", "Diamond … bracket, P"),
        (DIAMONDS[1], "Dia… upper, P", "Dia… upper, P"),
        (DIAMONDS[5], DIAMONDS[5], DIAMONDS[5]),
    ],
)
def test_what_tells_a_name_from_another_stays(qapp, name, room_of, said):
    """The words that only this one has, in its room."""
    load_fonts()
    metrics = QFontMetricsF(font(BODY))
    assert in_words(name, metrics, metrics.horizontalAdvance(room_of) + 0.01, DIAMONDS) == said


@pytest.mark.parametrize("demo", ["sanderling", "whimbrel", "turnstone"])
def test_no_two_things_read_alike(qapp, demo):
    """All that is on the mast, in every room from that of the narrowest column of labels up."""
    load_fonts()
    metrics = QFontMetricsF(font(LABEL))
    names = tuple({one.name for one in load(demo_masts() / f"{demo}.toml").fittings})
    for room in range(int(LEAST_WORDS_PX), 260, 3):
        said = [in_words(name, metrics, room, names) for name in names]
        assert len(set(said)) == len(names), room
        assert all(metrics.horizontalAdvance(words) <= room for words in said)


def test_a_number_in_the_middle_stays(qapp):
    """Of three hundred alike but for a number each keeps its own."""
    load_fonts()
    metrics = QFontMetricsF(font(LABEL))
    names = tuple(f"Fitting number {i}, with a long name, {'PS'[i % 2]}" for i in range(300))
    said = {in_words(name, metrics, LEAST_WORDS_PX, names) for name in names}
    assert len(said) == len(names)

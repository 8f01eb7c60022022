"""The start page: six questions to a first layout, by keys alone."""

import pdfplumber
import pytest
from PySide6.QtCore import Qt
from window_builder import a_window

from mastlayout.ui.start.answers import KEYS
from mastlayout.ui.start.pictures import Picture


@pytest.fixture
def window(qtbot, tmp_path):
    """A window without a layout."""
    return a_window(qtbot, tmp_path)


def press(qtbot, window, *keys):
    """Press keys one after the other, each where the focus is."""
    for key in keys:
        qtbot.keyClick(window.focusWidget(), key)


def test_six_questions_make_a_layout_by_keys_alone(qtbot, window):
    """What was typed is in the layout, what was not known is not."""
    start = window.start
    qtbot.keyClicks(window.focusWidget(), "17.3 m")
    press(qtbot, window, Qt.Key.Key_Return)
    assert start.at == 1
    press(qtbot, window, Qt.Key.Key_Tab)
    qtbot.keyClicks(window.focusWidget(), "206")
    press(qtbot, window, Qt.Key.Key_Tab)
    qtbot.keyClicks(window.focusWidget(), "139")
    press(qtbot, window, Qt.Key.Key_Return)
    press(qtbot, window, Qt.Key.Key_Space, Qt.Key.Key_Return)  # on the keel
    assert start.at == 3
    for _question in range(3):  # spreaders, headsail, gear: not known yet
        start.unknown.setFocus()
        press(qtbot, window, Qt.Key.Key_Return)
    mast = window.session.layout.mast
    assert (mast.length_mm, mast.section.length_mm, mast.section.width_mm) == (17300.0, 206.0, 139.0)
    assert mast.step == "keel"
    assert "spreaders" not in window.session.layout.model_fields_set
    assert window.files.unsaved


def test_not_known_yet_is_one_tab_beyond_next(qtbot, window):
    """It is as near as Next, and as large."""
    start = window.start
    press(qtbot, window, Qt.Key.Key_Tab)
    assert window.focusWidget() is start.next
    press(qtbot, window, Qt.Key.Key_Tab)
    assert window.focusWidget() is start.unknown
    assert start.unknown.size() == start.next.size()


def test_an_answer_that_cannot_be_used_is_refused_with_a_sentence(qtbot, window):
    """The question stays, and the sentence says what can be typed."""
    qtbot.keyClicks(window.focusWidget(), "long")
    press(qtbot, window, Qt.Key.Key_Return)
    assert window.start.at == 0
    assert "is not a length" in window.start.wrong.text()


def test_without_length_it_asks_for_the_length_at_the_end(window):
    """No mast is made up; the page goes back to what it needs."""
    start = window.start
    for _question in KEYS:
        start.leave_unknown()
    assert window.session is None
    assert start.at == 0
    assert "length and its section" in start.wrong.text()


def test_steps_show_what_was_answered(qtbot, window):
    """An answer stands in its step; one that is not known says so."""
    start = window.start
    qtbot.keyClicks(window.focusWidget(), "17300")
    press(qtbot, window, Qt.Key.Key_Return)
    start.leave_unknown()
    assert start.steps[0].answer == "17\u2009300"
    assert start.steps[1].answer == "not known yet"
    assert start.steps[2].answer is None


def test_a_step_can_be_gone_back_to(qtbot, window):
    """The earlier answer is still in its field and can be changed."""
    start = window.start
    qtbot.keyClicks(window.focusWidget(), "17300")
    press(qtbot, window, Qt.Key.Key_Return)
    qtbot.mouseClick(start.steps[0], Qt.MouseButton.LeftButton)
    assert start.at == 0
    assert start.fields[0].edit.text() == "17300"


def test_the_measure_list_is_saved(window, tmp_path):
    """It is the list of the answers so far, under the yacht's name."""
    path = tmp_path / "list.pdf"
    window.asks.answers["file_to_save"] = path
    window.start.yacht.setText("Curlew")
    window.start.measure.click()
    with pdfplumber.open(path) as paper:
        words = "".join(page.extract_text() for page in paper.pages)
    assert "CURLEW" in words.upper()
    assert "Length" in words


def test_examples_are_drawn_and_open(qtbot, window):
    """Three cards; a click opens the first."""
    window.start.show_examples()
    cards = [window.start._cards.itemAt(i).widget() for i in range(window.start._cards.count())]
    assert len(cards) == 3
    qtbot.mouseClick(cards[0], Qt.MouseButton.LeftButton)
    assert window.session.layout.boat.name in cards[0].accessibleName()


def test_a_new_mast_leaves_the_open_one_until_it_is_made(window, tmp_path):
    """Back from the start page nothing is lost."""
    window.start.show_examples()
    window.start._cards.itemAt(0).widget().click()
    before = window.session.layout
    window.acts["new"].trigger()
    assert window.start.isVisible()
    assert window.session.layout is before
    window.acts["back"].trigger()
    assert not window.start.isVisible()


@pytest.mark.parametrize("key", KEYS)
def test_each_question_has_its_picture(qtbot, theme, key):
    """The picture is drawn in more than one colour, and not the same as the others'."""
    picture = Picture(theme)
    qtbot.addWidget(picture)
    picture.resize(700, 360)
    pictures = []
    for asked in (key, KEYS[(KEYS.index(key) + 1) % len(KEYS)]):
        picture.ask(asked, "", asked)
        pictures.append(picture.grab().toImage())
    assert pictures[0] != pictures[1]

"""Work that lasts: its progress after half a second, its result, its failure, its cancelling."""

import threading

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QPushButton
from window_builder import a_window, whimbrel

from mastlayout.errors import EditError
from mastlayout.ui import files, waiting
from mastlayout.ui.waiting import waited


@pytest.fixture(autouse=True)
def impatient(monkeypatch):
    """Show the dialog at once, so that no test depends on time."""
    monkeypatch.setattr(waiting, "PATIENCE_S", 0.0)


def when_shown(act):
    """Do something as soon as the progress shows."""

    def look():
        shown = QApplication.activeModalWidget()
        if shown is None or not shown.isVisible():
            QTimer.singleShot(1, look)
        else:
            act(shown)

    QTimer.singleShot(0, look)


def escape(qtbot, shown):
    """Press Escape once the progress has the keys."""
    qtbot.waitUntil(shown.isActiveWindow)
    qtbot.keyClick(shown, Qt.Key.Key_Escape)


def test_progress_shows_until_the_work_ends(qtbot):
    """Words, steps and result."""
    go, seen = threading.Event(), []

    def work(between):
        between(3, 13)
        assert go.wait(10)
        return "made"

    def look(shown):
        qtbot.waitUntil(lambda: shown.value() == 3)
        seen.append((shown.labelText(), shown.maximum()))
        go.set()

    when_shown(look)
    assert waited("Checking Whimbrel …", work, None) == "made"
    assert seen == [("Checking Whimbrel …", 13)]


def test_cancel_drops_the_work_and_ends_it_at_its_next_step(qtbot):
    """The window goes on at once; the work notices when it asks."""
    go, ended = threading.Event(), threading.Event()

    def work(between):
        try:
            assert go.wait(10)
            between(1, 2)
        finally:
            ended.set()
        pytest.fail("went on after it was cancelled")

    when_shown(lambda shown: qtbot.mouseClick(shown.findChild(QPushButton), Qt.MouseButton.LeftButton))
    assert waited("Checking …", work, None) is None
    go.set()
    assert ended.wait(10)


def test_escape_cancels_too(qtbot):
    """As in every dialog."""
    go = threading.Event()
    when_shown(lambda shown: escape(qtbot, shown))
    assert waited("Checking …", lambda _between: go.wait(10), None) is None
    go.set()


@pytest.mark.parametrize("error", [EditError("no such mast"), TimeoutError("its own")])
def test_what_the_work_raises_is_raised_here(qtbot, error):
    """A time-out of its own too."""

    def work(_between):
        raise error

    with pytest.raises(type(error), match=str(error)):
        waited("Checking …", work, None)


def test_opening_that_is_cancelled_leaves_the_open_layout(qtbot, tmp_path, monkeypatch):
    """And its file."""
    window = a_window(qtbot, tmp_path)
    assert window.files.open(whimbrel(tmp_path))
    before = window.session.layout
    go = threading.Event()

    def slow(layout, document, between):
        assert go.wait(10)
        between(0, 1)

    monkeypatch.setattr(files, "Desk", slow)
    when_shown(lambda shown: escape(qtbot, shown))
    assert not window.files.open(whimbrel(tmp_path))
    go.set()
    assert window.session.layout is before
    assert window.files.path == tmp_path / "whimbrel.toml"


def test_a_dialog_whose_work_is_over_never_shows(qtbot, monkeypatch):
    """Neither steps told late nor its own timer bring it up: quick work is not seen."""
    made = []
    monkeypatch.setattr(waiting, "PATIENCE_S", 10.0)
    monkeypatch.setattr(waiting._Progress, "setValue", lambda dialog, _value: made.append(dialog))
    assert waited("Reading …", lambda between: between(1, 2) or "done", None) == "done"
    QApplication.processEvents()
    assert made == []

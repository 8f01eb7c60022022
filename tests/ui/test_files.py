"""Files in the window: nothing is lost, and each question is asked once."""

import os
import signal
import subprocess
import sys

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QTimer, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QMessageBox
from window_builder import a_window, edited, whimbrel

from mastlayout.errors import CommentsLostError, FileError, Mistake
from mastlayout.model.edits import change
from mastlayout.storage import saving
from mastlayout.storage.reading import open_document
from mastlayout.ui.asks import Asks
from mastlayout.ui.mistakes import MistakesDialog

BROKEN_KIND = b'\n[[fittings]]\nid = "ghost"\nname = "Ghost"\nkind = "no such kind"\nfrom_masthead = 100\n'


@pytest.fixture
def path(tmp_path):
    """An example on disk."""
    return whimbrel(tmp_path)


@pytest.fixture
def window(qtbot, tmp_path, path):
    """A window on the example."""
    made = a_window(qtbot, tmp_path)
    assert made.files.open(path)
    return made


def test_saving_an_edit_changes_one_line(window, path):
    """The comments and every other line are as they were, and the window says that all is saved."""
    before = path.read_text(encoding="utf-8").splitlines()
    edited(window.session)
    assert window.isWindowModified()
    assert window.files.save()
    after = path.read_text(encoding="utf-8").splitlines()
    changed = [(old, new) for old, new in zip(before, after, strict=True) if old != new]
    assert changed == [('name = "Whimbrel"', 'name = "Whimbrel II"')]
    assert not window.isWindowModified()


def test_undo_back_to_what_was_saved_is_saved(window):
    """The mark of unsaved changes goes with the last of them."""
    edited(window.session)
    window.session.undo.undo()
    assert not window.files.unsaved
    assert not window.isWindowModified()


@pytest.mark.parametrize(
    ("answer", "closes", "name"),
    [("save", True, "Whimbrel II"), ("discard", True, "Whimbrel"), ("cancel", False, "Whimbrel")],
)
def test_closing_asks_once(window, path, answer, closes, name):
    """Save writes the file, discard leaves it, cancel keeps the window open."""
    window.asks.answers["leave"] = answer
    edited(window.session)
    assert window.close() is closes
    assert window.asks.names() == ["leave"]
    assert open_document(path).layout.boat.name == name
    window.asks.answers["leave"] = "discard"


def test_closing_without_changes_asks_nothing(window):
    """There is nothing to lose."""
    assert window.close()
    assert window.asks.names() == []


def test_a_file_with_mistakes_opens_with_what_can_be_read(window, path, tmp_path):
    """Each mistake is shown with its line; saving asks for a new name, and refuses the old one."""
    broken = tmp_path / "broken.toml"
    broken.write_bytes(path.read_bytes() + BROKEN_KIND)
    line = broken.read_text(encoding="utf-8").splitlines().index('kind = "no such kind"') + 1
    assert window.files.open(broken)
    shown, at, mistakes = window.asks.asked[-1]
    assert (shown, at) == ("mistakes", broken)
    assert line in [mistake.line for mistake in mistakes]
    assert window.files.path is None
    assert window.files.unsaved
    window.asks.answers["file_to_save"] = broken
    assert not window.files.save()
    assert "parts that could not be read" in window.asks.asked[-1][1]
    assert broken.read_bytes().endswith(BROKEN_KIND)
    window.asks.answers["file_to_save"] = tmp_path / "mended.toml"
    assert window.files.save()
    assert open_document(tmp_path / "mended.toml").layout.boat.name == "Whimbrel"


def test_a_file_that_is_no_layout_leaves_the_window_as_it_was(window, tmp_path):
    """Its mistakes are shown and what is open stays open."""
    other = tmp_path / "other.toml"
    other.write_text("this is = = not", encoding="utf-8")
    before = window.session.layout
    assert not window.files.open(other)
    assert window.asks.names() == ["mistakes"]
    assert window.session.layout is before


def test_a_file_that_is_not_there_is_a_sentence(window, tmp_path):
    """The sentence names the file."""
    assert not window.files.open(tmp_path / "gone.toml")
    assert "gone.toml is not there" in window.asks.asked[-1][1]


def test_a_full_disk_loses_nothing(window, path, monkeypatch):
    """The file on disk and the unsaved edit both stay; a sentence says why."""

    def full(*_args):
        raise FileError("the disk is full")

    before = path.read_bytes()
    monkeypatch.setattr("mastlayout.storage.saving.write_whole", full)
    edited(window.session)
    assert not window.files.save()
    assert window.asks.asked[-1] == ("say", "the disk is full")
    assert path.read_bytes() == before
    assert window.files.unsaved


def elsewhere(path, name):
    """Write the file as another program would, at another time."""
    text = path.read_text(encoding="utf-8").replace('"Whimbrel"', f'"{name}"')
    path.write_text(text, encoding="utf-8")
    os.utime(path, ns=(1_000, 1_000))


def test_a_file_written_elsewhere_is_read_again_when_wanted(window, path):
    """It is asked once for each writing."""
    window.asks.answers["changed_on_disk"] = "keep"
    elsewhere(path, "Curlew")
    window.files.look_at_disk()
    window.files.look_at_disk()
    assert window.asks.names() == ["changed_on_disk"]
    assert window.session.layout.boat.name == "Whimbrel"
    window.asks.answers["changed_on_disk"] = "read"
    elsewhere(path, "Dunlin, long name")
    path.write_text(
        path.read_text(encoding="utf-8").replace("Curlew", "Knot, a longer name"), encoding="utf-8"
    )
    window.files.look_at_disk()
    assert window.session.layout.boat.name == "Knot, a longer name"


def test_saving_over_what_another_program_wrote_asks_first(window, path):
    """Cancel leaves the other program's file as it is."""
    window.asks.answers["overwrite"] = "cancel"
    elsewhere(path, "Curlew")
    edited(window.session)
    assert not window.files.save()
    assert open_document(path).layout.boat.name == "Curlew"
    window.asks.answers["overwrite"] = "overwrite"
    assert window.files.save()
    assert open_document(path).layout.boat.name == "Whimbrel II"


def test_a_dropped_file_opens(qtbot, tmp_path, path):
    """One layout file; anything else is not taken."""
    window = a_window(qtbot, tmp_path)
    for name, taken in (("picture.png", False), (str(path), True)):
        mime = QMimeData()
        mime.setUrls([QUrl.fromLocalFile(name)])
        held = (Qt.DropAction.CopyAction, mime, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier)
        enter = QDragEnterEvent(QPoint(9, 9), *held)
        enter.ignore()
        QApplication.sendEvent(window, enter)
        assert enter.isAccepted() is taken
        QApplication.sendEvent(window, QDropEvent(QPointF(9, 9), *held))
    assert window.session.layout.boat.name == "Whimbrel"


def test_after_a_crash_the_copy_is_offered_and_opened(qtbot, tmp_path, window, path):
    """The edit is there again as an unsaved change of its own file, and saving it takes the copy away."""
    edited(window.session)
    timer = window.files.copies._timer
    assert timer.isActive()
    assert 1000 <= timer.interval() <= 10_000
    timer.timeout.emit()
    window.files.copies._lock.unlock()  # as the system does when the process dies
    again = a_window(qtbot, tmp_path, recover="open")
    assert again.files.offer_copies()
    assert again.asks.asked[0][:2] == ("recover", "whimbrel.toml")
    assert again.session.layout.boat.name == "Whimbrel II"
    assert again.files.unsaved
    assert again.files.save()
    assert open_document(path).layout.boat.name == "Whimbrel II"
    assert not list((tmp_path / "recovery").glob("*.toml"))


def test_another_open_window_is_no_crash(qtbot, tmp_path, window):
    """Its copy is not offered while it lives."""
    assert not window.files.offer_copies()
    edited(window.session)
    window.files.copies.write()
    again = a_window(qtbot, tmp_path)
    assert not again.files.offer_copies()
    assert again.asks.names() == []


def test_each_window_has_its_own_copy(qtbot, tmp_path, window, path):
    """Two windows on one file keep one copy each; of the two only the one that died is offered."""
    other = a_window(qtbot, tmp_path)
    assert other.files.open(path)
    for one, name in ((window, "First"), (other, "Second")):
        edited(one.session, name)
        one.files.copies.write()
    window.files.copies._lock.unlock()  # as the system does when the process dies
    again = a_window(qtbot, tmp_path, recover="open")
    assert again.files.offer_copies()
    assert again.session.layout.boat.name == "First"
    assert [asked[0] for asked in again.asks.asked] == ["recover"]
    assert again.files.save()
    assert len(list((tmp_path / "recovery").glob("*.toml"))) == 1


KILLED = """
import os, signal, sys
from pathlib import Path
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication
from mastlayout.ui.look import load_fonts
from mastlayout.ui.theme import Theme
from mastlayout.ui.window import MainWindow
folder = Path(sys.argv[1])
app = QApplication([])
load_fonts()
settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
window = MainWindow(Theme("light"), settings, folder / "recovery")
window.files.open(folder / "whimbrel.toml")
layout = window.session.layout
window.session.edit(layout.but(boat=layout.boat.but(name="Killed")), "Name the yacht")
window.files.copies._timer.timeout.connect(lambda: os.kill(os.getpid(), signal.SIGKILL))
app.exec()
"""


def test_a_killed_program_leaves_its_copy(qtbot, tmp_path, path):
    """Some seconds after the change the copy is written; the process is killed; the next window offers it."""
    done = subprocess.run([sys.executable, "-c", KILLED, str(tmp_path)], check=False, timeout=60)
    assert done.returncode == -signal.SIGKILL
    again = a_window(qtbot, tmp_path, recover="open")
    assert again.files.offer_copies()
    assert again.session.layout.boat.name == "Killed"
    assert b"Killed" not in path.read_bytes()


def test_recent_layouts_are_newest_first_and_still_there(window, path, tmp_path):
    """A file that is gone is left out."""
    other = tmp_path / "other.toml"
    other.write_bytes(path.read_bytes())
    window.files.open(other)
    assert window.files.recent() == [other, path]
    path.unlink()
    assert window.files.recent() == [other]


def test_leaving_is_asked_with_save_as_the_default(qtbot, window):
    """The real question: Return saves, Escape cancels."""
    seen = []

    def press_escape():
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        seen.append((box.text(), box.defaultButton() is box.button(QMessageBox.StandardButton.Save)))
        qtbot.keyClick(box, Qt.Key.Key_Escape)

    QTimer.singleShot(0, press_escape)
    assert Asks(window).leave("whimbrel.toml") == "cancel"
    assert seen == [("whimbrel.toml has changes that are not saved.", True)]


def test_the_list_of_mistakes_names_lines_and_can_be_copied(qtbot, tmp_path):
    """A row for each; what has no line shows a dash."""
    dialog = MistakesDialog(
        tmp_path / "a.toml", [Mistake(7, "mast.length", "too long"), Mistake(0, "", "odd")], opened=True
    )
    qtbot.addWidget(dialog)
    rows = [[dialog.table.item(r, c).text() for c in range(3)] for r in range(dialog.table.rowCount())]
    assert rows == [["7", "mast.length", "too long"], ["–", "", "odd"]]
    dialog.copy_list()
    assert "line 7, mast.length: too long" in QApplication.clipboard().text()


def test_saving_in_a_drag_saves_what_stood_before_it(window, path):
    """What a gesture only shows is not in the file, and the drag can go on."""
    whole = path.read_bytes()
    session = window.session
    name = next(f.id for f in session.layout.fittings if f.from_masthead_mm is not None)
    session.preview(change(session.layout, name, from_masthead_mm=1234.0))
    assert window.files.save()
    assert path.read_bytes() == whole
    session.edit(change(session.layout, name, from_masthead_mm=1234.0), "Move it")
    assert window.files.unsaved


@pytest.mark.parametrize("answer", ["overwrite", "elsewhere", "cancel"])
def test_comments_are_not_lost_without_a_word(window, path, tmp_path, monkeypatch, answer):
    """Where the changes cannot be put into the text: asked once, and done as answered."""
    before = path.read_bytes()
    monkeypatch.setattr(saving, "spliced", lambda text, *_: text)
    edited(window.session)
    other = tmp_path / "other.toml"
    window.asks.answers |= {"comments_lost": answer, "file_to_save": other}
    assert window.files.save() is (answer != "cancel")
    assert window.asks.names()[-1 if answer != "elsewhere" else -2] == "comments_lost"
    assert window.files.unsaved is (answer == "cancel")
    assert (path.read_bytes() == before) is (answer != "overwrite")
    assert other.exists() is (answer == "elsewhere")
    if answer != "cancel":
        assert open_document(window.files.path).layout == window.session.layout
        count = len(window.asks.asked)
        edited(window.session, "Whimbrel III")
        assert window.files.save()
        assert len(window.asks.asked) == count  # nothing is left to lose


def test_the_question_about_comments_names_the_file(window, monkeypatch):
    """One sentence, and as the default what loses nothing."""
    shown = []
    monkeypatch.setattr(QMessageBox, "exec", lambda box: shown.append(box) or 0)
    assert Asks(window).comments_lost(str(CommentsLostError("whimbrel.toml"))) == "cancel"
    assert shown[0].text().startswith("The changes do not fit into the text of whimbrel.toml")
    assert shown[0].text().count(". ") == 0
    assert shown[0].defaultButton().text() == "Save under another name …"

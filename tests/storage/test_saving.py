"""Saving: the same bytes for no change, one line for one edit, the old file for every failure."""

import difflib
import errno
import os
import tomllib

import pytest
from builders import a_fitting, a_layout, a_spreader, a_stay

from mastlayout.errors import FileError
from mastlayout.model.edits import add, change, cut_heel, remove
from mastlayout.model.layout import Layout
from mastlayout.storage import writing
from mastlayout.storage.reading import open_document
from mastlayout.storage.recovery import MOST_COPIES, discard, find_copies, write_copy
from mastlayout.storage.saving import as_new_file, changed_on_disk, save

TYPED = """# A layout somebody typed.
format = 1

[boat]
name = "Test"   # the yacht

[mast]
length = "17 m"
section = { shape = "ellipse", length = 200, width = 130 }

[[kinds]]
id = "box"
name = "Box"
group = "sound"

# the hailer's place was argued about
[[fittings]]
id = "box-1"
name = "Box"
kind = "box"
from_masthead = "8.1 m"      # taped twice
girth = "ahead"

[[fittings]]
id = "box-2"
name = "Other"
kind = "box"
from_masthead = "26 ft 6 1/2 in"
girth = 120
"""


@pytest.fixture
def typed(tmp_path):
    """A typed file, opened."""
    path = tmp_path / "layout.toml"
    path.write_text(TYPED)
    return open_document(path)


def lines_changed(before, path):
    """Return the lines that went and came."""
    diff = difflib.ndiff(before.splitlines(), path.read_text().splitlines())
    return [line for line in diff if line[0] in "+-"]


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_read_and_saved_unchanged_is_byte_identical(tmp_path, ending, mark):
    """Line endings and a mark of byte order stay too."""
    path = tmp_path / "layout.toml"
    path.write_bytes(mark + TYPED.replace("\n", ending).encode())
    document = open_document(path)
    save(document.layout, path, document)
    assert path.read_bytes() == document.data
    saved = save(change(document.layout, "box-1", name="New"), path, document)
    assert path.read_bytes().startswith(mark)
    assert (b"\r\n" in path.read_bytes()) is (ending == "\r\n")
    assert open_document(path).layout == saved.layout


def test_one_edit_is_one_changed_line_in_its_own_unit(typed):
    """Metres stay metres, the comment behind them stays."""
    save(change(typed.layout, "box-1", from_masthead_mm=8150.0), typed.path, typed)
    assert lines_changed(TYPED, typed.path) == [
        '- from_masthead = "8.1 m"      # taped twice',
        '+ from_masthead = "8.15 m"      # taped twice',
    ]


@pytest.mark.parametrize(("to_mm", "text"), [(26.5 * 304.8, '"26 ft 6 in"'), (8000.0, "8000")])
def test_feet_stay_feet_where_they_are_exact(typed, to_mm, text):
    """26 ft 6 in is 8077.2 mm; 8000 mm is no whole sixteenth, so it is written in mm."""
    save(change(typed.layout, "box-2", from_masthead_mm=to_mm), typed.path, typed)
    assert f"+ from_masthead = {text}" in lines_changed(TYPED, typed.path)


def test_a_second_edit_keeps_the_first(typed):
    """Saving twice edits the text that the first save left."""
    once = save(change(typed.layout, "box-1", girth="30 to port of ahead"), typed.path, typed)
    save(change(once.layout, "box-1", new=True), typed.path, once)
    assert lines_changed(TYPED, typed.path) == [
        '- girth = "ahead"', '+ girth = "30 to port of ahead"', "+ new = true"]  # fmt: skip


def test_added_and_removed_items_leave_the_rest_alone(typed):
    """One comes at the end of its list, one goes with its own lines only."""
    layout = add(remove(typed.layout, "box-2"), "fittings", a_fitting("box-3", new=False, in_hand=None))
    save(layout, typed.path, typed)
    assert open_document(typed.path).layout == layout
    assert "# the hailer's place was argued about" in typed.path.read_text()
    with pytest.raises(Exception, match="given before"):
        add(layout, "fittings", a_fitting("box-2"))


def test_cutting_the_heel_changes_the_length_alone(typed):
    """17 m less 60 mm."""
    save(cut_heel(typed.layout, 60.0), typed.path, typed)
    assert lines_changed(TYPED, typed.path) == ['- length = "17 m"', '+ length = "16.94 m"']


def test_a_new_file_reads_back(tmp_path):
    """A layout that was never a file becomes one with a head that says how to read it."""
    layout = a_layout(spreaders=(a_spreader(),), stays=(a_stay(),))
    save(layout, tmp_path / "new.toml")
    assert open_document(tmp_path / "new.toml").layout == layout
    assert (tmp_path / "new.toml").read_text().startswith("# A mast layout.")


def test_a_change_on_disk_is_noticed(typed):
    """Another program's edit, and a file that is gone."""
    assert not changed_on_disk(typed)
    typed.path.write_text(TYPED + "# more\n")
    assert changed_on_disk(typed)
    typed.path.unlink()
    assert changed_on_disk(typed)


class Full:
    """A file on a full disk: it takes a part and says so, or takes nothing."""

    def __init__(self, handle, short):
        self._handle, self._short = handle, short

    def __enter__(self):
        return self

    def __exit__(self, *_):
        os.close(self._handle)

    def write(self, data):
        """Take half, or refuse."""
        if self._short:
            return len(data) // 2
        raise OSError(errno.ENOSPC, "No space left on device")


@pytest.mark.parametrize("short", [True, False])
def test_a_full_disk_leaves_the_old_file(typed, monkeypatch, short):
    """A short write counts as a failure; nothing half-written stays."""
    monkeypatch.setattr(writing.os, "fdopen", lambda handle, _mode: Full(handle, short))
    with pytest.raises(FileError, match="could not be written"):
        save(change(typed.layout, "box-1", name="New"), typed.path, typed)
    assert typed.path.read_text() == TYPED
    assert [p.name for p in typed.path.parent.iterdir()] == ["layout.toml"]


def test_a_crash_before_the_rename_leaves_the_old_file(typed, monkeypatch):
    """The new text is complete elsewhere before it takes the old one's place."""
    monkeypatch.setattr(writing.os, "replace", lambda *_: (_ for _ in ()).throw(OSError(errno.EIO, "gone")))
    with pytest.raises(FileError):
        save(change(typed.layout, "box-1", name="New"), typed.path, typed)
    assert typed.path.read_text() == TYPED


def test_a_folder_or_a_missing_folder_is_refused(tmp_path):
    """Neither takes a file's name."""
    for path in (tmp_path, tmp_path / "none" / "x.toml"):
        with pytest.raises(FileError):
            save(a_layout(), path)


def test_a_link_is_kept_and_what_it_points_to_is_written(typed, tmp_path):
    """Saving through a link writes the file behind it."""
    link = tmp_path / "link.toml"
    link.symlink_to(typed.path)
    save(change(typed.layout, "box-1", name="New"), link, typed)
    assert link.is_symlink()
    assert "New" in typed.path.read_text()


def test_recovery_copies_are_found_and_kept_few(tmp_path):
    """One copy for each file, the newest first, never more than twenty; a spoilt one is passed over."""
    for i in range(MOST_COPIES + 3):
        write_copy(tmp_path, a_layout(), tmp_path / f"{i}.toml")
    write_copy(tmp_path, a_layout(), None)
    copies = find_copies(tmp_path)
    assert len(copies) == MOST_COPIES
    copies[0].path.write_text("spoilt")
    assert len(find_copies(tmp_path)) == MOST_COPIES - 1
    discard(copies[1])
    assert len(find_copies(tmp_path)) == MOST_COPIES - 2


def test_what_is_not_known_is_not_written():
    """None is no key of a new file."""
    tables = tomllib.loads(as_new_file(a_layout(stays=(a_stay(wire_mm=None),))).decode())
    assert "wire" not in tables["stays"][0]
    assert isinstance(Layout.model_validate(tables, by_alias=True, by_name=False), Layout)

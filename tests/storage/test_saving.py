"""Saving: the same bytes for no change, one line for one edit, the old file for every failure."""

import difflib
import errno
import os
import random
import tomllib
from pathlib import Path

import ezdxf
import pytest
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast, a_spreader, a_stay

from mastlayout.errors import CommentsLostError, FileError
from mastlayout.model.edits import add, change, cut_heel, remove
from mastlayout.model.layout import Accepted, Layout, LimitOverride
from mastlayout.model.mast import Conduit, RoundedBox, Run, Taper, Wall
from mastlayout.resources import demo_masts
from mastlayout.storage import saving, writing
from mastlayout.storage.reading import changed_on_disk, open_document
from mastlayout.storage.recovery import MOST_COPIES, discard, find_copies, write_copy
from mastlayout.storage.saving import as_new_file, save

TYPED = """# A layout somebody typed.
format = 1

[boat]
name = "Test"   # the yacht

[mast]
length = "17 m"
section = { shape = "ellipse", length = 200, width = 130 }   # tape round it: 523
walls = [
  { from_masthead = 350, thickness = 3.9 },   # at the cap shroud bolt
  { from_masthead = 11010, thickness = 3.8 }  # at the steaming light
]
conduits = [{ id = "a", name = "A", runs = [] }]

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

# its cable, kept beside it
[[cables]]
id = "cable-1"
name = "Hailer cable"
fitting = "box-1"

# the horn
[[fittings]]
id = "box-2"
name = "Other"
kind = "box"
from_masthead = "26 ft 6 1/2 in"
girth = 120

[fittings.as_built]
by = "Ann"
day = "2026-01-01"

# ---------------------------- the end
"""


@pytest.fixture
def typed(tmp_path):
    """A typed file, opened."""
    path = tmp_path / "layout.toml"
    path.write_text(TYPED, encoding="utf-8")
    return open_document(path)


def lines_changed(before, path):
    """Return the lines that went and came."""
    diff = difflib.ndiff(before.splitlines(), path.read_text(encoding="utf-8").splitlines())
    return [line for line in diff if line[0] in "+-"]


def saved(document, layout):
    """Save over the document's own file; return the lines that went and came."""
    before = document.path.read_text(encoding="utf-8")
    save(layout, document.path, document)
    assert open_document(document.path).layout == layout
    return lines_changed(before, document.path)


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_read_and_saved_unchanged_is_byte_identical(tmp_path, ending, mark):
    """Line endings and a mark of byte order stay, when something changes too."""
    path = tmp_path / "layout.toml"
    path.write_bytes(mark + TYPED.replace("\n", ending).encode())
    document = open_document(path)
    again = save(document.layout, path, document)
    assert path.read_bytes() == document.data == again.data
    save(change(document.layout, "box-1", name="New", note="n"), path, document)
    expected = TYPED.replace('name = "Box"\nkind', 'name = "New"\nkind')
    expected = expected.replace('girth = "ahead"\n', 'girth = "ahead"\nnote = "n"\n')
    assert path.read_bytes() == mark + expected.replace("\n", ending).encode()


@pytest.mark.parametrize(
    ("fields", "lines"),
    [
        (
            {"from_masthead_mm": 8150.0},
            ['- from_masthead = "8.1 m"      # taped twice', '+ from_masthead = "8.15 m"      # taped twice'],
        ),
        ({"girth": "30 to port of ahead"}, ['- girth = "ahead"', '+ girth = "30 to port of ahead"']),
        ({"new": True}, ["+ new = true"]),
        ({"tag": 12}, ["+ tag = 12"]),
    ],
)
def test_one_edit_is_one_changed_line(typed, fields, lines):
    """Among lists that stand between one another the line stays where it is, with its comment."""
    assert saved(typed, change(typed.layout, "box-1", **fields)) == lines


def test_feet_stay_feet_where_they_are_exact(typed):
    """26 ft 8 1/2 in is 26 x 304.8 + 8.5 x 25.4 = 8140.7 mm."""
    lines = saved(typed, change(typed.layout, "box-2", from_masthead_mm=8140.7))
    assert lines == ['- from_masthead = "26 ft 6 1/2 in"', '+ from_masthead = "26 ft 8 1/2 in"']


def test_cutting_the_heel_changes_the_length_alone(typed):
    """17 m less 60 mm."""
    assert saved(typed, cut_heel(typed.layout, 60.0)) == ['- length = "17 m"', '+ length = "16.94 m"']


def test_a_second_edit_keeps_the_first(typed):
    """Saving twice edits the text that the first save left."""
    once = save(change(typed.layout, "box-1", girth="30 to port of ahead"), typed.path, typed)
    assert saved(once, change(once.layout, "box-1", new=True)) == ["+ new = true"]


def test_a_removed_fitting_takes_its_own_lines_and_comment_and_no_others(typed):
    """The cable behind it and the comment over the next fitting stay where they are."""
    layout = remove(typed.layout, "cable-1")
    document = save(layout, typed.path, typed)
    lines = saved(document, remove(layout, "box-1"))
    assert lines == [
        '- retired = ["cable-1"]',
        '+ retired = ["cable-1", "box-1"]',
        "- # the hailer's place was argued about",
        "- [[fittings]]",
        '- id = "box-1"',
        '- name = "Box"',
        '- kind = "box"',
        '- from_masthead = "8.1 m"      # taped twice',
        '- girth = "ahead"',
        "- ",
    ]


def test_the_last_of_a_list_goes_with_all_that_is_its_own(typed):
    """What was built of it stands under a header of its own, and goes too."""
    text = TYPED.replace("fitting =", "# fitting =")
    typed.path.write_text(text, encoding="utf-8")
    document = open_document(typed.path)
    saved(document, remove(document.layout, "box-2"))
    assert typed.path.read_text(encoding="utf-8").endswith(
        '# fitting = "box-1"\n\n# ---------------------------- the end\n'
    )


def test_an_added_fitting_stands_behind_the_last_of_its_list(typed):
    """With a foot too wide for one line under its own header; what stood behind stays behind."""
    fitting = a_fitting("box-3", new=False, from_masthead_mm=9000.5)
    lines = saved(typed, add(typed.layout, "fittings", fitting))
    assert lines[:8] == [
        "+ [[fittings]]",
        '+ id = "box-3"',
        '+ name = "box-3"',
        '+ kind = "box"',
        "+ from_masthead = 9000.5",
        '+ girth = "ahead"',
        "+ new = false",
        "+ ",
    ]
    assert all(line.startswith("+") for line in lines)
    assert typed.path.read_text(encoding="utf-8").endswith("\n\n# ---------------------------- the end\n")


def test_the_first_of_a_list_comes_at_the_end_of_the_file(typed):
    """Nothing of the kind was there before."""
    layout = add(typed.layout, "spreaders", a_spreader())
    assert saved(typed, layout)[:3] == ["+ ", "+ [[spreaders]]", '+ id = "spreader-p"']


WALL = Wall(from_masthead_mm=1.0, thickness_mm=4.0)
RUN = Run(from_masthead_mm=1.0, to_mm=9.0)
BOX = RoundedBox(shape="rounded box", length_mm=200, width_mm=130, corner_radius_mm=20)
TAPER = Taper(from_masthead_mm=900, length_mm=90, width_mm=60)

# What is changed of the mast, and how many lines come and go for it.
MAST_EDITS = {
    "a wall changed": (lambda m: {"walls": (m.walls[0], m.walls[1].but(thickness_mm=3.7))}, 1, 1),
    "a wall added, with a comma before it": (lambda m: {"walls": (*m.walls, WALL)}, 2, 1),
    "a wall put first": (lambda m: {"walls": (WALL, *m.walls)}, 1, 0),
    "the first wall gone": (lambda m: {"walls": m.walls[1:]}, 0, 1),
    "all walls gone": (lambda m: {"walls": ()}, 0, 2),
    "a width": (lambda m: {"section": m.section.but(width_mm=131.0)}, 1, 1),
    "another section": (lambda _m: {"section": BOX}, 1, 1),
    "no conduits": (lambda _m: {"conduits": ()}, 1, 1),
    "conduits not known": (lambda _m: {"conduits": None}, 0, 1),
    "a run": (lambda m: {"conduits": (m.conduits[0].but(runs=(RUN,)),)}, 1, 1),
    "a bore": (lambda m: {"conduits": (m.conduits[0].but(bore_mm=38.0),)}, 1, 1),
    "a second conduit": (lambda m: {"conduits": (*m.conduits, Conduit(id="b", name="B", runs=()))}, 1, 1),
    "taper none": (lambda _m: {"taper": "none"}, 1, 0),
    "a taper": (lambda _m: {"taper": TAPER}, 1, 0),
}


@pytest.mark.parametrize(("edit", "came", "went"), MAST_EDITS.values(), ids=MAST_EDITS)
def test_an_edit_of_the_mast_touches_its_own_line(typed, edit, came, went):
    """Inside lists and tables on one line or many; only a missing comma touches the line before."""
    mast = typed.layout.mast
    signs = [line[0] for line in saved(typed, typed.layout.but(mast=mast.but(**edit(mast))))]
    assert (signs.count("+"), signs.count("-")) == (came, went)


def test_other_parts_are_added_and_changed(typed):
    """A limit of one's own, an accepted finding, a note: the text before stays as it is."""
    layout = typed.layout.but(
        limits=(LimitOverride(key="a.b", value=12.0, unit="mm", why="rigger's word"),),
        accepted=(Accepted(code="x", subjects=("box-1",), remark="ok", day="2026-01-01", measured=1.5),),
        note="So it is.\n“Ja”",
    )
    assert not [line for line in saved(typed, layout) if line[0] == "-"]


def test_a_kind_from_the_catalogue_is_put_into_the_file_with_the_first_change(typed):
    """Unchanged, the file stays as it is; changed, it carries the kind it uses from then on."""
    typed.path.write_text(TYPED.replace('kind = "box"', 'kind = "hailer"'), encoding="utf-8")
    document = open_document(typed.path)
    again = save(document.layout, typed.path, document)
    assert typed.path.read_bytes() == document.data
    lines = saved(again, change(again.layout, "box-1", new=True))
    assert {"+ new = true", "+ [[kinds]]", '+ id = "hailer"'} <= set(lines)
    assert not open_document(typed.path).taken


DOTTED = """format = 1
boat.name = "T"
mast.length = 17000
mast.section.shape = "ellipse"
mast.section.length = 200
mast.section.width = 130
fittings = []
"""
PART_FIRST = """format = 1
boat = {name = "T"}
[mast.section]
shape = "ellipse"
length = 200
width = 130
[mast]
length = 17000"""


def test_a_table_in_braces_over_several_lines_keeps_its_comment(tmp_path):
    """As TOML 1.1 has it: read, edited, and saved with one line changed."""
    path, braces = tmp_path / "layout.toml", "{\n  length = 200, # by calliper\n  width = 130,\n"
    section = f'mast.section = {braces}  shape = "ellipse",\n}}\n'
    path.write_text(f'format = 1\nboat.name = "T"\nmast.length = 17000\n{section}', encoding="utf-8")
    document = open_document(path)
    mast = document.layout.mast
    new = document.layout.but(mast=mast.but(section=mast.section.but(length_mm=201.0)))
    assert saved(document, new) == ["-   length = 200, # by calliper", "+   length = 201, # by calliper"]


@pytest.mark.parametrize("text", [DOTTED, PART_FIRST], ids=["dotted", "part first"])
def test_unusual_layouts_of_the_text_are_edited_too(tmp_path, text):
    """Dotted keys, a table on one line, a table's part before the table, no line end at the end."""
    path = tmp_path / "layout.toml"
    path.write_text(text, encoding="utf-8")
    document = open_document(path)
    mast = document.layout.mast
    section = mast.section.but(length_mm=201.0)
    boat = document.layout.boat.but(length_overall_mm=9000.0)
    new = document.layout.but(
        mast=mast.but(rake_deg=1.5, section=section), boat=boat, spreaders=(a_spreader(),), note="n"
    )
    lines = saved(document, new)
    assert len([line for line in lines if line[0] == "-"]) <= 2 + (not text.endswith("\n"))


def test_a_text_that_cannot_be_cut_is_written_anew_once_that_is_wanted(typed, monkeypatch):
    """Comments are lost with a word before, and the layout never is."""
    monkeypatch.setattr(saving, "spliced", lambda *_: TYPED)
    layout = change(typed.layout, "box-1", name="New")
    with pytest.raises(CommentsLostError, match=typed.path.name):
        save(layout, typed.path, typed)
    assert typed.path.read_text(encoding="utf-8") == TYPED
    save(layout, typed.path, typed, anew=True)
    assert open_document(typed.path).layout == layout


@pytest.mark.parametrize("sign", ["#", "no comment"])
def test_without_comments_it_is_written_anew_at_once(tmp_path, monkeypatch, sign):
    """The head that every new file gets is none, nor is a # within a name."""
    path = tmp_path / "own.toml"
    document = save(a_layout(fittings=(a_fitting(name=f"Box {sign} 1"),)), path)
    monkeypatch.setattr(saving, "spliced", lambda text, *_: text)
    layout = change(document.layout, "box-1", name="New")
    save(layout, path, document)
    assert open_document(path).layout == layout


def test_a_new_file_reads_back(tmp_path):
    """A layout that was never a file becomes one with a head that says how to read it."""
    layout = a_layout(spreaders=(a_spreader(),), stays=(a_stay(),))
    path = tmp_path / "new.toml"
    document = save(layout, path)
    assert open_document(path).layout == layout
    assert document.data == path.read_bytes()
    assert path.read_text(encoding="utf-8").startswith("# A mast layout.")


def test_the_drawing_of_an_outline_goes_along_as_points(tmp_path):
    """In the drawing's own folder the file stays as it is; saved elsewhere it holds the points."""
    drawing = ezdxf.new(units=ezdxf.units.MM)
    corners = [(60, 25), (25, 60), (-25, 60), (-60, 25), (-60, -25), (-25, -60), (25, -60), (60, -25)]
    drawing.modelspace().add_lwpolyline(corners, close=True)
    drawing.saveas(tmp_path / "outline.dxf")
    text = TYPED.replace('"ellipse", length = 200, width = 130', '"points", dxf = "outline.dxf"')
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    document = open_document(tmp_path / "a.toml")
    assert saved(document, change(document.layout, "box-1", new=True)) == ["+ new = true"]
    there = tmp_path / "there"
    there.mkdir()
    save(document.layout, there / "a.toml", document)
    assert open_document(there / "a.toml").layout == document.layout
    assert "# tape round it: 523" in (there / "a.toml").read_text(encoding="utf-8")


def test_a_change_on_disk_is_noticed(typed):
    """Another program's edit, and a file that is gone."""
    assert not changed_on_disk(typed)
    typed.path.write_text(TYPED + "# more\n", encoding="utf-8")
    assert changed_on_disk(typed)
    typed.path.unlink()
    assert changed_on_disk(typed)


def refused(document, match):
    """Save an edit that must be refused; the old file stays and nothing stands beside it."""
    with pytest.raises(FileError, match=match):
        save(change(document.layout, "box-1", name="New"), document.path, document)
    assert document.path.read_text(encoding="utf-8") == TYPED
    assert [path.name for path in document.path.parent.iterdir()] == ["layout.toml"]


def failing(number):
    """Return a stand-in that fails as the system does."""
    return lambda *_args, **_how: (_ for _ in ()).throw(OSError(number, os.strerror(number)))


def test_a_crash_before_the_rename_leaves_the_old_file(typed, monkeypatch):
    """The new text is complete elsewhere before it takes the old one's place."""
    monkeypatch.setattr(writing.os, "replace", failing(errno.EIO))
    refused(typed, "was not saved")


def test_an_interrupt_before_the_rename_leaves_the_old_file(typed, monkeypatch):
    """Even what is no error of the system takes the temporary file away."""
    monkeypatch.setattr(writing.os, "replace", lambda *_: (_ for _ in ()).throw(KeyboardInterrupt))
    with pytest.raises(KeyboardInterrupt):
        save(change(typed.layout, "box-1", name="New"), typed.path, typed)
    assert [path.name for path in typed.path.parent.iterdir()] == ["layout.toml"]
    assert typed.path.read_text(encoding="utf-8") == TYPED


class Disk:
    """A file that passes everything on but writes no more than ``takes`` bytes in all."""

    def __init__(self, file, takes):
        self._file, self._takes = file, takes

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self._file.close()

    def fileno(self):
        """The handle of the true file."""
        return self._file.fileno()

    def write(self, data):
        """Take a part, as a raw file may."""
        part = data[: min(100, self._takes)]
        self._takes -= len(part)
        return self._file.write(part)


@pytest.mark.parametrize(("takes", "fits"), [(50, False), (10**6, True)])
def test_a_disk_that_takes_a_part_at_a_time_is_written_on_or_told(typed, monkeypatch, takes, fits):
    """A short write is no failure while more goes in, and a full disk is one."""
    true_open = Path.open
    monkeypatch.setattr(
        Path, "open", lambda path, mode="r", *a, **k: Disk(true_open(path, mode, *a, **k), takes)
        if mode == "xb" else true_open(path, mode, *a, **k)
    )  # fmt: skip
    if fits:
        assert len(saved(typed, change(typed.layout, "box-1", name="New"))) == 2
    else:
        refused(typed, "disk is full")


@pytest.mark.parametrize(
    ("number", "word"),
    [(errno.EACCES, "may not be written"), (errno.EROFS, "only be read"), (errno.ENOSPC, "disk is full")],
)
def test_a_folder_that_takes_nothing_is_told(typed, monkeypatch, number, word):
    """The reason and what to do instead are in the sentence."""
    monkeypatch.setattr(writing.secrets, "token_hex", failing(number))
    refused(typed, word)


def test_a_folder_or_a_missing_folder_is_refused(tmp_path):
    """Neither takes a file's name."""
    for path, word in ((tmp_path, "is a folder"), (tmp_path / "none" / "x.toml", "folder is not there")):
        with pytest.raises(FileError, match=word):
            save(a_layout(), path)


def test_a_link_is_kept_and_what_it_points_to_is_written(typed, tmp_path):
    """Saving through a link writes the file behind it, and leaves its permissions."""
    typed.path.chmod(0o640)
    link = tmp_path / "link.toml"
    link.symlink_to(typed.path)
    save(change(typed.layout, "box-1", name="New"), link, typed)
    assert link.is_symlink()
    assert "New" in typed.path.read_text(encoding="utf-8")
    assert typed.path.stat().st_mode & 0o777 == 0o640


def test_recovery_copies_are_found_and_kept_few(tmp_path):
    """One copy for each window, the newest first, never more than twenty; a spoilt one is passed over."""
    for i in range(MOST_COPIES + 3):
        write_copy(tmp_path, a_layout(), tmp_path / f"{i}.toml", f"window-{i}")
    write_copy(tmp_path, a_layout(), None, "window-8")
    copies = find_copies(tmp_path)
    assert len(copies) == MOST_COPIES
    assert (copies[0].original, copies[0].writer) == ("", "window-8")
    copies[0].path.write_text("spoilt")
    assert len(find_copies(tmp_path)) == MOST_COPIES - 1
    discard(copies[1])
    assert len(find_copies(tmp_path)) == MOST_COPIES - 2


def test_what_is_not_known_is_not_written():
    """None is no key of a new file."""
    tables = tomllib.loads(as_new_file(a_layout(stays=(a_stay(wire_mm=None),))).decode())
    assert "wire" not in tables["stays"][0]
    assert isinstance(Layout.model_validate(tables, by_alias=True, by_name=False), Layout)


def random_edit(layout, dice):
    """Change, remove, add or reorder something, mistakes by reference and all."""
    part = dice.choice(["fittings", "kinds", "stays", "sails", "spreaders", "cables", "halyards", "holes"])
    items = list(getattr(layout, part))
    match dice.randrange(5):
        case 0 if items:
            del items[dice.randrange(len(items))]
        case 1 if items:
            at = dice.randrange(len(items))
            items[at] = items[at].but(name=f"New {dice.random()}", note=dice.choice(["", "a\nb # \"'", "x"]))
        case 2:
            items.insert(
                dice.randint(0, len(items)), dice.choice(items).but(id=f"new-{dice.randrange(10**9)}")
            )
        case 3 if part == "fittings":
            at = dice.randrange(len(items))
            changed = {
                "from_masthead_mm": dice.choice([None, round(dice.uniform(0, 17000), 2)]),
                "girth": dice.choice([None, "ahead", "12.5 to port of aft", "bearing 90"]),
                "in_hand": dice.choice([None, a_foot(), a_foot(holes=())]),
                "done": dice.choice([(), ("h1 drilled",), ("h1 drilled", "h2 drilled")]),
                "turn_deg": round(dice.uniform(-90, 90), 2),
            }
            items[at] = items[at].but(**dict(dice.sample(sorted(changed.items()), 2)))
        case 4 if part == "kinds":
            at = dice.randrange(len(items))
            foot = a_kind().foot
            changed = {"foot": dice.choice([None, foot]), "solids": items[at].solids[1:], "mounts": ()}
            items[at] = items[at].but(**dict(dice.sample(sorted(changed.items()), 1)))
        case _:
            mast = layout.mast
            walls = list(mast.walls)
            dice.shuffle(walls)
            changed = {
                "walls": tuple(walls[: dice.randint(0, len(walls))]),
                "conduits": dice.choice([None, (), mast.conduits]),
                "stretches": dice.choice([None, (), (mast.stretches or ())[1:]]),
                "track": dice.choice([None, mast.track]),
                "section": dice.choice([mast.section, a_mast().section]),
            }
            return layout.but(mast=mast.but(**dict(dice.sample(sorted(changed.items()), 1))))
    return layout.but(**{part: tuple(items)})


def edited_at_random(path, seeds):
    """Make random edits of a demo mast; each must be cut and joined, not written anew."""
    for seed in seeds:
        dice = random.Random(seed)
        document = open_document(demo_masts() / "whimbrel.toml")
        layout = document.layout
        for _turn in range(dice.randint(1, 4)):
            layout = random_edit(layout, dice)
        document = save(layout, path, document)
        assert saving._says(document.data.decode(), path, layout), seed
        assert document.data.startswith(b"# Whimbrel"), seed


def test_random_edits_are_cut_into_the_text(tmp_path):
    """Thirty rounds of edits: what is read again is the layout, and the head comment stays."""
    edited_at_random(tmp_path / "a.toml", range(30))


@pytest.mark.full
def test_many_random_edits_are_cut_into_the_text(tmp_path):
    """The long form."""
    edited_at_random(tmp_path / "a.toml", range(3000))

"""Reading: every mistake a sentence with its line and what is allowed, all of them at once."""

import random
import sys

import pytest
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast, a_spreader, a_stay
from hypothesis import given, settings
from hypothesis import strategies as st

from mastlayout.errors import FileError, LayoutFileError
from mastlayout.storage import partly, reading
from mastlayout.storage.reading import load, open_document, read_data, read_layout
from mastlayout.storage.saving import as_new_file

GOOD = """format = 1
[boat]
name = "Test"
[mast]
length = "17 m"
section = { shape = "ellipse", length = 200, width = 130 }
[[kinds]]
id = "box"
name = "Box"
group = "sound"
[[fittings]]
id = "box-1"
name = "Box"
kind = "box"
from_masthead = 8000
girth = "ahead"
"""


@pytest.fixture
def read(tmp_path):
    """Read a text as a layout file."""
    return lambda text: read_data(text.encode(), tmp_path / "layout.toml")


def test_a_good_file_is_read_without_mistake(read):
    """Text carries its unit, a bare number is millimetres."""
    found = read(GOOD)
    assert not found.mistakes
    assert found.document.layout.mast.length_mm == 17000.0
    assert found.text == GOOD


TEN = """format = 1
[boat]
name = "Test"
hull = "monohul"
[mast]
length = "17 m"
section = { shape = "ellipse", length = 200, width = -130 }
rake = nan
[[spreaders]]
id = "Lower P"
name = "Lower spreader"
side = "port"
from_masthead = 10300
[[stays]]
id = "cap-p"
name = "Cap shroud"
role = "cap"
wire = "10 kg"
[stays.upper]
from_masthead = 250
girth = "sideways"
[[kinds]]
id = "box"
name = "Box"
group = "sound"
mas = 3
[[kinds]]
id = "plate"
name = "Plate"
group = "deck"
[[fittings]]
name = "Box"
kind = "plate"
on = "box-9"
[[fittings]]
id = "box-2"
name = "Box"
kind = "plate"
from_masthead = -5
girth = "ahead"
[[fittings]]
id = "box-3"
name = "Box"
kind = "plate"
from_masthead = 5
girth = "ahead"
new = "yes"
"""


def test_ten_mistakes_are_ten_sentences_each_with_its_line(read):
    """Line, field and what is allowed, for mistakes of every sort in one file, in the file's order."""
    expected = [
        (4, "boat.hull", ("“monohul”", "did you mean “monohull”", "“multihull”")),
        (7, "mast.section.width", ("-130", "more than 0")),
        (8, "mast.rake", ("nan", "angle in degrees")),
        (10, "spreaders[1].id", ("“Lower P”", "small letters")),
        (18, "stays[1].wire", ("“10 kg”", "length such as")),
        (21, "stays[1].upper.girth", ("“sideways”", "bearing 285")),
        (26, "kinds[1].mas", ("no key “mas”", "did you mean “mass”")),
        (31, "fittings[1].id", ("id is missing", "a text in quotes")),
        (39, "fittings[2].from_masthead", ("-5", "above the masthead", "0 or more")),
        (47, "fittings[3].new", ("“yes”", "true or false")),
    ]
    mistakes = read(TEN).mistakes
    assert [(m.line, m.field) for m in mistakes] == [(line, field) for line, field, _words in expected]
    for mistake, (_line, _field, words) in zip(mistakes, expected, strict=True):
        assert all(word in mistake.sentence for word in words), mistake.sentence


def test_references_are_told_beside_other_mistakes(read):
    """The mast's own mistake hides neither an unknown kind nor a height; lines are those of the file."""
    text = (
        GOOD.replace('name = "Test"', 'name = ""')
        + '[[holes]]\nid = 3\n[[holes]]\nid = "o"\nname = "O"\ngirth = 0\nfrom_masthead = 17001\n'
    )
    found = {(m.line, m.field): m.sentence for m in read(text).mistakes}
    assert set(found) == {
        (3, "boat.name"),
        (17, "holes[1].name"),
        (17, "holes[1].from_masthead"),
        (17, "holes[1].girth"),
        (18, "holes[1].id"),
        (23, "holes[2].from_masthead"),
    }
    assert "0 to 17,000 is allowed" in found[23, "holes[2].from_masthead"]


@pytest.mark.parametrize(
    ("good", "bad", "field"),
    [
        ('group = "sound"', 'group = "noise"', "kinds[1].group"),
        ('id = "box"', "", "kinds[1].id"),
        ("[[kinds]]", "[[kinds]]\nid2 = 3", "kinds[1].id2"),
    ],
)
def test_what_refers_to_a_broken_item_makes_no_mistake_of_its_own(read, good, bad, field):
    """The kind is broken, its id perhaps too; that its fitting needs it is not said again."""
    assert [m.field for m in read(GOOD.replace(good, bad)).mistakes] == [field]


def test_an_unknown_kind_asks_did_you_mean(read):
    """A slip of the pen is answered with the nearest name, here or in the catalogue."""
    (mistake,) = read(GOOD.replace('kind = "box"', 'kind = "bax"')).mistakes
    assert (mistake.line, mistake.field) == (14, "fittings[1].kind")
    assert "did you mean “box”" in mistake.sentence
    (mistake,) = read(GOOD.replace('kind = "box"', 'kind = "hailr"')).mistakes
    assert "“hailer”" in mistake.sentence


def test_a_kind_of_the_catalogue_is_taken_from_there(read):
    """The layout in memory carries its copy, the document remembers that the file does not."""
    found = read(GOOD.replace('kind = "box"', 'kind = "hailer"'))
    assert not found.mistakes
    assert [kind.id for kind in found.document.layout.kinds] == ["box", "hailer"]
    assert found.document.taken == ("hailer",)


def test_the_catalogue_is_left_alone_where_it_is_not_needed(read, monkeypatch):
    """A layout that carries its kinds costs no reading of others."""
    monkeypatch.setitem(sys.modules, "mastlayout.storage.catalogue", None)
    assert not read(GOOD).mistakes


@pytest.mark.parametrize(
    ("bad", "field", "words"),
    [
        (
            'section = { shape = "elipse", length = 1, width = 1 }',
            "mast.section.shape",
            ("“elipse”", "did you"),
        ),
        (
            "section = { length = 200, width = 130 }",
            "mast.section.shape",
            ("shape is missing", "“rounded box”"),
        ),
        ("section = 3", "mast.section", ("3 stands here", "a table")),
        (
            'section = { shape = "ellipse", length = 200, width = 130 }\ntaper = "no"',
            "mast.taper",
            ("“none”",),
        ),
        (
            'section = { shape = "ellipse", length = 200, width = 130 }\ntaper = { length = 1, width = 1 }',
            "mast.taper.from_masthead",
            ("missing", "a length"),
        ),
        (
            'section = { shape = "ellipse", length = 200, width = 130 }\nwalls = 4',
            "mast.walls",
            ("a list in square brackets",),
        ),
        (
            'section = { shape = "ellipse", length = 200, width = 130 }\nrotating = true',
            "mast.rotating",
            ("a rotating mast is not planned",),
        ),
        (
            'section = { shape = "points", points = [[1, 2], [3, 4, 5], [1], "x"] }',
            "mast.section.points[2]",
            ("too long", "2 entries"),
        ),
    ],
)
def test_words_of_the_mast_are_told_as_the_file_spells_them(read, bad, field, words):
    """Shapes, unions, lists: never a name of the program's own classes in the path."""
    good = 'section = { shape = "ellipse", length = 200, width = 130 }'
    mistake = next(m for m in read(GOOD.replace(good, bad)).mistakes if m.field == field)
    assert all(word in mistake.sentence for word in words), mistake.sentence


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('day = "1.2.2026"', ("“1.2.2026”", "2026-03-31")),
        ("day = 2026-03-31", ("2026-03-31", "a text in quotes")),
        ('day = "2026-03-31"\nmeasured = inf', ("inf", "a number")),
        ('day = "2026-03-31"\nsubjects = "a"', ("a list",)),
    ],
)
def test_a_day_a_number_and_a_list_say_what_is_wanted(read, line, words):
    """A date without quotes is TOML's own, and is not text."""
    text = GOOD + f'[[accepted]]\ncode = "x"\nremark = "r"\n{line}\n'
    text = text if "subjects" in line else text + 'subjects = ["a"]\n'
    (mistake,) = read(text).mistakes
    assert all(word in mistake.sentence for word in words), mistake.sentence


def test_a_key_near_nothing_names_those_allowed(read):
    """What a limit has is few enough to list."""
    text = GOOD + '[[limits]]\nkey = "a"\nvalue = 1\nunit = "mm"\nwhy = "rigger"\nzzzz = 1\n'
    (mistake,) = read(text).mistakes
    assert "key, value, unit, why are allowed" in mistake.sentence


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("", "format = 1"),
        ("[boat]\n", "format = 1"),
        ("format = 2", "newer"),
        ("format = true", "not known"),
        ('format = "1"', "not known"),
        ("format = 0", "not known"),
    ],
)
def test_another_format_is_the_only_mistake_told(read, text, word):
    """What a newer program means by the rest nobody here can know."""
    (mistake,) = read(text).mistakes
    assert word in mistake.sentence


def test_half_a_file_is_told_by_what_is_missing(read):
    """Neither yacht nor mast."""
    found = read("format = 1\nboat = 3\nfittings = 4\n[[spreaders]]\n")
    assert {"boat", "mast", "fittings", "spreaders[1].id"} <= {m.field for m in found.mistakes}
    assert found.document is None


def test_a_value_of_any_size_is_shown_short(read):
    """A number of ten thousand digits and a text of ten thousand letters make a short sentence."""
    text = GOOD.replace("8000", "0x" + "f" * 10_000).replace('"ahead"', f'"{"x" * 10_000}"')
    assert all(len(m.sentence) < 400 for m in read(text).mistakes)
    assert len(read(text).mistakes) == 2


def test_of_endless_mistakes_only_the_first_are_told(read):
    """The last sentence says how many more there are."""
    text = GOOD + "[[holes]]\n" * 400
    mistakes = read(text).mistakes
    assert len(mistakes) == partly.MOST_TOLD + 1
    assert "1100 more" in mistakes[-1].sentence  # 400 x (id, name, from_masthead, girth) less 500


def test_a_file_with_mistakes_still_gives_what_could_be_read(read):
    """The broken fitting is left out, the rest is there."""
    more = GOOD + '[[fittings]]\nid = "b"\nname = "B"\nkind = "box"\ngirth = "nowhere"\nfrom_masthead = 1\n'
    found = read(more)
    assert [m.field for m in found.mistakes] == ["fittings[2].girth"]
    assert [f.id for f in found.document.layout.fittings] == ["box-1"]


def test_the_strict_door_raises_with_all_mistakes(tmp_path):
    """What opens a layout for printing takes no file with a mistake."""
    path = tmp_path / "layout.toml"
    path.write_text(TEN)
    for door in (load, open_document):
        with pytest.raises(LayoutFileError) as refused:
            door(path)
        assert len(str(refused.value).splitlines()) == len(refused.value.mistakes) == 10
    path.write_text(GOOD)
    assert load(path) == open_document(path).layout == read_layout(path).document.layout


WHOLE = as_new_file(a_layout(spreaders=(a_spreader(),), stays=(a_stay(),)))


def spoil(data, seed):
    """Return bytes with a few of them changed, cut or doubled."""
    dice = random.Random(seed)
    out = bytearray(data)
    for _turn in range(dice.randint(1, 6)):
        at = dice.randrange(len(out))
        match dice.randrange(4):
            case 0:
                out[at] = dice.randrange(256)
            case 1:
                del out[at : at + dice.randrange(200)]
            case 2:
                out[at:at] = out[at : at + dice.randrange(300)]
            case _:
                out[at:at] = bytes(dice.choices(b'[]{}="\n.,-0x', k=dice.randrange(12)))
        out = out or bytearray(b"#")
    return bytes(out)


def outcomes(path, seeds):
    """Read each spoilt file: a layout or mistakes with sentences, and nothing else."""
    found = set()
    for seed in seeds:
        read = read_data(spoil(WHOLE, seed), path)
        assert all(mistake.sentence for mistake in read.mistakes)
        assert read.document or read.mistakes
        found.add(bool(read.mistakes))
    return found


def test_spoilt_files_are_read_or_refused(tmp_path):
    """Three hundred spoilt files: never anything but a layout or sentences."""
    assert outcomes(tmp_path / "a.toml", range(300)) == {True, False}


@pytest.mark.full
def test_many_spoilt_files_are_read_or_refused(tmp_path):
    """The long form: twenty thousand."""
    assert outcomes(tmp_path / "a.toml", range(20_000)) == {True, False}


def hundredths(low, high):
    """Lengths as an edit rounds them."""
    return st.integers(low * 100, high * 100).map(lambda n: n / 100)


PLACES = st.one_of(
    st.sampled_from(["ahead", "aft"]),
    hundredths(0, 360).map(lambda turn: f"bearing {turn}"),
    st.tuples(hundredths(0, 400), st.sampled_from(["port", "starboard"])).map(
        lambda place: f"{place[0]} to {place[1]} of ahead"
    ),
)
TEXTS = st.text(st.characters(codec="utf-8"), max_size=30)
FITTINGS = st.builds(
    a_fitting,
    from_masthead_mm=hundredths(0, 17000),
    girth=PLACES,
    note=TEXTS,
    tag=st.none() | st.integers(1, 9999),
    mass_kg=st.none() | hundredths(0, 50),
    turn_deg=hundredths(-360, 360),
    new=st.booleans(),
    in_hand=st.sampled_from([None, a_foot(), a_foot(holes=(), seat="flat")]),
)


@settings(max_examples=80)
@given(FITTINGS, TEXTS, st.none() | st.just(()), st.sampled_from(["none", None]))
def test_a_new_file_reads_back_as_the_layout(fitting, note, conduits, taper):
    """Whatever is in it, known, unknown or looked for in vain: what is written is what is read."""
    layout = a_layout(
        fittings=(fitting,), note=note, mast=a_mast(conduits=conduits, taper=taper), kinds=(a_kind(),)
    )
    read = read_data(as_new_file(layout), reading.Path("layout.toml"))
    assert read.document.layout == layout
    assert not read.mistakes


def test_a_file_that_is_not_there_is_no_layout_file(tmp_path):
    """There is nothing to find mistakes in."""
    with pytest.raises(FileError, match="not there"):
        read_layout(tmp_path / "none.toml")

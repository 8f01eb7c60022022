"""Reading: every mistake a sentence with its line, what is allowed, and nothing read twice."""

import random
import tomllib

import pytest
from builders import a_fitting, a_layout, a_spreader, a_stay
from hypothesis import given, settings
from hypothesis import strategies as st

from mastlayout.errors import FileError, LayoutFileError
from mastlayout.model.layout import Layout
from mastlayout.storage import reading
from mastlayout.storage.reading import open_document, read_layout
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

    def reading_of(text):
        path = tmp_path / "layout.toml"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return read_layout(path)

    return reading_of


def test_a_good_file_is_read_without_mistake(read):
    """Text carries its unit, a bare number is millimetres."""
    found = read(GOOD)
    assert not found.mistakes
    assert found.document.layout.mast.length_mm == 17000.0


TEN = """format = 1
[boat]
name = "Test"
hull = "trimaran"
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
weight = 3
[[fittings]]
id = "box-1"
name = "Box"
kind = "bix"
from_masthead = 18000
girth = "ahead"
[[fittings]]
id = "box-2"
name = "Box"
kind = "box"
from_masthead = -5
girth = "ahead"
[[fittings]]
id = "box-3"
name = "Box"
kind = "box"
on = "box-9"
"""


def test_ten_mistakes_are_ten_sentences_each_with_its_line(read):
    """Line, field and what is allowed, for mistakes of every sort in one file."""
    found = {(m.line, m.field): m.sentence for m in read(TEN).mistakes}
    expected = {
        (4, "boat.hull"): "monohull",
        (7, "mast.section.width"): "> 0",
        (8, "mast.rake"): "angle",
        (10, "spreaders[1].id"): "small letters",
        (18, "stays[1].wire"): "length",
        (21, "stays[1].upper.girth"): "bearing",
        (26, "kinds[1].weight"): "no key “weight”",
        (30, "fittings[1].kind"): "no kind “bix”",
        (37, "fittings[2].from_masthead"): "above it",
        (43, "fittings[3].on"): "no host “box-9”",
    }
    for place, word in expected.items():
        assert place in found, (place, sorted(found))
        assert word in found[place]
    assert len(found) == len(expected) == 10


def test_what_refers_to_a_broken_item_makes_no_mistake_of_its_own(read):
    """The kind is broken; that its fitting needs it is not said again."""
    found = read(GOOD.replace('group = "sound"', 'group = "noise"'))
    assert [m.field for m in found.mistakes] == ["kinds[1].group"]


def test_an_unknown_kind_asks_did_you_mean(read):
    """A slip of the pen is answered with the nearest names."""
    found = read(GOOD.replace('kind = "box"', 'kind = "bax"'))
    assert [(m.line, m.field) for m in found.mistakes] == [(14, "fittings[1].kind")]
    assert "did you mean “box”" in found.mistakes[0].sentence


def test_a_height_below_the_heel_says_what_is_allowed(read):
    """Lines of the file, the reading and the length are in the sentence."""
    found = read(GOOD.replace("from_masthead = 8000", "from_masthead = 18000"))
    assert (found.mistakes[0].line, found.mistakes[0].field) == (15, "fittings[1].from_masthead")
    assert "0 to 17000 is allowed" in found.mistakes[0].sentence


def test_two_equal_ids_are_named(read):
    """Each id is given once."""
    twice = GOOD + GOOD[GOOD.index("[[fittings]]") :]
    assert any("given already" in m.sentence for m in read(twice).mistakes)


def test_a_rotating_mast_is_refused_with_a_reason(read):
    """The sentence says why no finding would hold."""
    found = read(GOOD.replace('length = "17 m"', 'length = "17 m"\nrotating = true'))
    assert "rotating mast" in found.mistakes[0].sentence


@pytest.mark.parametrize(
    "text", ["", "format = 2", "format = 1", "a = [", "format = 1\nboat = 3\nmast = []", "[a]\n[a]\n"]
)
def test_a_file_that_is_no_layout_makes_a_mistake(read, text):
    """An empty file, another format, half a file: a sentence each."""
    found = read(text)
    assert found.mistakes
    assert all(m.sentence for m in found.mistakes)


@pytest.mark.parametrize(
    "text",
    ["a = " + "[" * 5000, "a = " + "{b=" * 5000, ".".join(["a"] * 20000) + " = 1", "[" + "a." * 500 + "b]"],
)
def test_what_would_keep_the_parser_busy_never_reaches_it(read, text, monkeypatch):
    """Deep brackets and endless keys are refused before the parser is asked."""
    monkeypatch.setattr(reading.tomllib, "loads", lambda _text: pytest.fail("the parser was asked"))
    assert read(text).mistakes


@pytest.mark.parametrize("data", [b"\xff\xfe\x00", b"format = 1\n\x00", b"\x80\x81"])
def test_what_is_no_text_is_refused(read, data):
    """Random bytes are no layout."""
    with pytest.raises(FileError, match="layout"):
        read(data)


def test_a_missing_file_and_a_folder_are_refused(tmp_path):
    """Both sentences name the path."""
    for path in (tmp_path / "none.toml", tmp_path):
        with pytest.raises(FileError, match=str(path)):
            read_layout(path)


def test_a_file_too_large_is_refused(tmp_path):
    """Four megabytes are more than any layout."""
    path = tmp_path / "large.toml"
    path.write_bytes(b"#" * 4_000_001)
    with pytest.raises(FileError, match="larger than 4 MB"):
        read_layout(path)


def test_a_file_with_mistakes_still_gives_what_could_be_read(read):
    """The broken fitting is left out, the rest is there."""
    more = (
        GOOD + '[[fittings]]\nid = "box-2"\nname = "B"\nkind = "box"\ngirth = "nowhere"\nfrom_masthead = 1\n'
    )
    found = read(more)
    assert [m.field for m in found.mistakes] == ["fittings[2].girth"]
    assert [f.id for f in found.document.layout.fittings] == ["box-1"]


def test_the_strict_door_raises_with_all_mistakes(tmp_path):
    """What opens a layout for printing takes no file with a mistake."""
    path = tmp_path / "layout.toml"
    path.write_text(TEN)
    with pytest.raises(LayoutFileError) as raised:
        open_document(path)
    assert len(str(raised.value).splitlines()) == len(raised.value.mistakes) >= 9


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


def refused_or_read(tmp_path, seeds):
    """Read each spoilt file: a layout, mistakes or a FileError, and nothing else."""
    path = tmp_path / "spoilt.toml"
    outcomes = set()
    for seed in seeds:
        path.write_bytes(spoil(WHOLE, seed))
        try:
            outcomes.add(bool(read_layout(path).mistakes))
        except FileError:
            outcomes.add("no text")
    return outcomes


def test_spoilt_files_are_read_or_refused(tmp_path):
    """Three hundred spoilt files: never a traceback, and the spoiling does reach the reader."""
    assert refused_or_read(tmp_path, range(300)) >= {True, "no text"}


@pytest.mark.full
def test_many_spoilt_files_are_read_or_refused(tmp_path):
    """The long form: twenty thousand."""
    assert refused_or_read(tmp_path, range(20_000)) == {True, False, "no text"}


@settings(max_examples=60, deadline=None)
@given(st.floats(0, 17000), st.floats(-400, 400), st.sampled_from(["ahead", "aft"]))
def test_a_new_file_reads_back_as_the_layout(tmp_path_factory, height, offset, origin):
    """Whatever the place, what is written is what is read."""
    side = "starboard" if offset >= 0 else "port"
    layout = a_layout(
        fittings=(a_fitting(from_masthead_mm=height, girth=f"{abs(offset)!r} to {side} of {origin}"),)
    )
    again = tomllib.loads(as_new_file(layout).decode())
    back = Layout.model_validate(again, by_alias=True, by_name=False).fittings[0]
    assert back.from_masthead_mm == layout.fittings[0].from_masthead_mm
    assert abs(back.girth.offset - layout.fittings[0].girth.offset) < 1e-3

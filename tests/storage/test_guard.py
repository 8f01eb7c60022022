"""The guard: what would keep the parser busy is refused before it is asked; its words are ours."""

import random
import tomllib
from pathlib import Path

import pytest

from mastlayout.errors import FileError, LayoutFileError
from mastlayout.storage import guard
from mastlayout.storage.guard import read_bytes, tables_of, text_of

HERE = Path("layout.toml")


def refusal(text):
    """Return the one mistake a text is refused with."""
    with pytest.raises(LayoutFileError) as refused:
        tables_of(text, HERE)
    (mistake,) = refused.value.mistakes
    return mistake


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("a = " + "[" * 5000, "deep"),
        ("a = " + "{b=" * 5000, "deep"),
        ("a = " + "[" * 17 + "]" * 17, "deep"),
        ("[" * 5000, "deep"),
        ("x = '''\n[[[['''\na = " + "[" * 17, "deep"),
        (".".join("a" * 20_000) + " = 1", "dots"),
        ("[" + ".".join("a" * 10) + "]", "dots"),
        ("a = 1\n" + " . ".join(['"a"', "'b'"] * 5) + " = 1", "dots"),
    ],
)
def test_deep_brackets_and_endless_keys_never_reach_the_parser(text, word, monkeypatch):
    """Nested lists, nested tables, dotted keys and headers, with and without quotes and blanks."""
    monkeypatch.setattr(guard.tomli, "loads", lambda _text: pytest.fail("the parser was asked"))
    assert word in refusal(text).sentence


def test_an_endless_key_is_named_by_its_line():
    """A text over several lines and a comment before it count as lines, not as keys."""
    text = "a = '''\n\n''' # a.a.a.a.a.a.a.a.a.a\n" + ".".join("b" * 10) + " = 1\n"
    assert refusal(text).line == 4


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 16 + "]" * 16,
        ".".join("a" * 9) + " = 1",
        'a = "' + "[" * 50 + '"',
        "# " + "[" * 50,
        'a = """' + "[" * 50 + '"""""',
        "a = '''" + "[" * 50 + "'''''",
        'a = "\\"' + "[" * 50 + '"',
        "a = 'b.b.b.b.b.b.b.b.b.b.b'",
        "a = [1.5, 2.5, 3.5, 4.5, 5.5, 6.5, 7.5, 8.5, 9.5, 1.5]",
        "[a.b]\n[a.c]\n[a.d]\n[a.e]\n[a.f]\n[a.g]\n[a.h]\n[a.i]\n[a.j]\n[a.k]",
    ],
)
def test_what_is_within_bounds_or_quoted_is_read(text):
    """Sixteen deep and eight dots are allowed; brackets and dots in texts and comments are neither."""
    assert tables_of(text, HERE) == tomllib.loads(text)


@pytest.mark.parametrize(
    ("text", "line", "word"),
    [
        ("a = 1\nb", 2, "“=”"),
        ("a = 1\n\nb = hello\n", 3, "no value"),
        ("a = 1\na = 2\n", 2, "already"),
        ("[a]\n[a]\n", 2, "already"),
        ("a = 1 2\n", 1, "follows"),
        ("a = [1,\n2\n", 2, "“]”"),
        ('a = "x\n', 1, ""),
        ("= 3", 1, "none"),
        ("a = 0x" + "f" * 20 + "g", 1, "follows"),
        ("a = " + "9" * 5000, 1, ""),
    ],
)
def test_what_is_not_toml_is_told_with_its_line(text, line, word):
    """The parser's commonest complaints in words of ours; each other one as it is."""
    mistake = refusal(text)
    assert mistake.line == line
    assert word in mistake.sentence
    assert mistake.sentence


@pytest.mark.parametrize(
    ("data", "line", "word"),
    [(b"a = 1\nb = \xff", 2, "UTF-8"), ("a = 1".encode("utf-16"), 1, "UTF-8"), (b"a\n\n\0", 3, "zero byte")],
)
def test_what_is_no_text_is_told_with_its_line(data, line, word):
    """Another encoding, and bytes that no text has."""
    with pytest.raises(LayoutFileError) as refused:
        text_of(data, HERE)
    assert refused.value.mistakes[0].line == line
    assert word in refused.value.mistakes[0].sentence


def test_a_byte_order_mark_is_passed_over():
    """Some editors put one first."""
    assert text_of(b"\xef\xbb\xbfa = 1", HERE) == "a = 1"


def test_a_file_that_cannot_be_had_is_refused_with_its_name(tmp_path):
    """A missing file, a folder, a device, and a file larger than any layout."""
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * (guard.MOST_BYTES + 1))
    missing = tmp_path / "none.toml"
    for path, word in ((missing, "not there"), (tmp_path, "folder"), (large, "4 MB")):
        with pytest.raises(FileError, match=word) as refused:
            read_bytes(path)
        assert str(path) in str(refused.value)
    with pytest.raises(FileError, match="no file"):
        read_bytes(Path("/dev/zero"))


def test_a_file_one_may_not_read_is_refused(tmp_path, monkeypatch):
    """The system's reason is in the sentence."""
    path = tmp_path / "a.toml"
    path.touch()
    monkeypatch.setattr(Path, "open", lambda *_how: (_ for _ in ()).throw(PermissionError(13, "Not yours")))
    with pytest.raises(FileError, match="Not yours"):
        read_bytes(path)


def read_or_refused(seeds):
    """Give the guard random texts of TOML's own signs; count what came out, let nothing else out."""
    outcomes = {"read": 0, "refused": 0}
    for seed in seeds:
        dice = random.Random(seed)
        text = "".join(dice.choices("ab.=[]{}\"'\\#,\n 19", k=dice.randint(0, 60)))
        try:
            assert tables_of(text, HERE) == tomllib.loads(text)
            outcomes["read"] += 1
        except LayoutFileError:
            outcomes["refused"] += 1
    return outcomes


def test_random_texts_are_read_or_refused():
    """Two thousand texts: a table or a sentence."""
    assert all(read_or_refused(range(2000)).values())


@pytest.mark.full
def test_many_random_texts_are_read_or_refused():
    """The long form."""
    assert all(read_or_refused(range(200_000)).values())

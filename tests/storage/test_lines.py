"""Lines: every key, table and element of a text is found where it stands."""

import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mastlayout.storage.composing import inline
from mastlayout.storage.lines import line_of, places

TEXT = """# a head
format = 1

[mast]
length = 17000
note = '''
[not]
a = 1'''
section = { shape = "ellipse", length = 200 }
walls = [
  { from_masthead = 1 }, # one
  { from_masthead = 2 },
]
"odd key" = 3
taper.width = 2

[[fittings]]
id = "a"

[fittings.as_built]
by = "me"

[[cables]]
id = "c"

[[fittings]]
id = "b = ]"
tag = 4
"""


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("format",), 2),
        (("mast",), 4),
        (("mast", "section", "length"), 9),
        (("mast", "walls", 1), 12),
        (("mast", "walls", 1, "from_masthead"), 12),
        (("mast", "odd key"), 14),
        (("mast", "taper", "width"), 15),
        (("fittings", 0), 17),
        (("fittings", 0, "as_built", "by"), 21),
        (("fittings", 1, "tag"), 28),
        (("cables", 0, "id"), 24),
        (("fittings", 1, "missing"), 26),
        (("boat", "name"), 0),
    ],
)
def test_a_path_is_found_on_its_line(path, line):
    """Headers, dotted keys, lists between one another, texts over several lines; the nearest thing else."""
    assert line_of(TEXT, places(TEXT), path) == line


def test_line_ends_of_another_system_count_once():
    """A carriage return makes no line of its own."""
    text = TEXT.replace("\n", "\r\n")
    assert line_of(text, places(text), ("fittings", 1, "tag")) == 28


def leaves(value, path=()):
    """Yield each scalar of tables with its path."""
    if isinstance(value, dict | list):
        for key, one in value.items() if isinstance(value, dict) else enumerate(value):
            yield from leaves(one, (*path, key))
    else:
        yield path, value


SCALARS = st.one_of(
    st.integers(-999, 999),
    st.floats(-1e6, 1e6),
    st.booleans(),
    st.text(st.characters(codec="utf-8", exclude_characters="\r"), max_size=8),
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.text("ab.# \"'", min_size=1), inner, max_size=3)
    ),
    max_leaves=12,
)


@settings(max_examples=150)
@given(st.dictionaries(st.sampled_from(["a", "b-c", "d_1"]), VALUES, min_size=1))
def test_the_text_at_each_place_is_its_value(tables):
    """Whatever is nested in what: the parser reads from each place alone what it reads there."""
    text = "# head\n" + "".join(f"{key} = {inline(value)} # [end]\n" for key, value in tables.items())
    assert tomllib.loads(text) == tables
    for path, value in leaves(tables):
        place = places(text)
        for step in path:
            place = place.inner[step]
        assert tomllib.loads(f"x = {text[place.value : place.end]}")["x"] == value

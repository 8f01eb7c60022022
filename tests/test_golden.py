"""What other programs read: the JSON of a small layout, word for word, and its promises for every example.

The golden files are read by a person when they change; ``python tests/test_golden.py`` writes them anew.
"""

import json
import sys
from pathlib import Path

import pytest
from builders import a_fitting, a_layout, a_mast, a_spreader, a_stay

from mastlayout.__main__ import main
from mastlayout.desk import Desk
from mastlayout.documents.printed import check_json, ranges_json
from mastlayout.resources import demo_masts

GOLDEN = Path(__file__).parent / "golden"


def small():
    """Two boxes 84 apart on a raked mast, a stay nobody taped, a spreader."""
    return Desk(
        a_layout(
            mast=a_mast(rake_deg=2.0),
            fittings=(a_fitting(tag=1), a_fitting("box-2", tag=2, from_masthead_mm=8084.0, in_hand=None)),
            stays=(a_stay(deck=None),),
            spreaders=(a_spreader(),),
        )
    )


def made():
    """Return the JSON of each command for the small layout."""
    desk = small()
    return {"check.json": check_json(desk.report, "small"), "ranges.json": ranges_json(desk.scene, "small")}


@pytest.mark.parametrize("name", ["check.json", "ranges.json"])
def test_the_json_is_what_it_was(name):
    """A key that changes its meaning, or goes, must raise the schema's number."""
    assert made()[name] == (GOLDEN / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("path", sorted(demo_masts().glob("*.toml")), ids=lambda path: path.stem)
def test_check_json_keeps_its_promises(path, capsys):
    """One object, keys sorted, floats to 0.001, no NaN, exit 1 where there is a fault and 0 where none."""
    code = main(["check", str(path), "--json"])
    text = capsys.readouterr().out
    found = json.loads(text, parse_constant=lambda word: pytest.fail(f"{word} in JSON"))
    assert found["schema"] == "mastlayout/check/1"
    assert list(found) == sorted(found)
    assert code == (1 if any(f["standing"] == "fault" for f in found["findings"]) else 0)
    for entry in found["findings"] + found["not_checked"]:
        for key, value in entry.items():
            assert value is None or not isinstance(value, float) or value == round(value, 3), key
    assert all(entry["measure"] or entry["code"] == "sail/free-luff" for entry in found["not_checked"])


if __name__ == "__main__":
    for name, text in made().items():
        (GOLDEN / name).write_text(text, encoding="utf-8")
    sys.exit(0)

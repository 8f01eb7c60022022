"""The example masts whole: they load, say what they plant, and each of their unknowns blocks something."""

import re

import known
import pytest

from mastlayout.checks.wanted import wanted
from mastlayout.desk import Desk
from mastlayout.resources import demo_masts

DEMOS = sorted(demo_masts().glob("*.toml"))


@pytest.fixture(scope="module", params=DEMOS, ids=lambda path: path.stem)
def opened(request):
    """An example's text and its desk."""
    return request.param.read_text(encoding="utf-8"), Desk.open(request.param)


def test_there_are_three():
    """Three yachts, three rigs."""
    assert [path.stem for path in DEMOS] == ["sanderling", "turnstone", "whimbrel"]


def test_no_rule_breaks(opened):
    """Every rule runs on every example."""
    assert opened[1].report.broken == ()


def test_at_least_eight_unknowns_are_named_and_block_a_check(opened):
    """The file numbers its unknowns; the checks want at least eight measures or things."""
    text, desk = opened
    numbers = {int(n) for n in re.findall(r"UNKNOWN (\d+)", text)}
    assert len(numbers) >= 8
    assert numbers == set(range(1, max(numbers) + 1))
    assert sum(len(one.things) for one in wanted(desk.report)) >= 8


def test_the_layout_carries_a_copy_of_each_kind_it_uses(opened):
    """A new catalogue never moves a drilled hole."""
    _text, desk = opened
    assert desk.document.taken == ()
    assert {f.kind for f in desk.layout.fittings} <= {kind.id for kind in desk.layout.kinds}


def test_every_new_fitting_has_a_tag(opened):
    """What is pencilled on the mast is the tag."""
    assert [f.id for f in opened[1].layout.fittings if f.new and f.tag is None] == []


def test_whimbrels_ten_faults_are_named():
    """All ten of them, by number."""
    text = (demo_masts() / "whimbrel.toml").read_text(encoding="utf-8")
    assert {int(n) for n in re.findall(r"PLANTED (\d+)", text)} == set(range(1, 11))


@pytest.mark.parametrize(
    ("code", "subjects", "measured"),
    [
        ("rig/bisector", {"spreader-upper-s", "cap-s"}, 1.5),
        ("antenna/near", {"vhf-whip-1", "ais-whip-1"}, 220.0),
        ("cable/fill", {"conduit-b"}, 53.1),
        ("hole/inside", {"hailer-1/h4", "conduit-a"}, 9.3),
        ("fastener/threads", {"vang-tang/h6"}, 2.7),
        ("metals/refused", {"preventer-eye"}, 0.18),
        ("hole/inside", {"radome-bracket-1/h4", "conduit-a"}, -12.0),
    ],
)
def test_whimbrels_faults_that_this_version_asks_are_found(code, subjects, measured):
    """Planted 4, 5, 7, 8 and 10, and the rivets of the radome's typical foot, with their figures."""
    found = [f for f in known.report("whimbrel").open if f.code == code and subjects <= set(f.subjects)]
    assert [f.measured for f in found] == [pytest.approx(measured, abs=0.1)]

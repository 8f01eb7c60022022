"""Where a fitting might go: each place checked anew from nothing, its figures by hand, its reasons."""

import math
from functools import cache

import known
import pytest
from builders import a_fitting, a_kind, a_layout

from mastlayout.checks.report import check
from mastlayout.geometry.scene import build
from mastlayout.model.boat import Boat
from mastlayout.model.edits import change
from mastlayout.model.kind import Sector
from mastlayout.places.candidates import candidates, masthead_first
from mastlayout.places.reasons import reasons

DEMOS = ("whimbrel", "sanderling", "turnstone")


@cache
def places(demo):
    """The places of a demo's reflector, from the masthead down."""
    return masthead_first(candidates(known.report(demo), "reflector-1"))


def by_where(demo, where):
    """The one place of a kind."""
    (found,) = [one for one in places(demo) if one.where == where]
    return found


@pytest.mark.parametrize("demo", DEMOS)
def test_a_free_place_is_free_when_the_layout_is_read_and_checked_from_nothing(demo):
    """No earlier report is used: neither the reflector nor anything beside it is at fault that was not."""
    report = known.report(demo)
    before = {finding.key for finding in report.faults}
    free = [one for one in places(demo) if one.free and one.fields]
    assert free
    one = free[0]
    after = check(build(change(report.scene.layout, "reflector-1", **one.fields)))
    assert not [f for f in after.faults if "reflector-1" in f.things or f.key not in before]


@pytest.mark.parametrize("name", ["reflector-1", "radome-1"])
def test_places_asked_at_once_are_told_as_each_is_asked_alone(name):
    """The radome brings its guard along: what that shelters is another thing at each place."""
    report = known.report("whimbrel")
    for one in candidates(report, name, survey=False):
        if one is not None and one.fields:
            alone = check(build(change(report.scene.layout, one.root, **one.fields), report.scene), report)
            assert one.report.open == alone.open
            assert one.report.by_fitting == alone.by_fitting


def test_whimbrels_reflector_stands_in_the_genoa_and_is_told_where_it_does_not():
    """As her yard would say: touched by the 140 % genoa ahead of the mast; above its head it is free."""
    own, high = by_where("whimbrel", "own"), by_where("whimbrel", "highest")
    assert [fault.code for fault in own.of("fault")] == ["tack/bears"]
    # The genoa's head is at 16,350 above the heel; the foot of what is clear of it stands higher.
    assert high.free
    assert high.height_mm > 16_350
    told = " ".join(reasons(places("whimbrel")))
    assert "Farthest, free of faults: B, highest free place" in told
    assert "As planned at fault: Genoa, 140 % bears on it." in told
    assert "No height mends the echo: 1.9 m² at most, 7.5 m² asked." in told
    assert "Not settled before it is measured: " in told


def test_sanderlings_reflector_may_stay():
    """The loose leech can whip the tube behind the jumper: a caution, and it may stay."""
    own = by_where("sanderling", "own")
    assert own.free
    assert "tack/whips" in {finding.code for finding in own.of("caution")}
    assert "As planned nothing is at fault." in reasons(places("sanderling"))


def test_figures_of_a_place_by_hand():
    """Horizon of the earth of 4/3 radius, 2.2256 to the root of metres (ITU-R P.526); moment m h."""
    own = by_where("whimbrel", "own").given
    high = own.water.value
    assert high == pytest.approx((17_300 - 4_235) / 1000 * math.cos(math.radians(1.5)) - 0.25, abs=0.01)
    for ship, antenna in zip(own.ships, (15.0, 30.0, 40.0), strict=True):
        assert ship.horizon.value == pytest.approx(2.2256 * (math.sqrt(high) + math.sqrt(antenna)), abs=0.01)
    # 1.6 kg at its own middle, within its half height of its foot.
    assert own.moment.value == pytest.approx(1.6 * high, abs=1.6 * 0.15)


def test_places_beside_spreaders_stand_off_them():
    """A hand's breadth, 100, above and below the root at z 11,950, 30 thick: seen in its own solids."""
    beside = {(one.where, one.beside): one for one in places("whimbrel") if one.beside}
    above, below = beside["above", "spreader-upper-p"], beside["below", "spreader-upper-p"]
    assert above.placed.span_z_mm[0] == pytest.approx(11_950 + 15 + 100, abs=1.0)
    assert below.placed.span_z_mm[1] == pytest.approx(11_950 - 15 - 100, abs=1.0)


def test_what_is_fitted_or_of_no_height_has_no_choice():
    """What is there already shows its own place alone; a box has none."""
    report = known.report("whimbrel")
    steaming = [one for one in candidates(report, "steaming-light", survey=False) if one]
    assert [one.where for one in steaming] == ["own"]
    box = check(build(a_layout(kinds=(a_kind(group="deck"),))))
    assert list(candidates(box, "box-1")) == []


def test_without_a_waterline_nothing_is_chosen_by_range():
    """Nobody measured from the waterline to the heel: that is said, no place is called the farthest."""
    echo = a_kind(id="echo", sectors=(Sector(what="echo", from_deg=0, to_deg=360, name="echo"),))
    layout = a_layout(kinds=(echo,), fittings=(a_fitting(kind="echo", new=True),), boat=Boat(name="Test"))
    report = check(build(layout))
    told = " ".join(reasons(masthead_first(candidates(report, "box-1"))))
    assert "What a height gives is not known: measure first: " in told
    assert "arthest" not in told


def test_what_hangs_on_another_is_told_alone():
    """The tricolour stays on its plate: 0.4 kg of its own, no word of the cable to the whip beside it."""
    (own,) = [one for one in candidates(known.report("whimbrel"), "tricolour-1") if one]
    assert own.given.moment.value == pytest.approx(0.4 * own.given.water.value, abs=0.1)
    assert all("tricolour-1" in finding.things for finding in own.found)


def test_free_places_are_named_where_no_figure_tells_which_is_best():
    """Nobody read the plate of Turnstone's hailer: loud or not, where it would be free is said."""
    found = masthead_first(candidates(known.report("turnstone"), "hailer-1"))
    first, second, *_rest = reasons(found)
    assert first.startswith("Free of faults: A, at the masthead")
    assert second.startswith("As planned at fault: Genoa, 135 % bears on it")

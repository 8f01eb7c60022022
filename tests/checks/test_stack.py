"""The dropped mainsail: how high its stack stands, what its folds lie on, and the gate of its track.

Heights are added up by hand; that a gate lies above the stack or below a stop is common practice,
no source.
"""

import pytest
from builders import a_fitting, a_layout, a_main, a_mast
from test_main import a_part, codes, on_aft_face

from mastlayout.checks.report import check
from mastlayout.checks.sentence import names_of, sentence
from mastlayout.geometry.scene import build
from mastlayout.model.mast import Track

# The stack of ``a_main``: it stands on the boom, 1,500 above the heel, and is 150 + 10 x 50 = 650 high.
BOOM_MM, TOP_MM, LENGTH_MM = 1500.0, 2150.0, 17000.0


def a_track(**fields):
    """A mast whose groove has a gate 100 long, or what a test says."""
    known = {"kind": "groove", "width_mm": 5.0, "gate_length_mm": 100.0}
    return a_mast(track=Track(**(known | fields)))


def gate_at(low_mm):
    """The gate's middle from the masthead, its lower edge ``low_mm`` above the heel."""
    return {"gate_mm": LENGTH_MM - low_mm - 50.0}


def of_stack(mast=None, main_sail=None, fittings=(), kinds=()):
    """The findings of a mast, its mainsail and its stack."""
    layout = a_layout(mast=mast or a_mast(), sails=(main_sail or a_main(),), fittings=fittings, kinds=kinds)
    report = check(build(layout))
    assert not report.broken
    return report, [one for one in report.open if one.code in ("main/stack", "main/gate", "main/folds")]


@pytest.mark.parametrize(
    ("low_mm", "said"),
    [
        (TOP_MM + 500.0, None),  # well above it
        (TOP_MM + 10.0, None),  # just the 10 that are wanted
        (TOP_MM + 9.0, 9.0),
        (TOP_MM - 300.0, -300.0),  # slides come out
        (BOOM_MM - 60.0, -710.0),  # half below the boom, half beside the lowest slide
        (BOOM_MM - 100.0, None),  # all of it below what they stand on
    ],
)
def test_the_gate_lies_above_the_stack_or_below_what_it_stands_on(low_mm, said):
    """Measured from the gate's lower edge to the top of the stack."""
    _report, found = of_stack(a_track(**gate_at(low_mm)))
    assert [one.measured for one in found] == ([] if said is None else [pytest.approx(said)])
    assert codes(found) == ([] if said is None else [("main/gate", "caution")])


def test_a_gate_that_closes_or_lies_below_a_stop_lets_nothing_out():
    """The stack stands on the stop, and so 200 higher; a track without a gate is fed from its lower end."""
    within = gate_at(BOOM_MM + 50.0)
    assert of_stack(a_track(**within))[1]
    assert of_stack(a_track(**within, gate_closes=True))[1] == []
    stopped = a_track(**within, stop_mm=LENGTH_MM - BOOM_MM - 200.0)
    report, found = of_stack(stopped)
    assert found == []
    assert report.scene.main.stacks[0].top_mm == pytest.approx(TOP_MM + 200.0)
    assert of_stack(a_track(lower_end_mm=15000.0))[1] == []


def test_what_nobody_measured_is_not_checked_once():
    """Without cars and a measured stack there is no height; without a gate nobody knows where it opens."""
    for lacking in ({"cars": None}, {"car_high_mm": None}, {"headboard_high_mm": None}):
        _report, found = of_stack(main_sail=a_main(**lacking))
        assert [(one.code, one.measure) for one in found] == [("main/stack", "sail.cars")]
    for gate in ({"gate_mm": None}, {"gate_mm": 9000.0, "gate_length_mm": None}):
        _report, found = of_stack(a_track(**gate))
        assert [(one.code, one.measure) for one in found] == [("main/gate", "track.gate")]


def test_a_measured_stack_goes_with_what_its_cars_add_up_to():
    """650 add up: 100 more or less is allowed, the higher is taken."""
    assert of_stack(main_sail=a_main(stack_mm=750.0))[1] == []
    assert of_stack(main_sail=a_main(stack_mm=550.0))[1] == []
    report, found = of_stack(main_sail=a_main(stack_mm=540.0))
    assert [(one.code, one.measured) for one in found] == [("main/stack", pytest.approx(110.0))]
    assert report.scene.main.stacks[0].top_mm == pytest.approx(TOP_MM)
    report, _found = of_stack(main_sail=a_main(stack_mm=900.0))
    assert report.scene.main.stacks[0].top_mm == pytest.approx(BOOM_MM + 900.0)
    assert of_stack(main_sail=a_main(cars=None, stack_mm=900.0))[1] == []


def folds(kind, height_mm, girth="aft"):
    """What is said of the folds and a part at a height above the heel."""
    own = a_fitting(girth=girth, from_masthead_mm=LENGTH_MM - height_mm, in_hand=None)
    return [one for one in of_stack(fittings=(own,), kinds=(kind,))[1] if one.code == "main/folds"]


def test_folds_lie_on_what_stands_abaft_the_track():
    """A box 120 proud abaft the track, level with the stack: by 120, or by 150 less how far off it is."""
    (said,) = folds(a_part(), 1800.0)
    assert (said.standing, said.measured) == ("note", pytest.approx(-120.0, abs=2.0))
    (said,) = folds(a_part(snags=True), 1800.0)
    assert said.standing == "caution"
    text = sentence(of_stack()[0].scene, said, {"box-1": "Camera", "main": "Mainsail"})
    assert "Camera: the folds of Mainsail, dropped on its stack, lie on it, 120 deep" in text


def test_above_the_stack_and_on_the_side_no_folds_hang():
    """An outline is carried 100 beyond its ends; a box at 90 degrees round stands ahead of the folds."""
    assert folds(a_part(), TOP_MM + 40.0 - 20.0)
    assert folds(a_part(), TOP_MM + 40.0 + 100.0 + 25.0) == []
    assert folds(a_part(), 1800.0, "bearing 270") == []


def test_gear_that_works_there_may_have_folds_on_it():
    """An exit or a winch is where it must be; a cleat's horns are worth a note."""
    assert folds(a_part(group="deck"), 1800.0) == []
    assert [one.standing for one in folds(a_part(group="deck", snags=True), 1800.0)] == ["note"]


def test_a_wide_car_meets_what_a_narrow_one_passes():
    """A plate 25 beside the groove: a car 80 across reaches 40 to either side, one of 18 only 9."""
    plate = a_part((20, 60, 12), group="foot", edge=5.0)
    beside = {"girth": "30 to port of aft"}
    assert ("main/carried", "fault") in codes(on_aft_face(plate, a_main(car_across_mm=80.0), **beside))
    assert "main/carried" not in [code for code, _standing in codes(on_aft_face(plate, **beside))]


def test_every_finding_has_its_words():
    """Each names the sail, and what helps."""
    report, found = of_stack(a_track(**gate_at(1800.0)), a_main(stack_mm=300.0))
    said = [sentence(report.scene, one, names_of(report.scene.layout)) for one in found]
    assert "slides come out there as the sail comes down" in said[0]
    assert "higher or lower than its headboard and cars add up to" in said[1]

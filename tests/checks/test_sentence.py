"""Sentences: measured rounds towards less room, what is needed is not undershot, units as the user chose."""

import pytest
from builders import a_fitting, a_layout

from mastlayout.checks.alike import alike
from mastlayout.checks.finding import Finding
from mastlayout.checks.report import check
from mastlayout.checks.sentence import measured_text, names_of, needed_text, sentence, short, written
from mastlayout.geometry.scene import build
from mastlayout.model.edits import change


def a_finding(measured, required, code="hole/inside", unit="mm"):
    """A caution of a measured and a required value."""
    return Finding(code, "caution", ("box-1/h1", "pipe"), measured, required, unit)


@pytest.mark.parametrize(
    ("measured", "required", "code", "text"),
    [
        (9.283, 15.0, "hole/inside", "9.2"),
        (14.99, 15.0, "hole/inside", "14.9"),
        (14.996, 15.0, "hole/inside", "14.9"),
        (19.98, 20.0, "clearance/stay", "19"),
        (4.999, 5.0, "clearance/fitting", "4.9"),
        (207.6, 0.0, "cable/slot", "207"),
    ],
)
def test_a_measured_value_rounds_towards_less_room(measured, required, code, text):
    """And is never shown equal to the limit it misses."""
    assert written(measured, a_finding(measured, required, code), "metric", less=True) == text


@pytest.mark.parametrize(
    ("measured", "required", "shown", "needed"),
    # 15 mm is 18.9 thirty-seconds: 19 are needed; 14.9 mm is 18.77, shown 18.
    [(14.9, 15.0, "9/16", "19/32"), (2.5, 15.0, "3/32", "19/32"), (25.4, 30.0, "1", "1 3/16")],
)
def test_gaps_in_inches_are_thirty_seconds_and_never_meet(measured, required, shown, needed):
    """What is needed is rounded up, what was measured down."""
    finding = a_finding(measured, required, "clearance/stay")
    assert written(measured, finding, "inches", less=True) == shown
    assert written(required, finding, "inches", less=False) == needed


@pytest.mark.parametrize("code", ["hole/inside", "hole/spacing", "hole/foot-edge", "cable/plug"])
def test_sizes_in_inches_are_thousandths_and_never_meet(code):
    """14.96 mm is 0.58898 inches, 15 is 0.59055: measured down, needed up, the millimetres beside them."""
    finding = a_finding(14.96, 15.0, code)
    assert written(14.96, finding, "inches", less=True) == "0.588 in (14.9 mm)"
    assert written(15.0, finding, "inches", less=False) == "0.591 in (15 mm)"
    assert measured_text(finding, "inches") == "0.588 in"
    assert needed_text(finding, "inches") == "0.591 in"


def test_per_cent_and_degrees():
    """Whole per cent, a tenth of a degree."""
    assert written(53.08, a_finding(53.08, 40.0, "cable/fill", "%"), "metric", less=True) == "53 %"
    assert written(1.52, a_finding(1.52, 1.0, "rig/bisector", "deg"), "metric", less=True) == "1.5°"


def test_findings_alike_are_said_once_with_their_holes():
    """Four holes at one distance are one sentence."""
    mast = {
        "conduits": [
            {
                "id": "pipe",
                "name": "Pipe",
                "outside_mm": 30.0,
                "runs": [{"from_masthead_mm": 500.0, "to_mm": 16500.0, "bearing_deg": 0.0}],
            }
        ]
    }
    layout = a_layout(fittings=(a_fitting(tag=13),))
    scene = build(layout.but(mast=layout.mast.but(**mast)))
    report = check(scene)

    groups = [g for g in alike(report.open) if g[0].code == "hole/inside"]
    assert [len(group) for group in groups] == [4]
    said = sentence(scene, groups[0], names_of(scene.layout))
    assert said.startswith("box-1, holes 13.1 to 13.4: the drill meets Pipe, ")
    assert "7985 to 8015 from the masthead" in said


def test_a_sentence_names_what_where_how_much_and_what_helps():
    """Two boxes 4 apart where 5 are needed."""
    layout = a_layout(fittings=(a_fitting(), a_fitting("box-2", from_masthead_mm=8084.0)))
    scene = build(change(layout, "box-2", name="Horn"))
    finding = next(f for f in check(scene).open if f.code == "clearance/fitting")
    said = sentence(scene, finding, names_of(scene.layout))
    assert short(scene, finding, names_of(scene.layout)) in said
    assert "4.0 from" in said
    assert "5 is needed" in said
    assert said.endswith("Move one of the two.")

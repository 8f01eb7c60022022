"""Where findings are worst: the length between the two places is the figure that was measured."""

import math
from pathlib import Path

import known
import pytest

from mastlayout.checks.report import check
from mastlayout.checks.worst import worst_of
from mastlayout.geometry.scene import build

DEMOS = sorted((Path(__file__).parents[2] / "demo_masts").glob("*.toml"))


@pytest.mark.parametrize("demo", DEMOS, ids=lambda path: path.stem)
def test_the_two_places_are_as_far_apart_as_measured(demo):
    """To 0.02 mm, for every finding that stands clear of the other; what overlaps has only a place."""
    report = known.report(demo.stem)
    scene, asked = report.scene, 0
    for finding in report.open:
        worst = worst_of(scene, finding)
        if worst is None or finding.measured is None or finding.measured <= 0:
            continue
        asked += 1
        if finding.code == "hole/spacing":
            # Taped round the skin, so the straight way is no longer.
            assert math.dist(worst.at, worst.other) <= finding.measured + 0.02, finding
        else:
            assert math.dist(worst.at, worst.other) == pytest.approx(finding.measured, abs=0.02), finding
    assert asked


@pytest.mark.parametrize("demo", DEMOS, ids=lambda path: path.stem)
def test_what_sails_touch_is_as_deep_as_it_is_drawn(demo):
    """To 0.02 mm: cloth, what the mainsail carries, clews, each where it is worst; sheets have one place."""
    report = known.report(demo.stem)
    scene, asked = report.scene, set()
    for finding in report.open:
        family, _slash, word = finding.code.partition("/")
        worst = worst_of(scene, finding) if family in ("tack", "main", "clew") else None
        if worst is not None and worst.at != worst.other:
            asked.add(word)
            apart = math.dist(worst.at, worst.other)
            assert apart == pytest.approx(abs(finding.measured), abs=0.02), finding
    assert {"bears", "rubs", "gear", "hooks"} <= asked


def test_what_has_no_two_places_has_none(session_layout):
    """A measure that is missing, or a foot over the track, is no distance in space."""
    scene = build(session_layout)
    for finding in check(scene).open:
        if finding.measured is None or finding.code.startswith("seat"):
            assert worst_of(scene, finding) is None


@pytest.fixture
def session_layout():
    """The layout of a demo mast."""
    return known.report(DEMOS[0].stem).scene.layout

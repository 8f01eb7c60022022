"""What holds the cloth is worked out some blocks at a time: which were asked before must not matter."""

import known
import numpy as np
import pytest

from mastlayout.checks.graded import GradedMargins
from mastlayout.checks.rule import where_it_stands
from mastlayout.checks.tack import TACK
from mastlayout.geometry.scene import build
from mastlayout.limits import limits_of


@pytest.fixture(scope="module")
def layout():
    """The largest example."""
    return known.report("whimbrel").scene.layout


def measured(scene, names):
    """What the rule measures of fittings, each asked by itself, in this order."""
    limits = limits_of(scene.layout)
    found = {}
    for name in names:
        (own,) = TACK.margins(scene, [where_it_stands(scene.placed[name])], limits)
        found[name] = own
    return found


@pytest.mark.parametrize("upwards", [True, False])
def test_one_by_one_as_all_at_once(layout, upwards):
    """From the heel up, and from the masthead down: figures, heights and grades are those of one question."""
    scene, whole = build(layout), build(layout)
    names = sorted(scene.placed, key=lambda name: scene.placed[name].z_mm, reverse=not upwards)
    batches = [where_it_stands(whole.placed[name]) for name in names]
    at_once = dict(zip(names, TACK.margins(whole, batches, limits_of(layout)), strict=True))
    for name, own in measured(scene, names).items():
        np.testing.assert_allclose(own.measured, at_once[name].measured, atol=1e-9)
        if isinstance(own, GradedMargins):
            np.testing.assert_array_equal(own.grade, at_once[name].grade)

"""The walk along a way: how many places are checked whole before one is found, and which is named."""

from dataclasses import replace

import numpy as np
import pytest
from builders import a_fitting, a_layout

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import check
from mastlayout.checks.rules import FITTING_RULES, WHOLE_RULES
from mastlayout.geometry.scene import build
from mastlayout.places import search
from mastlayout.places.clear import Matter
from mastlayout.places.family import family_of
from mastlayout.places.ways import ways_of


@pytest.fixture
def walked(monkeypatch):
    """Walk down a mast on which a place is clear as a whole where told; say which step and how many asked."""
    report = check(build(a_layout(fittings=(a_fitting(from_masthead_mm=600.0),))))
    family = family_of(report.scene, "box-1")
    down = next(way for way in ways_of(report.scene, family) if way.direction == "down")

    def walk(is_clear):
        asked = []
        monkeypatch.setattr(search, "open_places", lambda _f, places, _m, _l: np.arange(len(places)))
        monkeypatch.setattr(search, "clear_places", lambda _f, places, _m, _l: list(range(len(places))))

        def stood(_report, _family, _way, step, _matter, _walk):
            asked.append(step)
            return search.Found(step, report.scene.layout, report) if is_clear(step) else None

        monkeypatch.setattr(search, "_stood", stood)
        found = search.nearest(report, family, down, None, lambda: None)
        return (None if found is None else found.step), asked, len(down)

    return walk


@pytest.mark.parametrize("first", [0, 1, 7, 15, 16, 40, 200, 1003, 1500])
def test_the_nearest_is_found_with_few_whole_checks(walked, first):
    """Clear from some place on: the very first of them is named, and few before it were checked whole."""
    step, asked, of = walked(lambda step: step >= first)
    assert step == first < of
    assert len(asked) <= min(first + 16, 4 * 16 + 40 + first / 16)


def test_where_nothing_is_clear_not_every_place_is_checked(walked):
    """Some 1,600 places in vain: not a tenth of them, spread over the whole way."""
    step, asked, of = walked(lambda _step: False)
    assert step is None
    assert len(asked) < 0.12 * of
    assert of - max(asked) <= 16


def test_the_rule_that_spoke_last_is_asked_first(monkeypatch):
    """Where it speaks again nothing else is asked; where it does not, all are."""
    report = check(build(a_layout(fittings=(a_fitting(),))))
    family = family_of(report.scene, "box-1")
    down = next(way for way in ways_of(report.scene, family) if way.direction == "down")
    matter = Matter(FITTING_RULES[0], "box-1", family.names, {}, frozenset())
    speaks = replace(WHOLE_RULES[0], findings=lambda _s, _l: [Finding("air/bridge", "fault", ("box-1",))])
    silent = replace(WHOLE_RULES[0], findings=lambda _s, _l: [])
    asked = []
    monkeypatch.setattr(search, "check", lambda scene, before: asked.append(scene) or check(scene, before))
    assert search._stood(report, family, down, 3, matter, search._Walk(suspect=speaks)) is None
    assert not asked
    search._stood(report, family, down, 3, matter, search._Walk(suspect=silent))
    assert asked

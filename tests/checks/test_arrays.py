"""The same rules at one place and at many: what a search will ask is what a check asks."""

import numpy as np
import pytest
from builders import a_fitting, a_layout, a_mast, a_spreader, a_stay

from mastlayout.checks.rule import at_places, findings
from mastlayout.checks.rules import FITTING_RULES
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.limits import built_in
from mastlayout.model.fitting import OldHole
from mastlayout.model.mast import Taper
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

PIPE = {
    "id": "pipe",
    "name": "Pipe",
    "outside_mm": 30.0,
    "bore_mm": 25.0,
    "runs": [{"from_masthead_mm": 500.0, "to_mm": 16500.0, "bearing_deg": 330.0}],
}
CROWDED = build(
    a_layout(
        mast=a_mast(conduits=[PIPE], taper=Taper(from_masthead_mm=5000, length_mm=150, width_mm=100)),
        fittings=tuple(a_fitting(f"box-{i}", from_masthead_mm=7000.0 + 300 * i) for i in range(6)),
        spreaders=(a_spreader(),),
        stays=(a_stay(),),
        holes=(OldHole(id="old", name="Old", from_masthead_mm=8000.0, girth="ahead", diameter_mm=6.0),),
    )
)
COUNT = 80


def some_places():
    """Eighty places among the others and in the taper, round the mast, turned, some off the skin."""
    dice = np.random.default_rng(5)
    along, around = dice.uniform(8300, 13000, COUNT), dice.uniform(40, 330, COUNT)
    turn = dice.uniform(-180, 180, COUNT)
    # One whose upper left hole falls 8 round the skin from the old hole.
    along[0], around[0], turn[0] = 8985.0, CROWDED.skin.full.half_girth_mm + 38.0, 0.0
    return Places(along, around, dice.uniform(0, 40, COUNT), turn)


def at(places, i):
    """One of the places alone."""
    return Places(
        *(getattr(places, name)[i : i + 1] for name in ("along_mm", "around", "stand_off_mm", "turn_deg"))
    )


def by_subject(margins, row):
    """Measured and required by subject; far subjects are left out, however they were left."""
    return {
        subjects: (float(margins.measured[row, i]), float(margins.required[row, i]))
        for i, subjects in enumerate(margins.subjects)
        if margins.measured[row, i] < margins.required[row, i]
    }


@pytest.mark.parametrize("rule", FITTING_RULES, ids=lambda rule: rule.code)
def test_many_places_at_once_are_the_places_one_by_one(rule):
    """Every rule, every place: the same shortfalls to a thousandth."""
    placed, places, limits = CROWDED.placed["box-2"], some_places(), built_in()
    together = rule.margins(CROWDED, [at_places(placed, places)], limits)[0]
    found = 0
    for i in range(COUNT):
        alone = by_subject(rule.margins(CROWDED, [at_places(placed, at(places, i))], limits)[0], 0)
        here = by_subject(together, i)
        assert here.keys() == alone.keys()
        for subjects, values in here.items():
            assert values == pytest.approx(alone[subjects], abs=1e-3)
        found += len(alone)
    if rule.code in ("clearance/fitting", "hole/inside", "seat/track", "hole/spacing"):
        assert found


def test_a_hundred_thousand_places_are_asked_in_one_call():
    """One call, one row a place."""
    placed = CROWDED.placed["box-2"]
    count = 100_000
    places = Places(np.linspace(200, 16800, count), np.zeros(count) + 200.0, np.zeros(count), np.zeros(count))
    rule = next(rule for rule in FITTING_RULES if rule.code == "seat/track")
    assert rule.margins(CROWDED, [at_places(placed, places)], built_in())[0].measured.shape == (count, 1)


@pytest.fixture(scope="module")
def rigged():
    """Whimbrel with all her sails, and her hailer from the deck to the masthead, ahead, abeam and aft."""
    scene = build(open_document(demo_masts() / "whimbrel.toml").layout)
    along = np.repeat(np.arange(1200.0, 16200.0, 1500.0), 4)
    around = np.tile(scene.skin.full.half_girth_mm * np.array([1.0, 0.5, -0.5, 0.0]), 10)
    return scene, Places(along, around, np.zeros(40), np.zeros(40))


@pytest.mark.parametrize("rule", FITTING_RULES, ids=lambda rule: rule.code)
def test_a_place_among_many_is_judged_as_it_is_alone(rule, rigged):
    """What a rule says of one row is what it says where nothing else is asked, whatever it grades by."""
    scene, places = rigged
    placed, limits = scene.placed["hailer-1"], built_in()
    together = rule.margins(scene, [at_places(placed, places)], limits)[0]
    saying = 0
    for i in range(len(places)):
        alone = rule.margins(scene, [at_places(placed, at(places, i))], limits)[0]
        here, own = (findings(rule, placed, margins, limits) for margins in (together.at(i), alone))
        assert [(one.code, one.standing, one.subjects, one.state) for one in here] == [
            (one.code, one.standing, one.subjects, one.state) for one in own
        ]
        saying += bool(own)
    if rule.code in ("tack/bears", "clew/hooks", "main/bears"):
        assert 0 < saying < len(places)  # graded otherwise from place to place

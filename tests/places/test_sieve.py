"""The sieve: what is asked quickly rules out nothing that the whole question allows."""

import known
import numpy as np
import pytest
from builders import a_fitting, a_layout, a_stay

from mastlayout.checks.main import CARRIED, CLOTH
from mastlayout.checks.report import check
from mastlayout.checks.rule import at_places
from mastlayout.checks.stack import FOLDS
from mastlayout.checks.tack import TACK
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.places.clear import matter_of
from mastlayout.places.family import family_of
from mastlayout.places.sieve import open_places


@pytest.mark.parametrize(("demo", "name"), [("whimbrel", "hailer-1"), ("sanderling", "reflector-1")])
def test_the_middles_are_never_louder_than_the_whole(demo, name):
    """Sixty places by lot, all round the mast: the whole fitting is at least as loud as its middles."""
    report = known.report(demo)
    scene, placed, dice = report.scene, report.scene.placed[name], np.random.default_rng(4)
    half = scene.skin.full.half_girth_mm
    places = Places(
        dice.uniform(3000, scene.skin.length_mm - 500, 60),
        dice.uniform(-half, half, 60),
        np.zeros(60),
        np.zeros(60),
    )
    batches = [at_places(placed, places)]
    quick = TACK.quick(scene, batches, report.limits)[0]
    whole = TACK.margins(scene, batches, report.limits)[0]
    assert (quick.grade <= whole.grade).all()
    # It is worth asking: most that are at fault are found by their middles.
    assert quick.faults(0.0).any(axis=1).sum() > whole.faults(0.0).any(axis=1).sum() / 2


@pytest.mark.parametrize("rule", [CLOTH, CARRIED, FOLDS], ids=lambda rule: rule.code)
@pytest.mark.parametrize(("demo", "name"), [("whimbrel", "camera-1"), ("turnstone", "reflector-1")])
def test_the_middles_are_never_nearer_the_mainsail_than_the_whole(rule, demo, name):
    """Sixty places by lot abaft the mast: a place its middles rule out the whole fitting rules out too."""
    report = known.report(demo)
    scene, placed, dice = report.scene, report.scene.placed[name], np.random.default_rng(7)
    half = scene.skin.full.half_girth_mm
    places = Places(
        dice.uniform(1200, scene.skin.length_mm - 500, 60), dice.uniform(-half / 2, half / 2, 60),
        np.zeros(60), np.zeros(60),
    )  # fmt: skip
    batches = [at_places(placed, places)]
    quick = rule.quick(scene, batches, report.limits)[0]
    whole = rule.margins(scene, batches, report.limits)[0]
    assert (quick.short <= whole.short).all()
    assert (quick.faults(0.0) <= whole.faults(0.0)).all()
    assert whole.short.any()


def test_where_the_luff_lies_inside_the_mast_no_place_is_offered():
    """A luff that sags 3 m aft from a pin 4.6 m ahead: it goes through the mast, and nobody can tell."""
    genoa = {
        "id": "genoa", "name": "Genoa", "role": "headsail", "stay": "forestay", "lp_mm": 4000.0,
        "tack_mm": 16500.0, "clew_mm": 15500.0, "head_mm": 600.0,
    }  # fmt: skip
    second = a_fitting("box-2", from_masthead_mm=8084.0)
    stay = a_stay(sag_mm=3000.0)
    scene = build(a_layout(fittings=(a_fitting(), second), stays=(stay,), sails=(genoa,)))
    untold = scene.tack.not_asked_mm
    assert len(untold)
    # By hand: the pin 130 ahead of the axis, the deck end 4,600; the mast's own half is 100.
    part = untold / 16800.0
    luff = 4600.0 + part * (130.0 - 4600.0) - 4 * 3000.0 * part * (1 - part)
    assert (np.abs(luff) < 110.0).all()
    report = check(scene)
    family = family_of(scene, "box-2")
    finding = next(own for own in report.open if own.code == "clearance/fitting")
    matter = matter_of(report, finding, "box-2", family)
    heights = np.array([untold[0], untold[-1] + 130.0, untold[-1] + 1000.0])
    places = Places(heights, np.full(3, family.root.places.around[0]), np.zeros(3), np.zeros(3))
    assert not {0, 1} & set(open_places(family, places, matter, report.limits).tolist())


def test_a_family_goes_as_one():
    """What hangs on the bracket, and what hangs on that, stands as far from it at every place."""
    scene = known.report("whimbrel").scene
    family = family_of(scene, "radome-1")
    assert family.root.id == "radome-bracket-1"
    assert family.names == {"radome-bracket-1", "radome-1", "radome-guard-1"}
    root = family.root.places
    places = Places(
        root.along_mm + np.array([0.0, 500.0]),
        *(np.repeat(each, 2) for each in (root.around, root.stand_off_mm, root.turn_deg)),
    )
    for member, batch in zip(family.members, family.at(places), strict=True):
        assert batch.solids.centre[: batch.each] == pytest.approx(member.solids.centre, abs=1e-6)
        moved = batch.solids.centre[batch.each :] - member.solids.centre
        assert moved == pytest.approx(np.broadcast_to([0.0, 0.0, 500.0], moved.shape), abs=1e-6)
    assert family.names.isdisjoint(family.others.placed)
    assert family.names.isdisjoint(family.others.gear.ids)

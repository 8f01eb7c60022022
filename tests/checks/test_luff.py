"""A sail furled on a free luff: its roll by hand, straight and in a bight; what is missing; Sanderling's."""

import numpy as np
import pytest
from asking import found
from builders import a_fitting, a_kind, a_layout, a_stay

from mastlayout.checks.report import check
from mastlayout.checks.sentence import names_of, sentence
from mastlayout.geometry.scene import build
from mastlayout.model.layout import LimitOverride
from mastlayout.model.sails import Sail
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

# The mast of the builders: 17,000 long, its fore face 100 ahead of the axis. A ball of 40, its middle 300
# off that face; an upright luff 600 ahead of the face, its roll 200.
OFF, FACE, BALL, ROLL, RISE = 600.0, 100.0, 40.0, 200.0, 16800.0


def luff(off_mm=OFF, **fields):
    """An upright free luff."""
    known = {
        "id": "code-luff",
        "role": "luff",
        "wire_mm": 20.0,
        "upper": {"from_masthead_mm": 200.0, "girth": "ahead", "stand_off_mm": off_mm},
        "deck": {"ahead_mm": FACE + off_mm, "above_mm": 0.0},
        "removable": True,
    }
    return a_stay(**(known | fields))


def code_sail(**fields):
    """A code sail that furls to 200."""
    known = {"id": "code", "name": "Code sail", "role": "code sail", "stay": "code-luff", "furled_mm": ROLL}
    return Sail(**(known | fields))


def a_rig(stay, sail, *limits, z_mm=8400.0):
    """The luff, the sail, and the ball at a height."""
    ball = a_kind(solids=[{"shape": "ball", "centre": (0, 0, 300), "radius_mm": BALL}])
    fitting = a_fitting(from_masthead_mm=17000.0 - z_mm)
    return a_layout(kinds=(ball,), fittings=(fitting,), stays=(stay,), sails=(sail,), limits=limits)


def of_luff(layout):
    """What is said of furled luffs."""
    report = check(build(layout))
    assert not report.broken
    return [one for one in report.open if one.code.startswith("luff/")]


NO_SAG = LimitOverride(key="luff.sag", value=0.0, unit="%", why="it goes up bar tight")


@pytest.mark.parametrize(
    ("off", "standing"),
    [(300 + 40 + 100 + 20.1, None), (300 + 40 + 100 + 19.0, "caution"), (300 + 40 + 100 - 1.0, "fault")],
)
def test_a_roll_set_up_straight_by_hand(off, standing):
    """The room is the luff's distance less the ball's middle, its radius and half the roll; 20 is needed."""
    said = of_luff(a_rig(luff(off), code_sail(), NO_SAG))
    assert [one.standing for one in said] == ([standing] if standing else [])
    for one in said:
        assert one.code == "luff/furled"
        assert one.measured == pytest.approx(off - 440.0, abs=0.02)


@pytest.mark.parametrize(("sag", "said"), [(0.9, []), (1.1, ["luff/hoist"])])
def test_a_bight_on_its_way_up_by_hand(sag, said):
    """At half height it hangs all its sag aft: 151 or 185 of 160; a caution at worst."""
    limit = LimitOverride(key="luff.sag", value=sag, unit="%", why="as it was seen")
    findings = of_luff(a_rig(luff(), code_sail(), limit))
    straight = OFF - 300 - BALL - ROLL / 2
    assert straight == 160.0
    assert [one.code for one in findings] == said
    for one in findings:
        assert one.standing == "caution"
        assert one.measured == pytest.approx(straight - RISE * sag / 100, abs=0.1)


def test_it_is_asked_between_head_and_tack_alone():
    """Above its head and below its tack there is no roll; where nobody measured them it is all the way."""
    near = luff(300 + 40 + 100 - 1.0)
    above = code_sail(head_mm=9000.0)
    below = code_sail(tack_mm=8000.0)
    assert of_luff(a_rig(near, above, NO_SAG)) == []
    assert of_luff(a_rig(near, below, NO_SAG)) == []
    assert of_luff(a_rig(near, code_sail(head_mm=8000.0, tack_mm=9000.0), NO_SAG))


@pytest.mark.parametrize(("field", "measure"), [("stay", "sail.free_luff"), ("furled_mm", "sail.furled")])
def test_what_is_missing_is_asked_for(field, measure):
    """Never a silent pass; and its cloth stays not checked besides."""
    layout = a_rig(luff(), code_sail(**{field: None}), NO_SAG)
    (one,) = of_luff(layout)
    assert (one.standing, one.measure) == ("not checked", measure)
    assert found(layout, "sail/free-luff")


def test_a_sail_of_another_sort_is_not_asked():
    """A spinnaker is not furled."""
    assert of_luff(a_rig(luff(300.0), code_sail(role="spinnaker"))) == []


@pytest.mark.parametrize(
    ("off", "said"),
    [(300 + 40 + 100 + 19.0, ["luff/furled"]), (640.0, ["luff/sags"]), (300 + 40 + 100 + 336 + 21.0, [])],
)
def test_a_headsail_on_its_furler_by_hand(off, said):
    """As thick as its roll, straight, and sagged with its stay: the forestay's 2 % of 16,800 is 336."""
    stay = luff(off, id="forestay", role="forestay", removable=False)
    genoa = code_sail(id="genoa", name="Genoa", role="headsail", stay="forestay")
    findings = of_luff(a_rig(stay, genoa))
    assert [one.code for one in findings] == said
    for one in findings:
        sag = 336.0 if one.code == "luff/sags" else 0.0
        assert one.measured == pytest.approx(off - 440.0 - sag, abs=0.5)


def test_a_sag_that_was_measured_goes_before_the_limit():
    """A stay said to sag 100 never brings the roll nearer than that."""
    stay = luff(640.0, id="forestay", role="forestay", removable=False, sag_mm=100.0)
    genoa = code_sail(id="genoa", name="Genoa", role="headsail", stay="forestay")
    assert of_luff(a_rig(stay, genoa)) == []


def test_a_luff_whose_place_nobody_measured_breaks_nothing():
    """The stay is asked for, as any stay is."""
    layout = a_rig(luff(deck=None), code_sail())
    assert of_luff(layout) == []
    assert [one.measure for one in found(layout, "clearance/stay")] == ["stay.deck"]


def test_the_words_name_sail_and_state():
    """In one sentence."""
    layout = a_rig(luff(300.0), code_sail(), NO_SAG)
    scene = build(layout)
    (one,) = found(layout, "luff/furled")
    assert sentence(scene, one, names_of(layout)).startswith("box-1: Code sail, furled, bears on it, ")


def test_sanderlings_code_sail_goes_up_clear():
    """Its luff stands 1.2 m ahead of the radome's height and more: nobody is bothered with it.

    What it hangs on, its pad eye and block, is not asked.
    """
    layout = open_document(demo_masts() / "sanderling.toml").layout
    assert of_luff(layout) == []
    scene = build(layout)
    luff_, radome = scene.stays["code-luff"].points, scene.placed["radome-1"].solids
    z = radome.centre[:, 2].mean()
    ahead = np.interp(z, luff_[::-1, 2], luff_[::-1, 0])
    sag = 0.05 * np.linalg.norm(luff_[0] - luff_[1])
    assert ahead - sag - 55 > radome.support(np.array([1.0, 0.0, 0.0])).max()

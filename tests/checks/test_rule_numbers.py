"""Each finding about what a height gives names its published rule by number, or says that there is none.

The numbers are those of the publications themselves, read: COLREG 1972 with Annexes I and III, MSC.164(78),
IMO SN.1/Circ.271 and SN/Circ.227, ABYC E-11 as quoted, ISO 25862.
"""

import json
import re

import pytest

from mastlayout.checks.report import check
from mastlayout.checks.wording import PRACTICE
from mastlayout.checks.wordings import WORDINGS
from mastlayout.documents.printed import check_json, check_text
from mastlayout.geometry.scene import build
from mastlayout.limits import built_in
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

FAMILIES = ("arcs/", "lights/", "reflector/", "radar/", "air/", "antenna/", "sound/", "weight/", "strop/")
CODES = [code for code in WORDINGS if code.startswith((*FAMILIES, "cable/loss", "cable/volts"))]
NUMBERED = re.compile(r"(COLREG (Rules? \d|Annex I+, \d)|MSC\.164|SN\.?1?/Circ\.|E-11, \d|ISO \d)")


@pytest.mark.parametrize("code", CODES)
def test_every_finding_has_its_rule(code):
    """With a number, or common practice; never nothing."""
    rule = WORDINGS[code].rule
    assert rule == PRACTICE or NUMBERED.search(rule), code
    assert WORDINGS[code].published == ("" if rule == PRACTICE else rule)


@pytest.mark.parametrize(
    ("code", "limit"),
    [
        ("arcs/anchor", "light.all_round"), ("arcs/edge", "light.edge"),
        ("lights/masthead", "light.masthead"),
        ("lights/masthead_long", "light.masthead_long"), ("lights/over_sidelights", "light.over_sidelights"),
        ("lights/sidelights", "light.sidelights"), ("lights/heel", "light.sail_band"),
        ("lights/turned", "light.turned"), ("lights/tricolour", "light.tricolour"),
        ("lights/apart", "light.apart"), ("lights/lowest", "light.lowest"),
        ("lights/foredeck", "light.power_band"), ("reflector/hidden", "reflector.hidden"),
        ("radar/ahead", "radar.ahead"), ("cable/volts", "cable.volts"),
    ],
)  # fmt: skip
def test_rule_and_limit_cite_the_same(code, limit):
    """A rule's number stands beside its words and in its limit's source: they may not part."""
    assert WORDINGS[code].rule.removesuffix(", for ships") in built_in()[limit].source


def test_what_is_said_carries_it():
    """In the sentence, in JSON, and where something waits for a measure."""
    layout = open_document(demo_masts() / "whimbrel.toml").layout
    report = check(build(layout.but(boat=layout.boat.but(length_overall_mm=None))))
    said = json.loads(check_json(report, "whimbrel"))
    entries = [one for one in said["findings"] + said["not_checked"] if one["code"] in CODES]
    assert {one["code"] for one in entries} >= {"arcs/dimmed", "reflector/echo_x", "lights/visible"}
    for entry in entries:
        wording = WORDINGS[entry["code"]]
        assert entry["rule"] == wording.rule
        if wording.published:
            assert entry["sentence"].endswith(f" By {wording.rule}.")
    text = check_text(report, "whimbrel")
    waiting = {one["code"] for one in said["not_checked"]} & set(CODES)
    assert waiting
    for code in waiting:
        if WORDINGS[code].published:
            assert f"{WORDINGS[code].asks} ({WORDINGS[code].rule})" in text

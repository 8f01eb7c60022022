"""Antennas beside the mast, against what is published; an antenna over it is not beside it."""

import json

import pytest
from builders import a_fitting, a_kind, a_layout, a_mast

from mastlayout.documents.printed import ranges_json
from mastlayout.geometry.scene import build
from mastlayout.model.mast import Ellipse
from mastlayout.ranges.spacing import beside_mast


def a_whip(off_mm, from_masthead_mm=4000.0, up_mm=0.0):
    """A whip 1 m long that far off a round mast's skin, its middle so far above its place."""
    ends = {"start": (0, up_mm - 500, off_mm), "end": (0, up_mm + 500, off_mm)}
    rod = {"shape": "can", "part": "antenna", "radius_mm": 3} | ends
    sector = {"what": "radio", "from_deg": 0.0, "to_deg": 360.0, "name": "VHF"}
    kind = a_kind("whip", group="antenna", foot=None, solids=[rod], sectors=[sector])
    own = a_fitting("whip-1", kind="whip", in_hand=None, from_masthead_mm=from_masthead_mm)
    mast = a_mast(section=Ellipse(shape="ellipse", length_mm=120.0, width_mm=120.0))
    return build(a_layout(mast=mast, kinds=(kind,), fittings=(own,)))


@pytest.mark.parametrize(
    ("off_mm", "met"), [(590.0, [False, False]), (600.5, [False, True]), (2000.5, [True, True])]
)
def test_what_is_asked_beside_the_mast(off_mm, met):
    """Read, IMO SN/Circ.227, 2.2.1: 2 m from what conducts, for ships. Common practice, no source: 0.6 m."""
    ((apart, ruled),) = beside_mast(a_whip(off_mm))
    assert (apart.a, apart.b) == ("whip-1", "mast")
    assert apart.level_mm == pytest.approx(off_mm, abs=0.5)
    assert [(rule.required_mm, rule.met) for rule in ruled] == list(zip((2000.0, 600.0), met, strict=True))
    assert "SN/Circ.227" in ruled[0].source
    assert "no source" in ruled[1].source


def test_a_whip_over_the_mast_is_not_beside_it():
    """Its middle above the masthead: the rules mean what stands beside."""
    assert not list(beside_mast(a_whip(590.0, 100.0, 200.0)))
    assert list(beside_mast(a_whip(590.0, 100.0)))


def test_json_lists_it():
    """As one pair more, the mast its second."""
    said = json.loads(ranges_json(a_whip(700.0), "test"))
    (pair,) = [pair for pair in said["antennas_apart"] if "mast" in pair["ids"]]
    assert [rule["met"] for rule in pair["rules"]] == [False, True]

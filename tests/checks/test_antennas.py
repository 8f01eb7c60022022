"""Antennas too near each other, and what is lost in a cable."""

import pytest
from builders import a_fitting, a_kind, a_layout

from mastlayout.checks.antennas import RULES
from mastlayout.geometry.scene import build
from mastlayout.limits import limits_of
from mastlayout.model.fitting import Cable
from mastlayout.ranges.cable_loss import power
from mastlayout.ranges.spacing import pairs
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

WHIP = {"shape": "can", "part": "antenna", "start": (0, 0, 50), "end": (0, 900, 50), "radius": 3}
VHF = a_kind(
    "vhf", group="antenna", solids=[WHIP], cable_type="coax, 6 mm class",
    sectors=[{"what": "radio", "from_deg": 0, "to_deg": 360, "name": "VHF"}],
)  # fmt: skip


def said(layout):
    """Code, standing, what was measured, and the measure that is missing."""
    scene = build(layout)
    every = [f for rule in RULES for f in rule.findings(scene, limits_of(layout))]
    return [(f.code, f.standing, f.measured and round(f.measured, 3), f.measure) for f in every]


def two(apart_mm, **fields):
    """Two whips ahead, one above the other, so far apart between their ends."""
    lower = 2000.0 + 900.0 + apart_mm
    high = a_fitting("high", kind="vhf", from_masthead_mm=2000.0)
    return a_layout(
        kinds=(VHF,), fittings=(high, a_fitting("low", kind="vhf", from_masthead_mm=lower)), **fields
    )


@pytest.mark.parametrize(("apart", "found"), [(999.0, True), (1000.0, False), (2500.0, False)])
def test_two_whips(apart, found):
    """One metre is what yachts find good; the rules for ships are not held against her."""
    assert said(two(apart)) == ([("antenna/near", "caution", apart, None)] if found else [])


def test_each_rule_is_listed_and_none_decides():
    """1.2 m apart in height meets what yachts ask of each other and not what IMO asks of ships."""
    ((_apart, ruled),) = pairs(build(two(1200.0)))
    assert [(rule.required_mm, rule.met) for rule in ruled] == [
        (2000.0, False),
        (600.0, True),
        (1000.0, True),
    ]
    assert all(rule.source for rule in ruled)


def one(**cable):
    """A whip 2 m from the masthead whose cable leaves 15 m below it."""
    known = {"coax": "RG-58", "to_set_mm": 5000.0, "connectors": 2, "new": True}
    fitted = a_fitting(kind="vhf", from_masthead_mm=2000.0)
    own = Cable(id="c", name="Coax", fitting="box-1", exit_from_masthead_mm=17000.0, **(known | cable))
    return a_layout(kinds=(VHF,), fittings=(fitted,), cables=(own,))


@pytest.mark.parametrize(
    ("cable", "lost"),
    [
        ({}, 4.3),  # 20 m at 19.0, and two connectors
        ({"coax": "low-loss 10 mm"}, None),
        ({"to_set_mm": 0.0, "coax": "RG-8X", "connectors": 3}, None),  # 2.25 + 0.75: at the very limit
        ({"to_set_mm": 10.0, "coax": "RG-8X", "connectors": 3}, 3.002),
    ],
)
def test_what_is_lost_on_the_way(cable, lost):
    """Half of the power, 3 dB, is what may be lost."""
    found = said(one(**cable))
    assert [(f[0], f[1]) for f in found] == ([("cable/loss", "caution")] if lost else [])
    if lost:
        assert found[0][2] == pytest.approx(lost, abs=0.001)


@pytest.mark.parametrize(
    ("lacks", "measure"),
    [("coax", "cable.coax"), ("to_set_mm", "cable.to_set"), ("connectors", "cable.connectors")],
)
def test_what_nobody_knows_of_a_new_cable_is_not_checked(lacks, measure):
    """Of an old one that works nobody is asked."""
    assert said(one(**{lacks: None})) == [("cable/loss", "not checked", None, measure)]
    assert said(one(**{lacks: None, "new": False})) == []
    assert power(build(one(**{lacks: None})), one(**{lacks: None}).cables[0])[0].missing == measure


def whimbrel():
    """The largest example's scene."""
    return build(open_document(demo_masts() / "whimbrel.toml").layout)


def test_whimbrels_whips_are_220_apart():
    """The tenth of her planted faults; her vane, which hears nothing, is no antenna."""
    scene = whimbrel()
    assert ("antenna/near", "caution", 220.0, None) in said(scene.layout)
    assert not [apart for apart, _ruled in pairs(scene) if "vane-1" in (apart.a, apart.b)]


def test_the_rules_for_ships_are_those_of_the_circular():
    """IMO SN/Circ.227, 2.2.1: 10 m side by side at one level, 3 m from a radar."""
    ruled = [rule for _apart, rules in pairs(whimbrel()) for rule in rules if "IMO" in rule.source]
    assert {rule.required_mm for rule in ruled} == {10000.0, 3000.0}
    assert [rule.met for rule in ruled if rule.required_mm == 3000.0] == [True, True]

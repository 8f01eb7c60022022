"""Voltage lost in a light's cable: by hand, by the trade's facts, and what waits for a measure."""

import pytest
from asking import of_rules
from builders import LENGTH_MM, a_fitting, a_kind, a_layout

from mastlayout.checks.volts import VOLTS
from mastlayout.geometry.scene import build
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import Cable
from mastlayout.ranges.voltage import OHM_MM2_PER_M, lost, lost_v
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

M_PER_FT = 0.3048
# ASTM B258, by its formula: 14 AWG is 2.0809 mm².
AWG_14_MM2 = 2.0809


def a_light(boat=None, navigates=True, group="light", **cable):
    """A light 17 m up, its cable leaving at the heel and 6 m more to the panel."""
    sectors = [{"what": "light", "from_deg": 0.0, "to_deg": 360.0, "name": "anchor", "colour": "white"}]
    kind = a_kind("lamp", group=group, foot=None, sectors=sectors if navigates else [])
    lamp = a_fitting("lamp-1", kind="lamp", in_hand=None, from_masthead_mm=0.0)
    known = {
        "id": "cable-lamp", "name": "Lamp", "fitting": "lamp-1", "new": True,
        "exit_from_masthead_mm": LENGTH_MM, "to_set_mm": 6000.0, "current_a": 1.0, "copper_mm2": 2.5,
    }  # fmt: skip
    return a_layout(
        boat=Boat(**({"name": "Test", "supply_v": 12} | (boat or {}))), kinds=(kind,), fittings=(lamp,),
        cables=(Cable(**(known | cable)),),
    )  # fmt: skip


def found(layout):
    """What the rule says of a layout."""
    return of_rules(layout, (VOLTS,))


def test_the_published_formula_in_its_own_units():
    """Read, ABYC E-11 as quoted: CM = 10.75 I L / E, feet out and back; 4107 circular mils are 14 AWG."""
    assert pytest.approx(0.017871, abs=5e-7) == OHM_MM2_PER_M
    volts = 10.75 * 10.0 * 21.0 / 4107.0
    assert lost_v(10.0, 21.0 * M_PER_FT, AWG_14_MM2) == pytest.approx(volts, rel=1e-3)


def test_it_is_stricter_than_the_other_formula_in_print():
    """Read, ISO 10133: 0.0164 I L / S, 8 % less."""
    assert lost_v(1.0, 1.0, 1.0) / 0.0164 == pytest.approx(1.09, abs=0.005)


def test_by_hand():
    """1 A over 2 x 23 m of 2.5 mm²: 0.01787 x 46 / 2.5 = 0.329 V, 2.74 % of 12."""
    layout = a_light()
    figure = lost(build(layout), layout.cables[0])
    assert figure.value == pytest.approx(2.74, abs=0.005)
    assert figure.inputs["length_m"] == pytest.approx(23.0)


@pytest.mark.parametrize("yacht", ["sanderling", "turnstone", "whimbrel"])
def test_a_masthead_light_is_far_under_3_percent(yacht):
    """Common practice, no source: a combined masthead light draws 0.155 A at 12 V; over 14 AWG."""
    layout = open_document(demo_masts() / f"{yacht}.toml").layout
    (own,) = [one for one in layout.cables if one.fitting == "tricolour-1"]
    mended = layout.but(
        cables=(own.but(current_a=0.155, copper_mm2=AWG_14_MM2),), boat=layout.boat.but(supply_v=12)
    )
    percent = lost(build(mended), mended.cables[0]).value
    assert 0.0 < percent < 1.0
    assert not [one for one in found(mended) if own.id in one.subjects]


# 3 % of 12 V over 46 m of 2.5 mm² are 1.0948 A.
@pytest.mark.parametrize(("amperes", "standings"), [(1.0, []), (1.094, []), (1.2, ["caution"])])
def test_a_navigation_light_may_lose_3_percent(amperes, standings):
    """ABYC E-11 as quoted; one that passes, one at the limit, one that fails."""
    assert [one.standing for one in found(a_light(current_a=amperes))] == standings


@pytest.mark.parametrize(("amperes", "standings"), [(3.0, []), (3.649, []), (3.8, ["caution"])])
def test_a_deck_light_may_lose_10_percent(amperes, standings):
    """ABYC E-11 as quoted, lighting other than navigation lights."""
    said = found(a_light(navigates=False, current_a=amperes))
    assert [one.standing for one in said] == standings


@pytest.mark.parametrize(
    ("field", "measure"),
    [("current_a", "cable.current"), ("copper_mm2", "cable.copper"), ("to_set_mm", "cable.to_set"),
     ("exit_from_masthead_mm", "cable.to_set")],
)  # fmt: skip
def test_what_is_not_known_is_asked_for(field, measure):
    """Never a default; and of a cable that is there already nobody is asked."""
    (one,) = found(a_light(**{field: None}))
    assert (one.standing, one.measure) == ("not checked", measure)
    assert not found(a_light(**{field: None}, new=False))


def test_the_voltage_on_board_is_asked_for():
    """12 or 24: half of the loss, in percent."""
    (one,) = found(a_light(boat={"supply_v": None}))
    assert one.measure == "boat.supply"
    assert found(a_light(current_a=1.2))
    assert not found(a_light(current_a=1.2, boat={"supply_v": 24}))


def test_what_is_no_light_is_asked_only_where_its_current_was_typed():
    """Radars, hailers and sensors come with cables of their makers: a rigger is not bothered with them."""
    assert not found(a_light(group="sound", navigates=False, current_a=None))
    (one,) = found(a_light(group="sound", navigates=False, current_a=4.0))
    assert (one.standing, one.required) == ("caution", 3.0)

"""Metals in sea water, foot, fastener and wall: the trade's rules, and figures of published series."""

import known
import pytest
from asking import found
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast

from mastlayout.checks.report import check
from mastlayout.geometry.scene import build


def said(metal, fastener="none", *, liner_mm=None, **fitting):
    """What is said of the metals of one fitting: code, standing, measured."""
    holes = [{"across_mm": 0.0, "along_mm": 0.0, "fastener": fastener}]
    lined = {} if liner_mm is None else {"liner_mm": liner_mm}
    kind = a_kind(metal=metal, foot=a_foot(holes=holes, **lined))
    layout = a_layout(kinds=(kind,), fittings=(a_fitting(**({"in_hand": kind.foot} | fitting)),))
    report = check(build(layout))
    assert not report.broken
    return {
        f.code: (f.standing, None if f.measured is None else round(f.measured, 2))
        for f in report.open
        if f.code.startswith("metals/")
    }


@pytest.mark.parametrize(("metal", "apart_v"), [("plain steel", 0.18), ("copper", 0.43), ("brass", 0.39)])
def test_some_metals_are_refused_bare_beside_aluminium(metal, apart_v):
    """Whatever the index says; V apart in sea water from aluminium 3003 (galvanic series against calomel)."""
    assert said(metal)["metals/refused"] == ("fault", apart_v)


def test_the_index_alone_would_pass_plain_steel():
    """0.85 and 0.90 V by the anodic index are 0.05 apart, of 0.15 allowed: it is refused all the same."""
    layout = a_layout(kinds=(a_kind(metal="plain steel"),), fittings=(a_fitting(),))
    assert "0.05 V" in found(layout, "metals/refused")[0].state


def test_a_liner_that_somebody_wrote_down_lies_between():
    """No longer bare, but to be looked after: a caution. A liner that the program assumed does not count."""
    assert said("brass", liner_mm=1.0) == {"metals/isolate": ("caution", 0.39)}


def test_no_liner_lies_between_a_bolt_and_its_hole():
    """A steel screw in a lined foot of plastic still stands in the wall."""
    assert said("plastic", "M8 nut, plain steel", liner_mm=1.0)["metals/refused"] == ("fault", 0.18)


@pytest.mark.parametrize("metal", ["bronze", "chromed bronze"])
def test_bronze_is_isolated(metal):
    """Chrome has pores: what lies under it counts. G bronze is 0.48 from aluminium."""
    assert said(metal) == {"metals/isolate": ("caution", 0.48)}


@pytest.mark.parametrize(
    ("metal", "code", "apart_v"),
    [
        ("stainless", "metals/paste", 0.74),
        ("titanium", "metals/paste", 0.69),
        ("nickel-copper", "metals/conducts", 0.71),
    ],
)
def test_what_is_on_every_mast_is_a_note_while_it_is_new(metal, code, apart_v):
    """Liner and paste as always; what has been there for years bothers nobody. Nickel-copper conducts."""
    assert said(metal) == {code: ("note", apart_v)}
    assert said(metal, new=False) == {}


@pytest.mark.parametrize("metal", ["aluminium", "plastic", "wood"])
def test_what_does_no_harm_is_not_spoken_of(metal):
    """The wall's own metal, and what is none."""
    assert said(metal) == {}


@pytest.mark.parametrize("metal", ["galvanised steel", "carbon"])
def test_zinc_and_carbon_want_something_between(metal):
    """Zinc goes first and leaves steel; carbon is nobler than all."""
    assert said(metal)["metals/isolate"][0] == "caution"


def test_less_noble_fasteners_are_a_small_anode():
    """MIL-STD-1250A, 5.6 f: the foot's own metal or nobler; aluminium rivets in stainless are neither.

    One rivet of 6.4, its head twice as wide: 128.7 mm2 of 110 x 60, 2 %.
    """
    assert said("stainless", "rivet 6.4, aluminium")["metals/area"] == ("caution", 1.95)
    assert "metals/area" not in said("aluminium", "rivet 6.4, stainless")


def test_what_a_new_fittings_fasteners_are_of_is_asked():
    """Of what is there already nobody asks."""
    assert said("aluminium", "M6 tapped")["metals/fastener"] == ("not checked", None)
    assert said("aluminium", "M6 tapped", new=False) == {}


def test_a_fitting_of_no_known_metal_is_asked_for():
    """Not checked: named, with how to find out."""
    layout = a_layout(kinds=(a_kind(metal=None),), fittings=(a_fitting(),))
    assert [f.measure for f in found(layout, "metals/foot")] == ["kind.metal"]


def test_what_hangs_on_a_carbon_mast_is_judged_by_its_builder():
    """Plain steel on carbon is not passed: the mast is not checked."""
    layout = a_layout(
        mast=a_mast(material="carbon"), kinds=(a_kind(metal="plain steel"),), fittings=(a_fitting(),)
    )
    codes = {f.code: f.standing for f in check(build(layout)).open if f.code.startswith("metals/")}
    assert codes == {"metals/builder": "not checked"}


def test_whimbrels_steel_bolt_is_found_and_her_winches_are_cautioned():
    """Planted 5, and chromed bronze on both winches."""
    report = known.report("whimbrel")
    refused = [f.subjects for f in report.open if f.code == "metals/refused"]
    assert refused == [("preventer-eye",)]
    assert {f.subjects[0] for f in report.open if f.code == "metals/isolate"} == {"winch-p", "winch-s"}

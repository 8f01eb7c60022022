"""The figures of resources/metals.toml against the published lists they were read in."""

import itertools
import tomllib

import pytest

from mastlayout.fastening.metals import apart_v, index_apart_v, is_less_noble, potentials
from mastlayout.resources import resources

TABLE = tomllib.loads((resources() / "metals.toml").read_text(encoding="utf-8"))
# A published galvanic series in flowing sea water, V against a saturated calomel electrode.
SEA_WATER = {
    "carbon": 0.25, "stainless": -0.05, "nickel-copper": -0.08, "titanium": -0.10, "bronze": -0.31,
    "chromed bronze": -0.31, "copper": -0.36, "brass": -0.40, "plain steel": -0.61, "aluminium": -0.79,
    "galvanised steel": -1.03,
}  # fmt: skip
# A published list of anodic indices, V; galvanised steel, hot dipped, is from memory and left out.
INDEX = {
    "nickel-copper": 0.30, "titanium": 0.30, "copper": 0.35, "brass": 0.40, "bronze": 0.40, "stainless": 0.50,
    "chromed bronze": 0.60, "plain steel": 0.85, "aluminium": 0.90,
}  # fmt: skip
# MIL-STD-889B, Table II: rank from active to noble. Its stainless is the active one, and left out.
MIL_889B = {
    "galvanised steel": 4, "aluminium": 19, "plain steel": 30, "brass": 46, "copper": 55, "nickel-copper": 63,
}  # fmt: skip
# Another published series, V against silver and silver chloride: low and high of each metal.
RANGES = {
    "galvanised steel": (-1.03, -0.98), "aluminium": (-1.00, -0.76), "plain steel": (-0.71, -0.60),
    "brass": (-0.40, -0.30), "copper": (-0.57, -0.30), "bronze": (-0.31, -0.24),
}  # fmt: skip


def test_every_metal_in_the_table_was_read_or_says_so():
    """None besides, and what is from memory is marked."""
    assert {name: row["sea_water"] for name, row in TABLE.items()} == SEA_WATER
    assert {
        name: row["index"] for name, row in TABLE.items() if row["standing"] == "read" and "index" in row
    } == INDEX
    assert [name for name, row in TABLE.items() if row["standing"] != "read"] == ["galvanised steel"]


@pytest.mark.parametrize(
    ("metal", "apart"),
    [("stainless", 0.74), ("nickel-copper", 0.71), ("titanium", 0.69), ("bronze", 0.48), ("copper", 0.43),
     ("plain steel", 0.18), ("galvanised steel", 0.24)],
)  # fmt: skip
def test_couples_with_aluminium_in_sea_water(metal, apart):
    """Differences of the series, worked out beside it by another hand."""
    assert apart_v(metal, "aluminium") == pytest.approx(apart)


@pytest.mark.parametrize(
    ("metal", "apart"), [("stainless", 0.40), ("nickel-copper", 0.60), ("brass", 0.50), ("plain steel", 0.05)]
)
def test_couples_with_aluminium_by_the_anodic_index(metal, apart):
    """Differences of the indices, worked out beside them by another hand."""
    assert index_apart_v(metal, "aluminium") == pytest.approx(apart)


def test_another_standard_ranks_them_alike():
    """MIL-STD-889B puts what both lists have in the same order, active to noble."""
    order = sorted(MIL_889B, key=lambda name: MIL_889B[name])
    for one, other in itertools.pairwise(order):
        assert is_less_noble(one, other)


@pytest.mark.parametrize("metal", RANGES)
def test_another_series_has_them_within_a_tenth_of_a_volt(metal):
    """Lists differ by up to 0.1 V, their electrodes by 0.04: rank and threshold count, not millivolts."""
    low, high = RANGES[metal]
    assert low - 0.1 <= potentials(metal).sea_water_v <= high + 0.1

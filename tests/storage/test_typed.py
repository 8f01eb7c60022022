"""Typed values: a changed number keeps the unit and the manner its text had."""

import pytest

from mastlayout.storage.typed import retyped
from mastlayout.units import read_length


@pytest.mark.parametrize(
    ("old", "value", "new"),
    [
        ("8100", 8150, "8150"),
        ("8100.0", 8150.25, "8150.25"),
        ('"8.1 m"', 8150, '"8.15 m"'),
        ('"8.10 m"', 8200, '"8.20 m"'),
        ('"8.1m"', 8123.45, '"8.12345m"'),
        ('"810 cm"', 8150, '"815 cm"'),
        ('"8100 mm"', 8150.5, '"8150.5 mm"'),
        ("'8.1 m'", 8150, "'8.15 m'"),
        # 26 x 304.8 + 8.5 x 25.4 = 8140.7
        ('"26 ft 6 1/2 in"', 8140.7, '"26 ft 8 1/2 in"'),
        ('"26 ft 6 1/2 in"', 7924.8, '"26 ft"'),
        ('"26 ft"', 8140.7, '"26 ft 8 1/2 in"'),
        ('"26\' 6\\""', 8140.7, '"26\' 8 1/2\\""'),
        ('"20 in"', 514.35, '"20 1/4 in"'),
        ('"20.5 in"', 514.35, '"20.25 in"'),
        ('"26 ft 6 in"', -304.8, '"-1 ft"'),
        ('"26 ft 6 1/2 in"', 12341.37, '"12341.37 mm"'),
        ('"8 140 mm"', 8150, "8150"),
    ],
)
def test_a_length_keeps_its_unit(old, value, new):
    """Metres, inches and fractions; millimetres where a fraction of 1/64 is not exact to 0.01."""
    assert retyped(old, value, "from_masthead_mm") == new


@pytest.mark.parametrize(
    ("name", "old", "value", "new"),
    [
        ("rake_deg", '"1.5 deg"', 2, '"2.0 deg"'),
        ("mass_kg", '"4 lb"', 0.90718474, '"2 lb"'),
        ("mass_kg", '"4 lb 3 oz"', 2, "2"),
        ("name", '"Radome"', "Radar", '"Radar"'),
        ("name", "'Radome'", 'the "new" one', "'the \"new\" one'"),
        ("new", "true", False, "false"),
        ("taper", '"none"', "none", '"none"'),
    ],
)
def test_other_values_keep_theirs(name, old, value, new):
    """Angles, masses of one unit, texts in the quotes they had, truth values."""
    assert retyped(old, value, name) == new


@pytest.mark.parametrize(
    ("old", "value", "new"),
    [
        ("120", "90 to starboard of aft", "90"),
        ("120", "90 to port of aft", "-90"),
        ("120", "aft", "0"),
        ("120", "44 to port of ahead", '"44 to port of ahead"'),
        ('"2 in to port of ahead"', "76.2 to starboard of ahead", '"3 in to starboard of ahead"'),
        ('"44 to port of ahead"', "bearing 285", '"bearing 285"'),
        ('"bearing 285"', "44 to port of ahead", '"44 to port of ahead"'),
    ],
)
def test_a_place_round_the_skin_keeps_its_manner(old, value, new):
    """A bare girth stays one while it is counted from aft; a phrase keeps the unit of its number."""
    assert retyped(old, value, "girth") == new


@pytest.mark.parametrize("unit", ["mm", "cm", "m"])
def test_every_hundredth_of_a_millimetre_is_said_exactly_in_metric(unit):
    """What an edit rounds to comes back from the text."""
    for value in (0.01, 1000.99, 8140.07, 16999.93):
        text = retyped(f'"1 {unit}"', value, "from_masthead_mm").strip('"')
        assert read_length(text) == pytest.approx(value, abs=0.001)

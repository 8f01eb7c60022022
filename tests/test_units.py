"""What people type and what the program writes: the traps of measures."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mastlayout.errors import UnitError
from mastlayout.units import (
    feet_inches,
    read_angle,
    read_length,
    read_mass,
    sixteenths,
    write_drill,
    write_length,
    write_size,
)


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("8.1 m", 8100),
        ("26 ft 6 1/2 in", 26 * 304.8 + 6.5 * 25.4),
        ("3 1/2 in", 88.9),
        ("17 400", 17400),
        ("17\u2009400", 17400),
        ("57 ft 1 in", 57 * 304.8 + 25.4),
        ("5-3/16 in", 5.1875 * 25.4),
        ("1/2 in", 12.7),
        ("-2.5 m", -2500),
        ("\u22122.5 m", -2500),
        (12, 12),
        (1.5, 1.5),
        ("12", 12),
        ("4' 3\"", 4 * 304.8 + 76.2),
        (".5 m", 500),
        ("  8140  ", 8140),
    ],
)
def test_a_length_is_read_as_a_rigger_writes_it(typed, mm):
    """Metres, feet, inches with fractions, thousands in groups, a bare number in millimetres."""
    assert read_length(typed) == pytest.approx(mm)


@pytest.mark.parametrize(
    "typed",
    [
        "1,25 m",
        "1,250",
        "nan",
        float("nan"),
        float("inf"),
        1e400,
        True,
        None,
        [],
        "3 kg",
        "x",
        "",
        "1 in 2 ft",
        "1 m 2",
        "1/0 in",
        "3 1/0 in",
        "9" * 100,
        "8 8 8",
        "5 parsnips",
        "1e5",
        10**400,
    ],
)
def test_nonsense_is_refused_with_what_is_allowed(typed):
    """A comma, not a number, another kind of unit, a unit nobody knows: a sentence each."""
    with pytest.raises(UnitError) as refused:
        read_length(typed)
    assert len(str(refused.value)) > 20


def test_a_unit_of_another_trade_is_read_by_the_units_library():
    """A fathom is six feet, the international one."""
    assert read_length("1 fathom") == pytest.approx(1828.8, abs=0.01)


def test_angles_and_masses():
    """Degrees and radians, kilograms and pounds (0.45359237 kg by international agreement)."""
    assert read_angle("1.5 deg") == 1.5
    assert read_angle("1 rad") == pytest.approx(57.29578)
    assert read_mass("2 lb") == pytest.approx(0.90718474)
    with pytest.raises(UnitError):
        read_mass("2 m")


@pytest.mark.parametrize(
    ("count", "text"),
    [(0, "0"), (9, "9/16"), (16, "1"), (8, "1/2"), (192, "1-0"), (6089, "31-8 9/16"), (-24, "-1 1/2")],
)
def test_sixteenths_are_written_as_spars_are_ordered(count, text):
    """Feet, inches and the fraction in its lowest terms."""
    assert feet_inches(count) == text


@given(st.integers(-40000, 40000))
def test_sixteenths_read_back(count):
    """What is written as feet and inches is the same number of sixteenths read."""
    text = feet_inches(abs(count)).replace("-", " ft ") + " in"
    assert sixteenths(read_length(text)) == abs(count)


def test_a_length_is_written_as_the_user_chose():
    """Millimetres with the digits asked for, never a minus nought."""
    assert write_length(-0.2) == "0"
    assert write_length(12.34, digits=1) == "12.3"
    assert write_length(304.8, "inches") == "1-0"


@pytest.mark.parametrize(
    ("size", "digits", "text"),
    # 4.2 / 25.4 = 0.16535; in sixteenths it would be 3/16, which is 4.76 mm.
    [
        (4.2, 1, "0.165 in (4.2 mm)"),
        (6.0, 1, "0.236 in (6 mm)"),
        (3.18, 2, "0.125 in (3.18 mm)"),
        (0, 1, "0.000 in (0 mm)"),
    ],
)
def test_a_size_in_inches_is_what_a_calliper_reads(size, digits, text):
    """Three places, and the millimetres in which the trade names it."""
    assert write_size(size, units="inches", digits=digits) == text


def test_a_size_in_millimetres_and_one_of_two_sides():
    """20 x 38 mm are 0.787 x 1.496 in."""
    assert write_size(4.2) == "4.2"
    assert write_size(20.0, 38.0, digits=0) == "20 × 38"
    assert write_size(20.0, 38.0, units="inches", digits=0) == "0.787 × 1.496 in (20 × 38 mm)"
    assert write_drill(6.8) == "6.8"
    assert write_drill(6.8, "inches") == "6.8 mm, 0.268 in"


@given(st.floats(0.1, 60.0))
def test_a_size_is_never_more_than_half_a_thousandth_off(size):
    """What is read of its inches, and of its millimetres, is the size."""
    inches, _bracket, rest = write_size(size, units="inches").partition(" (")
    assert read_length(inches) == pytest.approx(size, abs=0.0005 * 25.4 + 1e-9)
    assert read_length(rest.removesuffix(")")) == pytest.approx(size, abs=0.05 + 1e-9)

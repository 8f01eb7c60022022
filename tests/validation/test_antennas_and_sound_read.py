"""Coaxial loss, power, COLREG Annex III and free spreading against what is printed; each source beside it."""

import math
from itertools import pairwise

import pytest

from mastlayout.limits import built_in
from mastlayout.ranges.cable_loss import CONNECTOR_DB, coaxes, loss_db, share
from mastlayout.ranges.compass import turn_deg
from mastlayout.ranges.sound import CLASSES, WHISTLE_FROM_M, at_distance_db, class_of, level_db

M_PER_FT = 0.3048
# dB in 100 m at 150 MHz. A national amateur radio society's licence manual, corrected table 6-1; a radio
# system's training guide, appendix H; a county emergency radio service's page on cable (4.7 dB in 100 ft).
PRINTED = (
    ("RG-58", 18.47, "licence manual"), ("RG-8X", 14.86, "licence manual"), ("RG-213", 8.3, "licence manual"),
    ("RG-58", 20.0, "training guide"), ("RG-213", 8.9, "training guide"),
    ("low-loss 10 mm", 4.92, "county service"), ("RG-8X", 15.42, "county service"),
    ("RG-174", 33.79, "licence manual"), ("low-loss 10 mm, flexible", 5.91, "county service"),
)  # fmt: skip
# MIL-C-17G, second hand: k1 sqrt(f) + k2 f through its two points, dB in 100 m at 156.8 MHz: the most
# RG-58 may lose. Its figure for RG-213 looks like a nominal one and is no bound.
MOST_RG58 = 26.2
# A field note: 25 W into 40 ft at 160 MHz, watts out, to a watt. RG-8 has the conductor of RG-213.
FIELD_FT, FIELD = 40.0, (("RG-58", 15.0), ("RG-213", 20.0))
# The decibel: P = P0 10^(-dB / 10). Published pairs, percent left.
DECIBELS = ((1.0, 79.0), (2.0, 63.0), (3.0, 50.0), (6.0, 25.0))
# By hand with the printed losses: (dB in 100 m, m, dB, watts of 25).
WATTS = (
    (20.0, 15.0, 3.0, 12.53), (20.0, 20.0, 4.0, 9.953), (8.9, 15.0, 1.335, 18.384), (8.9, 20.0, 1.78, 16.594),
    (8.9, 25.0, 2.225, 14.978), (4.92, 20.0, 0.984, 19.932), (4.92, 25.0, 1.23, 18.834),
)  # fmt: skip
# 33 CFR 86.05, before August 2014, equal to COLREG Annex III 1(c): (metres, Hz, dB at 1 m, NM).
LEVELS = (
    (12.0, 250.0, 120.0, 0.5), (19.9, 450.0, 120.0, 0.5), (15.0, 451.0, 115.0, 0.5),
    (15.0, 800.0, 115.0, 0.5),
    (15.0, 801.0, 111.0, 0.5), (15.0, 2100.0, 111.0, 0.5), (20.0, 400.0, 130.0, 1.0),
    (74.9, 300.0, 130.0, 1.0),
    (75.0, 200.0, 138.0, 1.5), (199.0, 200.0, 138.0, 1.5), (200.0, 200.0, 143.0, 2.0),
)  # fmt: skip
# COLREG Annex III 1(b) as amended by A.910(22): fundamental frequencies, Hz, by length class.
TONES = {0.0: (250.0, 700.0), 20.0: (250.0, 700.0), 75.0: (130.0, 350.0), 200.0: (70.0, 200.0)}
# Free field, by hand: how far off a level at 1 m has fallen to 110 and to 100 dB, m.
SPREADING = ((111.0, 1.122, 3.548), (115.0, 1.778, 5.623), (120.0, 3.162, 10.0), (130.0, 10.0, 31.623))


@pytest.mark.parametrize(("cable", "printed", "whose"), PRINTED)
def test_loss_is_what_is_printed(cable, printed, whose):
    """Each source lies within the spread that the program names beside its figure."""
    coax = coaxes()[cable]
    assert loss_db(coax, 100.0, 0) == pytest.approx(printed, abs=coax.spread), whose
    assert coax.spread <= 1.0


def test_a_new_cable_loses_less_than_the_most_it_may():
    """Plausibility: the maximum of MIL-C-17G, second hand."""
    assert coaxes()["RG-58"].db_per_100m < MOST_RG58


@pytest.mark.parametrize(("cable", "watts"), FIELD)
def test_what_arrives_is_what_was_measured_in_the_field(cable, watts):
    """25 W in; printed to a watt, two plugs or none within it."""
    lost = loss_db(coaxes()[cable], FIELD_FT * M_PER_FT, 0)
    assert 25.0 * share(lost) == pytest.approx(watts, abs=1.0)


def test_a_connector_is_that_of_the_training_guide():
    """0.25 dB each at 150 MHz; four of them lose one decibel."""
    coax = coaxes()["RG-58"]
    assert loss_db(coax, 10.0, 4) - loss_db(coax, 10.0, 0) == pytest.approx(1.0)
    assert CONNECTOR_DB == 0.25


def test_the_decibel():
    """Published pairs, to a percent; and by hand with the printed losses, to 0.01 W."""
    for decibel, percent in DECIBELS:
        assert 100.0 * share(decibel) == pytest.approx(percent, abs=0.6)
    for each, metres, lost, watts in WATTS:
        assert each * metres / 100.0 == pytest.approx(lost)
        assert 25.0 * share(lost) == pytest.approx(watts, abs=0.01)


# 33 CFR 86.05 of 20 m and more, superseded US inland text: (from m, dB in its three bands, NM).
INLAND = ((20.0, (130, 125, 121), 1.0), (75.0, (140, 138, 134), 1.5), (200.0, (145, 143, 140), 2.0))


@pytest.mark.parametrize(("from_m", "levels", "nm"), INLAND)
def test_a_long_yachts_whistle_is_the_international_one(from_m, levels, nm):
    """Its level is one of the three that the inland text asked by band, its range the same."""
    own = class_of(from_m)
    assert own.audible_nm == nm
    assert level_db(own, own.tone_hz[0]) in levels


def test_limits_of_sound_and_compass_are_those_in_print():
    """Read: Rule 33, a whistle from 12 m; Annex III 1(e), 110 and 100 dB(A); 3 m of a ship's magnetron."""
    limits = built_in()
    assert WHISTLE_FROM_M == 12.0
    assert [limits[key].value for key in ("sound.most", "sound.wanted")] == [110.0, 100.0]
    assert limits["compass.far"].value == 3000.0


# By hand, 5.4 and 18 over the field in microtesla, ISO 25862 annex, read: (µT, standard, steering).
TURNS = (
    (10.0, 0.54, 1.8),
    (15.0, 0.36, 1.2),
    (18.0, 0.3, 1.0),
    (20.0, 0.27, 0.9),
    (30.0, 0.18, 0.6),
    (40.0, 0.135, 0.45),
)


@pytest.mark.parametrize(("field_ut", "standard", "steering"), TURNS)
def test_a_safe_distance_turns_a_compass_so_far(field_ut, standard, steering):
    """To 0.005 degrees."""
    assert turn_deg(field_ut, "standard") == pytest.approx(standard, abs=0.005)
    assert turn_deg(field_ut) == pytest.approx(steering, abs=0.005)


@pytest.mark.parametrize(("length_m", "tone_hz", "decibel", "nm"), LEVELS)
def test_a_whistles_level_is_that_of_the_table(length_m, tone_hz, decibel, nm):
    """At each class's ends and each footnote's tone."""
    own = class_of(length_m)
    assert (level_db(own, tone_hz), own.audible_nm) == (decibel, nm)


def test_a_whistles_tone_is_that_of_the_table():
    """As amended: 250 to 700 Hz for all that is under 75 m."""
    assert {own.from_m: own.tone_hz for own in CLASSES} == TONES
    assert all(a.to_m == b.from_m for a, b in pairwise(CLASSES))


@pytest.mark.parametrize(("level", "at_110", "at_100"), SPREADING)
def test_sound_spreads_freely(level, at_110, at_100):
    """To the distances by hand, printed to 0.001 m."""
    assert at_distance_db(level, at_110) == pytest.approx(110.0, abs=0.005)
    assert at_distance_db(level, at_100) == pytest.approx(100.0, abs=0.005)
    assert at_distance_db(level, 2.0 * at_100) == pytest.approx(100.0 - 20.0 * math.log10(2.0), abs=0.005)

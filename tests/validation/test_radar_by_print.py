"""Echoing areas, two rays over the sea and the own radar against what is printed elsewhere.

Each figure stands beside its publication. "By hand" is the formula worked out apart from the program.
"""

import numpy as np
import pytest
from scipy.optimize import minimize_scalar
from scipy.special import spherical_jn, spherical_yn

from mastlayout.limits import built_in
from mastlayout.model.kind import Corner
from mastlayout.ranges import blind, echo, reflector, scanner, two_ray
from mastlayout.ranges.echo import S_BAND, X_BAND
from mastlayout.ranges.horizon import RADIO, horizon_nm, range_nm

M_PER_NM = 1852.0


def wave(ghz):
    """The wavelength of a frequency, m."""
    return 299_792_458.0 / (ghz * 1e9)


# Physical-optics maxima by hand, c 299 792 458 m/s: (GHz, edge m, triangles, squares, dihedral, plate).
BY_HAND = (
    (9.41, 0.1, 0.412692, 3.714231, 2.476154, 1.238077),
    (9.41, 0.15, 2.089255, 18.803297, 12.535531, 6.267766),
    (9.41, 0.25, 16.120796, 145.087165, 96.724777, 48.362388),
    (9.41, 0.3, 33.428083, 300.852745, 200.568497, 100.284248),
    (9.41, 0.4, 105.649249, 950.843244, 633.895496, 316.947748),
    (9.4, 0.15, 2.084817, 18.763353, 12.508902, 6.254451),
    (9.4, 0.2, 6.589051, 59.301462, 39.534308, 19.767154),
    (9.4, 0.25, 16.086551, 144.778961, 96.519307, 48.259654),
    (9.4, 0.4, 105.424822, 948.823397, 632.548931, 316.274466),
    (3.05, 0.1, 0.043356, 0.390202, 0.260135, 0.130067),
    (3.05, 0.15, 0.219489, 1.975397, 1.316931, 0.658466),
    (3.05, 0.25, 1.693585, 15.242262, 10.161508, 5.080754),
    (3.05, 0.3, 3.511817, 31.606355, 21.070903, 10.535452),
    (3.05, 0.4, 11.099077, 99.891689, 66.594459, 33.29723),
)


@pytest.mark.parametrize(("ghz", "edge", "triangles", "squares", "dihedral", "plate"), BY_HAND)
def test_peaks_of_corners(ghz, edge, triangles, squares, dihedral, plate):
    """4 π a⁴ / 3 λ², 12 π a⁴ / λ², 8 π a² b² / λ², 4 π A² / λ²: a handbook's formulas, read."""
    own = wave(ghz)
    assert echo.triangular_m2(edge, own) == pytest.approx(triangles, rel=1e-3)
    assert echo.square_m2(edge, own) == pytest.approx(squares, rel=1e-3)
    assert echo.dihedral_m2(edge, edge, own) == pytest.approx(dihedral, rel=1e-3)
    assert echo.plate_m2(edge, edge, own) == pytest.approx(plate, rel=1e-3)


def test_peaks_printed_for_radar_calibration():
    """Read: corners set out to calibrate a radar at 5.405 GHz; dihedral 1.5 m, trihedral 2.5 m; 0.01 dB."""
    own = wave(5.405)
    assert 10 * np.log10(echo.dihedral_m2(1.5, 1.5, own)) == pytest.approx(46.17, abs=0.01)
    assert 10 * np.log10(echo.triangular_m2(2.5, own)) == pytest.approx(47.26, abs=0.01)


def test_bands_are_those_of_ships():
    """Read, marine radar bands: X 9410 ± 30 MHz, S 3050 ± 30 MHz; passive echoes fall to a tenth."""
    assert X_BAND.hz == 9.41e9
    assert S_BAND.hz == 3.05e9
    corner = Corner(shape="triangular", edge_mm=200.0)
    assert echo.peak_m2(corner, X_BAND) / echo.peak_m2(corner, S_BAND) == pytest.approx(9.5187, rel=1e-4)
    assert echo.peak_m2(corner, S_BAND) / echo.peak_m2(corner, X_BAND) == pytest.approx(0.1, abs=0.01)


@pytest.mark.parametrize(
    ("m2", "band", "edge"),
    [(7.5, X_BAND, 0.2065), (10.0, X_BAND, 0.2219), (2.0, X_BAND, 0.1484), (0.5, S_BAND, 0.1843)],
)
def test_edge_that_an_echo_needs(m2, band, edge):
    """By hand, the inverse of the triangular corner's peak; to 0.2 mm."""
    assert echo.edge_needed_m(m2, band.wave_m) == pytest.approx(edge, abs=2e-4)


def test_ball_and_plate():
    """By hand: a ball of 0.5642 m has 1 m²; a plate of 1 m² at 10 GHz has 13 982 m²."""
    assert echo.ball_m2(0.5642) == pytest.approx(1.0, rel=1e-3)
    assert echo.plate_m2(1.0, 1.0, wave(10.0)) == pytest.approx(13982.0, rel=1e-3)


@pytest.mark.parametrize(
    ("kr", "printed"),
    [
        (0.1, 0.0009),
        (0.5, 0.52958),
        (1.03, 3.65487),
        (1.7, 0.31153),
        (2.0, 1.00814),
        (10.0, 0.92923),
        (20.0, 0.96636),
    ],
)
def test_ball_is_within_a_tenth_of_the_exact_series(kr, printed):
    """π r² where the ball is ten waves round or more: Mie's series for a perfect conductor, summed here.

    A smaller ball rings, up to 3.65 times that at one wave round; none is fitted as a reflector.
    """
    n = np.arange(1, int(kr + 4 * kr ** (1 / 3) + 12))
    j, y = spherical_jn(n, kr), spherical_yn(n, kr)
    dj, dy = (kr * f(n, kr, derivative=True) + f(n, kr) for f in (spherical_jn, spherical_yn))
    h, dh = j - 1j * y, dj - 1j * dy
    total = np.sum((-1.0) ** n * (2 * n + 1) * (dj / dh - j / h))
    ratio = abs(total) ** 2 / kr**2
    assert ratio == pytest.approx(printed, abs=1e-3)
    if kr >= 10.0:
        assert float(echo.ball_m2(1.0)) / np.pi == pytest.approx(ratio, rel=0.1)


def test_tube_is_a_strip_bent_round():
    """2 π r L² / λ broadside: the integral of the lit half of the tube, by stationary phase, in numbers."""
    r, length, own = 1.0, 0.5, wave(9.41)
    x = np.linspace(-r, r, 2_000_001)[1:-1]
    phase = np.exp(2j * 2 * np.pi / own * (np.sqrt(r * r - x * x) - r))
    field = abs(np.sum(phase) * (x[1] - x[0])) * length
    # The rims' own echo ripples about the middle's.
    assert echo.cylinder_m2(r, length, own) == pytest.approx(4 * np.pi * field**2 / own**2, rel=0.15)


@pytest.mark.parametrize(("tall", "null"), [(0.3, 3.0437), (0.5, 1.8257), (0.6, 1.5213)])
def test_strip_nulls(tall, null):
    """By hand: sin(tilt) = λ / 2 L at 9.41 GHz; the null is where the wave's sum over the strip is none."""
    assert echo.first_null_deg(tall, X_BAND.wave_m) == pytest.approx(null, abs=0.005)
    at = np.linspace(-tall / 2, tall / 2, 20_001)
    for tilt in (0.0, 0.7, null, 5.0):
        waves = np.exp(4j * np.pi * at * np.sin(np.radians(tilt)) / X_BAND.wave_m)
        summed = abs(np.trapezoid(waves, at) / tall) ** 2
        assert echo.tilt_share(tall, tilt, X_BAND.wave_m) == pytest.approx(summed, abs=1e-6)
    assert echo.tilt_share(tall, null, X_BAND.wave_m) == pytest.approx(0.0, abs=1e-6)


def test_what_is_left_when_tilted_is_never_less_than_the_ripple():
    """The line over the crests holds the ripple at every tilt, and meets its last crest."""
    stack = Corner(shape="triangular", edge_mm=200.0, stacked=3, tall_mm=600.0)
    tilts = np.linspace(0.0, 40.0, 4001)
    ripple = echo.peak_m2(stack, X_BAND) * echo.tilt_share(0.6, tilts, X_BAND.wave_m)
    line = np.array([echo.most_when_tilted_m2(stack, X_BAND, float(tilt)) for tilt in tilts])
    assert (ripple <= line + 1e-9).all()
    crest = np.flatnonzero((ripple[1:-1] > ripple[:-2]) & (ripple[1:-1] > ripple[2:]))[-1] + 1
    assert ripple[crest] == pytest.approx(line[crest], rel=0.05)


def test_small_tube_adds_little():
    """Common practice, no source, and a laboratory's study of 2007: a tube of 50 mm is under 1 m²."""
    tube = Corner(shape="circular", edge_mm=25.0, stacked=11, tall_mm=560.0)
    assert echo.peak_m2(tube, X_BAND) < 1.0
    assert echo.most_when_tilted_m2(tube, X_BAND, 5.0) < 0.1


# -- two rays over the sea

# Flat sea, by hand: (GHz, h1, h2, outermost crest m = 4 h1 h2 / λ, outermost null m = 2 h1 h2 / λ).
FLAT = (
    (9.41, 15, 4, 7533.2, 3766.6), (9.41, 15, 10, 18833.0, 9416.5), (9.41, 4, 4, 2008.9, 1004.4),
    (3.05, 15, 4, 2441.7, 1220.8), (3.05, 15, 10, 6104.2, 3052.1), (3.05, 4, 4, 651.1, 325.6),
    (0.1568, 15, 4, 125.5, 62.8), (0.1568, 15, 10, 313.8, 156.9), (0.1568, 4, 4, 33.5, 16.7),
)  # fmt: skip
# 4/3 earth of 6371 km, by a second method: (h1, h2, NM, difference m, bounce from h1 m, field at 9.41 GHz).
CURVED = (
    (15, 4, 2, 0.03103, 2909.1, 0.1633), (15, 4, 3, 0.019567, 4335.3, 1.8727),
    (15, 4, 5, 0.009682, 7076.3, 1.6323), (15, 4, 8, 0.00335, 10787.0, 0.6487),
    (15, 4, 10, 0.001204, 12967.2, 0.2369), (15, 10, 10, 0.005713, 10587.1, 1.068),
)  # fmt: skip


@pytest.mark.parametrize(("h1", "h2", "nm", "difference", "bounce", "field"), CURVED)
def test_path_difference_over_the_round_earth(h1, h2, nm, difference, bounce, field):
    """Equations of the radar handbooks, read; values by a second method: 2 µm, 0.1 m, 0.002."""
    r = nm * M_PER_NM
    assert two_ray.path_difference_m(h1, h2, r) == pytest.approx(difference, abs=2e-6)
    assert two_ray.bounce_m(h1, h2, r) == pytest.approx(bounce, abs=0.1)
    assert two_ray.field(h1, h2, r, wave(9.41)) == pytest.approx(field, abs=0.002)
    # the same the other way about
    assert two_ray.path_difference_m(h2, h1, r) == pytest.approx(difference, abs=2e-6)


def least_path_m(h1, h2, r):
    """How much longer the shortest way by way of the sea is, found by search: no formula of reflection."""
    earth = 6_371_000.0 * 4 / 3

    def leg(h, along):
        return np.sqrt(h * h + 4 * earth * (earth + h) * np.sin(along / earth / 2) ** 2)

    found = minimize_scalar(
        lambda x: leg(h1, x) + leg(h2, r - x), bounds=(0.0, r), method="bounded", options={"xatol": 1e-3}
    )
    straight = np.sqrt((h1 - h2) ** 2 + 4 * (earth + h1) * (earth + h2) * np.sin(r / earth / 2) ** 2)
    return found.fun - straight, found.x


def test_path_difference_is_the_least_path():
    """Fermat: of all ways by the sea light takes the shortest; 200 pairs of heights and distances."""
    rng = np.random.default_rng(6)
    h1, h2 = rng.uniform(2.0, 60.0, 200), rng.uniform(1.0, 40.0, 200)
    r = rng.uniform(0.05, 0.99, 200) * range_nm(h1, h2, RADIO) * M_PER_NM
    ours = two_ray.path_difference_m(h1, h2, r)
    theirs = np.array([least_path_m(*one)[0] for one in zip(h1, h2, r, strict=True)])
    np.testing.assert_allclose(ours, theirs, atol=1e-6)


@pytest.mark.parametrize(("ghz", "h1", "h2", "crest", "null"), FLAT)
def test_near_by_the_sea_is_flat(ghz, h1, h2, crest, null):
    """Flat: near by, the corners' distances; at its own outermost crest λ/2, at its null λ.

    Over the round earth both come nearer, the farther off the more.
    """
    near, own = min(null, 300.0), wave(ghz)
    exact = np.hypot(near, h1 + h2) - np.hypot(near, h1 - h2)
    assert two_ray.path_difference_m(h1, h2, near) == pytest.approx(exact, rel=2e-3)
    for far, turns in ((crest, 0.5), (null, 1.0)):
        found = float(two_ray.path_difference_m(h1, h2, far)) / own
        assert found <= turns * 1.002
        if 20 * (h1 + h2) < far < 2500.0:
            assert found == pytest.approx(turns, rel=0.05)


def test_echo_fades_where_rays_cancel():
    """A reflector at 15 m is lost to a radar at 15 m in bands; one at 5 m has none beyond 2 NM for it.

    Common practice: "at about 5 m there are no self-cancelling zones".
    """
    high = two_ray.fades(15.0, 15.0, X_BAND.wave_m)
    assert len([fade for fade in high if fade.from_nm > 2.0]) >= 3
    nearest = [fade for fade in two_ray.fades(5.0, 15.0, X_BAND.wave_m) if fade.from_nm > 2.6]
    assert len(nearest) == 1  # the horizon's own
    for fade in high[:-1]:
        middle = (fade.from_nm + fade.to_nm) / 2 * M_PER_NM
        turns = float(two_ray.path_difference_m(15.0, 15.0, middle)) / X_BAND.wave_m
        assert turns == pytest.approx(round(turns), abs=0.1)


# MSC.192(79), Table 2, read: (target's height m, X band NM, S band NM), the antenna at 15 m.
TABLE_2 = (
    (60.0, 20.0, 20.0), (6.0, 8.0, 8.0), (10.0, 11.0, 11.0), (5.0, 8.0, 8.0), (4.0, 5.0, 3.7),
    (3.5, 4.6, 3.0), (2.0, 3.4, 3.0),
)  # fmt: skip


@pytest.mark.parametrize(("height", "x_nm", "s_nm"), TABLE_2)
def test_what_must_be_seen_is_short_of_the_horizon(height, x_nm, s_nm):
    """Plausibility: no rule asks a radar to look under the sea's rim."""
    assert max(x_nm, s_nm) < range_nm(np.array(15.0), height, RADIO)


@pytest.mark.parametrize(
    ("m2", "height", "x_nm"), [(7.5, 4.0, 5.0), (5.0, 3.5, 4.6), (2.5, 2.0, 3.4), (10.0, 3.5, 4.9)]
)
def test_first_seen_is_plausible(m2, height, x_nm):
    """Plausibility only: MSC.192(79) Table 2, distances read, echoing areas from memory; to a quarter."""
    assert two_ray.first_seen_nm(m2, height, 15.0, X_BAND.wave_m) == pytest.approx(x_nm, rel=0.25)


@pytest.mark.parametrize(
    ("m2", "height", "s_nm"), [(0.5, 4.0, 3.7), (0.5, 3.5, 3.0), (1.4, 2.0, 3.0), (1.0, 3.5, 3.6)]
)
def test_first_seen_in_s_band_is_plausible(m2, height, s_nm):
    """Plausibility only: the same table, S band; echoing areas from memory, the corner buoy's range too."""
    found = two_ray.first_seen_nm(m2, height, 15.0, S_BAND.wave_m, two_ray.LEAST_S)
    assert found == pytest.approx(s_nm, rel=0.25)


def test_an_estimate_is_no_less_than_a_laboratory_saw():
    """Read, a laboratory's study of 2007: 2 m² tracked inside 2.0 NM, under 1 m² poor inside 2.6."""
    assert two_ray.first_seen_nm(2.0, 4.0, 15.0, X_BAND.wave_m) > 2.0
    assert two_ray.first_seen_nm(1.0, 4.0, 15.0, X_BAND.wave_m) > 2.6


def test_what_msc_164_asks():
    """Read, MSC.164(78) annex 3.1 to 3.3, as ISO 8729-1:2010; SN.1/Circ.271 of the radar's own sectors."""
    assert reflector.ASKED_M2 == {"x": 7.5, "s": 0.5}
    assert (reflector.ASKED_HEIGHT_M, reflector.ASKED_ARC_DEG) == (4.0, 280.0)
    assert (reflector.ASKED_NULL_DEG, reflector.ASKED_APART_DEG) == (10.0, 20.0)
    assert reflector.ASKED_HEEL_DEG == {"multihull": 10.0, "monohull": 20.0}
    assert (blind.CLEAR_DEG, blind.SINGLE_DEG, blind.IN_ALL_DEG, blind.APART_DEG) == (112.5, 5.0, 20.0, 3.0)
    limits = built_in()
    read = {"reflector.hidden": 10.0, "radar.hidden": 5.0, "radar.ahead": 112.5, "radar.exposure": 10.0}
    assert {key: limits[key].value for key in read} == read


# -- radar horizon


@pytest.mark.parametrize(
    ("height", "nm"),
    [(1, 2.226), (1.5, 2.726), (3, 3.855), (4, 4.451), (5, 4.977), (8, 6.295), (10, 7.038), (12, 7.71),
     (18, 9.442), (20, 9.953), (25, 11.128)],
)  # fmt: skip
def test_radar_horizon(height, nm):
    """By hand, 4/3 earth of 6371 km."""
    assert horizon_nm(np.array(float(height)), RADIO) == pytest.approx(nm, abs=0.002)


@pytest.mark.parametrize(
    ("h1", "h2", "nm"),
    [(15, 2, 11.767), (15, 4, 13.071), (15, 30, 20.81), (15, 62, 26.144), (5, 10, 12.015),
     (20, 100, 32.209), (1.5, 15, 11.346)],
)  # fmt: skip
def test_radar_horizon_of_two(h1, h2, nm):
    """By hand, 4/3 earth of 6371 km."""
    assert range_nm(np.array(float(h1)), float(h2), RADIO) == pytest.approx(nm, abs=0.002)


@pytest.mark.parametrize(("h1", "h2", "nm"), [(8, 2, 9.3), (10, 2, 10.1), (12, 8, 13.8), (12, 20, 17.5)])
def test_radar_horizon_by_a_rounder_factor(h1, h2, nm):
    """Read, a research note by 2.2 to the root of metres: 1.2 % below the 4/3 earth; printed to 0.1."""
    ours = float(range_nm(np.array(float(h1)), float(h2), RADIO))
    assert ours * 2.2 / RADIO.factor_nm == pytest.approx(nm, abs=0.1)
    assert ours == pytest.approx(nm, abs=0.1 + 0.012 * nm)


def test_radio_range_of_a_course():
    """Read, a GMDSS course's example: 2.25 (√30 + √62) = 30.04 NM; 1.1 % above the 4/3 earth."""
    ours = float(range_nm(np.array(30.0), 62.0, RADIO))
    assert ours * 2.25 / RADIO.factor_nm == pytest.approx(30.04, abs=0.01)


def test_earth_of_radio():
    """Read: 8 477 400 m from a gradient of −39e-9 per m; 4/3 of 6371 km lies 0.2 % from it.

    Read, ITU-R P.2001: 4.12 km to the root of metres by an earth of 8500 km.
    """
    assert pytest.approx(8_477_400.0, abs=600.0) == 1 / (1 / 6_371_000.0 - 39e-9)
    assert pytest.approx(8_477_400.0, rel=0.0025) == two_ray.EARTH_M
    assert RADIO.factor_nm * 1.852 == pytest.approx(4.12, abs=0.005)


# -- own radar


@pytest.mark.parametrize(
    ("height", "beam", "metres"), [(8, 25, 36), (10, 25, 45), (8, 20, 45), (10, 20, 57), (12, 20, 68)]
)
def test_nearest_sea_as_printed(height, beam, metres):
    """Read, a research note on siting: h / tan(half the beam), whole metres; to 0.7."""
    assert scanner.nearest_sea_m(height, beam) == pytest.approx(metres, abs=0.7)


@pytest.mark.parametrize(
    ("height", "beam", "metres"),
    [(5, 25, 22.554), (7.5, 25, 33.83), (12, 25, 54.129), (15, 25, 67.661), (10, 20, 56.713)],
)
def test_nearest_sea_upright(height, beam, metres):
    """By hand."""
    assert scanner.nearest_sea_m(height, beam) == pytest.approx(metres, rel=1e-4)


def test_nearest_sea_heeled():
    """By hand: beam 25, 8 m up, heeled 10: 8 / tan 22.5 = 19 m to leeward, 8 / tan 2.5 = 183 to windward.

    Heeled 15 the sea to windward is not seen at all.
    """
    assert scanner.nearest_sea_m(8.0, 25.0, 10.0) == pytest.approx(19.0, abs=0.5)
    assert scanner.nearest_sea_m(8.0, 25.0, -10.0) == pytest.approx(183.0, abs=0.5)
    assert scanner.nearest_sea_m(8.0, 25.0, -15.0) == np.inf
    assert scanner.nearest_sea_m(8.0, 25.0, -12.5) == np.inf
    assert scanner.nearest_sea_m(8.0, 25.0, 80.0) == 0.0


def test_nearest_sea_of_a_ship_is_within_what_ships_must_see():
    """Plausibility: MSC.192(79) 5.4.1 wants a buoy seen from 40 m with the antenna at 15 m: 41° of beam."""
    assert scanner.nearest_sea_m(15.0, 41.2) == pytest.approx(40.0, abs=0.5)


@pytest.mark.parametrize(
    ("heel", "one_way", "left"), [(10, 1.92, 90.0), (15, 4.32, 56.75), (25, 12.0, 30.81), (30, 17.28, 25.65)]
)
def test_heel_takes_the_beam_off_the_horizon(heel, one_way, left):
    """By hand, bell-shaped beam of 25 degrees: 3 (heel / 12.5)² dB; arcsin(sin 12.5 / sin heel)."""
    assert scanner.loss_db(25.0, heel) == pytest.approx(one_way, abs=0.01)
    assert scanner.in_beam_deg(25.0, heel) == pytest.approx(left, abs=0.01)
    # at that bearing the horizon stands half a beam off its middle: turned about the keel, by hand
    tilt = np.degrees(np.arcsin(np.sin(np.radians(heel)) * np.sin(np.radians(left))))
    assert tilt <= 12.5 + 0.01


def test_power_density_as_printed():
    """Read, a worked example by the method of FCC OET-65: 60 W, duty 0.1, 2.2 dBi, 6 ft, ground 2.56."""
    found = scanner.density_w_m2(60.0 * 0.1, 10**0.22, 1.8288, reflected=2.56)
    assert found / 10.0 == pytest.approx(0.06065253, rel=1e-5)  # 10 W/m² is 1 mW/cm²


def test_a_small_radar_is_harmless_from_two_metres():
    """By hand: 4 kW, 0.8 µs, 750 a second is 2.4 W; beam 5.2 by 25; 10 W/m² (ICNIRP 1998, public)."""
    own = scanner.gain(5.2, 25.0)
    assert own == pytest.approx(230.769, rel=1e-3)
    assert scanner.harmless_m(2.4, own, 10.0) == pytest.approx(2.0994, rel=1e-3)
    assert scanner.density_w_m2(2.4, own, 5.0) == pytest.approx(1.7629, rel=1e-3)

"""Ratios of the paths of cloth in one run: a whole check, its growth, one fitting at 100,000 places."""

import math
import statistics
import time
import tracemalloc
from pathlib import Path

import numpy as np
import pytest
import shapely
from builders import a_fitting, a_layout, a_mast, a_stay
from how_long import turns

from mastlayout.checks import aloft, clew, inside, leech, lines, luff, main, past_stays, pole, pole_rig, stack
from mastlayout.checks.report import check
from mastlayout.checks.rule import where_it_stands
from mastlayout.checks.tack import TACK
from mastlayout.desk import Desk
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.geometry.tack.outlines import STEP_MM
from mastlayout.geometry.tack.tack import BLOCK
from mastlayout.limits import limits_of
from mastlayout.places.clear import matter_of
from mastlayout.places.family import family_of
from mastlayout.places.search import CHUNK
from mastlayout.places.sieve import open_places, picked

pytestmark = pytest.mark.benchmark
LARGEST = Path(__file__).parents[2] / "demo_masts" / "whimbrel.toml"
PLACES, RUNS = turns(100_000, 5_000), turns(5, 3)


def middle_of(work, runs=RUNS):
    """Return the median CPU time of some work, which may take longer the first time."""
    times = []
    for _run in range(runs):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return statistics.median(times)


# All that asks what moves past the mast: cloth, clews, what the main carries and drops, lines, poles, rolls.
PATHS = (TACK, clew.CLEW, main.CLOTH, main.CARRIED, stack.FOLDS, lines.LINES, pole.POLE, luff.LUFF)
OF_ALL = (leech.LEECH, past_stays.PAST_STAYS, *aloft.RULES, *inside.RULES, *pole_rig.RULES, stack.GATE)


def asked(scene, limits, rules=PATHS, of_all=OF_ALL):
    """Ask every fitting of some rules about fittings, and all rules about the whole."""
    batches = [where_it_stands(one) for one in scene.placed.values()]
    for rule in rules:
        rule.margins(scene, batches, limits)
    for whole in of_all:
        list(whole.findings(scene, limits))


def test_whole_path_check_against_hulls():
    """Every fitting, slice and state of the largest demo, worked out anew: at most ten times the hulls."""
    desk = Desk.open(LARGEST)
    limits = limits_of(desk.layout)
    hulls = hulls_of(desk.scene)
    hull = middle_of(lambda: shapely.convex_hull(hulls))

    def whole():
        asked(build(desk.layout), limits)

    taken = middle_of(whole)
    print(f"\npath check / {len(hulls)} hulls: {taken / hull:.2f} (at most 10); {taken * 1000:.0f} ms")
    assert taken <= 10 * hull


def hulls_of(scene):
    """What holds the cloth in each slice as one array of points, once for each state."""
    rings = []
    for block in range(math.ceil(scene.tack.heights / BLOCK)):
        held = scene.tack.holding(block)
        for at in range(len(held.support)):
            z_mm = (block * BLOCK + at) * STEP_MM
            mast = scene.skin.ring(z_mm).polygon()
            others = [middle(support) for support in held.support[at] if not np.isnan(support[0])]
            rings.append(shapely.multipoints(np.concatenate([mast, *others])))
    return np.repeat(np.array(rings), len(scene.tack.cloths) + len(scene.main.states))


def middle(support):
    """Eight points of an outline from its support in as many directions all round."""
    step = len(support) // 8
    angle = np.arange(8) * 2 * np.pi / 8
    return support[::step][:8, None] * np.stack([np.cos(angle), np.sin(angle)], axis=1)


def a_long_mast(count):
    """``count`` boxes, one every 190 mm, on a mast as long as that takes, its genoa and forestay as long."""
    long = 190.0 * count + 1000.0
    turns = ("ahead", "bearing 90", "bearing 270")
    fittings = tuple(
        a_fitting(f"box-{i}", from_masthead_mm=600.0 + 190 * i, girth=turns[i % 3]) for i in range(count)
    )
    genoa = {
        "id": "genoa", "name": "Genoa", "role": "headsail", "stay": "forestay", "lp_mm": long / 4,
        "tack_mm": long - 100.0, "clew_mm": long - 600.0, "head_mm": 400.0,
    }  # fmt: skip
    stay = a_stay(deck={"ahead_mm": long / 4, "above_mm": 0.0})
    return a_layout(mast=a_mast(length_mm=long), fittings=fittings, stays=(stay,), sails=(genoa,))


def test_growth_in_fittings():
    """10, 100 and 1,000 at equal fittings a metre, all worked out anew: time grows at most as n ** 1.1."""
    counts, times = (10, 100, 1000), []
    for count in counts:
        layout = a_long_mast(count)
        limits = limits_of(layout)

        def whole(layout=layout, limits=limits):
            asked(build(layout), limits)

        times.append(middle_of(whole, turns(3, 1)))
    assert len(check(build(a_long_mast(10))).by_fitting["tack/bears"]) == 10
    exponent = math.log(times[2] / times[1]) / math.log(counts[2] / counts[1])
    said = ", ".join(f"{n}: {t * 1000:.0f} ms" for n, t in zip(counts, times, strict=True))
    print(f"\ngrowth exponent of the paths: {exponent:.2f} (at most 1.1); {said}")
    assert exponent <= 1.1


def many(family, count):
    """Heights of the whole mast every 10 mm, at girths all round: ``count`` places."""
    skin = family.root.skin
    heights = np.arange(200.0, skin.length_mm - 200.0, 10.0)
    half = skin.full.half_girth_mm
    girths = np.linspace(-half, half, -(-count // len(heights)), endpoint=False)
    along, around = (every.ravel()[:count] for every in np.meshgrid(heights, girths))
    return Places(along, around, np.zeros(count), np.zeros(count))


def searched(report, family, matter, count):
    """Ask all places chunk by chunk; return how many are left."""
    places = many(family, count)
    return sum(
        len(open_places(family, picked(places, slice(start, start + CHUNK)), matter, report.limits))
        for start in range(0, count, CHUNK)
    )


def test_a_hundred_thousand_places_of_one_fitting():
    """Ten times the places take ten times as long, within a tenth, and no more memory than a quarter more."""
    report = Desk.open(LARGEST).report
    finding = next(own for own in report.faults if own.subjects[0] == "hailer-1")
    family = family_of(report.scene, "hailer-1")
    matter = matter_of(report, finding, "hailer-1", family)
    searched(report, family, matter, 2 * CHUNK)
    few = middle_of(lambda: searched(report, family, matter, PLACES // 10), turns(3, 1))
    every = middle_of(lambda: searched(report, family, matter, PLACES), 1)
    peaks = []
    for count in (PLACES // 5, PLACES):
        tracemalloc.start()
        searched(report, family, matter, count)
        peaks.append(tracemalloc.get_traced_memory()[1] / 1e6)
        tracemalloc.stop()
    print(
        f"\n{PLACES} places: {every:.1f} s, {every / few:.1f} times a tenth of them (at most 12.5);"
        f" peak {peaks[0]:.0f} MB for a fifth, {peaks[1]:.0f} MB for all (at most a quarter more)"
    )
    assert every <= 12.5 * few
    assert peaks[1] <= 1.25 * peaks[0]

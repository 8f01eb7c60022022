"""The tack in one slice against a chain dragged past random rigs, which knows nothing of shades."""

from functools import partial

import numpy as np
import pytest
import shapely
from chain import drag, hidden, nearest, swept
from random_rigs import a_case, a_crowded_case
from slice_of import answers

QUICK, FULL = 500, 20_000
# What 120 directions may take a long support for too much, mm.
SLACK = 1.0
# What a flat side may be taken for too much, as a part of its length: it lies 1.5 degrees at most
# off one of the 120.
FLAT = np.sin(np.radians(1.5)) / 2


def cases(count, of_seed=a_case):
    """Many random rigs with what the program says of each, the worse of held and loose beside held."""
    rigs, fittings, chords = zip(*(of_seed(seed) for seed in range(count)), strict=True)
    held, loose = answers(rigs, fittings, chords)
    return rigs, fittings, chords, held, np.minimum(held, loose)


@pytest.mark.parametrize("count", [QUICK, pytest.param(FULL, marks=pytest.mark.full)])
@pytest.mark.parametrize("of_seed", [a_case, a_crowded_case])
def test_nothing_the_chain_touches_is_reported_clear(count, of_seed):
    """No rig where the chain touches at any length and the program says it clears; few the other way round.

    A false alarm is one the program reports beyond its tolerance and no chain touches: it counts on
    a spreader only from its outer end, as a shorter cloth enters the corner before it.
    """
    rigs, fittings, chords, held, worst = cases(count, of_seed)
    done = [drag(*case) for case in zip(rigs, fittings, chords, strict=True)]
    touched = np.array([one.touched for one in done])
    borne = np.array([one.borne for one in done])
    assert 0.3 * count < touched.sum() < 0.9 * count
    assert not np.flatnonzero(touched & (worst > SLACK)).tolist()
    assert not np.flatnonzero(borne & (held > SLACK)).tolist()
    alarms = ~touched & (worst < -SLACK)
    print(f"chain: touched {touched.sum()} of {count}, false alarms {alarms.sum()}")
    assert alarms.mean() < 0.1


@pytest.mark.parametrize("count", [200, pytest.param(4000, marks=pytest.mark.full)])
def test_past_a_bare_mast_the_clearance_is_the_chains_own(count):
    """Where mast and fitting are wholly within the chord; nowhere more than the chain leaves.

    A fitting's clearance is how far it lies inside what the mast hides from the chain, negative by how
    much its deepest point stands outside that, or what a shorter chain would leave, whichever is
    more; nor is it ever more than its distance from all that the chain sweeps. All by shapely.
    """
    rigs, fittings, chords, _held, worst = cases(count, partial(a_case, bare=True))
    outlines = [_outline(fitting) for fitting in fittings]
    within = np.array([_farthest(r, o) < c for r, o, c in zip(rigs, outlines, chords, strict=True)])
    within &= np.array(
        [_farthest(rig, _outline(rig.mast)) < chord for rig, chord in zip(rigs, chords, strict=True)]
    )
    beyond = [nearest(rig.luff, f) - chord for rig, f, chord in zip(rigs, fittings, chords, strict=True)]
    inside = np.maximum(beyond, [_inside(r, o) for r, o in zip(rigs, outlines, strict=True)])
    assert within.sum() > count / 5
    less = (inside - worst)[within]
    assert less.min() > -SLACK
    assert less.max() < FLAT * 350
    swept_by = [shapely.Polygon(swept(rig, chord)).buffer(0) for rig, chord in zip(rigs, chords, strict=True)]
    apart = np.array([o.distance(sweep) for o, sweep in zip(outlines, swept_by, strict=True)])
    assert (worst - apart)[apart > 0].max() < SLACK


def _outline(body):
    """A body as a polygon whose edges lie within 0.05 mm of it."""
    angle = np.linspace(0, 2 * np.pi, 720, endpoint=False)
    if hasattr(body, "corner"):
        return shapely.Polygon(body.corner)
    return shapely.Polygon(body.middle + body.semi * np.stack([np.cos(angle), np.sin(angle)], axis=1))


def _farthest(rig, outline):
    return np.hypot(*(shapely.get_coordinates(outline) - rig.luff).T).max()


def _inside(rig, outline):
    """How far a fitting lies inside what a mast hides, negative by how far its deepest point is outside."""
    dark = shapely.Polygon(hidden(rig))
    if dark.contains(outline):
        return outline.distance(dark.exterior)
    return -max(dark.distance(shapely.Point(p)) for p in shapely.get_coordinates(outline))

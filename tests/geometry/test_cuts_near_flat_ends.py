"""Cuts of leaning cans near their flat ends, against the points where rims and sides cross that height."""

import numpy as np
import pytest

from mastlayout.geometry.solids import cans
from mastlayout.geometry.tack.directions import COUNT, DIRECTIONS

ROUND = np.linspace(0.0, 2 * np.pi, 7200, endpoint=False)
# What a search may stop short of, and what 7,200 points round a rim leave out.
LARGER_MM, SAMPLED_MM, AT_THE_END_MM = 0.006, 0.002, 0.1


def crossings(start, end, radii, z_mm):
    """Points (k, 2) of a can's surface at a height: along its sides, and across its two flat ends."""
    axis = (end - start) / np.linalg.norm(end - start)
    one = np.cross(axis, (0.0, 0.0, 1.0))
    one /= np.linalg.norm(one)
    other = np.cross(axis, one)
    rim = np.cos(ROUND)[:, None] * one + np.sin(ROUND)[:, None] * other
    first, last = start + radii[0] * rim, end + radii[1] * rim
    lines = [(first, last), *((ring, np.roll(ring, -1, axis=0)) for ring in (first, last))]
    found = []
    for a, b in lines:
        rise = b[:, 2] - a[:, 2]
        part = (z_mm - a[:, 2]) / np.where(rise == 0, np.inf, rise)
        met = (part >= 0) & (part <= 1)
        found.append((a + part[:, None] * (b - a))[met, :2])
    return np.concatenate(found)


@pytest.mark.parametrize("beyond_mm", [0.01, 0.47, 6.0, 20.0])
@pytest.mark.parametrize("radii", [(12.0, 12.0), (36.0, 74.0)])
@pytest.mark.parametrize(
    "lean", [(0.0, 30.0, 17.0), (25.0, -4.0, 3.0), (40.0, 0.0, 1.0), (0.0, -1.535, 39.953)]
)
def test_never_smaller_than_it_is_and_hardly_larger(lean, radii, beyond_mm):
    """A little inside the lowest and the highest point, in every direction."""
    start, end = np.array([0.0, 430.0, 6950.0]), np.array([0.0, 430.0, 6950.0]) + lean
    can = cans(start[None], end[None], np.array(radii[:1]), np.array(radii[1:]))
    low, high = (float(ends[0]) for ends in can.span_z())
    for z_mm in (low + beyond_mm, high - beyond_mm):
        cut = can.cut(np.full(COUNT, z_mm), DIRECTIONS, np.zeros(COUNT, dtype=int))
        true = (crossings(start, end, radii, z_mm) @ DIRECTIONS.T).max(axis=0)
        assert (cut >= true - 1e-6).all()
        # A search tilts directions so far and no farther: right at a flat end it may stay larger.
        if beyond_mm > AT_THE_END_MM:
            assert (cut <= true + LARGER_MM + SAMPLED_MM * max(radii)).all()

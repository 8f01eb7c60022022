"""A slice of the test's own shapes put to the program: what it says a cloth does to a fitting there."""

import numpy as np
from chain import Slice

from mastlayout.geometry.tack.directions import DIRECTIONS
from mastlayout.geometry.tack.reach import boundary, cleared, depths, distance_from, sliced


def answers(rigs, fittings, chords, belly=0.0):
    """Return the clearances held and loose (n,) of n rigs with one fitting and one chord each."""
    most = max(len(rig.supports) for rig in rigs)
    support = np.full((len(rigs), most, len(DIRECTIONS)), np.nan)
    name = np.full((len(rigs), most), -1)
    for i, rig in enumerate(rigs):
        own = [body.reach(DIRECTIONS) for body in rig.supports]
        support[i, : len(own)], name[i, : len(own)] = own, np.arange(len(own))
    luff = np.array([rig.luff for rig in rigs])
    edge = boundary(sliced(luff, support, name)).bellied(belly)
    assert not edge.slices.inside.any()
    row = np.arange(len(rigs))
    outline = np.array([fitting.reach(DIRECTIONS) for fitting in fittings])
    found = depths(edge, row, outline, distance_from(luff, outline), np.inf)
    at = cleared(edge, row, found, np.asarray(chords, dtype=float))
    return at.held, at.loose


def answer(rig: Slice, fitting, chord, belly=0.0):
    """Return the clearances held and loose of one fitting."""
    held, loose = answers([rig], [fitting], [chord], belly)
    return float(held[0]), float(loose[0])

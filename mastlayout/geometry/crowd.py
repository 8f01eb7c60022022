"""Many solids with owners, and the nearest of each owner to a fitting at one place or at many."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from mastlayout.geometry.distance import gap
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.solids import Solids, joined


@dataclass(frozen=True)
class Crowd:
    """k solids and their owners.

    ``owner`` (k,) is the place of each one's owner in ``ids``; ``thick_mm`` (k,) how far each
    reaches from its middle line.
    """

    ids: tuple[str, ...]
    solids: Solids
    owner: Whole
    thick_mm: Array


def crowd_of(members: Sequence[tuple[str, Solids]]) -> Crowd:
    """Return the solids of several owners as one crowd."""
    solids = joined([own for _id, own in members])
    owner = np.repeat(np.arange(len(members)), [len(own) for _id, own in members])
    spans = np.linalg.norm(solids.spans, axis=3).sum(axis=2)
    return Crowd(
        tuple(id_ for id_, _own in members),
        solids,
        owner,
        (solids.radius + spans).max(axis=1, initial=0.0) + solids.round_mm,
    )


@dataclass(frozen=True)
class Nearest:
    """For n places and s owners: gaps (n, s) and where on the fitting (n, s, 3)."""

    gap_mm: Array
    point: Array


def nearest(solids: Solids, each: int, crowd: Crowd, enough_mm: float) -> Nearest:
    """Return how near the solids of a fitting at n places, ``each`` to a place, come to each owner.

    A gap of ``enough_mm`` or more is not worked out: ``enough_mm`` stands for it.
    """
    places = len(solids) // each if each else 0
    found = np.full((places, len(crowd.ids)), enough_mm)
    point = np.full((places, len(crowd.ids), 3), np.nan)
    if not each or not len(crowd.solids):
        return Nearest(found, point)
    row, member = _close(solids, each, crowd, enough_mm)
    first = (row[:, None] * each + np.arange(each)).ravel()
    second = np.repeat(member, each)
    gaps = gap(solids[first], crowd.solids[second], enough_mm)
    place, owner = first // each, crowd.owner[second]
    np.minimum.at(found, (place, owner), gaps.distance_mm)
    least = gaps.distance_mm <= found[place, owner]
    point[place[least], owner[least]] = gaps.on_a[least]
    return Nearest(found, point)


def _close(solids: Solids, each: int, crowd: Crowd, enough_mm: float) -> tuple[Whole, Whole]:
    """Return the pairs of place and member whose bounds come within ``enough_mm``."""
    centre = solids.centre.reshape(-1, each, 3)
    middle = centre.mean(axis=1)
    reach = (np.linalg.norm(centre - middle[:, None], axis=2) + solids.bound_mm.reshape(-1, each)).max(axis=1)
    start = crowd.solids.ends[:, 0]
    step = crowd.solids.ends[:, 1] - start
    long = np.maximum(np.einsum("kj,kj->k", step, step), 1e-12)
    away = middle[:, None, :] - start
    part = np.clip(np.einsum("nkj,kj->nk", away, step) / long, 0.0, 1.0)
    apart = np.linalg.norm(away - part[:, :, None] * step, axis=2)
    row, member = np.nonzero(apart - crowd.thick_mm - reach[:, None] < enough_mm)
    return row, member

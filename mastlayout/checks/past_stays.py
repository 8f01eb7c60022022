"""Taut running lines against stays at rest: what saws on what while she sails.

Not asked: a halyard along the stay its own sail is set on; a line within a hand of where it hangs or is
made fast, for there it is led to the stay or close by it; a line and a stay both drawn on the
centreline, which pass each other to one side. Nor slack wires: one that swings to leeward touches and
lets go again.
"""

from collections.abc import Iterator, Sequence
from typing import Literal

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.lines import BY_HAND, MADE_FAST_MM, in_words
from mastlayout.checks.rule import TOLERANCE_MM, WholeRule
from mastlayout.geometry.frames import Array, Mask
from mastlayout.geometry.lines import leg_distance
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.running.led import Running, Way
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits

# Where it is made fast by hand, or leads as the boom takes it, it need not lie on the wire for long.
_PASSING = (*BY_HAND, "boom out to port", "boom out to starboard")
# Loud to quiet: how a way that touches, and one that comes near, are said.
_Said = tuple[Literal["caution", "note"], float, float]


def past_stays(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name each stay that a taut line touches or passes too near, in the state in which it does so most."""
    wanted = limits["line.clear"].value
    stays = [stay for stay in scene.stays.values() if stay.points is not None]
    worst: dict[tuple[str, str], tuple[_Said, Way]] = {}
    for way, stay, apart, z_mm in _too_near(scene.running, stays, wanted):
        said = _graded(way, apart, z_mm, wanted)
        key = way.line, stay.item.id
        if said is None or _its_own(scene, way, stay):
            continue
        if key not in worst or said < worst[key][0]:
            worst[key] = said, way
    for who, ((standing, apart, z_mm), way) in worst.items():
        yield Finding(
            "line/stay", standing, who, apart, wanted,
            limit="line.clear", z_mm=z_mm, state=in_words(way),
        )  # fmt: skip


def _graded(way: Way, apart: float, z_mm: float, wanted_mm: float) -> _Said | None:
    """Return how a way is said that passes a stay so far off, None where nothing is to be said."""
    if apart < -TOLERANCE_MM:
        return "note" if way.doing in _PASSING else "caution", apart, z_mm
    if apart < wanted_mm - TOLERANCE_MM and way.doing not in _PASSING:
        return "note", apart, z_mm
    return None


def _its_own(scene: Scene, way: Way, stay: StayInSpace) -> bool:
    """Tell whether a line is the stay itself, or the halyard of a sail that is set on it."""
    name = stay.item.id
    return way.line == name or any(
        sail.halyard == way.line and sail.stay == name for sail in scene.layout.sails
    )


def _too_near(
    running: Running, stays: Sequence[StayInSpace], wanted_mm: float
) -> Iterator[tuple[Way, StayInSpace, float, float]]:
    """Yield each way and stay that come within ``wanted_mm``: how far apart, and at what height."""
    if not stays or not running.ways:
        return
    legs, radius = running.slack.ends[:, None], running.slack.round_mm[:, None]
    wires = [np.stack([np.asarray(s.points)[:-1], np.asarray(s.points)[1:]], axis=1) for s in stays]
    wire, owner = np.concatenate(wires)[None], np.repeat(np.arange(len(stays)), [len(w) for w in wires])
    thick = radius + np.array([(stay.item.wire_mm or 0.0) / 2 for stay in stays])[owner]
    off, on = leg_distance(legs[:, :, 0], legs[:, :, 1], wire[:, :, 0], wire[:, :, 1])
    led = np.linalg.norm(on[:, :, None] - legs, axis=3).min(axis=2) < MADE_FAST_MM
    beside = _midships(legs, thick) & _midships(wire, thick)
    off = np.where(led | beside, np.inf, off - thick)
    for leg, at in zip(*(index.tolist() for index in np.nonzero(off < wanted_mm)), strict=True):
        way = running.ways[int(running.taut.owner[leg])]
        yield way, stays[int(owner[at])], float(off[leg, at]), float(on[leg, at, 2])


def _midships(legs: Array, thick_mm: Array) -> Mask:
    """Tell of legs (…, 2, 3) whether they lie on the centreline."""
    return np.asarray((np.abs(legs[..., 1]) <= thick_mm[..., None]).all(axis=-1))


PAST_STAYS = WholeRule("line/stay", frozenset({"stays", "sails", "lines", "limits"}), past_stays)

"""Running lines against the rig: spreaders they bear on or get round, furled sails that wind them in."""

from collections.abc import Iterator

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.lines import in_words
from mastlayout.checks.rule import TOLERANCE_MM, WholeRule
from mastlayout.geometry.crowd import Herd, nearest
from mastlayout.geometry.distance import gap
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.running.led import Way
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import Solids, joined, tubes
from mastlayout.limits import Limits

# As far from its root a spreader stands in its bracket.
_ROOT_MM = 120.0


def tips(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Name the spreaders a slack line can get round, each with the line that needs the least slack for it.

    A line that hangs from the spreader itself, or is led over it, is meant to be there. A jumper's
    strut stands between its own wire and the mast: nothing gets round that.
    """
    running = scene.running
    for name, bar in scene.spreaders.items():
        if bar.tip is None or bar.item.side == "centre" or not running.ways:
            continue
        apart = np.array([_on(scene, way, name) for way in running.ways], dtype=bool)[running.taut.owner]
        needed, given = running.slack.needed_mm(bar.tip[None])[0], running.slack.slack_mm
        short = np.where(apart | (needed >= given), np.inf, needed)
        least = int(short.argmin())
        if short[least] < np.inf:
            way = running.ways[running.taut.owner[least]]
            yield Finding(
                "line/wraps", "caution", (name, way.line), float(needed[least]), float(given[least]),
                limit="line.slack", z_mm=float(bar.tip[2]), state=in_words(way),
            )  # fmt: skip


def spreaders(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Name the spreaders and struts a taut line bears on, each with the line that does so most.

    At its root a spreader stands in its bracket, which is asked as every fitting is.
    """
    bars = {name: bar.solids for name, bar in scene.spreaders.items() if len(bar.solids)}
    if not bars or not scene.running.ways:
        return
    herd = Herd(joined(list(bars.values())), np.array([len(own) for own in bars.values()]))
    skip = np.array([[_on(scene, way, name) for way in scene.running.ways] for name in bars], dtype=bool)
    found = nearest(herd, scene.running.taut, 0.0, skip)
    for row, name in enumerate(bars):
        least = int(found.gap_mm[row].argmin())
        if found.gap_mm[row, least] < -TOLERANCE_MM and not _bracketed(scene, name, found.point[row, least]):
            way = scene.running.ways[least]
            yield Finding(
                "line/spreader", "caution", (name, way.line), float(found.gap_mm[row, least]), 0.0,
                z_mm=float(found.point[row, least, 2]), state=in_words(way),
            )  # fmt: skip


def _bracketed(scene: Scene, name: str, point: Array) -> bool:
    """Tell whether a point is at the root of a spreader, and a bracket stands there."""
    root = scene.spreaders[name].root
    brackets = (one.seats.origin[0] for one in scene.placed.values() if one.kind.group == "spreader")
    return float(np.linalg.norm(point - root)) < _ROOT_MM and any(
        np.linalg.norm(bracket - root) < _ROOT_MM for bracket in brackets
    )


def _on(scene: Scene, way: Way, spreader: str) -> bool:
    """Tell whether a line is led on a spreader, or is the wire of a stay over its tip."""
    stay = scene.stays.get(way.line)
    hosts = (scene.placed[own].fitting.on for own in way.own if own in scene.placed)
    return spreader in hosts or (stay is not None and spreader in stay.item.via)


def furled(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name the lines tied off so near a furled sail that it winds them in as it turns."""
    wanted = limits["line.clear"].value
    for sail in scene.layout.sails:
        stay, rolled = scene.stays.get(sail.stay or ""), sail.furled_mm
        corners = [reading for reading in (sail.tack_mm, sail.head_mm) if reading is not None]
        if stay is None or stay.points is None or rolled is None or len(corners) < 2:
            continue
        heights = [height_mm(scene.skin.length_mm, reading) for reading in corners]
        points = stay.points[::-1]
        ends = np.array([[np.interp(z, points[:, 2], points[:, k]) for k in range(3)] for z in heights])
        roll = tubes(ends[:1], ends[1:], rolled / 2)
        tied = [i for i, way in enumerate(scene.running.ways) if way.doing == "tied off"]
        found = _nearest(scene, [i for i in tied if scene.running.ways[i].line != sail.halyard], roll)
        if found and found[1] < wanted - TOLERANCE_MM:
            way, off, z_mm = found
            yield Finding(
                "line/furled", "caution", (way.line, sail.id), off, wanted,
                limit="line.clear", z_mm=z_mm, state=in_words(way),
            )  # fmt: skip


def _nearest(scene: Scene, ways: list[int], solid: Solids) -> tuple[Way, float, float] | None:
    """Return which of some ways, taut, comes nearest to one solid, by how much, and at what height."""
    lines = scene.running.taut
    rows = np.flatnonzero(np.isin(lines.owner, ways))
    if not len(rows):
        return None
    near = gap(lines.solids[rows], solid[np.zeros(len(rows), dtype=int)])
    least = int(near.distance_mm.argmin())
    way = scene.running.ways[lines.owner[rows[least]]]
    return way, float(near.distance_mm[least]), float(near.on_b[least, 2])


TIPS = WholeRule("line/wraps", frozenset({"mast", "spreaders", "stays", "lines", "limits"}), tips)
FURLED = WholeRule("line/furled", frozenset({"mast", "stays", "sails", "lines", "limits"}), furled)
SPREADERS = WholeRule(
    "line/spreader", frozenset({"mast", "spreaders", "stays", "fittings", "lines"}), spreaders
)
RULES = (TIPS, SPREADERS, FURLED)

"""The leech of the mainsail and its batten ends: what they catch on."""

from collections.abc import Callable, Iterator

import numpy as np

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.rule import TOLERANCE_MM, WholeRule
from mastlayout.checks.tack import in_words
from mastlayout.geometry.main.cloth import Swung
from mastlayout.geometry.main.leech import (
    over_the_boom,
    past_backstays,
    past_line,
    past_wires,
    to_the_boom,
    within,
)
from mastlayout.geometry.main.stops import is_shroud
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.rig import Stay


def _is_runner(stay: Stay) -> bool:
    return stay.role == "runner"


def _is_backstay(stay: Stay) -> bool:
    return stay.role == "backstay"


# A runner is let go as the boom goes out; a backstay is not.
_ABAFT: tuple[tuple[str, Standing, Callable[[Stay], bool]], ...] = (
    ("main/runner", "note", _is_runner),
    ("main/backstay", "caution", _is_backstay),
)


def leech(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name what the leech or its batten ends catch on, of each mainsail in the state in which it is worst."""
    room, swing = limits["main.leech"].value, limits["main.jacks"].value
    for state in scene.main.states:
        if state.state.hoisting:
            yield from _lazy_jacks(scene, state, swing)
            yield from _shrouds(scene, state, swing)
        elif state.state.reef is None:
            yield from _backstays(scene, state, room)
            yield from _topping_lift(scene, state, room)
            yield from _aft(scene, state)


def _battens(state: Swung) -> bool:
    return bool(state.state.sail.battens_short or state.state.sail.battens_full)


def _backstays(scene: Scene, state: Swung, wanted_mm: float) -> Iterator[Finding]:
    for stay, measured, z_mm in past_backstays(scene.main, state):
        if measured < wanted_mm - TOLERANCE_MM:
            who = (state.state.sail.id, stay)
            yield Finding("main/leech", "caution", who, measured, wanted_mm, limit="main.leech", z_mm=z_mm)


def _topping_lift(scene: Scene, state: Swung, wanted_mm: float) -> Iterator[Finding]:
    """A lift to the boom's end, taut; under way it is slack, so the leech lives with it."""
    for halyard in scene.layout.halyards:
        ends = over_the_boom(scene.skin, halyard, scene.placed, state)
        if ends is None:
            continue
        measured, z_mm = past_line(scene.main, state, *ends)
        if measured < wanted_mm - TOLERANCE_MM:
            who = (state.state.sail.id, halyard.id)
            yield Finding("main/lift", "note", who, measured, wanted_mm, limit="main.leech", z_mm=z_mm)


def _lazy_jacks(scene: Scene, state: Swung, wanted_deg: float) -> Iterator[Finding]:
    """Name the lines down to the boom that batten ends catch on unless she lies head to wind."""
    if not _battens(state):
        return
    for halyard in scene.layout.halyards:
        ends = to_the_boom(scene.skin, halyard, scene.placed, state)
        found = within(scene.main, state, *ends) if ends else None
        if found and np.degrees(found[0]) < wanted_deg:
            who, angle = (state.state.sail.id, halyard.id), float(np.degrees(found[0]))
            yield Finding("main/jacks", "note", who, angle, wanted_deg, "deg", "main.jacks", z_mm=found[1])


def _shrouds(scene: Scene, state: Swung, wanted_deg: float) -> Iterator[Finding]:
    """Name the shroud that batten ends catch on first as the sail goes up, the boom nearly amidships."""
    if not _battens(state):
        return
    for name, angle, z_mm in _first(scene, state, is_shroud):
        if angle < wanted_deg:
            who = (state.state.sail.id, name)
            yield Finding("main/hooks", "note", who, angle, wanted_deg, "deg", "main.jacks", z_mm=z_mm)


def _aft(scene: Scene, state: Swung) -> Iterator[Finding]:
    """Name the runner to leeward that the leech meets before the boom is out, and a backstay beside it."""
    out = float(np.degrees(state.boom))
    for code, standing, asked in _ABAFT:
        for name, angle, z_mm in _first(scene, state, asked):
            if angle < out:
                who = (state.state.sail.id, name)
                yield Finding(code, standing, who, angle, out, "deg", z_mm=z_mm, state=in_words(state.state))


def _first(scene: Scene, state: Swung, asked: Callable[[Stay], bool]) -> Iterator[tuple[str, float, float]]:
    """Yield the wire of those asked that the leech meets first, at what angle in degrees, and where."""
    found = list(past_wires(scene.main, state, asked))
    if found:
        name, angle, z_mm = min(found, key=lambda one: one[1])
        yield name, float(np.degrees(angle)), z_mm


LEECH = WholeRule(
    "main/leech", frozenset({"mast", "stays", "spreaders", "fittings", "sails", "boat", "limits"}), leech
)

"""The mainsail dropped: what its folds lie on, and whether its slides come out at the gate of the track.

What stands in the way of the cars themselves is asked over the whole hoist (``main/carried``).
"""

from collections.abc import Iterator, Sequence

import numpy as np

from mastlayout.checks import tack
from mastlayout.checks.finding import Finding
from mastlayout.checks.main import CarriedMargins, gear_margins
from mastlayout.checks.rule import TOLERANCE_MM, Batch, Depends, Margins, Rule, WholeRule
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.main.cloth import low_reading_mm
from mastlayout.geometry.main.stack import Stack
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.mast import Mast, Track
from mastlayout.model.measure import measure_of
from mastlayout.model.sails import Sail

_DEPENDS: frozenset[Depends] = frozenset({"mast", "fittings", "sails", "limits"})
# What a fold hooks on, or presses on and breaks.
_BREAKS = ("lens", "antenna")


def margins(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings at their places against the folds of the dropped mainsail."""
    return gear_margins(scene, batches, limits, scene.main.folds)


def quick(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure only the middle of each solid: the folds come at least as near as that."""
    return gear_margins(scene, batches, limits, scene.main.folds, middles=True)


def judge(placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
    """Say what folds lie on; what lies low or works there they may, unless it hooks or breaks."""
    if not isinstance(found, CarriedMargins) or not found.gear:
        return []
    worst = int(found.measured[0].argmin())
    deep, body = float(found.measured[0, worst]), placed.body
    hooks = any(body.snags) or any(part in _BREAKS for part in body.parts)
    if deep >= -TOLERANCE_MM or (placed.kind.group in tack.WORKING and not hooks):
        return []
    loud = hooks and placed.kind.group not in tack.WORKING
    return [
        Finding(
            "main/folds",
            "caution" if loud else "note",
            (placed.id, *found.subjects[worst]),
            deep,
            0.0,
            limit="main.folds",
            z_mm=float(np.clip(found.point[0, worst, 2], *placed.span_z_mm)),
        )
    ]


def gate(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Say of each mainsail what nobody measured of its stack, and whether the gate opens within it."""
    known = {stack.sail.id: stack for stack in scene.main.stacks}
    for sail in scene.layout.sails:
        if sail.role != "main" or low_reading_mm(sail) is None:
            continue
        stack = known.get(sail.id)
        if stack is None:
            yield Finding("main/stack", "not checked", (sail.id,), measure=measure_of(Sail, "cars").key)
        else:
            yield from _added_up(stack, limits["main.stack"].value)
            yield from _at_the_gate(scene.layout.mast, stack, limits["main.gate"].value)


def _added_up(stack: Stack, allowed_mm: float) -> Iterator[Finding]:
    if stack.measured_mm is None or stack.counted_mm is None:
        return
    apart = abs(stack.measured_mm - stack.counted_mm)
    if apart > allowed_mm + TOLERANCE_MM:
        yield Finding("main/stack", "caution", (stack.sail.id,), apart, allowed_mm, limit="main.stack")


def _at_the_gate(mast: Mast, stack: Stack, wanted_mm: float) -> Iterator[Finding]:
    """A gate above the stack or below what it stands on lets nothing out; nor does one that closes."""
    track = mast.track
    if track is None or track.gate_closes or (track.gate_mm is None and track.lower_end_mm is not None):
        return
    if track.gate_mm is None or track.gate_length_mm is None:
        lacking = measure_of(Track, "gate_mm").key
        yield Finding("main/gate", "not checked", (stack.sail.id,), measure=lacking)
        return
    middle, half = height_mm(mast.length_mm, track.gate_mm), track.gate_length_mm / 2
    above, below = middle - half - stack.top_mm, stack.low_mm - (middle + half)
    if below < -TOLERANCE_MM and above < wanted_mm - TOLERANCE_MM:
        yield Finding(
            "main/gate", "caution", (stack.sail.id,), above, wanted_mm, limit="main.gate", z_mm=middle
        )


FOLDS = Rule("main/folds", "main.folds", _DEPENDS, many=margins, judge=judge, quick=quick)
GATE = WholeRule("main/gate", frozenset({"mast", "sails", "limits"}), gate)

"""What hides arcs at 100,000 places of one fitting, against one arctan2 per place and obstacle.

An antenna has no rule of arcs, only its ring, which is drawn for the one place it has.
"""

import statistics
import time
from pathlib import Path

import numpy as np
import pytest

from mastlayout.checks.rule import at_places, carried_along
from mastlayout.checks.rules import FITTING_RULES
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.limits import limits_of
from mastlayout.storage.reading import open_document

pytestmark = pytest.mark.benchmark
LARGEST = Path(__file__).parents[2] / "demo_masts" / "whimbrel.toml"
CHUNK = 5000
# Every rule that asks what stands before a lens, an antenna, a reflector or a horn.
ARC_RULES = tuple(
    rule for rule in FITTING_RULES if rule.code.partition("/")[0] in ("arcs", "radar", "reflector", "sound")
)


def batches_of(scene, id_):
    """Return a fitting at 100,000 places along and round the mast, in blocks; or what carries it."""
    placed = scene.placed[id_]
    carrier = scene.placed.get(placed.fitting.on)
    z, girth = np.linspace(3000.0, 16000.0, 1000), np.linspace(-273.0, 273.0, 100)
    along, around = (part.ravel() for part in np.meshgrid(z, girth, indexing="ij"))
    nothing = np.zeros(CHUNK)
    for first in range(0, len(along), CHUNK):
        part = slice(first, first + CHUNK)
        places = Places(along[part], around[part], nothing, nothing)
        if carrier is None:
            yield at_places(placed, places)
        else:
            yield carried_along(placed, at_places(carrier, places))


def rules_of(scene, batches, limits):
    """Ask every rule of arcs."""
    for batch in batches:
        for rule in ARC_RULES:
            rule.margins(scene, [batch], limits)


@pytest.mark.parametrize("id_", ["steaming-light", "radome-1", "reflector-1", "fog-horn-1"])
def test_arcs_at_100_000_places(id_):
    """At most twice a plain numpy pass of one arctan2 per place and obstacle, in the same run."""
    scene = build(open_document(LARGEST).layout)
    limits, batches = limits_of(scene.layout), list(batches_of(scene, id_))
    middles = np.concatenate([crowd.solids.centre for crowd in (scene.gear, scene.bars, scene.wires)])
    ratios = []
    for _turn in range(5):
        start = time.process_time()
        rules_of(scene, batches, limits)
        taken, start = time.process_time() - start, time.process_time()
        for batch in batches:
            point = batch.seats.origin
            np.arctan2(middles[:, 1] - point[:, 1, None], middles[:, 0] - point[:, 0, None])
        ratios.append(taken / (time.process_time() - start))
    ratio = statistics.median(ratios)
    print(f"\n{id_}: arcs / one arctan2 per place and obstacle: {ratio:.2f} (at most 2)")
    assert ratio <= 2.0

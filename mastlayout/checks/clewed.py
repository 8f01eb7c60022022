"""Which clew or sheet a finding speaks of, and all that it sweeps, to be drawn."""

from dataclasses import field

import numpy as np

from mastlayout.checks.clew import in_words, of_scene
from mastlayout.checks.finding import Finding
from mastlayout.frozen import dataclass
from mastlayout.geometry.clew.clews import SHEETS, Clews
from mastlayout.geometry.clew.swept import Swept
from mastlayout.geometry.frames import Array
from mastlayout.geometry.scene import Scene
from mastlayout.limits import limits_of
from mastlayout.model.sails import Sail


@dataclass(frozen=True)
class SweptClew:
    """What a sail's clew sweeps alone, ``of_clew``, or drawn out by a sheet: one body.

    ``slack_mm`` is how far a slack sheet whips beyond that. Two are equal where they are of the same
    ``clews`` and state: what is swept follows from these.
    """

    sail: Sail
    state: str
    clews: Clews
    of_clew: bool
    slack_mm: float
    swept: Swept = field(compare=False)


def swept_clew(scene: Scene, finding: Finding) -> SweptClew | None:
    """Return what the clew or sheet of a finding sweeps; None for a finding of another family."""
    if not finding.code.startswith("clew/") or not finding.state:
        return None
    limits = limits_of(scene.layout)
    clews = of_scene(scene, limits)
    for i, state in enumerate(clews.states):
        if state.sail.id not in finding.subjects:
            continue
        for way in range(1 + 2 * len(SHEETS)):
            if in_words(state, way) == finding.state:
                slack = way > len(SHEETS)
                return SweptClew(
                    state.sail,
                    finding.state,
                    clews,
                    way == 0,
                    limits["clew.slap"].value if slack else 0.0,
                    clews.swept(np.array([i]), _lead(clews, i, way)),
                )
    return None


def _lead(clews: Clews, state: int, way: int) -> Array:
    """Return the lead (1, 3) of a way: that of no sheet for the clew alone."""
    if way == 0:
        return np.full((1, 3), np.nan)
    return np.asarray(clews.leads[state, (way - 1) % len(SHEETS)][None])

"""What stands before the mouth of a horn or hailer, and under which sails cloth stands there.

A thing larger than the sound's wave is a screen, a smaller one it bends round: a caution and a note. What
stands right over the mouth is a caution whatever its size, but rods and wires nobody hears. On every
yacht a headsail stands before a horn on the fore side, on one tack or the other: said once, a note.
"""

from collections.abc import Iterator

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.graded import Grades
from mastlayout.checks.rule import Batch, Margins, Rule, WholeRule, no_margins
from mastlayout.checks.shadow import Judge, Told, by_thing
from mastlayout.checks.tack import in_words
from mastlayout.geometry.frames import Array
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import Fitting
from mastlayout.model.measure import measure_of
from mastlayout.ranges.mouth import arc_of, before_mouth, covered_deg
from mastlayout.ranges.sails_before import not_known, sails_before, widest
from mastlayout.ranges.screen import SHORTEST_WAVE_MM, screen_mm, wave_mm
from mastlayout.ranges.sound import is_sound, mouth, points_ahead
from mastlayout.words import _

GRADES: Grades = (
    ("", "note"),
    ("sound/before", "note"),
    ("sound/covered", "not checked"),
    ("sound/covered", "caution"),
)
_CLEAR, _SMALL, _NOT_KNOWN, _SCREEN = range(len(GRADES))
_TOLERANCE_DEG = 0.05


def margins(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure, in degrees, what each thing covers of the arc before a mouth at its places."""
    if not is_sound(batch.placed) or not batch.each:
        return no_margins(len(batch.places))
    seen = before_mouth(scene, batch.placed, batch.seats, limits)
    axis = _axes_deg(batch.seats.axes[:, 2])[seen.found.place]
    covered = covered_deg(seen.found.edge, axis, ahead=points_ahead(batch.placed))
    limit = limits["sound.covered"].value
    sizes = np.zeros(len(seen.ids))
    for owner in np.unique(seen.found.owner).tolist():
        sizes[owner] = screen_mm(scene, seen.ids[owner])
    small_mm = limits["sound.small"].value
    screens = _grade(sizes, batch.placed.fitting.tone_hz, small_mm)[seen.found.owner]
    over = covered > limits["sound.over"].value + _TOLERANCE_DEG
    grade = np.where(over & (screens != _CLEAR), _SCREEN, screens)
    grade = np.where(covered > limit + _TOLERANCE_DEG, grade, _CLEAR)
    own = Told(seen, grade, covered, seen.found.edge, limit, "sound.covered")
    return by_thing(batch.seats.origin, [own], GRADES)


def _axes_deg(out: Array) -> Array:
    return np.degrees(np.arctan2(-out[:, 1], out[:, 0]))


def _grade(sizes_mm: Array, tone_hz: float | None, small_mm: float) -> Array:
    """Grade things by their sizes: nobody is asked for a tone whose wave bends round them at any rate."""
    large = sizes_mm >= (SHORTEST_WAVE_MM if tone_hz is None else wave_mm(tone_hz))
    loud = _NOT_KNOWN if tone_hz is None else _SCREEN
    return np.select([large, sizes_mm >= small_mm], [loud, _SMALL], _CLEAR)


COVERED = Rule(
    "sound/covered",
    "sound.covered",
    frozenset({"mast", "stays", "spreaders", "fittings", "limits"}),
    margins,
    pairs=True,
    reach_mm=400.0,
    unit="deg",
    judge=Judge("deg", _("the mouth"), measure_of(Fitting, "tone_hz").key),
)


def sails(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Say of each sound signal which sail stands before its mouth most, and of which nobody knows it."""
    for placed in scene.placed.values():
        if not is_sound(placed):
            continue
        for sail, measure in not_known(scene):
            if sail.role != "main" or not points_ahead(placed):
                yield Finding("sound/sails", "not checked", (sail.id, placed.id), measure=measure.key)
        worst = widest(sails_before(scene, mouth(placed), limits["sound.band"].value), *arc_of(placed))
        if worst is not None:
            who, covered = (placed.id, worst.state.sail.id), worst.covers_deg(*arc_of(placed))
            yield Finding(
                "sound/sails", "note", who, covered, 0.0, "deg", z_mm=placed.z_mm, state=in_words(worst.state)
            )


SAILS = WholeRule(
    "sound/sails", frozenset({"mast", "stays", "spreaders", "fittings", "sails", "limits"}), sails
)

"""A pole against fittings: what it strikes while it is set, to either side, and what it lies against stowed.

What it sweeps is geometry's (``geometry/pole``). It turns on its ring, track and car: they are not
asked. A guard made for cloth does not stop a pole, so none is counted on.
"""

from collections.abc import Sequence

import numpy as np

from mastlayout.checks.clew import TEARS
from mastlayout.checks.finding import Finding
from mastlayout.checks.graded import GradedMargins, Grades, each, judged
from mastlayout.checks.rule import TOLERANCE_MM, Batch, Margins, Rule, no_margins
from mastlayout.frozen import dataclass
from mastlayout.geometry.crowd import Herd, crowd_of, nearest
from mastlayout.geometry.frames import Array, Whole
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.pole.clear import clear_of
from mastlayout.geometry.pole.poles import PoleInSpace, Swings, place_pole
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import Solids, joined
from mastlayout.limits import Limits
from mastlayout.words import _

# What the pole stands on.
_ITS_OWN = "pole"
# Quiet to loud: each grade's code and standing.
GRADES: Grades = (
    ("", "note"),
    ("pole/near", "note"),
    ("pole/rests", "caution"),
    ("pole/knocks", "caution"),
    ("pole/presses", "fault"),
    ("pole/strikes", "fault"),
)
_CLEAR, _NEAR, _RESTS, _KNOCKS, _PRESSES, _STRIKES = range(len(GRADES))
# In which a pole is asked: set to port, set to starboard, stowed.
_STATES = 3


@dataclass(frozen=True, eq=False)
class PoleMargins(GradedMargins):
    """Margins against each state of each pole, ``called`` (s) in words."""

    called: tuple[str, ...] = ()


def of_scene(scene: Scene, limits: Limits) -> tuple[PoleInSpace, ...]:
    """Return the poles of a scene, carried as far as its limits say."""
    swings = Swings(limits["pole.tilt"].value, limits["pole.squared"].value)
    return tuple(place_pole(scene.skin, item, swings) for item in scene.layout.poles)


def margins(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings at their places against every pole, set and stowed."""
    poles = of_scene(scene, limits)
    bodies = [batch for batch in batches if _asked(batch) and poles]
    if not bodies:
        return [no_margins(len(batch.places)) for batch in batches]
    near_mm = limits["pole.near"].value
    solids = joined([batch.solids for batch in bodies])
    clear = np.concatenate([_clear(pole, solids, near_mm) for pole in poles], axis=1)
    subjects = tuple((pole.item.id,) for pole in poles for _state in range(_STATES))
    called = tuple(words for pole in poles for words in in_words(pole))
    return each(batches, _asked, lambda batch, rows: _of_one(batch, clear[rows], near_mm, subjects, called))


def _asked(batch: Batch) -> bool:
    return batch.each > 0 and batch.placed.kind.group != _ITS_OWN


def _clear(pole: PoleInSpace, solids: Solids, near_mm: float) -> Array:
    """Return how clear (q, 3) solids are of one pole in its states."""
    found = np.full((len(solids), _STATES), near_mm)
    if pole.swept is not None:
        found[:, :2] = clear_of(pole.swept, solids, near_mm)
    if len(pole.lying):
        lying = crowd_of([(pole.item.id, pole.lying)])
        one_each = Herd(solids, np.ones(len(solids), dtype=int))
        skip = np.zeros((len(solids), 1), dtype=bool)
        found[:, 2] = nearest(one_each, lying, near_mm, skip).gap_mm[:, 0]
    return found


def _of_one(
    batch: Batch, clear: Array, near_mm: float, subjects: tuple[tuple[str, ...], ...], called: tuple[str, ...]
) -> PoleMargins:
    clear = clear.reshape(len(batch.places), batch.each, len(subjects))
    part = clear.argmin(axis=1)
    place, state = np.indices(part.shape)
    measured = clear[place, part, state]
    point = batch.solids.centre.reshape(len(batch.places), batch.each, 3)[place, part]
    return PoleMargins(
        subjects,
        measured,
        np.full(measured.shape, near_mm),
        point,
        (None,) * len(subjects),
        grade=_graded(batch.placed, measured, near_mm),
        grades=GRADES,
        called=called,
    )


def _graded(placed: Placed, measured: Array, near_mm: float) -> Whole:
    """Return the grade (n, s): what is there for itself breaks, what works there is only knocked."""
    breaks = placed.kind.group in TEARS
    touched = np.array([_STRIKES, _STRIKES, _PRESSES] if breaks else [_KNOCKS, _KNOCKS, _RESTS])
    grade = np.where(measured < near_mm - TOLERANCE_MM, _NEAR, _CLEAR)
    each_state = np.tile(touched, measured.shape[1] // _STATES)
    return np.asarray(np.where(measured < -TOLERANCE_MM, each_state, grade))


def in_words(pole: PoleInSpace) -> tuple[str, str, str]:
    """Call the states of a pole by name: to port, to starboard, stowed."""
    stowed = {
        "mast": _("stowed along the mast"),
        "track": _("stowed on its track"),
        "deck": _("stowed on deck"),
    }
    return _("set to port"), _("set to starboard"), stowed.get(pole.item.stowed_on or "", _("stowed"))


def judge(placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
    """Say the worst state of a pole for a fitting, by name; what is clear says nothing."""
    if not isinstance(found, PoleMargins):
        return []
    return judged(placed, found, "pole.near", lambda state: found.called[state])


POLE = Rule(
    "pole/strikes", "pole.near", frozenset({"mast", "fittings", "sails", "limits"}), many=margins, judge=judge
)

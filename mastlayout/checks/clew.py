"""Clew and sheets: what a sheet can hook on when a headsail is tacked, and what the clew can strike.

What they sweep is geometry's (``geometry/clew``); here it is graded as a rigger would. A guard that
stands by itself is not counted on: a bight gets behind a hoop.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.graded import GradedMargins, Grades, each, judged, loudest
from mastlayout.checks.rule import TOLERANCE_MM, Batch, Margins, Rule, WholeRule, no_margins
from mastlayout.frozen import dataclass
from mastlayout.geometry.clew.clews import SHEETS, Clews, clear_of, clews_of, foot_mm
from mastlayout.geometry.frames import Array, Mask, Whole, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import joined
from mastlayout.geometry.tack.cloth import State, missing
from mastlayout.limits import Limits
from mastlayout.model.measure import Measure, measure_of
from mastlayout.model.sails import Sail
from mastlayout.words import _

_TACKS = ("headsail", "staysail")
# What is bolted on for itself and breaks or tears off; all else in a sheet's way is there for ropes.
TEARS = ("radar", "reflector", "light", "antenna", "wind", "sound", "camera")
# What has the boom and the foot of the main about it: a clew comes past there, and nobody minds.
_BEHIND = ("boom",)
_OUT = np.array([0.0, 0.0, 1.0])
# Quiet to loud: each grade's code and standing.
GRADES: Grades = (
    ("", "note"),
    ("clew/knocks", "note"),
    ("clew/strikes", "caution"),
    ("clew/hooks", "caution"),
    ("clew/tears", "fault"),
)
_CLEAR, _KNOCKS, _STRIKES, _HOOKS, _TEARS_OFF = range(len(GRADES))
# In which state it is worst, beside the sail's own: its clew, or one of its sheets.
_WAYS = 1 + 2 * len(SHEETS)


@dataclass(frozen=True, eq=False)
class ClewMargins(GradedMargins):
    """Margins against each state of clew.

    ``way`` (n, s) tells what comes deepest: 0 the clew, 1 and 2 the taut sheets, 3 and 4 the slack ones.
    """

    way: Whole = None  # type: ignore[assignment]  # always given; a base class has defaults before it


def of_scene(scene: Scene, limits: Limits) -> Clews:
    """Return the clews of a scene's headsails, under its limits."""
    hardware, rise = limits["clew.hardware"].value, limits["clew.rise"].value
    return clews_of(scene.tack.cloths, hardware, rise, scene.skin.mast.rake_deg or 0.0)


def margins(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings at their places against the clews and sheets of every headsail."""
    clews = of_scene(scene, limits)
    bodies = [batch for batch in batches if batch.each and len(clews)]
    if not bodies:
        return [no_margins(len(batch.places)) for batch in batches]
    clear = clear_of(clews, joined([batch.solids for batch in bodies]), limits["clew.slap"].value)
    every = np.concatenate([clear.clew[..., None], clear.taut, clear.slack], axis=2)
    return each(
        batches, lambda batch: batch.each > 0, lambda batch, rows: _of_one(clews, batch, every[rows], limits)
    )


def _of_one(clews: Clews, batch: Batch, clear: Array, limits: Limits) -> ClewMargins:
    clear = clear.reshape(len(batch.places), batch.each, len(clews), _WAYS)
    # A taut sheet that touches says more than the slack one, which always comes as far.
    way = np.where((clear < -TOLERANCE_MM).any(axis=3), (clear < -TOLERANCE_MM).argmax(axis=3), 0)
    least = np.take_along_axis(clear, way[..., None], axis=3)[..., 0]
    grade = np.where(least < -TOLERANCE_MM, _grades(batch, limits)[:, :, None], _CLEAR)
    place, part, state = loudest(grade, least)
    measured, loud = least[place, part, state], grade[place, part, state]
    point = np.full((*part.shape, 3), np.nan)
    point[..., 2] = _height(batch)[place, part].clip(clews.low_mm, clews.high_mm)
    return ClewMargins(
        tuple((state.sail.id,) for state in clews.states),
        np.where(loud > _CLEAR, measured, np.clip(measured, 0.0, limits["clew.slap"].value)),
        np.zeros(measured.shape),
        point,
        (None,) * len(clews),
        grade=loud,
        grades=GRADES,
        way=way[place, part, state],
        states=clews.states,
    )


def _height(batch: Batch) -> Array:
    return np.asarray(batch.solids.centre[:, 2].reshape(len(batch.places), batch.each))


def _grades(batch: Batch, limits: Limits) -> Whole:
    """Return the grade (n, each) of each solid where clew or sheets come to it."""
    body, group = batch.placed.body, batch.placed.kind.group
    on_skin = batch.placed.skin is not None
    proud = body.solids.support(_OUT) + batch.places.stand_off_mm[:, None]
    stands: Mask = np.asarray(proud >= limits["tack.proud"].value) | (not on_skin)
    mouth = np.array([part == "mouth" and group == "sound" for part in body.parts], dtype=bool)
    hooks = np.array(body.snags, dtype=bool) | mouth
    lens = np.array([part in ("lens", "antenna") for part in body.parts], dtype=bool)
    guarded = "guard" in body.parts
    strikes = (lens | (group in TEARS)) & (not guarded)
    grade = np.where(stands & (group not in _BEHIND), _KNOCKS, _CLEAR)
    grade = np.where(strikes & (stands | lens), _STRIKES, grade)
    return np.where(hooks, _TEARS_OFF if group in TEARS else _HOOKS, grade)


def judge(placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
    """Say the worst state of clew and sheets for a fitting, by name; what is clear says nothing."""
    if not isinstance(found, ClewMargins):
        return []
    return judged(
        placed, found, "clew.rise", lambda state: in_words(found.states[state], int(found.way[0, state]))
    )


def in_words(state: State, way: int) -> str:
    """Call a state of clew and sheets by name: "one reef, clew", "full, slack port sheet"."""
    ways = (
        _("clew"), _("taut port sheet"), _("taut starboard sheet"),
        _("slack port sheet"), _("slack starboard sheet"),
    )  # fmt: skip
    return _(", ").join((state.reef.name if state.reef else _("full"), ways[way]))


def known(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name what is missing for the clews and sheets of each headsail, and a foot that fits no sail."""
    flies = {state.sail.id: (state, cos) for state, cos in _full(scene)}
    for sail in scene.layout.sails:
        if sail.role not in _TACKS:
            continue
        for measure in _lacking(sail):
            yield Finding("clew/known", "not checked", (sail.id,), measure=measure.key)
        stay = scene.stays.get(sail.stay or "")
        if stay is not None and stay.points is None:
            for measure in stay.unknown:
                yield Finding("clew/known", "not checked", (stay.item.id, sail.id), measure=measure.key)
        if sail.id in flies and sail.foot_mm is not None:
            yield from _unlike(scene, sail, *flies[sail.id], limits["sail.stay"].value)


def _lacking(sail: Sail) -> Iterator[Measure]:
    yield from missing(sail)
    if sail.sheet_lead is None:
        yield measure_of(Sail, "sheet_lead")


def _full(scene: Scene) -> Iterator[tuple[State, float]]:
    cloths = scene.tack.cloths
    for i, state in enumerate(cloths.states):
        if state.reef is None and not state.hoisting:
            yield state, float(cloths.luffs.cosine[cloths.luff[i]])


def _unlike(scene: Scene, sail: Sail, state: State, cosine: float, allowed_mm: float) -> Iterator[Finding]:
    """A foot that is not as long as its own corners say: one of them was measured wrong."""
    length = scene.skin.length_mm
    rise = height_mm(length, sail.clew_mm or 0.0) - height_mm(length, sail.tack_mm or 0.0)
    bare = State(sail.but(foot_mm=None), None, hoisting=False, sagged=state.sagged)
    off = abs((sail.foot_mm or 0.0) - foot_mm(bare, rise, cosine))
    if off > allowed_mm:
        yield Finding("sail/foot", "caution", (sail.id,), off, allowed_mm, limit="sail.stay")


CLEW = Rule(
    "clew/hooks",
    "clew.rise",
    frozenset({"mast", "stays", "fittings", "sails", "boat", "limits"}),
    many=margins,
    judge=judge,
)
KNOWN = WholeRule("clew/known", frozenset({"mast", "stays", "sails", "limits"}), known)

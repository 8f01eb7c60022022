"""Running lines against fittings: what a taut one chafes on, and what a slack one can hook on.

Where they lead and how far they reach is geometry's (``geometry/running``). What lines are led to by
hand, winch, cleat or exit, is there to be caught by them: of that only a taut line is asked. That the
mast stands between is not credited: it takes a slack line a few millimetres more to blow round it.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from mastlayout.checks.clearance import held
from mastlayout.checks.finding import Finding
from mastlayout.checks.graded import GradedMargins, Grades
from mastlayout.checks.rule import TOLERANCE_MM, Batch, Margins, Rule, WholeRule, no_margins
from mastlayout.frozen import dataclass
from mastlayout.geometry.crowd import Herd, Nearest, nearest
from mastlayout.geometry.frames import Array, Mask, Whole
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.running.led import Way
from mastlayout.geometry.running.reach import needed_by
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import joined
from mastlayout.limits import Limits
from mastlayout.model.measure import Measure, measure_of
from mastlayout.model.rig import Stay
from mastlayout.model.sails import Halyard
from mastlayout.words import _

# What is bolted on for itself and breaks or tears off.
_TEARS = ("radar", "reflector", "light", "antenna", "wind", "sound", "camera")
# What a bight gets behind though no edge of it is sharp.
_CATCHES = ("arm", "antenna")
# A line that ends as near a fitting as this is made fast to it.
MADE_FAST_MM = 150.0
BY_HAND = ("tied off", "stowed", "let go")
# Quiet to loud: each grade's code and standing.
GRADES: Grades = (
    ("", "note"),
    ("line/near", "note"),
    ("line/rubs", "note"),
    ("line/hooks", "caution"),
    ("line/chafes", "caution"),
    ("line/bears", "fault"),
)
_CLEAR, _NEAR, _RUBS, _HOOKS, _CHAFES, _BEARS = range(len(GRADES))


@dataclass(frozen=True, eq=False)
class LineMargins(GradedMargins):
    """Margins against each way of each line."""

    ways: tuple[Way, ...] = ()


def margins(scene: Scene, batches: Sequence[Batch], limits: Limits) -> list[Margins]:
    """Measure fittings at their places against every line, taut and slack."""
    running = scene.running
    if not batches or not running.ways:
        return [no_margins(len(batch.places)) for batch in batches]
    skip = np.concatenate([_met(scene, batch) for batch in batches])
    led_to = np.concatenate(
        [np.full(len(batch.places), batch.placed.id in running.passed) for batch in batches]
    )
    wanted = limits["line.clear"].value
    herd = Herd(
        joined([batch.solids for batch in batches]), _counts(batches, [batch.each for batch in batches])
    )
    taut = nearest(herd, running.taut, wanted, skip)
    slack = _slack(scene, batches, skip | led_to[:, None])
    ends = np.cumsum([len(batch.places) for batch in batches])
    return [
        _of_one(scene, batch, taut, slack, slice(end - len(batch.places), end), wanted)
        for batch, end in zip(batches, ends.tolist(), strict=True)
    ]


@dataclass(frozen=True, eq=False)
class _Slack:
    """For n places and s ways: how much slack a line needs to hook there, what it has, where (n, s, 3)."""

    needed: Array
    given: Array
    point: Array


def _counts(batches: Sequence[Batch], each: Sequence[int]) -> Whole:
    return np.repeat(each, [len(batch.places) for batch in batches])


def _slack(scene: Scene, batches: Sequence[Batch], skip: Mask) -> _Slack:
    """Return how much slack each way needs to hook on each place, of its legs the one that needs least."""
    running, shape = scene.running, skip.shape
    kept = [np.flatnonzero(_hooks(batch.placed)) for batch in batches]
    rows = [
        (np.arange(len(batch.places))[:, None] * batch.each + own).ravel()
        for batch, own in zip(batches, kept, strict=True)
    ]
    solids = joined([batch.solids[own] for batch, own in zip(batches, rows, strict=True)])
    place = np.repeat(np.arange(len(skip)), _counts(batches, [len(own) for own in kept]))
    needed, where = needed_by(running.slack, solids)
    own, leg = np.nonzero(needed < running.slack.slack_mm - TOLERANCE_MM)
    # The one that needs least is written last, and stays.
    order = np.argsort(-needed[own, leg], kind="stable")
    own, leg = own[order], leg[order]
    found = _Slack(np.full(shape, np.inf), np.zeros(shape), np.full((*shape, 3), np.nan))
    at = place[own], running.taut.owner[leg]
    found.needed[at], found.given[at] = needed[own, leg], running.slack.slack_mm[leg]
    found.point[at] = where[own, leg]
    found.needed[skip] = np.inf
    return found


def _met(scene: Scene, batch: Batch) -> Mask:
    """Tell of each way, for each place, whether the fitting is meant to meet it: (n, s)."""
    pins = {way.line: way.ends[0, :1] for way in scene.running.ways if way.line in scene.stays}
    own = held(batch, pins)
    name, host = batch.placed.id, batch.placed.fitting.on
    guests = scene.guests.get(name, frozenset())
    met = [way.line in own or not way.own.isdisjoint({name, host, *guests}) for way in scene.running.ways]
    ends = np.array([way.ends[-1, 1] for way in scene.running.ways])
    apart = np.linalg.norm(batch.seats.origin[:, None] - ends, axis=2)
    return np.asarray(np.array(met, dtype=bool) | (apart < MADE_FAST_MM))


def _hooks(placed: Placed) -> Mask:
    """Tell of each solid of a fitting whether a slack line can hook on it."""
    body, group = placed.body, placed.kind.group
    mouth = np.array([part == "mouth" and group == "sound" for part in body.parts], dtype=bool)
    catches = np.array([part in _CATCHES for part in body.parts], dtype=bool)
    return np.asarray(np.array(body.snags, dtype=bool) | mouth | catches)


def _of_one(
    scene: Scene, batch: Batch, taut: Nearest, slack: _Slack, rows: slice, wanted_mm: float
) -> LineMargins:
    group, ways = batch.placed.kind.group, scene.running.ways
    # A line may run close by what is smooth and holds fast.
    minds = group in _TEARS or bool(_hooks(batch.placed).any())
    touched = _RUBS if batch.placed.id in scene.running.passed else _CHAFES
    # What is tied off or stowed by hand can be made fast elsewhere: that tears nothing off.
    by_hand = np.array([way.doing in BY_HAND for way in ways], dtype=bool)
    touches = np.where((group in _TEARS) & ~by_hand, _BEARS, touched)
    gap, needed = taut.gap_mm[rows], slack.needed[rows]
    grade = np.where(np.isfinite(needed), _HOOKS, _CLEAR)
    grade = np.maximum(grade, np.where(minds & (gap < wanted_mm - TOLERANCE_MM), _NEAR, _CLEAR))
    grade = np.maximum(grade, np.where(gap < -TOLERANCE_MM, touches, _CLEAR))
    hooked = grade == _HOOKS
    return LineMargins(
        tuple((way.line,) for way in ways),
        np.where(hooked, needed, gap),
        np.where(hooked, slack.given[rows], wanted_mm),
        np.where(hooked[..., None], slack.point[rows], taut.point[rows]),
        (None,) * len(ways),
        grade=grade,
        grades=GRADES,
        ways=ways,
    )


def judge(placed: Placed, found: Margins, _limits: Limits) -> list[Finding]:
    """Say of each grade which line comes worst to a fitting, and in which state; what is clear says nothing.

    What a line touches taut it rubs on or chafes on, and it is not said that others come near it.
    """
    if not isinstance(found, LineMargins) or not found.ways:
        return []
    grade, measured = found.grade[0], found.measured[0]
    taut = max((int(one) for one in grade if one != _HOOKS), default=_CLEAR)
    said = [each for each in (taut, _HOOKS) if each and (grade == each).any()]
    return [_finding(placed, found, int(np.where(grade == each, measured, np.inf).argmin())) for each in said]


def _finding(placed: Placed, found: LineMargins, i: int) -> Finding:
    code, standing = found.grades[int(found.grade[0, i])]
    return Finding(
        code,
        standing,
        (placed.id, found.ways[i].line),
        float(found.measured[0, i]),
        float(found.required[0, i]),
        limit="line.slack" if code == "line/hooks" else "line.clear",
        z_mm=float(np.clip(found.point[0, i, 2], *placed.span_z_mm)),
        state=in_words(found.ways[i]),
    )


def in_words(way: Way) -> str:
    """Call the state of a line by name."""
    if way.reef:
        return way.reef
    return {
        "led": _("down to where it is made fast"),
        "hoisted": _("hoisted"),
        "reefed": _("reefed"),
        "going up": _("the sail going up or down"),
        "boom out to port": _("the boom out to port"),
        "boom out to starboard": _("the boom out to starboard"),
        "tied off": _("tied off"),
        "let go": _("let go"),
        "stowed": _("stowed"),
    }[way.doing]


def known(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Name what nobody measured of where lines lead."""
    fields: dict[str, Measure] = {
        "hoisted": measure_of(Halyard, "hoisted_at"),
        "tied off": measure_of(Halyard, "tied_at"),
        "stowed": measure_of(Stay, "stowed_at"),
    }
    for line, doing in scene.running.unmeasured:
        yield Finding("line/known", "not checked", (line,), measure=fields[doing].key)


LINES = Rule(
    "line/hooks",
    "line.clear",
    frozenset({"mast", "stays", "fittings", "lines", "limits"}),
    many=margins,
    judge=judge,
)
KNOWN = WholeRule("line/known", frozenset({"mast", "lines"}), known)

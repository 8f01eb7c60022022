"""The yacht's own radar: what stands before its antenna, what stands in its beam, what heel takes.

What covers a part of the antenna makes that arc dim; only what covers all of it makes it blind. That
the beam goes through a sail on one tack or the other is so on every yacht: one note, with its bearings.
"""

from collections.abc import Iterator

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.graded import Grades
from mastlayout.checks.rule import Batch, Depends, Margins, Rule, WholeRule, no_margins
from mastlayout.checks.shadow import Judge, Told, by_thing
from mastlayout.geometry.arcs import overlap_deg
from mastlayout.geometry.frames import Array
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import BEAM
from mastlayout.model.measure import measure_of
from mastlayout.ranges.hidden import Cast, cast, middles, reached
from mastlayout.ranges.own_radar import heel_of, holders, is_radar, sails_met
from mastlayout.ranges.reflector import body_parts
from mastlayout.ranges.ring_words import sail_seen
from mastlayout.ranges.sails_before import not_known, widest_of_each
from mastlayout.words import _

SHADOW: Grades = (
    ("", "note"),
    ("radar/dimmed", "note"),
    ("radar/hidden", "caution"),
    ("radar/ahead", "caution"),
)
IN_BEAM: Grades = (("", "note"), ("radar/lit", "note"), ("radar/receiver", "caution"))
# What a radar's beam may deafen or burn out; what else has electronics is told as a note.
_RECEIVERS = frozenset({"antenna"})
_ELECTRONIC = frozenset({"antenna", "light", "camera", "wind", "sound"})
_TOLERANCE_DEG = 0.05


def shadow(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure, in degrees, what each thing takes of a radar's horizon at its places."""
    if not is_radar(batch.placed):
        return no_margins(len(batch.places))
    parts = body_parts(batch.placed)
    dims, apart = limits["radar.dim"].value / 100.0, holders(batch.placed)
    seen = cast(scene, batch.placed, batch.solids, parts, dims, 0.0, apart)
    found, ahead, limit = seen.found, limits["radar.ahead"].value, limits["radar.hidden"].value
    dark = np.nan_to_num(found.dark[:, 1] - found.dark[:, 0])
    before = _ahead(found.edge, ahead)
    grade = np.select(
        [before > limit + _TOLERANCE_DEG, dark > limit + _TOLERANCE_DEG, found.share > 0.0], [3, 2, 1], 0
    )
    wide = np.where(grade == 2, dark, found.edge[:, 1] - found.edge[:, 0])
    arc = np.where((grade == 2)[:, None], found.dark, found.edge)
    own = Told(seen, grade.astype(np.intp), wide, arc, limit, "radar.hidden")
    return by_thing(batch.seats.origin, [own], SHADOW)


def _ahead(arcs: Array, round_deg: float) -> Array:
    """Return how much of arcs lies within so far round from ahead, either side."""
    return overlap_deg(arcs, -round_deg % 360.0, round_deg) if round_deg else np.zeros(len(arcs))


def beam(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure, in mm, how near the antenna what is electronic stands in a radar's beam."""
    tall = batch.placed.fitting.beam_tall_deg
    if not is_radar(batch.placed) or tall is None:
        return no_margins(len(batch.places))
    parts, near = body_parts(batch.placed), limits["radar.near"].value
    wired = frozenset(one.id for one in scene.placed.values() if one.kind.group in _ELECTRONIC)
    apart = holders(batch.placed)
    seen = reached(scene, (batch.placed, batch.solids), parts, tall / 2, wired - apart)
    away = _away_mm(scene, batch, seen, parts)
    groups = [scene.placed[name].kind.group if name in scene.placed else "" for name in seen.ids]
    receives = np.array([group in _RECEIVERS for group in groups], dtype=bool)
    works = np.array([group in _ELECTRONIC for group in groups], dtype=bool)
    owner = seen.found.owner
    close = away < near
    grade = np.where(close & receives[owner], 2, np.where(close & works[owner], 1, 0))
    own = Told(seen, grade.astype(np.intp), away, seen.found.edge, near, "radar.near")
    return by_thing(batch.seats.origin, [own], IN_BEAM)


def _away_mm(scene: Scene, batch: Batch, seen: Cast, parts: list[int]) -> Array:
    """Return how far (q,) the middle of each thing is from the antenna's; inf where it is no fitting."""
    middle = middles(batch.placed, batch.solids, parts)
    things = np.full((len(seen.ids), 3), np.inf)
    for i in sorted(set(seen.found.owner.tolist())):
        if seen.ids[i] in scene.placed:
            things[i] = scene.placed[seen.ids[i]].solids.centre.mean(axis=0)
    off = things[seen.found.owner] - middle[seen.found.place]
    return np.asarray(np.sqrt((off * off).sum(axis=1)))


_BY_ARC, _BY_DISTANCE = Judge("deg", _("the antenna")), Judge("mm", _("the antenna"))
_DEPENDS: frozenset[Depends] = frozenset({"mast", "stays", "spreaders", "fittings", "limits"})
SHADOWS = Rule("radar/dimmed", "radar.hidden", _DEPENDS, shadow, pairs=True, unit="deg", judge=_BY_ARC)
BEAMS = Rule("radar/lit", "radar.near", _DEPENDS, beam, pairs=True, judge=_BY_DISTANCE)


def heel(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Hold the heel of sailing to half the beam: past it the sea to windward is not seen at all."""
    for placed in scene.placed.values():
        if not is_radar(placed):
            continue
        tall, heeled = placed.fitting.beam_tall_deg, heel_of(scene)
        if tall is None or heeled.value is None:
            key = BEAM.key if tall is None else measure_of(Boat, "sailing_heel_deg").key
            for code in ("radar/heel", "radar/lit") if tall is None else ("radar/heel",):
                yield Finding(code, "not checked", (placed.id,), measure=key, z_mm=placed.z_mm)
        elif heeled.value > tall / 2 - _TOLERANCE_DEG:
            yield Finding(
                "radar/heel", "note", (placed.id,), heeled.value, tall / 2, "deg", None, None, placed.z_mm
            )


def sails(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Say of each radar which sails its beam goes through, each in the state that stands widest."""
    for placed in scene.placed.values():
        if not is_radar(placed):
            continue
        if placed.fitting.beam_tall_deg is None:
            yield Finding("radar/sails", "not checked", (placed.id,), measure=BEAM.key, z_mm=placed.z_mm)
            continue
        for sail, measure in not_known(scene):
            yield Finding("radar/sails", "not checked", (sail.id, placed.id), measure=measure.key)
        each = widest_of_each(sails_met(scene, placed))
        if each:
            who = (placed.id, *(one.state.sail.id for one in each))
            words = _("; ").join(
                _("{sail}: {seen}").format(sail=one.state.sail.name, seen=sail_seen(one)) for one in each
            )
            yield Finding("radar/sails", "note", who, z_mm=placed.z_mm, state=words)


_OF_SAILS: frozenset[Depends] = frozenset(
    {"mast", "stays", "spreaders", "fittings", "sails", "boat", "limits"}
)
SAILS = WholeRule("radar/sails", _OF_SAILS, sails)
RULES = (WholeRule("radar/heel", frozenset({"fittings", "boat", "limits"}), heel), SAILS)

"""Cut-outs: one under another, one facing another, holes beside them, their corners, and where water leaves.

New ones are asked against all; of what is there already only exits of lines against each other,
since T-slots of tangs and masthead boxes stand as the maker of the mast placed them.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Literal

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.holes import Block, assembled, cut_out, diameters, hole_ids, will_be_drilled
from mastlayout.checks.neighbours import others_near, round_skin
from mastlayout.checks.openings import Windows, exits, windows, windows_of
from mastlayout.checks.rule import Batch, Depends, Margins, Rule, WholeRule, findings, no_margins
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.limits import Limits
from mastlayout.model.fitting import MAST
from mastlayout.model.kind import Cutout
from mastlayout.model.measure import measure_of


def spacing(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure cut-outs on one side along the mast, middle to middle."""
    return _pairs(scene, batch, limits["hole.cutouts"].value, "side")


def facing(scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Measure, along the mast, what lies between a cut-out and one on another side."""
    return _pairs(scene, batch, 0.0, "ring")


def _pairs(scene: Scene, batch: Batch, required: float, what: Literal["side", "ring"]) -> Margins:
    """Return margins against each other fitting with cut-outs: (n, fittings), inf where nothing is asked.

    On one side are two that lie within a quarter of the girth of each other.
    """
    placed, places = batch.placed, len(batch.places)
    own = windows(placed.id, batch.holes, batch.places.turn_deg) if placed.fitting.new else windows_of(placed)
    if placed.skin is None or own is None:
        return no_margins(places)
    half = placed.skin.half_girth(own.z_mm)[:, :, None]
    names, apart = [], []
    for other in _asked_against(scene, placed):
        found = windows_of(other)
        if found is None:
            continue
        between = np.abs(own.z_mm[:, :, None] - found.z_mm[:, None])
        round_mm = np.abs(round_skin(own.girth_mm[:, :, None] - found.girth_mm[:, None], half))
        near = round_mm < half / 2
        if what == "ring":
            between = between - _half_along(own)[:, :, None] - _half_along(found)[:, None]
        asked = near if what == "side" else ~near
        names.append((placed.id, other.id))
        apart.append(np.where(asked, between, np.inf).min(axis=(1, 2)))
    if not names:
        return no_margins(places)
    point = np.broadcast_to(batch.seats.origin[:, None], (places, len(names), 3))
    measured = np.stack(apart, axis=1)
    return Margins(
        tuple(names),
        measured,
        np.full(measured.shape, required),
        point,
        (None,) * len(names),
        typical=placed.fitting.new and not placed.foot_known,
    )


def _half_along(found: Windows) -> Array:
    """Return half the length along the mast (n, k)."""
    turn = np.radians(found.turn_deg)[:, None]
    return np.asarray(
        found.half_length_mm * np.abs(np.cos(turn)) + found.half_width_mm * np.abs(np.sin(turn))
    )


def _asked_against(scene: Scene, placed: Placed) -> list[Placed]:
    """Return what a fitting's cut-outs are held against; an old one leaves it to a new one to ask."""
    others = [other for other in scene.placed.values() if other.id != placed.id and other.skin is not None]
    if placed.fitting.new:
        return others
    leaving = exits(scene)
    if placed.id not in leaving:
        return []
    return [other for other in others if other.id in leaving and not other.fitting.new]


def _judging(rule: Rule) -> Callable[[Placed, Margins, Limits], list[Finding]]:
    """Return what says a rule's findings; what is cut already is a caution: somebody should look at it."""

    def judged(placed: Placed, margins: Margins, limits: Limits) -> list[Finding]:
        """Say what is short, of what stands already no louder than a caution."""
        found = findings(rule, placed, margins, limits)
        if placed.fitting.new:
            return found
        return [replace(one, standing="caution") if one.standing == "fault" else one for one in found]

    return judged


def beside(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure each hole's middle to the edges of cut-outs: its own foot's, and those known of others.

    A hole of others that a new cut-out takes away whole is no hole any more.
    """
    placed, holes, skin = batch.placed, batch.holes, batch.placed.skin
    if not will_be_drilled(placed) or holes is None or skin is None:
        return no_margins(len(batch.places))
    wanted = limits["hole.edge"].value
    own = windows(placed.id, holes, batch.places.turn_deg)
    blocks = [
        _to_windows(batch, found, skin, wanted)
        for found in (own, *_known_windows(scene, placed, batch))
        if found is not None
    ]
    if own is not None:
        blocks.append(_others_to_own(scene, batch, own, skin, wanted))
    return assembled(blocks, batch)


def _known_windows(scene: Scene, placed: Placed, batch: Batch) -> Iterator[Windows | None]:
    low, high = float(batch.places.along_mm.min()), float(batch.places.along_mm.max())
    reach = _BESIDE_MM + max(placed.foot.along_mm if placed.foot else 0.0, 0.0)
    for other in scene.placed.values():
        near = other.span_z_mm[0] < high + reach and other.span_z_mm[1] > low - reach
        if near and other.id != placed.id and other.holes is not None and other.foot_known:
            yield windows_of(other)


def _to_windows(batch: Batch, found: Windows, skin: Skin, wanted: float) -> Block | None:
    holes, own = batch.holes, diameters(batch)
    asked = [] if holes is None else np.flatnonzero(~cut_out(holes) & ~np.isnan(own)).tolist()
    if holes is None or not asked:
        return None
    apart = found.from_edge(holes.girth_mm[:, asked], holes.z_mm[:, asked], skin)
    ids, k = hole_ids(batch), len(found.ids)
    return Block(
        tuple((ids[i], window) for i in asked for window in found.ids),
        apart.reshape(len(apart), len(asked) * k),
        np.repeat(wanted * own[asked], k),
        np.repeat(asked, k),
        (None,) * (len(asked) * k),
    )


def _others_to_own(scene: Scene, batch: Batch, own: Windows, skin: Skin, wanted: float) -> Block | None:
    others = others_near(scene, batch.placed, batch)
    holes, m, k = batch.holes, len(others.ids), len(own.ids)
    if holes is None or not m:
        return None
    places = len(batch.places)
    girth, z = (np.broadcast_to(a, (places, m)) for a in (others.girth_mm, others.z_mm))
    apart = own.from_edge(girth, z, skin)
    size = np.nan_to_num(others.diameter_mm)
    apart = np.where(apart <= -size[:, None] / 2, np.inf, apart)
    return Block(
        tuple((window, other) for other in others.ids for window in own.ids),
        apart.reshape(places, m * k),
        np.repeat(wanted * size, k),
        np.tile(np.flatnonzero(cut_out(holes)), m),
        tuple(measure for measure in others.unknown for _window in own.ids),
    )


def corners(_scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Compare each cut-out's corner radius with what is wanted, never more than a round end."""
    placed, foot, places = batch.placed, batch.placed.foot, len(batch.places)
    if foot is None or placed.skin is None or placed.kind.welded:
        return no_margins(places)
    first = len(foot.holes) + (foot.entry is not None) + 1
    # Of what is cut already nobody asks the corners; a radius that was written down is judged.
    asked = [
        (i, cut)
        for i, cut in enumerate(foot.cutouts)
        if placed.fitting.new or cut.corner_radius_mm is not None
    ]
    if not asked:
        return no_margins(places)
    radii = [np.nan if cut.corner_radius_mm is None else cut.corner_radius_mm for _i, cut in asked]
    wanted = [corner_wanted_mm(cut, limits) for _i, cut in asked]
    missing = measure_of(Cutout, "corner_radius_mm")
    shape = (places, len(asked))
    return Margins(
        tuple((f"{placed.id}/h{first + i}",) for i, _cut in asked),
        np.broadcast_to(np.array(radii), shape),
        np.broadcast_to(np.array(wanted), shape),
        np.broadcast_to(batch.seats.origin[:, None], (*shape, 3)),
        tuple(missing if np.isnan(radius) else None for radius in radii),
        typical=placed.fitting.new and not placed.foot_known,
    )


def corner_wanted_mm(cut: Cutout, limits: Limits) -> float:
    """Return the radius a cut-out's corners want: the larger of two limits, at most half its smaller side."""
    share = limits["hole.corner_share"].value / 100.0
    narrow = min(cut.width_mm, cut.length_mm)
    return min(max(limits["hole.corner"].value, share * cut.width_mm), narrow / 2)


def drains(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Say of each new cut-out of a mast that stands on deck whether water finds a way out below it.

    A mast on the keel is open at its heel; of old holes, one that is a drain says so.
    """
    layout = scene.layout
    if layout.mast.step == "keel" or "holes" not in layout.model_fields_set:
        return
    out = [
        height_mm(scene.skin.length_mm, hole.from_masthead_mm)
        for hole in layout.holes
        if hole.state == "drain"
    ]
    for placed in scene.placed.values():
        own = windows_of(placed) if will_be_drilled(placed) else None
        if own is not None and min(out, default=np.inf) > float(own.z_mm.min()):
            yield Finding("hole/drain", "caution", (placed.id, MAST), z_mm=float(own.z_mm.min()))


# A hole farther from a cut-out than this is not near it.
_BESIDE_MM = 150.0
_DEPENDS: frozenset[Depends] = frozenset({"mast", "holes", "fittings", "limits"})
_SPACING = Rule("hole/cutouts", "hole.cutouts", _DEPENDS | {"sails"}, spacing, pairs=True, fault_below=np.inf)
_FACING = Rule(
    "hole/facing", None, _DEPENDS | {"sails"}, facing, pairs=True, fault_below=np.inf, reach_mm=400.0
)
_CORNERS = Rule("hole/corner", "hole.corner", _DEPENDS, corners, fault_below=np.inf)
SPACING, FACING, CORNERS = (replace(rule, judge=_judging(rule)) for rule in (_SPACING, _FACING, _CORNERS))
BESIDE = Rule("hole/cutout-edge", "hole.edge", _DEPENDS, beside, pairs=True, fault_below=np.inf, hint="edge")
DRAINS = WholeRule("hole/drain", frozenset({"mast", "holes", "fittings"}), drains)

"""A pole against the rig and itself: what nobody measured, stays it comes to, its ring, its stowage."""

from collections.abc import Iterator, Sequence

import numpy as np

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.pole import in_words, of_scene
from mastlayout.checks.rule import TOLERANCE_MM, Depends, WholeRule
from mastlayout.geometry.crowd import Crowd, Herd, nearest
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.pole.past_stays import Met, met
from mastlayout.geometry.pole.poles import PoleInSpace
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.boat import Boat
from mastlayout.model.measure import measure_of

# Ahead of the mast, from the stem aft: what a pole ends against, and what stands in its way.
_AT_STEM = ("forestay", "luff")
_IN_THE_WAY = ("inner", "jumper")
_ABAFT = ("backstay", "runner")
# What is said of a stay in the way, by whether it can be taken off.
_CROSSED: dict[bool, tuple[str, Standing]] = {
    False: ("pole/inner", "caution"),
    True: ("pole/taken-off", "note"),
}
_TOUCHING: Standing = "caution"
_NEAR: Standing = "note"
# Shrouds met within this much of the first, radians, are met together: one on either side.
_TOGETHER = np.radians(0.5)
# A ring stands on the centreline that the pole is asked from.
_OFF_CENTRE_MM = 15.0


def known(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name each measure of a pole that is missing: where it swings or lies nobody can say."""
    for pole in of_scene(scene, limits):
        for measure in pole.unknown:
            yield Finding("pole/known", "not checked", (pole.item.id,), measure=measure.key)


def past_stays(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name the stays a set pole comes to: those ahead that it reaches past, the shroud it lies on first."""
    for pole in of_scene(scene, limits):
        beside = []
        for stay in scene.stays.values():
            found = met(pole, stay)
            if found is None or stay.item.role in _ABAFT:
                continue
            who = (pole.item.id, stay.item.id)
            if stay.item.role in _AT_STEM:
                yield Finding("pole/forestay", "note", who, -found.beyond_mm, 0.0, z_mm=found.z_mm)
            elif stay.item.role in _IN_THE_WAY:
                code, standing = _CROSSED[stay.item.removable]
                yield Finding(code, standing, who, -found.beyond_mm, 0.0, z_mm=found.z_mm)
            else:
                beside.append((stay.item.id, found))
        yield from _on_shrouds(pole, beside, limits)


def _on_shrouds(pole: PoleInSpace, beside: Sequence[tuple[str, Met]], limits: Limits) -> Iterator[Finding]:
    """Say from where on a squared pole lies on a shroud; a caution where that is too soon to be of use."""
    first = min((found.bearing for _name, found in beside), default=np.inf)
    those = [(name, found) for name, found in beside if found.bearing <= first + _TOGETHER]
    if not those:
        return
    off, wanted = float(np.degrees(first)), limits["pole.square"].value
    yield Finding(
        "pole/shroud",
        "caution" if off < wanted else "note",
        (pole.item.id, *(name for name, _found in those)),
        off,
        max(wanted, float(np.degrees(pole.squared))),
        "deg",
        "pole.square",
        z_mm=those[0][1].z_mm,
    )


def rings(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Compare the run of each pole's ring with the rings and tracks on the mast, and with the deck."""
    gear = [
        placed.span_z_mm
        for placed in scene.placed.values()
        if placed.kind.group == "pole" and placed.skin is not None and _on_centreline(scene, placed.id)
    ]
    deck = scene.layout.boat.deck_above_heel_mm
    for pole in of_scene(scene, limits):
        item, length = pole.item, scene.skin.length_mm
        low, high = sorted(height_mm(length, reading) for reading in (item.ring_from_mm, item.ring_to_mm))
        allowed = limits["pole.ring"].value
        if not gear:
            yield Finding("pole/no-ring", "not checked", (item.id,), z_mm=high)
        else:
            off, end = max((_beyond(gear, end), end) for end in (high, low))
            if off > allowed:
                yield Finding("pole/ring", "caution", (item.id,), off, allowed, limit="pole.ring", z_mm=end)
        if deck is not None and low - deck > item.length_mm:
            yield Finding("pole/reach", "caution", (item.id,), low - deck, item.length_mm, z_mm=low)


def _beyond(gear: Sequence[tuple[float, float]], z_mm: float) -> float:
    """Return how far a height is beyond the nearest of some stretches."""
    return min(max(bottom - z_mm, z_mm - top) for bottom, top in gear)


def _on_centreline(scene: Scene, name: str) -> bool:
    origin = scene.placed[name].seats.origin[0]
    return bool(origin[0] > 0 and abs(origin[1]) < _OFF_CENTRE_MM)


def stowed(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name what a stowed pole does not fit between, and the stays and spreaders it lies against."""
    for pole in of_scene(scene, limits):
        yield from _fits(scene, pole, limits)
        if len(pole.lying):
            for crowd in (scene.wires, scene.bars):
                yield from _against(pole, crowd, limits["pole.near"].value)


def _fits(scene: Scene, pole: PoleInSpace, limits: Limits) -> Iterator[Finding]:
    item, deck = pole.item, scene.layout.boat.deck_above_heel_mm
    if item.stowed_on in ("mast", "track"):
        if deck is None:
            missing = measure_of(Boat, "deck_above_heel_mm").key
            yield Finding("pole/long", "not checked", (item.id,), measure=missing)
        elif pole.stowed is not None and pole.stowed[1, 2] < deck - TOLERANCE_MM:
            top, bottom = (float(z) for z in pole.stowed[:, 2])
            yield Finding("pole/long", "caution", (item.id,), top - deck, top - bottom, z_mm=top)
    elif pole.stowed is not None:
        off = abs(float(np.linalg.norm(pole.stowed[1] - pole.stowed[0])) - item.length_mm)
        if off > limits["pole.ring"].value:
            yield Finding(
                "pole/chocks", "caution", (item.id,), off, limits["pole.ring"].value, limit="pole.ring"
            )


def _against(pole: PoleInSpace, crowd: Crowd, near_mm: float) -> Iterator[Finding]:
    herd = Herd(pole.lying, np.array([1]))
    found = nearest(herd, crowd, near_mm, np.zeros((1, len(crowd.ids)), dtype=bool))
    for at in np.flatnonzero(found.gap_mm[0] < near_mm - TOLERANCE_MM).tolist():
        apart, z = float(found.gap_mm[0, at]), float(found.point[0, at, 2])
        who, standing = (pole.item.id, crowd.ids[at]), _TOUCHING if apart < -TOLERANCE_MM else _NEAR
        yield Finding(
            "pole/lies-on", standing, who, apart, near_mm, limit="pole.near", z_mm=z, state=in_words(pole)[2]
        )


_RIG: frozenset[Depends] = frozenset({"mast", "boat", "stays", "spreaders", "sails", "limits"})
RULES = (
    WholeRule("pole/known", frozenset({"mast", "sails", "limits"}), known),
    WholeRule("pole/past-stays", _RIG, past_stays),
    WholeRule("pole/rings", frozenset({"mast", "boat", "fittings", "sails", "limits"}), rings),
    WholeRule("pole/stowed", _RIG, stowed),
)

"""Holes in the parts of the mast that carry most: none there without the rigger's word.

A zone reaches one depth of the section beyond partners, gooseneck, vang, spreader roots, hounds or
a weld. Its word is given by accepting the finding with a remark.
"""

from collections.abc import Iterator

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.holes import will_be_drilled
from mastlayout.checks.neighbours import round_skin
from mastlayout.checks.openings import openings_of
from mastlayout.checks.rule import TOLERANCE_MM, Batch, Depends, Margins, Rule, no_margins
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.holes import Drilled
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.limits import Limits
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import MAST
from mastlayout.model.mast import Mast
from mastlayout.model.measure import Measure, measure_of

# Only so far up from the heel are partners and gooseneck asked for where nobody measured them.
_LOW_PART = 0.25
# Two roots or tangs of a pair stand level within this.
_LEVEL_MM = 60.0


@dataclass(frozen=True)
class Zone:
    """A loaded part of the mast between two heights; with a girth it lies there, else all round.

    ``subjects`` name it in findings, ``code`` says what it is.
    """

    code: str
    subjects: tuple[str, ...]
    low_mm: float
    high_mm: float
    girth_mm: float | None = None
    half_width_mm: float = 0.0
    unknown: Measure | None = None


@dataclass(frozen=True, eq=False)
class ZoneMargins(Margins):
    """Margins against zones; ``codes`` (s) say what each is."""

    codes: tuple[str, ...] = ()


def zones(scene: Scene) -> tuple[Zone, ...]:
    """Return every zone of a layout, those of a pair as one."""
    found = [*_stretches(scene), *_boom(scene), *_partners(scene), *_roots(scene), *_hounds(scene)]
    return tuple(_paired(found))


def _stretches(scene: Scene) -> Iterator[Zone]:
    length = scene.skin.length_mm
    for stretch in scene.layout.mast.stretches or ():
        if stretch.kind in ("partners", "weld"):
            low, high = (height_mm(length, stretch.to_mm), height_mm(length, stretch.from_masthead_mm))
            girth = None if stretch.girth is None else scene.skin.girth_of(stretch.girth, (low + high) / 2)
            yield Zone(f"hole/near-{stretch.kind}", (MAST,), low, high, girth)
    for placed in scene.placed.values():
        if placed.kind.welded and placed.skin is not None:
            yield _of_foot("hole/near-welded", placed)


def _of_foot(code: str, placed: Placed) -> Zone:
    foot = placed.foot
    half, wide = (foot.along_mm / 2, foot.across_mm / 2) if foot else (0.0, 0.0)
    girth = float(placed.places.around[0]) if code == "hole/near-welded" else None
    return Zone(code, (placed.id,), placed.z_mm - half, placed.z_mm + half, girth, wide)


def _boom(scene: Scene) -> Iterator[Zone]:
    """Yield gooseneck and vang: what the boom hangs on, and the pin where no fitting stands there."""
    fittings = [
        _of_foot("hole/near-boom", placed)
        for placed in scene.placed.values()
        if placed.kind.group == "boom" and placed.skin is not None
    ]
    yield from fittings
    pin, top = scene.layout.mast.gooseneck_mm, _LOW_PART * scene.skin.length_mm
    if pin is not None:
        z = height_mm(scene.skin.length_mm, pin)
        if not any(zone.low_mm - _LEVEL_MM <= z <= zone.high_mm + _LEVEL_MM for zone in fittings):
            yield Zone("hole/near-gooseneck", (MAST,), z, z)
    elif not fittings:
        yield Zone("hole/near-gooseneck", (MAST,), 0.0, top, unknown=measure_of(Mast, "gooseneck_mm"))


def _partners(scene: Scene) -> Iterator[Zone]:
    """Yield the partners by the deck's height, where no wedge zone was listed and she may be keel-stepped."""
    mast, deck = scene.layout.mast, scene.layout.boat.deck_above_heel_mm
    if mast.step == "deck" or any(stretch.kind == "partners" for stretch in mast.stretches or ()):
        return
    if deck is None:
        top = _LOW_PART * scene.skin.length_mm
        yield Zone("hole/near-partners", (MAST,), 0.0, top, unknown=measure_of(Boat, "deck_above_heel_mm"))
    elif deck > 0.0:
        yield Zone("hole/near-partners", (MAST,), deck, deck)


def _roots(scene: Scene) -> Iterator[Zone]:
    for name, bar in scene.spreaders.items():
        z = float(bar.root[2])
        yield Zone("hole/near-root", (name,), z, z)


def _hounds(scene: Scene) -> Iterator[Zone]:
    for name, stay in scene.stays.items():
        if stay.item.role in ("forestay", "cap"):
            z = height_mm(scene.skin.length_mm, stay.item.upper.from_masthead_mm)
            yield Zone("hole/near-hounds", (name,), z, z)


def _paired(found: list[Zone]) -> Iterator[Zone]:
    """Make one of zones of one code that lie level: port and starboard are one matter."""
    left = list(found)
    while left:
        first = left.pop(0)
        alike = [
            zone
            for zone in left
            if zone.code == first.code
            and zone.girth_mm is first.girth_mm is None
            and zone.unknown is first.unknown is None
            and abs(zone.low_mm - first.low_mm) < _LEVEL_MM
        ]
        left = [zone for zone in left if zone not in alike]
        every = (first, *alike)
        subjects = dict.fromkeys(subject for zone in every for subject in zone.subjects)
        yield Zone(
            first.code,
            tuple(subjects),
            min(zone.low_mm for zone in every),
            max(zone.high_mm for zone in every),
            first.girth_mm,
            first.half_width_mm,
            first.unknown,
        )


def near(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure a fitting's nearest hole to each zone: along the mast, or the skin where it has a girth."""
    placed, holes, skin = batch.placed, batch.holes, batch.placed.skin
    places = len(batch.places)
    if not will_be_drilled(placed) or holes is None or skin is None or not len(holes):
        return no_margins(places)
    found = [zone for zone in zones(scene) if placed.id not in zone.subjects]
    if not found:
        return no_margins(places)
    depth = float(np.ptp(skin.half[:, 0])) * limits["hole.zone"].value / 100.0
    apart = [_apart(zone, skin, holes, depth) for zone in found]
    said = [
        zone.unknown is not None or bool((one < depth).any()) for zone, one in zip(found, apart, strict=True)
    ]
    found = [zone for zone, own in zip(found, said, strict=True) if own]
    if not found:
        return no_margins(places)
    measured = np.stack([one for one, own in zip(apart, said, strict=True) if own], axis=1)
    return ZoneMargins(
        tuple((placed.id, *zone.subjects) for zone in found),
        measured,
        np.full(measured.shape, depth),
        np.broadcast_to(batch.seats.origin[:, None], (*measured.shape, 3)),
        tuple(zone.unknown for zone in found),
        not placed.foot_known,
        tuple(zone.code for zone in found),
    )


def _apart(zone: Zone, skin: Skin, holes: Drilled, depth_mm: float) -> Array:
    """Return how far the nearest hole is from a zone (n,), inf past its depth; nan in one nobody measured."""
    levels = holes.levels
    nearest = _along(zone, holes.z_mm[levels.rows]).min(axis=1)
    if zone.unknown is not None:
        return np.where(nearest > 0.0, np.inf, np.nan)[levels.which]
    nearest = np.where(nearest < depth_mm, nearest, np.inf)[levels.which]
    if zone.girth_mm is not None:
        rows = np.flatnonzero(nearest < depth_mm)
        z = holes.z_mm[rows]
        aside = np.abs(np.nan_to_num(round_skin(holes.girth_mm[rows] - zone.girth_mm, skin.half_girth(z))))
        off = np.hypot(_along(zone, z), np.maximum(aside - zone.half_width_mm, 0.0))
        nearest[rows] = off.min(axis=1)
    return nearest


def _along(zone: Zone, z_mm: Array) -> Array:
    """Return how far heights (any shape) are from a zone along the mast."""
    return np.maximum(np.maximum(zone.low_mm - z_mm, z_mm - zone.high_mm), 0.0)


def _judged(placed: Placed, margins: Margins, _limits: Limits) -> list[Finding]:
    """Say each zone that a hole stands in, by what it is: a caution, since the rigger's word is wanted."""
    if not isinstance(margins, ZoneMargins):
        return []
    holes = openings_of(placed)
    heights = np.array([placed.z_mm]) if holes is None else holes.z_mm[0]
    return [
        Finding(
            margins.codes[i],
            "not checked" if unknown else "caution",
            subjects[1:] if unknown else subjects,
            None if unknown else float(margins.measured[0, i]),
            None if unknown else float(margins.required[0, i]),
            limit="hole.zone",
            measure=unknown.key if unknown else None,
            z_mm=float(heights.mean()),
            typical=margins.typical and not unknown,
        )
        for i, (subjects, unknown) in enumerate(zip(margins.subjects, margins.unknown, strict=True))
        if (
            np.isnan(margins.measured[0, i])
            if unknown
            else margins.measured[0, i] < margins.required[0, i] - TOLERANCE_MM
        )
    ]


# Not a rule of pairs: a boom's fitting anywhere stands for the pin, and two that stand level are one zone.
_DEPENDS: frozenset[Depends] = frozenset({"mast", "boat", "spreaders", "stays", "loads", "limits"})
NEAR = Rule("hole/zone", None, _DEPENDS, near, judge=_judged)

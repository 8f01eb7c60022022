"""What new holes leave of the mast at their own levels, with all that is or will be open round it."""

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.holes import will_be_drilled
from mastlayout.checks.neighbours import old_holes
from mastlayout.checks.openings import Widths, joined, widths_of
from mastlayout.checks.rule import Batch, Depends, Margins, Rule, no_margins
from mastlayout.checks.taken import least_left, own_widths
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.wall import nearest_thickness_mm
from mastlayout.limits import Limits
from mastlayout.model.fitting import OldHole
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of
from mastlayout.once import once

CODES = ("hole/girth", "hole/modulus")
_LIMITS = ("hole.girth", "hole.modulus")


def left(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure what of the girth and of the smaller modulus is left at the worst of a fitting's levels, %."""
    holes, places = batch.holes, len(batch.places)
    if not will_be_drilled(batch.placed) or holes is None or not len(holes):
        return no_margins(places)
    required = np.array([100.0 - limits[limit].value for limit in _LIMITS])
    wall = nearest_thickness_mm(scene.layout.mast, height_mm(scene.skin.length_mm, batch.placed.z_mm))
    measured = np.full((places, 2), np.nan)
    if wall:
        others = others_of(scene, batch.placed.id)
        measured = least_left(scene, own_widths(batch), others, wall, float(required.max()))
    missing = None if wall else measure_of(Mast, "walls")
    subject = (batch.placed.id,)
    return Margins(
        (subject, subject),
        measured,
        np.broadcast_to(required, (places, 2)),
        np.broadcast_to(batch.seats.origin[:, None], (places, 2, 3)),
        (missing, missing),
        typical=not batch.placed.foot_known,
    )


def others_of(scene: Scene, name: str) -> Widths:
    """Return every opening of the layout but a fitting's own; of old holes those whose size is known."""
    names, every = _every_opening(scene)
    return every.kept(np.array([own != name for own in names], dtype=bool) & ~np.isnan(every.girth_mm))


@once
def _every_opening(scene: Scene) -> tuple[tuple[str, ...], Widths]:
    """Return whose each opening is, an old hole's nobody's, and the openings."""
    old = old_holes(scene)
    sized = ~np.isnan(old.diameter_mm)
    none = np.zeros(int(sized.sum()))
    parts = [("", Widths(old.z_mm[sized], old.girth_mm[sized], old.diameter_mm[sized], none))]
    parts += [(one.id, own) for one in scene.placed.values() if (own := widths_of(one)) is not None]
    names = tuple(own for own, part in parts for _hole in range(len(part.z_mm)))
    return names, joined([part for _own, part in parts])


def _judged(placed: Placed, margins: Margins, _limits: Limits) -> list[Finding]:
    """Say each share that is too small, by its own code: a caution, since only the rigger knows the loads."""
    if not margins.subjects:
        return []
    missing = margins.unknown[0]
    if missing is not None:
        return [Finding(CODES[1], "not checked", (placed.id,), measure=missing.key, z_mm=placed.z_mm)]
    return [
        Finding(
            code,
            "caution",
            (placed.id,),
            float(margins.measured[0, i]),
            float(margins.required[0, i]),
            "%",
            limit,
            z_mm=placed.z_mm,
            typical=margins.typical,
        )
        for i, (code, limit) in enumerate(zip(CODES, _LIMITS, strict=True))
        if margins.short[0, i]
    ]


def unmeasured(scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Say "not checked" of old holes round a new one's ring whose size nobody took."""
    holes, places = batch.holes, len(batch.places)
    old = old_holes(scene)
    lacking = np.flatnonzero(np.isnan(old.diameter_mm)).tolist()
    if not will_be_drilled(batch.placed) or holes is None or not len(holes) or not lacking:
        return no_margins(places)
    apart = np.abs(holes.z_mm[holes.levels.rows][:, :, None] - old.z_mm[lacking]).min(axis=1)
    measured = np.where(apart < _RING_MM, np.nan, np.inf)[holes.levels.which]
    missing = measure_of(OldHole, "diameter_mm")
    return Margins(
        tuple((batch.placed.id, old.ids[i]) for i in lacking),
        measured,
        np.full(measured.shape, np.nan),
        np.broadcast_to(batch.seats.origin[:, None], (*measured.shape, 3)),
        (missing,) * len(lacking),
    )


# Holes are of one ring as long as any that is drilled here would count in the same tear.
_RING_MM = 50.0
_DEPENDS: frozenset[Depends] = frozenset({"mast", "holes", "fittings", "limits"})
LEFT = Rule("hole/left", None, _DEPENDS, left, together=True, fault_below=-np.inf, unit="%", judge=_judged)
UNMEASURED = Rule("hole/ring", None, _DEPENDS, unmeasured)

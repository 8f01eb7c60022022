"""Where a new foot lies: off the track, on the metal, not round more than the girth, holes on the mast."""

import numpy as np

from mastlayout.checks.holes import hole_id
from mastlayout.checks.rule import Batch, Depends, Margins, Rule, no_margins
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of

# These stand on the track or take its place.
_AT_TRACK = ("boom", "halyard", "masthead")


def over_track(scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Measure, along the girth, from a foot's edge to the edge of the track or groove."""
    placed, foot, places = batch.placed, batch.placed.foot, len(batch.places)
    if not _on_skin(batch) or foot is None or placed.kind.group in _AT_TRACK:
        return no_margins(places)
    half_track = scene.skin.half_track_mm
    turn = np.radians(batch.places.turn_deg)
    half_foot = foot.across_mm / 2 * np.abs(np.cos(turn)) + foot.along_mm / 2 * np.abs(np.sin(turn))
    half_girth = scene.skin.full.half_girth_mm
    off_track = np.abs((batch.places.around + half_girth) % (2 * half_girth) - half_girth)
    if half_track is None:
        nothing = np.full((places, 1), np.nan)
        missing = measure_of(Mast, "track")
        return Margins((("mast",),), nothing, nothing, batch.seats.origin[:, None, :], (missing,))
    measured = (off_track - half_foot - half_track)[:, None]
    return Margins(
        ((placed.id,),),
        measured,
        np.zeros((places, 1)),
        batch.seats.origin[:, None, :],
        (None,),
        typical=not placed.foot_known,
    )


def over_hollow(scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Find a foot whose middle is where a tape bridges a hollow: its girth is no place on the metal."""
    places = len(batch.places)
    if not _on_skin(batch) or not len(scene.skin.hollow):
        return no_margins(places)
    measured = np.where(scene.skin.over_hollow(batch.places.around), -1.0, 0.0)[:, None]
    return Margins(
        ((batch.placed.id,),), measured, np.zeros((places, 1)), batch.seats.origin[:, None, :], (None,)
    )


def wider_than_girth(scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Measure what is left of the girth beside a foot."""
    foot, places = batch.placed.foot, len(batch.places)
    if not _on_skin(batch) or foot is None:
        return no_margins(places)
    girth = 2 * scene.skin.half_girth(batch.places.along_mm)
    measured = (girth - foot.across_mm)[:, None]
    return Margins(
        ((batch.placed.id,),),
        measured,
        np.zeros((places, 1)),
        batch.seats.origin[:, None, :],
        (None,),
        typical=not batch.placed.foot_known,
    )


def misses_mast(_scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Find holes whose drill, square to a flat foot, passes beside the mast."""
    holes, places = batch.holes, len(batch.places)
    if not _on_skin(batch) or holes is None or not len(holes):
        return no_margins(places)
    measured = np.where(np.isnan(holes.girth_mm), -1.0, 0.0)
    subjects = tuple((hole_id(batch.placed, opening.number),) for opening in holes.openings)
    return Margins(
        subjects,
        measured,
        np.zeros(measured.shape),
        holes.point,
        (None,) * len(subjects),
        typical=not batch.placed.foot_known,
    )


def _on_skin(batch: Batch) -> bool:
    return batch.placed.fitting.new and batch.placed.skin is not None


_DEPENDS: frozenset[Depends] = frozenset({"mast", "fittings"})
OVER_TRACK = Rule("seat/track", None, _DEPENDS, over_track)
OVER_HOLLOW = Rule("seat/hollow", None, _DEPENDS, over_hollow)
WIDER = Rule("seat/girth", None, _DEPENDS, wider_than_girth)
MISSES = Rule("seat/misses", None, _DEPENDS, misses_mast)

"""Holes where they were drilled instead of where they were planned."""

from collections.abc import Sequence
from dataclasses import replace

from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.holes import Drilled
from mastlayout.geometry.skin import Skin
from mastlayout.model.fitting import HoleBuilt


def as_drilled(skin: Skin, planned: Drilled, found: Sequence[HoleBuilt], *, square_to_skin: bool) -> Drilled:
    """Return the openings of a fitting at its one place, those that were measured where they were found.

    A hole whose drill stood square to the skin is taken to stand so where it was found; one drilled
    square to a flat foot keeps that direction.
    """
    places = {opening.number: i for i, opening in enumerate(planned.openings)}
    rows = [(places[hole.number], hole) for hole in found if hole.number in places]
    if not rows:
        return planned
    openings, z, girth = list(planned.openings), planned.z_mm.copy(), planned.girth_mm.copy()
    point, direction = planned.point.copy(), planned.direction.copy()
    for i, hole in rows:
        z[0, i] = height_mm(skin.length_mm, hole.from_masthead_mm)
        girth[0, i] = skin.girth_of(hole.girth, float(z[0, i]))
        at, out = skin.at(z[:1, i], girth[:1, i])
        point[0, i] = at[0]
        if square_to_skin:
            direction[0, i] = -out[0]
        if hole.diameter_mm is not None:
            openings[i] = replace(openings[i], diameter_mm=hole.diameter_mm)
    girth = skin.wrapped(z, girth)
    return replace(
        planned, openings=tuple(openings), z_mm=z, girth_mm=girth, point=point, direction=direction
    )

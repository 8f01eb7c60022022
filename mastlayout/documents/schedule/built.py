"""What was found otherwise than planned, in words: of a fitting, and of each of its holes."""

from collections.abc import Iterator

import numpy as np

from mastlayout.checks.built import Off, off_plan
from mastlayout.documents.rows import Note
from mastlayout.documents.schedule.made import SAME_MM
from mastlayout.documents.schedule.places import tag_of
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.skin import Skin
from mastlayout.model.fitting import AsBuilt, HoleBuilt
from mastlayout.units import Units, write_size
from mastlayout.words import _


def built_words(placed: Placed, skin: Skin, units: Units) -> Iterator[str]:
    """Yield who found a fitting elsewhere than planned, when, and how far from the plan that is."""
    fitting, built = placed.fitting, placed.fitting.as_built
    if built is None:
        return
    planned = fitting.from_masthead_mm
    along = 0.0 if planned is None else placed.z_mm - height_mm(skin.length_mm, planned)
    around = 0.0
    if fitting.girth is not None:
        ring = skin.ring(placed.z_mm)
        planned_girth = skin.girth_of(fitting.girth, placed.z_mm)
        around = float(ring.wrapped(np.array(placed.places.around[0] - planned_girth)))
    yield _("{found}: {off}").format(found=found_words(built), off=off_words(along, around, units))


def built_holes(placed: Placed, units: Units) -> dict[int, str]:
    """Return of each hole that was measured, by its number, who found it when, and how far off its place."""
    return {
        off.built.number: _("{found}: {off}{size}{remark}").format(
            found=found_words(off.built),
            off=off_words(off.along_mm, off.round_mm, units),
            size=_size_words(off, units),
            remark=_(": “{remark}”").format(remark=off.built.remark) if off.built.remark else "",
        )
        for off in off_plan(placed)
    }


def hole_notes(placed: Placed, units: Units) -> Iterator[Note]:
    """Yield the same as notes, each under its hole's tag."""
    for number, words in built_holes(placed, units).items():
        yield Note(f"{tag_of(placed)}.{number}", words)


def found_words(built: AsBuilt | HoleBuilt) -> str:
    """Return who measured, when, and the photo of it."""
    words = _("as built, {by}, {day}").format(by=built.by, day=built.day)
    return _("{words}, photo {name}").format(words=words, name=built.photo) if built.photo else words


def off_words(along_mm: float, round_mm: float, units: Units) -> str:
    """Return how far off the plan: along positive to the masthead, round positive to starboard."""
    parts = []
    if abs(along_mm) >= SAME_MM:
        end = _("{off} towards the masthead") if along_mm > 0 else _("{off} towards the heel")
        parts.append(end.format(off=write_size(abs(along_mm), units=units)))
    if abs(round_mm) >= SAME_MM:
        side = _("{off} to starboard") if round_mm > 0 else _("{off} to port")
        parts.append(side.format(off=write_size(abs(round_mm), units=units)))
    return _("{parts} of the plan").format(parts=", ".join(parts)) if parts else _("as planned")


def _size_words(off: Off, units: Units) -> str:
    if off.built.diameter_mm is None or off.found_mm == off.planned_mm:
        return ""
    return _(", {found} wide").format(found=write_size(off.found_mm, units=units))

"""Where a fitting stands, in readings and in words."""

from collections.abc import Iterable

import numpy as np

from mastlayout.geometry.frames import (
    Face,
    Reading,
    RoundReading,
    bearing_of,
    face_of,
    reading_of,
    round_reading,
)
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.rig import SpreaderInSpace, StayInSpace
from mastlayout.geometry.skin import Skin
from mastlayout.units import Units, write_length
from mastlayout.words import _

# From here up a fitting stands on the masthead and not on the wall.
_TOP_MM = 1.0


def tag_of(placed: Placed) -> str:
    """Return what is pencilled on the mast beside the fitting; a dash where it has no tag yet."""
    return str(placed.fitting.tag) if placed.fitting.tag is not None else "–"


def tags_of(every: Iterable[Placed]) -> str:
    """Return the tags of fittings, each once, in the order of their numbers."""
    tags = dict.fromkeys(tag_of(placed) for placed in every)
    return ", ".join(sorted(tags, key=lambda tag: (not tag.isdigit(), int(tag) if tag.isdigit() else 0, tag)))


def is_on_top(placed: Placed, skin: Skin) -> bool:
    """Tell whether a fitting stands on the masthead itself or on what stands there."""
    return placed.skin is None and placed.z_mm >= skin.length_mm - _TOP_MM


def height_of(placed: Placed, skin: Skin, units: Units) -> Reading:
    """Return both readings of a fitting's height."""
    return reading_of(placed.z_mm, skin.length_mm, units)


def girth_reading(skin: Skin, girth_mm: float, z_mm: float, units: Units) -> RoundReading:
    """Return both readings round the skin; where the track is not measured its edge is its middle."""
    ring = skin.ring(z_mm)
    return round_reading(
        float(ring.wrapped(np.array(girth_mm))), ring.half_girth_mm, skin.half_track_mm or 0.0, units
    )


def face_up(placed: Placed) -> Face:
    """Return the face that lies up when the fitting is worked on."""
    x, y, _z = placed.seats.origin[0]
    return face_of(bearing_of(float(x), float(y)))


def centre_words(face: Face, around: RoundReading) -> str:
    """Return how far round a place is: on the line, or off the line or the track's edge."""
    if around.side is None:
        return _("on the line") if around.forward == 0 else _("on the track")
    side = _("PORT") if around.side == "port" else _("STBD")
    if face == "aft":
        return _("{round} off the track edge, {side}").format(round=around.text(around.track_edge), side=side)
    return _("{round} off the line, {side}").format(round=around.text(around.forward), side=side)


def face_and_place(placed: Placed, skin: Skin, units: Units) -> tuple[str, str]:
    """Return the face or host in capitals, and the place on it."""
    host = placed.host
    if is_on_top(placed, skin):
        return _("TOP"), _off_axis(placed, units)
    if isinstance(host, Skin):
        return _face_on_mast(placed, host, units)
    along = write_length(float(placed.places.along_mm[0]), units)
    if isinstance(host, SpreaderInSpace):
        side = {"port": _("PORT"), "starboard": _("STBD"), "centre": _("CENTRE")}[host.item.side]
        what = _("strut") if host.item.role == "strut" else _("spreader")
        return f"{side} {what}", _("{along} out").format(along=along)
    if isinstance(host, StayInSpace):
        return host.item.name, _("{along} up").format(along=along)
    return _("ON {tag}").format(tag=tag_of(host)), host.fitting.name


def _face_on_mast(placed: Placed, skin: Skin, units: Units) -> tuple[str, str]:
    face = face_up(placed)
    around = girth_reading(skin, float(placed.places.around[0]), placed.z_mm, units)
    words = {"forward": _("AHEAD"), "aft": _("AFT"), "port": _("PORT"), "starboard": _("STARBOARD")}[face]
    if around.side and face in ("forward", "aft"):
        words += _(", PORT") if around.side == "port" else _(", STBD")
    if around.side is None:
        return words, _("on line") if face == "forward" else _("on track")
    number = around.text(around.track_edge if face == "aft" else around.forward)
    off = _("{round} off track edge") if face == "aft" else _("{round} off line")
    return words, off.format(round=number)


def _off_axis(placed: Placed, units: Units) -> str:
    x, y, _z = (float(value) for value in placed.seats.origin[0])
    parts = []
    if abs(x) >= 0.5:
        parts.append(
            (_("{off} forward") if x > 0 else _("{off} aft")).format(off=write_length(abs(x), units))
        )
    if abs(y) >= 0.5:
        parts.append((_("{off} PORT") if y > 0 else _("{off} STBD")).format(off=write_length(abs(y), units)))
    return ", ".join(parts) or _("on the axis")

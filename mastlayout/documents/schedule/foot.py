"""A foot in words and as its picture."""

from collections import Counter
from collections.abc import Iterator
from itertools import zip_longest

import numpy as np

from mastlayout.documents.rows import FootPicture, Outline
from mastlayout.fastening.at_hole import choices
from mastlayout.fastening.curve import Packer, packer_of
from mastlayout.fastening.words import bought_as
from mastlayout.geometry.frames import Face
from mastlayout.geometry.holes import turned_offsets
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.skin import Skin
from mastlayout.model.kind import Cutout, Foot
from mastlayout.units import Units, write_length, write_size
from mastlayout.words import _, ngettext

# The sheet's line is drawn in the picture of a foot when it runs this near to it.
_LINE_NEAR_MM = 60.0
# A gap that a sheet cannot show: it writes tenths.
_FITS_MM = 0.05


def seat_words(placed: Placed, skin: Skin, foot: Foot, units: Units) -> Iterator[str]:
    """Yield how deep the saddle of a shaped foot is, and to what the drill stands square."""
    if foot.seat == "shaped":
        yield _("saddle {depth} deep").format(depth=_saddle(placed, skin, foot, units))
    packer = packer_of(skin, foot, placed.places)
    words = packer_words(packer, units) if packer else _("packer not known")
    if words:
        yield words
    if foot.backing_mm:
        yield _("backing bar {thick} inside").format(thick=write_size(foot.backing_mm, units=units))
    yield _("square to the skin") if foot.seat == "shaped" else _("square to the foot")


def packer_words(packer: Packer, units: Units) -> str:
    """Return how thick a packer is in its middle and at its edges; empty where there is nothing to fill."""
    middle, edges = (write_size(size, units=units) for size in (packer.middle_mm, packer.edges_mm))
    if packer.thick_mm < _FITS_MM:
        return ""
    if packer.is_even:
        return _("packer {depth} all over").format(depth=edges)
    if packer.middle_mm < _FITS_MM:
        return _("packer {edges} at its edges").format(edges=edges)
    if packer.edges_mm < _FITS_MM:
        return _("packer {middle} in its middle").format(middle=middle)
    return _("packer {middle} in its middle, {edges} at its edges").format(middle=middle, edges=edges)


def foot_words(placed: Placed, foot: Foot, units: Units) -> str:
    """Return a foot's size and whether it is typical or in hand."""
    across, along = write_length(foot.across_mm, units), write_length(foot.along_mm, units)
    known = _("in hand") if placed.foot_known else _("typical")
    return _("foot {across} across × {along}, {known}").format(across=across, along=along, known=known)


def fasteners_words(placed: Placed, foot: Foot) -> str:
    """Return how many of which fastener, with lengths once the part is in hand: 4 M6 × 12 tapped."""
    words = []
    for fastener, count in Counter(_called(placed, foot)).items():
        if fastener.startswith("rivet "):
            size = fastener.removeprefix("rivet ")
            words.append(ngettext("{n} rivet {size}", "{n} rivets {size}", count).format(n=count, size=size))
        else:
            words.append(f"{count} {fastener}")
    if foot.cutouts:
        words.append(ngettext("{n} slot", "{n} slots", len(foot.cutouts)).format(n=len(foot.cutouts)))
    return ", ".join(words) or _("no holes")


def _called(placed: Placed, foot: Foot) -> list[str]:
    chosen = [choice for _opening, choice in choices(placed)] if placed.foot_known else []
    made = [hole for hole in foot.holes if hole.fastener.how != "left out"]
    holes = zip_longest(made, chosen[: len(made)])
    return [bought_as(choice) if choice else hole.fastener.size for hole, choice in holes]


def _saddle(placed: Placed, skin: Skin, foot: Foot, units: Units) -> str:
    """Return how far the skin falls away under the edges of a shaped foot, square to its middle."""
    corners = np.array([(a * foot.across_mm / 2, b * foot.along_mm / 2) for a in (-1, 1) for b in (-1, 1)])
    across, along = turned_offsets(corners, placed.places.turn_deg)
    points, _normals = skin.at(placed.z_mm + along[0], placed.places.around[0] + across[0])
    centre, out = skin.at(np.array([placed.z_mm]), placed.places.around)
    depth = float(((centre[0] - points) @ out[0]).max())
    return write_size(depth, units=units)


def foot_picture(placed: Placed, skin: Skin, foot: Foot, face: Face) -> FootPicture | None:
    """Return the true shape of a foot on the developed skin; None where it has none."""
    if placed.outline is None:
        return None
    girth = float(placed.places.around[0])
    outline = tuple((float(g) - girth, float(z) - placed.z_mm) for g, z in placed.outline)
    target = 0.0 if face == "aft" else skin.ring(placed.z_mm).half_girth_mm
    line = float(skin.ring(placed.z_mm).wrapped(np.array(target - girth)))
    reach = max(abs(across) for across, _along in outline) + _LINE_NEAR_MM
    cutouts = tuple(cutout_outline(placed, cut) for cut in foot.cutouts)
    return FootPicture(outline, line if abs(line) <= reach else None, cutouts)


def cutout_outline(placed: Placed, cut: Cutout) -> Outline:
    """Return the corners of a cut-out on the developed skin, from the foot's middle."""
    half_wide, half_long = cut.width_mm / 2, cut.length_mm / 2
    signs = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)])
    corners = signs * (half_wide, half_long) + (cut.across_mm, cut.along_mm)
    x, y = turned_offsets(corners, placed.places.turn_deg)
    return tuple((float(a), float(b)) for a, b in zip(x[0], y[0], strict=True))

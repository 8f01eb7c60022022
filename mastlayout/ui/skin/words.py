"""The unrolled skin in words."""

from collections.abc import Sequence

from mastlayout.documents.schedule.places import girth_reading, tag_of
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.skin import Skin
from mastlayout.ui.section.at_height import height_text
from mastlayout.ui.skin.dimensions import Measured
from mastlayout.ui.skin.patch import Patch
from mastlayout.units import Units, write_length
from mastlayout.words import _


def foot_words(placed: Placed) -> str:
    """Return what stands beside a foot: its tag and name, and how well the foot is known."""
    name = f"{tag_of(placed)} {placed.fitting.name}"
    if placed.foot_known:
        return name
    if placed.fitting.new:
        return _("{name}, typical: offer up the part").format(name=name)
    return _("{name}, not measured").format(name=name)


def side_words(patch: Patch) -> tuple[str, str, str]:
    """Return what stands below the skin: left, middle and right, as seen from outside."""
    if patch.middle == "forward":
        return _("STARBOARD"), _("FORWARD"), _("PORT")
    return _("PORT"), _("AFT"), _("STARBOARD")


def lost_words(lost: Sequence[str]) -> str:
    """Return what runs behind though nobody knows where; "" where all is known."""
    return _("Behind, place not known: {names}").format(names=", ".join(lost)) if lost else ""


def aside_words(skin: Skin, z_mm: float, units: Units) -> tuple[str, str]:
    """Return how the skin is seen and how far it is round, and the same in short."""
    girth = _("girth {girth}").format(girth=write_length(2 * skin.ring(z_mm).half_girth_mm, units))
    return _("from outside, masthead up; {girth}").format(girth=girth), girth


def description(patch: Patch, holes: Sequence[Measured], units: Units) -> str:
    """Return all that the skin shows as sentences."""
    place = height_text(patch.skin, patch.z_mm, units)
    said = [_("Skin unrolled at {place} from the masthead").format(place=place)]
    said += [foot_words(placed) for placed in patch.feet]
    for hole in holes:
        read = girth_reading(patch.skin, hole.girth_mm, hole.z_mm, units)
        words = _("Hole {tag}: {line} from the line, {edge} from the track edge{side}")
        side = {None: "", "port": _(", port"), "starboard": _(", starboard")}[read.side]
        said.append(
            words.format(
                tag=hole.tag, line=read.text(read.forward), edge=read.text(read.track_edge), side=side
            )
        )
    said += [_("Old hole: {name}").format(name=hole.name) for hole in patch.old_holes]
    said += [_("{name} behind").format(name=band.name) for band in patch.bands]
    said.append(lost_words(patch.lost))
    return ". ".join(words for words in said if words) + "."

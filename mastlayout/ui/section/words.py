"""The section in words: its call-outs, and the description for those who do not see it."""

from collections.abc import Iterator

from mastlayout.geometry.frames import Array, bearing_of
from mastlayout.geometry.skin import Skin
from mastlayout.ui.section.at_height import height_text
from mastlayout.ui.section.callouts import CallOut
from mastlayout.ui.section.cut import Crossing, Cut
from mastlayout.ui.section.plan import Plan
from mastlayout.units import Units, write_length
from mastlayout.words import _

# What stays when room is short: the thing in hand, what a drill would meet, then what stands there.
_HAND, _INSIDE, _WALL, _STANDING, _TRACK = range(5)


def callouts(cut: Cut, plan: Plan, outlines: dict[str, Array], units: Units) -> Iterator[CallOut]:
    """Yield a call-out for everything the section shows."""
    wall_at = plan.at(0.0, float(cut.ring.y.max()))
    if cut.on_mast:
        role = "second" if cut.wall_mm is not None else "unknown"
        yield CallOut("", wall_words(cut, units), wall_at, _WALL, role)
    if cut.track and cut.on_mast:
        yield CallOut("", track_words(cut, units), plan.at(float(cut.ring.x.min()), 0.0), _TRACK)
    for crossing in cut.crossings:
        at = plan.at(crossing.ahead_mm, crossing.port_mm)
        yield CallOut(crossing.id, crossing.name, at, _INSIDE)
    for placed in cut.standing:
        if placed.id in outlines:
            in_hand = placed is cut.hand
            at = plan.seen(outlines[placed.id].reshape(-1, 2)).boundingRect().center()
            rank, role = (_HAND, "accent") if in_hand else (_STANDING, "second")
            yield CallOut(placed.id, placed.fitting.name, at, rank, role)
    for bar in cut.spreaders:
        x, y, _z = (float(value) for value in bar.root)
        yield CallOut(bar.item.id, bar.item.name, plan.at(x, y), _STANDING)


def wall_words(cut: Cut, units: Units) -> str:
    """Return the wall's thickness, or that nobody measured it near enough."""
    if cut.wall_mm is None:
        return _("wall not known")
    return _("wall {thickness}").format(thickness=write_length(cut.wall_mm, units, 1))


def track_words(cut: Cut, units: Units) -> str:
    """Return what the luff runs in, and how wide it is; "" where nobody measured it."""
    if cut.track is None:
        return ""
    words = _("groove {width}") if cut.track.kind == "groove" else _("track {width}")
    return words.format(width=write_length(cut.track.width_mm, units, 1))


def lost_words(cut: Cut) -> str:
    """Return what runs inside here though nobody knows where; "" where all is known."""
    return _("Inside, place not known: {names}").format(names=", ".join(cut.lost)) if cut.lost else ""


def description(cut: Cut, skin: Skin, units: Units) -> str:
    """Return all that the section shows as sentences."""
    place = height_text(skin, cut.z_mm, units)
    said = [_("Section from above at {place} from the masthead").format(place=place)]
    metal = wall_words(cut, units), track_words(cut, units) or _("no track or groove here")
    said += [words[:1].upper() + words[1:] for words in metal]
    said += [_crossing_words(crossing, units) for crossing in cut.crossings]
    said.append(lost_words(cut))
    said += [
        _("{name}, in hand").format(name=placed.fitting.name)
        if placed is cut.hand
        else _("{name} stands here").format(name=placed.fitting.name)
        for placed in cut.standing
    ]
    said += [_("{name} reaches here").format(name=bar.item.name) for bar in cut.spreaders]
    return ". ".join(words for words in said if words) + "."


def _crossing_words(crossing: Crossing, units: Units) -> str:
    bearing = bearing_of(crossing.ahead_mm, crossing.port_mm)
    return _("{name}, {size} across, bearing {bearing:.0f}").format(
        name=crossing.name, size=write_length(2 * crossing.radius_mm, units), bearing=bearing
    )

"""The section in words: its call-outs, and the description for those who do not see it."""

from collections.abc import Iterator, Mapping, Sequence

from PySide6.QtCore import QPointF

from mastlayout.checks.finding import Finding
from mastlayout.checks.sentence import measured_text, names_of
from mastlayout.geometry.frames import bearing_of
from mastlayout.geometry.scene import Scene
from mastlayout.model.mast import Stretch
from mastlayout.ui.section.at_height import height_text
from mastlayout.ui.section.callouts import CallOut
from mastlayout.ui.section.cut import Crossing, Cut
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.drilled import Drill
from mastlayout.ui.section.filling import Filling
from mastlayout.ui.section.within import drill_line, standing_role
from mastlayout.units import Units, write_length, write_size
from mastlayout.words import _

# What stays when room is short: what is looked at, the thing in hand, what a drill would meet, and so on.
_WORST, _HAND, _DRILL, _INSIDE, _WALL, _STANDING, _TRACK = range(7)
_AWAY_MM, _SAME_MM, _SAME_HERE_MM, _FEW = 10.0, 0.05, 0.5, 2
_ZONES: dict[str, str] = {
    "sleeve": _("sleeve"),
    "weld": _("weld"),
    "pitted": _("pitted"),
    "partners": _("wedges of the partners"),
    "foam": _("foam"),
}


def callouts(made: Drawing, scene: Scene, units: Units) -> Iterator[CallOut]:
    """Yield a call-out for everything the section shows."""
    names = names_of(scene.layout)
    yield from _worst(made, names, units)
    yield from _drilled(made, names, units)
    yield from _inside(made, units)
    yield from _standing(made)
    yield from _foot(made, units)
    if made.cut.on_mast:
        yield from _metal(made, units)


def _worst(made: Drawing, names: Mapping[str, str], units: Units) -> Iterator[CallOut]:
    """Yield the figure of the finding looked at, on the line between its two places."""
    cut = made.cut
    if cut.worst is None or cut.chosen is None:
        return
    about = [drill for drill in made.cut.drills if _alike(drill, cut.chosen)]
    name = names.get(cut.chosen.things[1], cut.chosen.subjects[1])
    words = _("into {name}") if (cut.chosen.measured or 0.0) < 0 else _("from {name}")
    said = words.format(name=name)
    if cut.chosen.code.startswith("tack/"):
        said = touched_words(cut.chosen, name)
    if about:
        said = f"{_tags(about)}: {said}"
    elif abs(up := cut.worst.at[2] - cut.z_mm) > _AWAY_MM and not _alike_here(made):
        off = write_length(abs(up), units)
        said += (_(", {off} above") if up > 0 else _(", {off} below")).format(off=off)
    yield CallOut(
        "",
        said,
        worst_middle(made),
        _WORST,
        standing_role(cut.chosen.standing),
        measured_text(cut.chosen, units),
    )


def _alike_here(made: Drawing) -> bool:
    """Tell whether a sail does to what is in hand at this height as much as where it is worst."""
    there, chosen = made.sailed.stand if made.sailed else None, made.cut.chosen
    if there is None or chosen is None or made.sailed is None or chosen != made.sailed.finding:
        return False
    return abs(there.clear_mm - (chosen.measured or 0.0)) < _SAME_HERE_MM


def touched_words(finding: Finding, sail: str) -> str:
    """Return what a sail does to a fitting in the words of its finding."""
    words = {
        "tack/whips": _("{sail} whips it"),
        "tack/rubs": _("{sail} rubs on it"),
        "tack/presses": _("{sail} presses on it"),
        "main/gear": _("{sail} comes against it"),
        "main/whips": _("{sail} flogs against it"),
        "main/rubs": _("{sail} rubs on it"),
        "main/presses": _("{sail} presses on it"),
        "main/carried": _("{sail} carries its headboard or batten receptacles into it"),
    }
    return words.get(finding.code, _("{sail} bears on it")).format(sail=sail)


def worst_middle(made: Drawing) -> QPointF:
    """Return the middle of the line of the finding looked at."""
    if made.cut.worst is None:
        return QPointF()
    at, other = made.plan.at(*made.cut.worst.at[:2]), made.plan.at(*made.cut.worst.other[:2])
    return (at + other) / 2


def _tags(drills: Sequence[Drill]) -> str:
    tags = [drill.tag for drill in drills]
    return _(" to ").join((tags[0], tags[-1])) if len(tags) > _FEW else _(", ").join(tags)


def _alike(drill: Drill, chosen: Finding) -> bool:
    """Tell whether a drill does, on the same side, what the finding looked at says of its hole."""
    worst = drill.worst
    return (
        worst is not None
        and worst.code == chosen.code
        and worst.subjects[1:] == chosen.subjects[1:]
        and (worst == chosen or abs((worst.measured or 0.0) - (chosen.measured or 0.0)) < _SAME_MM)
    )


def _drilled(made: Drawing, names: Mapping[str, str], units: Units) -> Iterator[CallOut]:
    """Yield a call-out for the drills that pass something too near, those alike on one side together."""
    groups: dict[tuple[object, ...], list[Drill]] = {}
    chosen = made.cut.chosen if made.cut.worst else None
    for drill in made.cut.drills:
        if drill.worst is not None and not (chosen and _alike(drill, chosen)):
            side = drill.skin[1] > 0
            key = (drill.owner, drill.worst.subjects[1], measured_text(drill.worst, units), side)
            groups.setdefault(key, []).append(drill)
    for group in groups.values():
        worst = group[0].worst
        if worst is not None:
            _out, skin, deep = drill_line(group[0], made.plan)
            name = names.get(worst.subjects[1], worst.subjects[1])
            words = _passes(_tags(group), name, worst, units)
            yield CallOut(group[0].owner, words, (skin + deep) / 2, _DRILL, standing_role(worst.standing))


def _passes(tags: str, name: str, worst: Finding, units: Units) -> str:
    if (worst.measured or 0.0) < 0:
        return _("{tags}: drill meets {name}").format(tags=tags, name=name)
    return _("{tags}: drill {m} from {name}").format(tags=tags, name=name, m=measured_text(worst, units))


def _inside(made: Drawing, units: Units) -> Iterator[CallOut]:
    for crossing in made.cut.crossings:
        at = made.plan.at(crossing.ahead_mm, crossing.port_mm)
        role = "accent" if crossing.id == made.cut.in_hand else "second"
        yield CallOut(crossing.id, inside_words(crossing, units), at, _INSIDE, role)


def inside_words(crossing: Crossing, units: Units) -> str:
    """Return what runs inside: a conduit's size and what is in it, a halyard's rope."""
    size = _unbroken(write_size(2 * crossing.radius_mm, units=units, digits=0))
    if crossing.filling is None:
        return _("{name}, rope\u00a0{size}").format(name=crossing.name, size=size)
    return _("{name}, ⌀\u00a0{size}: {filling}").format(
        name=crossing.name, size=size, filling=filling_words(crossing.filling)
    )


def _unbroken(size: str) -> str:
    """Keep each figure of a size with its unit: in inches a line may break before the millimetres."""
    return size.replace(" ", "\u00a0").replace("\u00a0(", " (")


def filling_words(filling: Filling) -> str:
    """Return how many cables a conduit holds and how full it is."""
    if not filling.count:
        return _("no cable")
    many = _("1\u00a0cable") if filling.count == 1 else _("{n}\u00a0cables").format(n=filling.count)
    if filling.full_percent is None:
        return _("{many}, how full not known").format(many=many)
    return _("{many}, {full:.0f}\u00a0%\u00a0full").format(many=many, full=filling.full_percent)


def _standing(made: Drawing) -> Iterator[CallOut]:
    cut, plan = made.cut, made.plan
    for placed in cut.standing:
        if placed.id in made.outlines:
            at = plan.box(made.outlines[placed.id].reshape(-1, 2)).center()
            rank, role = (_HAND, "accent") if placed is cut.hand else (_STANDING, "second")
            yield CallOut(placed.id, placed.fitting.name, at, rank, role)
    for bar in cut.spreaders:
        x, y, _z = (float(value) for value in bar.root)
        role = "accent" if bar.item.id == cut.in_hand else "second"
        yield CallOut(bar.item.id, bar.item.name, plan.at(x, y), _STANDING, role)
    for hole in cut.old_holes:
        yield CallOut(hole.id, hole.name, plan.at(hole.ahead_mm, hole.port_mm), _STANDING)


def _foot(made: Drawing, units: Units) -> Iterator[CallOut]:
    """Yield the words of the foot in hand: its pad, or that nobody has held the part."""
    for foot in made.feet:
        if foot.id == made.cut.in_hand:
            words = _("foot, pad\u00a0{pad}").format(pad=_unbroken(write_size(foot.pad_mm, units=units)))
            if not foot.known:
                words = _("foot typical: offer up the part")
            at = made.plan.box(foot.metal[:1]).topLeft()
            yield CallOut(foot.id, words, at, _TRACK, "second" if foot.known else "unknown")


def _metal(made: Drawing, units: Units) -> Iterator[CallOut]:
    cut, plan = made.cut, made.plan
    role = "second" if cut.wall_mm is not None else "unknown"
    yield CallOut("", wall_words(cut, units), plan.at(0.0, float(cut.ring.y.max())), _WALL, role)
    if cut.track:
        yield CallOut("", track_words(cut, units), plan.at(float(cut.ring.x.min()), 0.0), _TRACK)
    for zone in cut.zones:
        yield CallOut("", zone_words(zone), plan.at(0.0, -float(cut.ring.y.max())), _TRACK)


def zone_words(zone: Stretch) -> str:
    """Return what kind of stretch of the mast this is."""
    return _ZONES[zone.kind]


def wall_words(cut: Cut, units: Units) -> str:
    """Return the wall's thickness, or that nobody measured it near enough."""
    if cut.wall_mm is None:
        return _("wall not known")
    return _("wall\u00a0{thickness}").format(thickness=_unbroken(write_size(cut.wall_mm, units=units)))


def track_words(cut: Cut, units: Units) -> str:
    """Return what the luff runs in, and how wide it is; "" where nobody measured it."""
    if cut.track is None:
        return ""
    words = _("groove\u00a0{width}") if cut.track.kind == "groove" else _("track\u00a0{width}")
    return words.format(width=_unbroken(write_size(cut.track.width_mm, units=units)))


def lost_words(cut: Cut) -> str:
    """Return what runs inside here though nobody knows where; "" where all is known."""
    return _("Inside, place not known: {names}").format(names=", ".join(cut.lost)) if cut.lost else ""


def description(cut: Cut, scene: Scene, units: Units) -> str:
    """Return all that the section shows as sentences."""
    place = height_text(scene.skin, cut.z_mm, units)
    said = [_("Section from above at {place} from the masthead").format(place=place)]
    metal = wall_words(cut, units), track_words(cut, units) or _("no track or groove here")
    said += [words[:1].upper() + words[1:] for words in metal]
    said += [zone_words(zone) for zone in cut.zones]
    said += [_crossing_words(crossing, units) for crossing in cut.crossings]
    said.append(lost_words(cut))
    said += [
        _("{name}, in hand").format(name=placed.fitting.name)
        if placed is cut.hand
        else _("{name} stands here").format(name=placed.fitting.name)
        for placed in cut.standing
    ]
    said += [_("{name} reaches here").format(name=bar.item.name) for bar in cut.spreaders]
    names = names_of(scene.layout)
    said += [
        _passes(drill.tag, names.get(drill.worst.subjects[1], ""), drill.worst, units)
        for drill in cut.drills
        if drill.worst is not None
    ]
    return ". ".join(words for words in said if words) + "."


def _crossing_words(crossing: Crossing, units: Units) -> str:
    bearing = bearing_of(crossing.ahead_mm, crossing.port_mm)
    words = _("{name}, {size} across, bearing {bearing:.0f}").format(
        name=crossing.name, size=write_size(2 * crossing.radius_mm, units=units, digits=0), bearing=bearing
    )
    return words if crossing.filling is None else f"{words}, {filling_words(crossing.filling)}"

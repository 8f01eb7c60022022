"""One hole of the drilling schedule: its readings, drill, fastener, stack, and why it may be stopped."""

import numpy as np

from mastlayout.checks.holes import hole_id
from mastlayout.documents.rows import HoleRow, Note
from mastlayout.documents.schedule.notes import Speaker
from mastlayout.documents.schedule.places import girth_reading, tag_of
from mastlayout.fastening.at_hole import choice_of, packer_mm
from mastlayout.fastening.choice import Choice
from mastlayout.fastening.drill import LARGEST_TWIST_MM, depth_stop_mm, drill_mm, pilot_mm
from mastlayout.fastening.words import bought_as
from mastlayout.geometry.frames import height_mm, reading
from mastlayout.geometry.holes import Opening
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.wall import nearest_reading, thickness_mm
from mastlayout.model.fitting import Step, is_made, steps_done
from mastlayout.model.kind import Foot
from mastlayout.model.mast import Mast
from mastlayout.model.references import LOOSE
from mastlayout.units import MM_PER_INCH, Units, write_drill, write_size
from mastlayout.words import _


def hole_row(
    placed: Placed, skin: Skin, foot: Foot, opening: Opening, at: tuple[float, float], speaks: Speaker
) -> HoleRow:
    """Return the row of one opening at (girth, z) on the skin."""
    (girth, z), units = at, speaks.units
    tag = f"{tag_of(placed)}.{opening.number}"
    from_masthead = height_mm(skin.length_mm, z)
    wall = thickness_mm(skin.mast, from_masthead)
    drill = drill_mm(opening) if opening.use != "cutout" else None
    chosen = choice_of(placed, opening.number) if placed.foot_known else None
    across = float(skin.ring(z).wrapped(np.array(girth - float(placed.places.around[0]))))
    return HoleRow(
        tag=tag,
        height=reading(from_masthead, skin.length_mm, units),
        round=girth_reading(skin, girth, z, units),
        at=(across, z - placed.z_mm),
        diameter_mm=drill,
        drill_mm=drill,
        how=_how(drill, wall and wall + foot.backing_mm, units),
        fastener=_fastener(opening, wall, chosen, units),
        stack=_stack(placed, foot, opening, wall, speaks) + _tube(chosen, units),
        wall_missing=wall is None,
        stop=_stop(placed, opening, from_masthead, speaks),
        number=opening.number,
        done=_done(placed, opening.number),
    )


def _done(placed: Placed, number: int) -> frozenset[Step]:
    """Return what is done with a hole; one that was measured in the mast is drilled, ticked or not."""
    made: frozenset[Step] = frozenset({"drilled"}) if is_made(placed.fitting, number) else frozenset()
    return steps_done(placed.fitting, number) | made


def _stop(placed: Placed, opening: Opening, from_masthead_mm: float, speaks: Speaker) -> Note | None:
    """Return why a hole may not be drilled: an open finding, then an unknown wall, then what is not known."""
    name = hole_id(placed, opening.number)
    loud = speaks.loud_of(name)
    found = loud or speaks.unknown_of(name)
    mast = speaks.report.scene.skin.mast
    if not loud and thickness_mm(mast, from_masthead_mm) is None:
        return Note(tag_of(placed), _wall_words(mast, from_masthead_mm, speaks.units))
    return speaks.note(placed, found[0]) if found else None


def _wall_words(mast: Mast, from_masthead_mm: float, units: Units) -> str:
    near = nearest_reading(mast, from_masthead_mm)
    words = _(
        "wall not measured near enough. Write it in the boxes; thread, drill and fastener are chosen from it."
    )
    if near is None:
        return words
    place = reading(near.from_masthead_mm, mast.length_mm, units)
    return _("{words} The nearest reading that there is: {place} from the masthead.").format(
        words=words, place=place.text(place.masthead)
    )


def _how(drill: float | None, wall: float | None, units: Units) -> str:
    if drill is None or wall is None:
        return ""
    pilot, depth = pilot_mm(drill), depth_stop_mm(drill, wall)
    stop = _("stop {depth}").format(depth=write_size(depth, units=units, digits=0))
    if drill > LARGEST_TWIST_MM:
        return f"{_('step')} · {stop}"
    return stop if pilot is None else f"{_('pilot {size}').format(size=_pilot(pilot, units))} · {stop}"


def _pilot(pilot_mm: float, units: Units) -> str:
    return f"{pilot_mm:g}" if units == "metric" else write_drill(pilot_mm, units)


def _tube(chosen: Choice | None, units: Units) -> str:
    """Return what the compression tube of a through bolt is cut to."""
    if chosen is None or chosen.tube_mm is None:
        return ""
    return _(", tube {tube}").format(tube=write_size(chosen.tube_mm, units=units))


def _fastener(opening: Opening, wall: float | None, chosen: Choice | None, units: Units) -> str:
    if opening.use == "entry":
        return _("cable entry")
    if opening.cutout:
        cut = opening.cutout
        size = write_size(cut.width_mm, cut.length_mm, units=units, digits=0)
        return _("slot {size}").format(size=size)
    fastener = opening.fastener
    if wall is None and fastener.is_one:
        return _("{fastener}, after wall").format(
            fastener=fastener.thread if fastener.how == "tapped" else fastener.size
        )
    return bought_as(chosen) if chosen else fastener.size


def _stack(placed: Placed, foot: Foot, opening: Opening, wall: float | None, speaks: Speaker) -> str:
    """Return foot, liner, packer, bar and wall as a sum a calliper confirms, or where an entry’s cable goes.

    In inches with three places, as all sizes; rounded each, so that what is written adds up.
    """
    if opening.use == "entry":
        return cable_words(placed, speaks.report.scene, speaks.units)
    part, digits = (0.1, 1) if speaks.units == "metric" else (0.001 * MM_PER_INCH, 3)
    between = packer_mm(placed, opening.number)
    packer = [between] if between is not None and between >= part / 2 else []
    bar = [foot.backing_mm] if foot.backing_mm else []
    layers = (foot.thickness_mm, foot.liner_mm, *packer, *bar, wall or 0.0)
    counts = [round(size / part) for size in layers]
    written = [f"{count / 10**digits:.{digits}f}" for count in counts]
    if between is None:
        return _("{layers} + packer + wall").format(layers=" + ".join(written[:2]))
    if wall is None:
        return _("{layers} + wall").format(layers=" + ".join(written[:-1]))
    total = write_size(sum(counts) * part, units=speaks.units)
    plus = " + " if speaks.units == "metric" else "+"
    return f"{plus.join(written)} = {total}"


def cable_words(placed: Placed, scene: Scene, units: Units) -> str:
    """Return a fitting's cables and the conduit each goes into."""
    names = {pipe.id: pipe.name for pipe in scene.layout.mast.conduits or ()}
    words = []
    for cable in scene.layout.cables:
        if cable.fitting == placed.id:
            size = "?" if cable.outside_mm is None else write_size(cable.outside_mm, units=units)
            way = names.get(cable.conduit, cable.conduit) if cable.conduit else None
            known = _("{size} to {way}").format(size=size, way=way)
            if cable.conduit == LOOSE:
                known = _("{size}, loose inside").format(size=size)
            words.append(known if way else _("{size}, way not known").format(size=size))
    return ", ".join(words) or (
        _("cable not listed") if placed.kind.cable_mm or placed.kind.cable_type else _("no cable")
    )

"""The blocks of the drilling schedule from the scene and its findings."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from mastlayout.checks.holes import will_be_drilled
from mastlayout.checks.report import Report
from mastlayout.documents.rows import ConduitMark, DrillBlock, EndView, HoleRow, Note
from mastlayout.documents.schedule.built import built_holes, built_words, hole_notes
from mastlayout.documents.schedule.foot import fasteners_words, foot_picture, foot_words, seat_words
from mastlayout.documents.schedule.hole import hole_row
from mastlayout.documents.schedule.notes import Speaker, first_fault, speaker
from mastlayout.documents.schedule.places import centre_words, face_up, girth_reading, height_of, tag_of
from mastlayout.documents.walk import row_order, walk_order
from mastlayout.geometry.frames import Face
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.geometry.skin import Skin
from mastlayout.model.kind import Foot
from mastlayout.units import Units
from mastlayout.words import _


def drill_blocks(report: Report, units: Units) -> tuple[DrillBlock, ...]:
    """Return one block for each new fitting on the mast that has a foot, in the order of the walk."""
    speaks = speaker(report, units)
    blocks = (
        _block(placed, placed.skin, placed.foot, speaks)
        for placed in masthead_first(report.scene)
        if will_be_drilled(placed) and placed.skin is not None and placed.foot is not None
    )
    return tuple(walk_order(blocks))


def _block(placed: Placed, skin: Skin, foot: Foot, speaks: Speaker) -> DrillBlock:
    units, face, tag = speaks.units, face_up(placed), tag_of(placed)
    found = speaks.about(placed.id)
    fault = first_fault(found)
    notes = speaks.of_drilling(placed, (finding for finding in found if finding is not fault))
    rows = tuple(_rows(placed, skin, foot, speaks)) if placed.foot_known else ()
    if placed.foot_known:
        notes += speaks.more_of_holes(placed)
    else:
        notes += speaks.typical_holes(placed)
    # At the middle of the track the two readings are half the girth and, below nothing, half the track.
    aft = girth_reading(skin, 0.0, placed.z_mm, units)
    return DrillBlock(
        tag=tag,
        name=placed.fitting.name,
        face=face,
        facts=tuple(_facts(placed, skin, foot, face, units)),
        section=end_view(speaks.report.scene, placed.z_mm),
        half_girth=aft.text(aft.forward),
        half_track=None if skin.half_track_mm is None else aft.text(-aft.track_edge),
        foot=foot_picture(placed, skin, foot, face),
        centre=_centre(placed, skin, units),
        rows=tuple(row_order(rows)),
        notes=tuple(
            dict.fromkeys(
                [
                    *notes,
                    *hole_notes(placed, units),
                    *_missed(placed),
                    *_left_out(placed),
                    *speaks.accepted(placed),
                ]
            )
        ),
        fault=speaks.note(placed, fault) if fault else None,
        fitting=placed.id,
    )


def _missed(placed: Placed) -> Iterator[Note]:
    """Yield a note for each opening whose drill passes beside the mast: no reading can be printed."""
    if placed.holes is None or not placed.foot_known:
        return
    for opening, girth in zip(placed.holes.openings, placed.holes.girth_mm[0], strict=True):
        if np.isnan(girth):
            tag = f"{tag_of(placed)}.{opening.number}"
            yield Note(tag, _("no row: drilled square to its foot it passes beside the mast"))


def _left_out(placed: Placed) -> Iterator[Note]:
    """Yield a note for each hole of the part that is not drilled: nobody shall think it forgotten."""
    for number, hole in enumerate(placed.foot.holes if placed.foot else (), 1):
        if hole.fastener.how == "left out":
            yield Note(
                f"{tag_of(placed)}.{number}", _("left out: the part has this hole, the mast gets none")
            )


def _centre(placed: Placed, skin: Skin, units: Units) -> HoleRow:
    around = girth_reading(skin, float(placed.places.around[0]), placed.z_mm, units)
    return HoleRow(tag_of(placed), height_of(placed, skin, units), around, (0.0, 0.0))


def _rows(placed: Placed, skin: Skin, foot: Foot, speaks: Speaker) -> Iterator[HoleRow]:
    holes = placed.holes
    if holes is None:
        return
    built = built_holes(placed, speaks.units) if placed.fitting.holes_built else {}
    for count, opening in enumerate(holes.openings):
        girth, z = float(holes.girth_mm[0, count]), float(holes.z_mm[0, count])
        if not np.isnan(girth):
            row = hole_row(placed, skin, foot, opening, (girth, z), speaks)
            yield replace(row, built=built.get(opening.number, ""))


def _facts(placed: Placed, skin: Skin, foot: Foot, face: Face, units: Units) -> Iterator[str]:
    centre = _centre(placed, skin, units)
    height = centre.height.text(centre.height.masthead)
    yield _("centre {height}, {place}").format(height=height, place=centre_words(face, centre.round))
    if placed.foot_known:
        yield foot_words(placed, foot, units)
        yield from seat_words(placed, skin, foot, units)
    else:
        yield f"{foot_words(placed, foot, units)}, {fasteners_words(placed, foot)}"
    yield from built_words(placed, skin, units)


def _letter(name: str, number: int) -> str:
    """Return the letter a pipe is called by, as in “Conduit A”; its number where its name ends in none."""
    last = name.rsplit(maxsplit=1)[-1]
    return last if len(last) == 1 else str(number)


def end_view(scene: Scene, z_mm: float) -> EndView:
    """Return the section at a height with its conduits, each where it lies or known not to be known."""
    outline = tuple((float(x), float(y)) for x, y in scene.skin.ring(z_mm).polygon())
    if scene.layout.mast.conduits is None:
        return EndView(outline)
    marks: list[ConduitMark] = []
    for pipe in scene.conduits:
        if not pipe.z_low_mm <= z_mm <= pipe.z_high_mm:
            continue
        letter = _letter(pipe.name, len(marks) + 1)
        if pipe.unknown:
            marks.append(ConduitMark(letter))
            continue
        part = np.clip((z_mm - pipe.start[:, 2]) / (pipe.end[:, 2] - pipe.start[:, 2]), 0.0, 1.0)
        leg = int(np.argmin(np.abs(pipe.start[:, 2] + part * (pipe.end[:, 2] - pipe.start[:, 2]) - z_mm)))
        x, y, _z = pipe.start[leg] + part[leg] * (pipe.end[leg] - pipe.start[leg])
        marks.append(ConduitMark(letter, (float(x), float(y)), pipe.radius_mm))
    return EndView(outline, tuple(marks))

"""The walk along the lying mast: which face first, hole by hole, and what holds a hole back."""

from collections.abc import Iterable
from dataclasses import dataclass

from mastlayout.documents.rows import DrillBlock, HoleRow, Note
from mastlayout.geometry.frames import Face
from mastlayout.words import _

FACE_ORDER: tuple[Face, ...] = ("forward", "port", "starboard", "aft")


@dataclass(frozen=True)
class Hold:
    """Why a hole may not be drilled: a note of the sheet, or two words where there is none."""

    note: Note | None
    words: str = ""


def walk_order(blocks: Iterable[DrillBlock]) -> list[DrillBlock]:
    """Return the blocks face by face, from the masthead down."""
    return sorted(blocks, key=lambda block: (FACE_ORDER.index(block.face), block.centre.height.masthead))


def hold_of(row: HoleRow, block: DrillBlock) -> Hold | None:
    """Return what holds a hole back by itself; None where it may be drilled once all rules have run."""
    note = block.fault or row.stop
    if note:
        return Hold(note)
    if row.wall_missing:
        return Hold(None, _("wall first"))
    return Hold(None, _("no drill")) if row.drill_mm is None else None

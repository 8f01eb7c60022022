"""The walk along the lying mast: which face first, hole by hole, and what holds a hole back."""

from collections.abc import Iterable
from itertools import pairwise, permutations

from mastlayout.documents.rows import DrillBlock, HoleRow, Note
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Face
from mastlayout.words import _

# As they come up when the mast is rolled a quarter turn at a time.
FACES_ROUND: tuple[Face, ...] = ("forward", "port", "aft", "starboard")


@dataclass(frozen=True)
class Hold:
    """Why a hole may not be drilled: a note of the sheet, or two words where there is none."""

    note: Note | None
    words: str = ""


def face_order(faces: Iterable[Face]) -> tuple[Face, ...]:
    """Return the faces with work, each once, so that the mast is rolled by the fewest quarter turns.

    Of ways that are equally short the one that begins at the forward face, or next to it, is taken.
    """
    work = set(faces)
    ways = permutations(face for face in FACES_ROUND if face in work)
    return min(ways, key=lambda way: (quarter_turns(way), [FACES_ROUND.index(face) for face in way]))


def quarter_turns(way: Iterable[Face]) -> int:
    """Return how many quarter turns bring up one face after the other; either way round."""
    places = [FACES_ROUND.index(face) for face in way]
    return sum(min((b - a) % 4, (a - b) % 4) for a, b in pairwise(places))


def walk_order(blocks: Iterable[DrillBlock]) -> list[DrillBlock]:
    """Return the blocks face up by face up, from the masthead down, at one height by the drill."""
    every = tuple(blocks)
    order = face_order(block.face for block in every)
    return sorted(every, key=lambda block: (order.index(block.face), _along(block)))


def row_order(rows: Iterable[HoleRow]) -> list[HoleRow]:
    """Return a fitting's holes from the masthead down, at one height by the drill, then left to right."""
    return sorted(rows, key=lambda row: (row.height.masthead, row.drill_mm or 0.0, row.at[0]))


def _along(block: DrillBlock) -> tuple[int, float]:
    first = min((row.drill_mm or 0.0 for row in block.rows), default=0.0)
    return block.centre.height.masthead, first


def hold_of(row: HoleRow, block: DrillBlock) -> Hold | None:
    """Return what holds a hole back by itself; None where it may be drilled once all rules have run."""
    note = block.fault or row.stop
    if note:
        return Hold(note)
    if row.wall_missing:
        return Hold(None, _("wall first"))
    return Hold(None, _("no drill")) if row.drill_mm is None else None

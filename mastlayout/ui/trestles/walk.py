"""The walk along one face: its holes in order, what is done, what may be done, and what is held back."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Literal

from mastlayout.checks.holes import hole_id
from mastlayout.checks.report import Report
from mastlayout.documents.drillhead import banner_words
from mastlayout.documents.rows import DrillBlock, HoleRow, SheetHead, Standing
from mastlayout.documents.schedule.drill import drill_blocks
from mastlayout.documents.schedule.notes import Speaker, first_fault, speaker
from mastlayout.documents.schedule.plan import head_of
from mastlayout.documents.walk import FACES_ROUND, Hold, face_order, hold_of
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Face
from mastlayout.geometry.placed import Placed
from mastlayout.model.fitting import STEPS, Step, steps_done
from mastlayout.units import Units
from mastlayout.words import _

# The last of all steps belongs to the fitting and not to one hole.
BOXES: tuple[Step, ...] = STEPS[:5]
_TO_MARK: tuple[Step, ...] = ("marked", "measured again")
State = Literal["done", "to drill", "held"]
Key = tuple[str, int]


@dataclass(frozen=True)
class Why:
    """Why a hole is held back: a clause, and how loud it is."""

    words: str
    standing: Standing


@dataclass(frozen=True)
class WalkHole:
    """One hole of the walk. ``boxes`` are the steps that may be ticked: no box, no hole.

    ``why`` holds back this very hole; where rules have not run ``held`` is told of every hole.
    """

    block: DrillBlock
    row: HoleRow
    done: frozenset[Step]
    boxes: tuple[Step, ...]
    why: Why | None
    held: bool

    @property
    def key(self) -> Key:
        """The fitting's id and the hole's number."""
        return self.block.fitting, self.row.number

    @property
    def state(self) -> State:
        """What the list says of it."""
        if self.done.issuperset(BOXES):
            return "done"
        return "held" if self.held else "to drill"

    @property
    def mark(self) -> str:
        """The mark it carries: what holds it back tells how loud it is; "" where it is to be drilled."""
        held = self.why.standing if self.why else "not checked"
        return {"done": "accepted", "to drill": "", "held": held}[self.state]

    @property
    def left(self) -> tuple[Step, ...]:
        """The boxes still open, in the order of work."""
        return tuple(step for step in self.boxes if step not in self.done)


@dataclass(frozen=True)
class Walk:
    """The walk of one face; ``typical`` are its feet that nobody has confirmed, ``faces`` all with work."""

    face: Face
    head: SheetHead
    holes: tuple[WalkHole, ...] = ()
    typical: tuple[DrillBlock, ...] = ()
    faces: tuple[Face, ...] = ()

    def hole(self, key: Key | None) -> WalkHole | None:
        """Return a hole by its key, None where it is not on this face."""
        return next((hole for hole in self.holes if hole.key == key), None)

    def after(self, key: Key | None) -> WalkHole | None:
        """Return the next hole with an open box after one, from the masthead again at the end.

        What is held back by itself is passed over, unless the face holds nothing else: then it is
        only marked. None where nothing is left to do.
        """
        free = [hole for hole in self.holes if hole.why is None]
        keys = [hole.key for hole in self.holes]
        start = keys.index(key) + 1 if key in keys else 0
        order = [*self.holes[start:], *self.holes[:start]]
        wanted = [hole for hole in order if hole.left and (hole in free or not free)]
        return next((hole for hole in wanted if hole.key != key), None)

    @property
    def first(self) -> WalkHole | None:
        """The hole to begin with: one with an open box, else the first of all."""
        return self.after(None) or next(iter(self.holes), None)

    def count(self, state: State) -> int:
        """Return how many holes are in a state."""
        return sum(hole.state == state for hole in self.holes)

    @property
    def next_face(self) -> Face:
        """The face that is rolled up after this one: the next of the walk with work, else the next of all."""
        others = self.face in self.faces and len(self.faces) > 1
        way = self.faces if others else FACES_ROUND
        at = way.index(self.face)
        order = (*way[at + 1 :], *way[:at])
        return next((face for face in order if face in self.faces), order[0])


def walk_of(report: Report, units: Units, face: Face) -> Walk:
    """Return the walk of a face, from the very rows of the drilling schedule."""
    speaks, head = speaker(report, units), head_of(report, units, "")
    blocks = drill_blocks(report, units)
    here = [block for block in blocks if block.face == face]
    holes = [_hole(block, row, speaks, checked=head.holes_checked) for block in here for row in block.rows]
    faces = face_order(block.face for block in blocks)
    return Walk(face, head, tuple(holes), tuple(block for block in here if not block.rows), faces)


def _hole(block: DrillBlock, row: HoleRow, speaks: Speaker, *, checked: bool) -> WalkHole:
    placed = speaks.report.scene.placed[block.fitting]
    hold = hold_of(row, block)
    boxes = BOXES if checked and hold is None else () if block.fault else _TO_MARK
    why = _why(hold, block, row, speaks, placed) if hold else None
    done = steps_done(placed.fitting, row.number)
    return WalkHole(block, row, done, boxes, why, held=not checked or hold is not None)


def _why(hold: Hold, block: DrillBlock, row: HoleRow, speaks: Speaker, placed: Placed) -> Why:
    if block.fault:
        fault = first_fault(speaks.about(block.fitting))
        return Why(_alone(speaks.brief(fault).text, block.name) if fault else block.fault.text, "fault")
    loud = speaks.loud_of(hole_id(placed, row.number))
    if loud:
        return Why(_alone(speaks.brief(loud[0]).text, row.tag), loud[0].standing)
    if row.wall_missing:
        return Why(_("wall not measured near enough: measure it first"), "not checked")
    return Why(hold.note.text if hold.note else hold.words, "not checked")


def note_words(hole: WalkHole) -> str:
    """Return the first note of a hole's fitting, "" where it has none."""
    notes = hole.block.notes
    return _alone(notes[0].text, hole.block.name) if notes else ""


def _alone(clause: str, called: str) -> str:
    """Leave out of a clause what it is about, where that stands beside it anyway."""
    head, _colon, rest = clause.partition(": ")
    return rest if rest and head.endswith(called) else clause


@dataclass(frozen=True)
class Run:
    """Holes of one fitting that follow each other and are alike: one line of the list."""

    holes: tuple[WalkHole, ...]

    @property
    def tags(self) -> str:
        """The tags: 12.1 to 12.4."""
        first, last = self.holes[0].row.tag, self.holes[-1].row.tag
        return first if first == last else _("{first} to {last}").format(first=first, last=last)


def runs(holes: Sequence[WalkHole]) -> Iterator[Run]:
    """Yield the lines of the list."""
    for _alike, group in groupby(holes, key=_alike_by):
        yield Run(tuple(group))


def _alike_by(hole: WalkHole) -> tuple[object, ...]:
    return hole.block.fitting, hole.state, hole.row.drill_mm, hole.row.fastener, hole.why, hole.done


def why_words(hole: WalkHole) -> str:
    """Return why a hole is held back, "" where it is not."""
    if hole.why:
        return hole.why.words
    return banner_words() if hole.held else ""

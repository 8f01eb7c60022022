"""What to buy for one hole: length or grip, tube, threads, and how far it stands inside the mast.

All of it hangs on the wall: where nobody measured it, nothing is chosen.
"""

from mastlayout.fastening.grip import Grip, grip_of
from mastlayout.fastening.tables import diameter_mm, pitch_mm, screw_length_mm
from mastlayout.frozen import dataclass
from mastlayout.model.kind import Fastener

# Common practice, no source. A screw's point is not cut full for a pitch; a nut with its washer takes
# about its diameter, and two pitches show beyond it; a compression tube stands a little proud.
_POINT_PITCHES, _BEYOND_NUT_PITCHES, _NUT_DIAMETERS = 1.0, 2.0, 1.0
TUBE_PROUD_MM = 0.5
# A rivet nut drawn in stands this far inside, from memory: the part itself is measured.
_RIVET_NUT_DIAMETERS = 1.5


@dataclass(frozen=True)
class Stack:
    """What a fastener holds together at one hole, mm: foot, liner, packer or bedding, wall, bar behind it."""

    foot_mm: float
    liner_mm: float
    packer_mm: float
    wall_mm: float
    backing_mm: float = 0.0

    @property
    def part_mm(self) -> float:
        """All that lies on the wall."""
        return self.foot_mm + self.liner_mm + self.packer_mm

    @property
    def total_mm(self) -> float:
        """All of it."""
        return self.part_mm + self.held_mm

    @property
    def held_mm(self) -> float:
        """The metal that holds a thread: the wall, and the bar behind it."""
        return self.wall_mm + self.backing_mm


@dataclass(frozen=True)
class Choice:
    """What to buy for a hole. None is not known, or does not arise for this fastener.

    ``threads`` are the full threads in wall and backing bar, ``grip`` is a rivet's, ``length_mm`` a
    screw's or bolt's under its head, ``tube_mm`` what a compression tube is cut to, ``inside_mm`` how far it
    stands behind the wall's inner face, a rivet before it is set.
    """

    fastener: Fastener
    stack_mm: float
    threads: float | None = None
    grip: Grip | None = None
    length_mm: float | None = None
    tube_mm: float | None = None
    inside_mm: float | None = None


def full_threads(thread: str | None, wall_mm: float) -> float | None:
    """Return the full threads a wall holds, wall over pitch; None where no table has the thread."""
    pitch = pitch_mm(thread)
    return wall_mm / pitch if pitch else None


def choose(fastener: Fastener, stack: Stack, span_mm: float | None) -> Choice | None:
    """Return what to buy for a hole; None where it holds no fastener.

    ``span_mm`` is how far it is through the mast along the hole, skin to skin, for a through bolt.
    """
    if not fastener.is_one:
        return None
    if fastener.how == "rivet":
        return _rivet(fastener, stack)
    if fastener.how == "through":
        return _through(fastener, stack, span_mm)
    return _screw(fastener, stack)


def _rivet(fastener: Fastener, stack: Stack) -> Choice:
    grip = grip_of(fastener.rivet_mm or 0.0, stack.total_mm)
    inside = grip.most_mm - stack.total_mm if grip else None
    return Choice(fastener, stack.total_mm, grip=grip, inside_mm=inside)


def _screw(fastener: Fastener, stack: Stack) -> Choice:
    thread = fastener.thread or ""
    diameter, pitch = diameter_mm(thread), pitch_mm(thread) or 0.0
    beyond = {
        "tapped": _POINT_PITCHES * pitch,
        "nut": _NUT_DIAMETERS * diameter + _BEYOND_NUT_PITCHES * pitch,
        "rivet nut": diameter,
    }.get(fastener.how)
    if beyond is None:
        return Choice(fastener, stack.total_mm)
    length = screw_length_mm(thread, stack.total_mm + beyond)
    inside = length - stack.total_mm if length else None
    if fastener.how == "rivet nut" and inside is not None:
        inside = max(inside, _RIVET_NUT_DIAMETERS * diameter)
    threads = full_threads(thread, stack.held_mm) if fastener.how == "tapped" else None
    return Choice(fastener, stack.total_mm, threads, length_mm=length, inside_mm=inside)


def _through(fastener: Fastener, stack: Stack, span_mm: float | None) -> Choice:
    if span_mm is None:
        return Choice(fastener, stack.total_mm)
    thread = fastener.thread or ""
    nut = _NUT_DIAMETERS * diameter_mm(thread) + _BEYOND_NUT_PITCHES * (pitch_mm(thread) or 0.0)
    tube = span_mm + TUBE_PROUD_MM
    length = screw_length_mm(thread, tube + 2 * stack.part_mm + nut)
    return Choice(
        fastener, stack.total_mm, length_mm=length, tube_mm=tube, inside_mm=span_mm - 2 * stack.wall_mm
    )

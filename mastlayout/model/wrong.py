"""Edits for a hole that was drilled wrong: fill it, enlarge it, or move the fitting off it."""

from collections.abc import Iterable

from mastlayout.errors import EditError
from mastlayout.model.edits import add, change, forget_hole, item_of, next_id, refuse_as_built
from mastlayout.model.fitting import STEPS, Fitting, OldHole, done_words
from mastlayout.model.kind import Fastener
from mastlayout.model.layout import Layout
from mastlayout.words import _


def fill_hole(layout: Layout, name: str, hole: int, old: OldHole, *, again: bool) -> Layout:
    """Record that a hole of a fitting is filled: it is an old hole now.

    ``again``, the fitting wants it anew in its own place; else that is too near, and the foot in hand
    does without it: the part keeps the hole, nobody drills it. ``old`` tells where it is and how wide;
    its id is given here.
    """
    left = _left(_undone(forget_hole(layout, name, hole), name, [hole]), [old])
    return left if again else leave_out(left, name, hole)


def leave_out(layout: Layout, name: str, hole: int) -> Layout:
    """Leave a hole out of the pattern of a foot in hand; the others keep their numbers."""
    _part, fitting = item_of(layout, name)
    foot = fitting.in_hand
    if foot is None or not 1 <= hole <= len(foot.holes):
        words = _("hole {n} of {name} is no hole of a foot in hand: confirm the foot, then leave it out")
        raise EditError(words.format(n=hole, name=fitting.name))
    holes = list(foot.holes)
    holes[hole - 1] = holes[hole - 1].but(fastener=Fastener(how="left out"), diameter_mm=None)
    return change(layout, name, in_hand=foot.but(holes=tuple(holes)))


def move_off(
    layout: Layout, name: str, up_mm: float, drilled: Iterable[int], old: Iterable[OldHole]
) -> Layout:
    """Move a fitting up the mast, down where ``up_mm`` is negative, off holes that were drilled for it.

    Those holes, by their numbers ``drilled``, are filled and stay behind as old holes.
    """
    _part, fitting = item_of(layout, name)
    refuse_as_built(fitting, "from_masthead_mm")
    if fitting.from_masthead_mm is None:
        raise EditError(
            _("{name} is not on the mast: it cannot be moved along it.").format(name=fitting.name)
        )
    left = _left(_undone(layout, name, drilled), old)
    return change(left, name, holes_built=(), from_masthead_mm=fitting.from_masthead_mm - up_mm)


def enlarge_hole(layout: Layout, name: str, hole: int, fastener: Fastener) -> Layout:
    """Give one hole of the foot in hand a larger fastener: it is drilled anew, in its own place."""
    _part, fitting = item_of(layout, name)
    foot = fitting.in_hand
    if foot is None or not 1 <= hole <= len(foot.holes):
        words = _("hole {n} of {name} holds no fastener of a foot in hand: it cannot be given a larger one")
        raise EditError(words.format(n=hole, name=fitting.name))
    holes = list(foot.holes)
    holes[hole - 1] = holes[hole - 1].but(fastener=fastener, diameter_mm=None)
    left = _undone(forget_hole(layout, name, hole), name, [hole])
    return change(left, name, in_hand=foot.but(holes=tuple(holes)))


def _undone(layout: Layout, name: str, holes: Iterable[int]) -> Layout:
    """Take back what is ticked of some holes of a fitting: they are to be made anew."""
    _part, fitting = item_of(layout, name)
    return change(layout, name, done=_without(fitting, holes))


def _without(fitting: Fitting, holes: Iterable[int]) -> tuple[str, ...]:
    gone = {done_words(hole, step) for hole in holes for step in STEPS}
    return tuple(words for words in fitting.done if words not in gone)


def _left(layout: Layout, old: Iterable[OldHole]) -> Layout:
    for hole in old:
        layout = add(layout, "holes", hole.but(id=next_id(layout, "hole"), state="filled"))
    return layout

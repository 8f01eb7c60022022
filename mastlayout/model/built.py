"""Holes as they were drilled, against the fitting they belong to."""

from collections.abc import Iterator

from mastlayout.model.fitting import MAST
from mastlayout.model.kind import Foot
from mastlayout.model.layout import Layout
from mastlayout.model.parts import Parts, PathMistake
from mastlayout.words import _


def built_mistakes(layout: Layout | Parts) -> Iterator[PathMistake]:
    """Tell holes recorded twice, left out, that no foot of the fitting has, or that are not in the mast."""
    feet = {kind.id: kind.foot for kind in layout.kinds}
    for at, fitting in enumerate(layout.fittings):
        seen: set[int] = set()
        foot = fitting.in_hand or feet.get(fitting.kind)
        most = len(foot.holes) + bool(foot.entry) + len(foot.cutouts) if foot else None
        for place, hole in enumerate(fitting.holes_built):
            path = ("fittings", at, "holes_built", place, "number")
            if fitting.on != MAST:
                words = _(
                    "hole {n} as drilled says nothing of a fitting that is not on the mast: leave it out"
                )
                yield PathMistake(path, words.format(n=hole.number))
            elif hole.number in seen:
                words = _("hole {n} is recorded twice: one of them is wanted")
                yield PathMistake(path, words.format(n=hole.number))
            elif most is not None and hole.number > most:
                words = _("there is no hole {n} in this foot: 1 to {most} is allowed; forget that hole first")
                yield PathMistake(path, words.format(n=hole.number, most=most))
            elif foot and _is_left_out(foot, hole.number):
                words = _("hole {n} is left out of this foot, and recorded as drilled: forget one of the two")
                yield PathMistake(path, words.format(n=hole.number))
            seen.add(hole.number)


def _is_left_out(foot: Foot, number: int) -> bool:
    return number <= len(foot.holes) and foot.holes[number - 1].fastener.how == "left out"

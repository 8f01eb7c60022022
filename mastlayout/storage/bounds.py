"""Between what bounds a number of the model may lie: the whole range, of which a complaint names one end."""

import math
from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple, get_args

from mastlayout.words import _

_ENDS = ("gt", "ge", "lt", "le")


class Bounds(NamedTuple):
    """The least and the most; ``above`` and ``below`` tell that these themselves are not allowed."""

    least: float
    most: float
    above: bool
    below: bool


def bounds_of(annotation: Any, marks: Iterable[Any]) -> Bounds:
    """Return the tightest bounds among a field's marks and those within its annotation; infinite without."""
    ends: dict[str, list[float]] = {end: [] for end in _ENDS}
    for mark in (*marks, *_marks(annotation)):
        known = getattr(mark, "bounds", None) or {end: getattr(mark, end, None) for end in _ENDS}
        for end in _ENDS:
            if known.get(end) is not None:
                ends[end].append(float(known[end]))
    least, most = (
        max(ends["gt"] + ends["ge"], default=-math.inf),
        min(ends["lt"] + ends["le"], default=math.inf),
    )
    return Bounds(least, most, least in ends["gt"], most in ends["lt"])


def _marks(annotation: Any) -> Iterator[Any]:
    yield from getattr(annotation, "__metadata__", ())
    for inner in get_args(annotation):
        yield from _marks(inner)


def range_words(bounds: Bounds) -> str:
    """Return the range in words: 1 to 90 is allowed; "" where either end is open."""
    if math.isinf(bounds.least) or math.isinf(bounds.most):
        return ""
    words = _("more than {least} to {most} is allowed") if bounds.above else _("{least} to {most} is allowed")
    if bounds.below:
        words = _("{least} to less than {most} is allowed")
    return words.format(least=_bare(bounds.least), most=_bare(bounds.most))


def _bare(number: float) -> str:
    return f"{number:.10g}".replace("-", "\u2212")

"""What is worked out once of a thing and forgotten with it.

A scene, a fitting as it is placed, a section's outline stand until something about them changes. What
many ask of one of them is kept as long as it stands and no longer: a cache of the last hundreds would
hold that many masts, with every array of theirs.
"""

import sys
from collections.abc import Callable
from functools import wraps
from typing import TypeVar, TypeVarTuple
from weakref import WeakKeyDictionary

_Thing = TypeVar("_Thing")
_Rest = TypeVarTuple("_Rest")
_Found = TypeVar("_Found")


def once(work: Callable[[_Thing, *_Rest], _Found]) -> Callable[[_Thing, *_Rest], _Found]:
    """Keep what a function returned for each thing, its first argument, by the other ones.

    Things are told apart as they hash. Neither what is returned nor the other arguments may hold the
    thing, or all of them stay for ever.
    """
    return _kept(work, sys.maxsize)


def lately(most: int) -> Callable[[Callable[[_Thing, *_Rest], _Found]], Callable[[_Thing, *_Rest], _Found]]:
    """Keep as ``once`` does, but of each thing only what was worked out last, as many as ``most``."""

    def kept(work: Callable[[_Thing, *_Rest], _Found]) -> Callable[[_Thing, *_Rest], _Found]:
        """Keep what it returned lately."""
        return _kept(work, most)

    return kept


def _kept(work: Callable[[_Thing, *_Rest], _Found], most: int) -> Callable[[_Thing, *_Rest], _Found]:
    known: WeakKeyDictionary[_Thing, dict[tuple[*_Rest], _Found]] = WeakKeyDictionary()

    @wraps(work)
    def asked(thing: _Thing, *rest: *_Rest) -> _Found:
        """Return what is kept, or work it out."""
        own = known.get(thing)
        if own is None:
            own = known[thing] = {}
        if rest not in own:
            if len(own) >= most:
                del own[next(iter(own))]
            own[rest] = work(thing, *rest)
        return own[rest]

    return asked

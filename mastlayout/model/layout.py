"""The layout: everything one file holds."""

from collections.abc import Sequence
from typing import Annotated, Literal

from pydantic import Field

from mastlayout.model.boat import Boat
from mastlayout.model.fitting import Cable, Fitting, OldHole
from mastlayout.model.kind import Kind
from mastlayout.model.mast import Mast
from mastlayout.model.measure import Measure
from mastlayout.model.rig import Spreader, Stay
from mastlayout.model.sails import Halyard, Pole, Sail
from mastlayout.model.value import Loose, Name, Remark, Value

FORMAT = 1
MOST_ITEMS = 5000

_Many = Field(strict=False, max_length=MOST_ITEMS)


class LimitOverride(Value):
    """An owner's own limit, with the reason that the papers print."""

    key: Name
    value: float
    unit: Name
    why: Annotated[str, Field(min_length=3, max_length=500)]


class Accepted(Value):
    """A finding the owner has accepted; it opens again when it gets worse."""

    code: Name
    subjects: Annotated[tuple[Name, ...], Loose]
    remark: Annotated[str, Field(min_length=1, max_length=2000)]
    day: Annotated[str, Field(pattern=r"^\d{4}-\d{2}-\d{2}$")]
    measured: float | None = None


class Layout(Value):
    """A yacht's mast and all that is planned on it; ids are one space, given once, never reused."""

    format: Literal[1]
    boat: Boat
    mast: Mast
    note: Remark = ""
    retired: Annotated[tuple[Name, ...], _Many] = ()
    spreaders: Annotated[tuple[Spreader, ...], _Many, Measure("layout.spreaders")] = ()
    stays: Annotated[tuple[Stay, ...], _Many, Measure("layout.stays")] = ()
    sails: Annotated[tuple[Sail, ...], _Many] = ()
    poles: Annotated[tuple[Pole, ...], _Many] = ()
    halyards: Annotated[tuple[Halyard, ...], _Many, Measure("layout.halyards")] = ()
    fittings: Annotated[tuple[Fitting, ...], _Many] = ()
    holes: Annotated[tuple[OldHole, ...], _Many, Measure("layout.holes")] = ()
    cables: Annotated[tuple[Cable, ...], _Many] = ()
    kinds: Annotated[tuple[Kind, ...], _Many] = ()
    limits: Annotated[tuple[LimitOverride, ...], _Many] = ()
    accepted: Annotated[tuple[Accepted, ...], _Many] = ()


# The lists of a layout whose items carry an id of the layout's one space.
NAMED = ("spreaders", "stays", "sails", "poles", "halyards", "fittings", "holes", "cables")
LISTS: tuple[str, ...] = (*NAMED, "kinds", "limits", "accepted")


def begun_lists(layout: Layout) -> frozenset[str]:
    """Return the lists that were begun: one that is empty, but not left out, says that somebody looked."""
    return frozenset(layout.model_fields_set & set(NAMED))


def same_items(one: Sequence[object], other: Sequence[object]) -> bool:
    """Tell whether two lists hold the very same objects: an edit makes new lists of the same items."""
    return len(one) == len(other) and all(a is b for a, b in zip(one, other, strict=True))


def same_layout(one: Layout, other: Layout) -> bool:
    """Tell whether two layouts are the same in a file: a list that was never begun is not an empty one."""
    return one is other or (one == other and begun_lists(one) == begun_lists(other))

"""Copying a thing: a new id and tag beside the first, and nothing of what was found or done on it."""

import re

from mastlayout.errors import EditError
from mastlayout.model.edits import add, item_of, next_id, next_tag
from mastlayout.model.fitting import MAST, Fitting, OldHole
from mastlayout.model.layout import Layout
from mastlayout.model.rig import Spreader, Stay
from mastlayout.words import _

# A copy stands clear of the first by this much more than its foot is long.
_APART_MM, _WITHOUT_FOOT_MM = 20.0, 80.0
_NUMBER = re.compile(r"-\d+$")
_MOST_STEM = 50


def copied(layout: Layout, name: str) -> tuple[Layout, str]:
    """Return the layout with a copy of a thing below it (above it at the heel), and the copy's id.

    The copy is another part: its foot is not confirmed and its mass not weighed. EditError where
    the thing cannot be copied.
    """
    part, item = item_of(layout, name)
    match item:
        case Fitting():
            copy: Fitting | OldHole | Spreader | Stay = _fitting(layout, item)
        case OldHole() | Spreader():
            below = _below(layout, item.from_masthead_mm, _WITHOUT_FOOT_MM)
            copy = item.but(id=_new_id(layout, name), from_masthead_mm=below)
        case Stay():
            below = _below(layout, item.upper.from_masthead_mm, _WITHOUT_FOOT_MM)
            copy = item.but(id=_new_id(layout, name), upper=item.upper.but(from_masthead_mm=below))
        case _:
            raise EditError(_("{name} is not copied: it has no place on the mast.").format(name=item.name))
    return add(layout, part, copy), copy.id


def _new_id(layout: Layout, name: str) -> str:
    return next_id(layout, _NUMBER.sub("", name)[:_MOST_STEM])


def _fitting(layout: Layout, fitting: Fitting) -> Fitting:
    another = fitting.but(
        id=next_id(layout, fitting.kind[:_MOST_STEM]),
        tag=next_tag(layout),
        new=True,
        in_hand=None,
        mass_kg=None,
        replaces_kg=None,
        as_built=None,
        holes_built=(),
        done=(),
    )
    apart = _apart_mm(layout, fitting)
    if fitting.on == MAST:
        built = fitting.as_built
        found = built.from_masthead_mm if built else None
        from_masthead = found if found is not None else fitting.from_masthead_mm
        girth = (built.girth if built else None) or fitting.girth
        return another.but(from_masthead_mm=_below(layout, from_masthead or 0.0, apart), girth=girth)
    if fitting.along_mm is not None:
        return another.but(
            along_mm=fitting.along_mm - apart if fitting.along_mm >= apart else fitting.along_mm + apart
        )
    raise EditError(
        _("{name} stands on a mount of {host}, which holds one thing: copy {host} instead.").format(
            name=fitting.name, host=item_of(layout, fitting.on)[1].name
        )
    )


def _apart_mm(layout: Layout, fitting: Fitting) -> float:
    kind = next(kind for kind in layout.kinds if kind.id == fitting.kind)
    foot = fitting.in_hand or kind.foot
    return _APART_MM + (foot.along_mm if foot else _WITHOUT_FOOT_MM)


def _below(layout: Layout, from_masthead_mm: float, apart_mm: float) -> float:
    down = from_masthead_mm + apart_mm
    return round(down if down <= layout.mast.length_mm else from_masthead_mm - apart_mm, 2)

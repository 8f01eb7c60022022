"""Putting a thing at another height, whatever it is."""

from mastlayout.checks.sentence import names_of
from mastlayout.errors import EditError
from mastlayout.model.edits import change, item_of, refuse_as_built
from mastlayout.model.fitting import MAST, Fitting, OldHole
from mastlayout.model.layout import Layout
from mastlayout.model.pairs import level_mate, together
from mastlayout.model.rig import Spreader, Stay
from mastlayout.words import _


def at_height(layout: Layout, name: str, from_masthead_mm: float) -> Layout:
    """Return the layout with a thing at another height; EditError where its height is not its own.

    A spreader takes its mate on the other side along, where both are level.
    """
    _part, item = item_of(layout, name)
    match item:
        case Fitting():
            _refuse_where_fixed(layout, item)
            return change(layout, name, from_masthead_mm=from_masthead_mm)
        case Spreader():
            return _spreaders_at_height(layout, item, from_masthead_mm)
        case OldHole():
            return change(layout, name, from_masthead_mm=from_masthead_mm)
        case Stay():
            return change(layout, name, upper=item.upper.but(from_masthead_mm=round(from_masthead_mm, 2)))
    raise EditError(_("{name} has no height of its own.").format(name=item.name))


def _spreaders_at_height(layout: Layout, bar: Spreader, from_masthead_mm: float) -> Layout:
    mate = level_mate(layout, bar)
    for one in (bar, mate) if mate else (bar,):
        layout = change(layout, one.id, from_masthead_mm=from_masthead_mm)
    return layout


def moved_name(layout: Layout, name: str) -> str:
    """Return what an undo step calls a thing that goes up or down: with its mate where that goes along."""
    _part, item = item_of(layout, name)
    mate = level_mate(layout, item) if isinstance(item, Spreader) else None
    return together(item, mate) if mate else str(item.name)


def _refuse_where_fixed(layout: Layout, fitting: Fitting) -> None:
    if fitting.on != MAST:
        raise EditError(
            _("{name} stands on {host}: it goes where that goes.").format(
                name=fitting.name, host=names_of(layout).get(fitting.on, fitting.on)
            )
        )
    refuse_as_built(fitting, "from_masthead_mm")

"""Moving one thing along or round what it stands on, and turning it; what was found as built stays."""

from typing import Any, Literal

from mastlayout.errors import EditError
from mastlayout.model.around import Around
from mastlayout.model.edits import change, item_of, refuse_as_built
from mastlayout.model.fitting import Fitting, OldHole
from mastlayout.model.layout import Layout
from mastlayout.model.rig import Spreader, Stay
from mastlayout.words import _

End = Literal["upper", "lower"]
_DIGITS = 2
_PLACES = ("from_masthead_mm", "girth")


def at_girth(layout: Layout, name: str, around: Around, end: End = "upper") -> Layout:
    """Return the layout with a thing at another place round the skin; ``end`` is that of a stay.

    EditError where the thing has no girth of its own, or was found as built.
    """
    _part, item = item_of(layout, name)
    around = around.but(offset=round(around.offset, _DIGITS))
    match item:
        case Fitting(on="mast"):
            refuse_as_built(item, "girth")
            return change(layout, name, girth=around)
        case OldHole():
            return change(layout, name, girth=around)
        case Stay():
            return _at_end(layout, item, end, girth=around)
        case Spreader():
            raise EditError(
                _("{name} stands athwart the mast: type its sweep to turn it.").format(name=item.name)
            )
    raise EditError(_("{name} has no place of its own round the mast.").format(name=item.name))


def end_at_height(layout: Layout, name: str, from_masthead_mm: float, end: End) -> Layout:
    """Return the layout with one end of a stay on the mast at another height."""
    _part, stay = item_of(layout, name)
    return _at_end(layout, stay, end, from_masthead_mm=round(from_masthead_mm, _DIGITS))


def _at_end(layout: Layout, stay: Stay, end: End, **fields: Any) -> Layout:
    pin = stay.lower if end == "lower" else stay.upper
    if pin is None:
        raise EditError(_("The lower end of {name} is on deck: type its deck end.").format(name=stay.name))
    return change(layout, stay.id, **{end: pin.but(**fields)})


def turned(layout: Layout, name: str, by_deg: float) -> Layout:
    """Return the layout with a fitting turned in its own foot, clockwise seen from outside."""
    _part, item = item_of(layout, name)
    if not isinstance(item, Fitting):
        raise EditError(
            _("{name} is no fitting: only a fitting is turned in its foot.").format(name=item.name)
        )
    refuse_fitted(item)
    turn = (item.turn_deg + by_deg) % 360.0
    return change(layout, name, turn_deg=turn - 360.0 if turn > 180.0 else turn)


def refuse_fitted(fitting: Fitting) -> None:
    """Raise EditError where any place of a fitting was found as built."""
    for field in _PLACES:
        refuse_as_built(fitting, field)


__all__ = ["End", "at_girth", "end_at_height", "refuse_fitted", "turned"]

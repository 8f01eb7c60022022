"""Taking a thing to the other side of the mast: girth, turn, side and name; twice is where it was."""

from typing import Any

from mastlayout.errors import EditError
from mastlayout.model.around import Around
from mastlayout.model.edits import change, item_of
from mastlayout.model.fitting import MAST, Fitting, OldHole
from mastlayout.model.layout import Layout
from mastlayout.model.moving import refuse_fitted
from mastlayout.model.pairs import OTHER_SIDE, mate_of, other_side_name
from mastlayout.model.rig import MastEnd, Spreader, Stay
from mastlayout.words import _


def other_side(around: Around) -> Around:
    """Return the place round the skin that lies across the centreline."""
    if around.origin == "bearing":
        return around.but(offset=-around.offset % 360.0)
    return around.but(offset=-around.offset) if around.offset else around


def mirrored(layout: Layout, name: str) -> Layout:
    """Return the layout with a thing on the other side; EditError says why one cannot go there."""
    _part, item = item_of(layout, name)
    fields: dict[str, Any] = {"name": other_side_name(item.name)}
    match item:
        case Fitting():
            refuse_fitted(item)
            fields |= _fitting(layout, item)
        case OldHole():
            fields["girth"] = other_side(item.girth)
        case Spreader() | Stay() if item.side == "centre":
            raise EditError(_("{name} is on the centreline: it has no other side.").format(name=item.name))
        case Spreader():
            fields["side"] = OTHER_SIDE[item.side]
        case Stay():
            fields |= _stay(layout, item)
        case _:
            raise EditError(_("{name} has no other side.").format(name=item.name))
    return change(layout, name, **fields)


def _fitting(layout: Layout, fitting: Fitting) -> dict[str, Any]:
    turn = {"turn_deg": -fitting.turn_deg if fitting.turn_deg else 0.0}
    if fitting.on == MAST and fitting.girth is not None:
        return turn | {"girth": other_side(fitting.girth)}
    host = item_of(layout, fitting.on)[1]
    if isinstance(host, Fitting):
        raise EditError(
            _("{name} stands on {host}: mirror that, and it goes along.").format(
                name=fitting.name, host=host.name
            )
        )
    mate = host if host.side == "centre" else _mate(layout, host)
    round_deg = fitting.round_deg
    if isinstance(host, Stay) and round_deg:
        round_deg = -round_deg  # a bearing; round a spreader ahead is ahead on both sides
    return turn | {"on": mate.id, "round_deg": round_deg}


def _stay(layout: Layout, stay: Stay) -> dict[str, Any]:
    tips = tuple(item_of(layout, name)[1] for name in stay.via)
    return {
        "side": OTHER_SIDE[stay.side],
        "upper": _end(stay.upper),
        "lower": _end(stay.lower) if stay.lower else None,
        "via": tuple(tip.id if tip.side == "centre" else _mate(layout, tip).id for tip in tips),
    }


def _end(end: MastEnd) -> MastEnd:
    return end.but(girth=other_side(end.girth))


def _mate(layout: Layout, item: Spreader | Stay) -> Spreader | Stay:
    mate = mate_of(layout, item)
    if mate is None:
        raise EditError(
            _("There is no “{mate}” on the other side of {name}: add it first.").format(
                mate=other_side_name(item.name), name=item.name
            )
        )
    return mate

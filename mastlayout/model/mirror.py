"""Taking a thing to the other side of the mast: girth, turn, side and name; twice is where it was."""

import re
from typing import Any

from mastlayout.errors import EditError
from mastlayout.model.around import Around
from mastlayout.model.edits import change, item_of
from mastlayout.model.fitting import MAST, Fitting, OldHole
from mastlayout.model.layout import Layout
from mastlayout.model.moving import refuse_fitted
from mastlayout.model.rig import MastEnd, Side, Spreader, Stay
from mastlayout.words import _

# "Winch, S", "Winch, S, lower", "Winch S"; and the words in full.
_SIDE = re.compile(r"(?<=, )[PS](?=$|[ ,])|(?<= )[PS]$|\b(?:port|starboard)\b", re.IGNORECASE)
_OTHER = {"P": "S", "S": "P", "port": "starboard", "starboard": "port"}
_OTHER_SIDE: dict[Side, Side] = {"port": "starboard", "starboard": "port"}


def other_side_name(name: str) -> str:
    """Return a name with P and S, port and starboard swapped, capitals kept."""
    return _SIDE.sub(lambda found: _swapped(found[0]), name)


def _swapped(word: str) -> str:
    if word in _OTHER:
        return _OTHER[word]
    other = _OTHER.get(word.lower())
    if other is None:
        return word  # a small p or s is no side
    return other.upper() if word.isupper() else other.capitalize()


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
            fields["side"] = _OTHER_SIDE[item.side]
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
        "side": _OTHER_SIDE[stay.side],
        "upper": _end(stay.upper),
        "lower": _end(stay.lower) if stay.lower else None,
        "via": tuple(tip.id if tip.side == "centre" else _mate(layout, tip).id for tip in tips),
    }


def _end(end: MastEnd) -> MastEnd:
    return end.but(girth=other_side(end.girth))


def _mate(layout: Layout, item: Spreader | Stay) -> Spreader | Stay:
    """Return the spreader or stay that is an item's like on the other side."""
    everything: tuple[Spreader | Stay, ...] = layout.spreaders if isinstance(item, Spreader) else layout.stays
    across = [
        other for other in everything if other.role == item.role and other.side == _OTHER_SIDE[item.side]
    ]
    called = other_side_name(item.name)
    mate = next((other for other in across if other.name == called), None)
    if mate is None and len(across) == 1:
        mate = across[0]
    if mate is None:
        raise EditError(
            _("There is no “{mate}” on the other side of {name}: add it first.").format(
                mate=called, name=item.name
            )
        )
    return mate

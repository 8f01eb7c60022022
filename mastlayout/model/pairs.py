"""What stands to port and its like to starboard: which two are a pair, and what to call them together."""

import re

from mastlayout.model.layout import Layout
from mastlayout.model.rig import Side, Spreader, Stay
from mastlayout.words import _

# "Winch, S", "Winch, S, lower", "Winch S"; and the words in full.
_SIDE = re.compile(r"(?<=, )[PS](?=$|[ ,])|(?<= )[PS]$|\b(?:port|starboard)\b", re.IGNORECASE)
_OTHER = {"P": "S", "S": "P", "port": "starboard", "starboard": "port"}
OTHER_SIDE: dict[Side, Side] = {"port": "starboard", "starboard": "port"}
# Heights are typed to this.
_LEVEL_MM = 0.01
_COUNTED = ("spreader", "strut")


def other_side_name(name: str) -> str:
    """Return a name with P and S, port and starboard swapped, capitals kept."""
    return _SIDE.sub(lambda found: _swapped(found[0]), name)


def sideless_name(name: str) -> str:
    """Return a name without its side: what both of a pair are called."""
    return re.sub(r"^[\s,]+|[\s,]+$", "", re.sub(r"\s*,(?=\s*(?:,|$))", "", _SIDE.sub("", name))) or name


def _swapped(word: str) -> str:
    if word in _OTHER:
        return _OTHER[word]
    other = _OTHER.get(word.lower())
    if other is None:
        return word  # a small p or s is no side
    return other.upper() if word.isupper() else other.capitalize()


def mate_of(layout: Layout, item: Spreader | Stay) -> Spreader | Stay | None:
    """Return the spreader or stay that is an item's like on the other side, None where there is none."""
    across = _across(layout, item)
    called = other_side_name(item.name)
    named = next((other for other in across if other.name == called), None)
    return across[0] if named is None and len(across) == 1 else named


def level_mate(layout: Layout, bar: Spreader) -> Spreader | None:
    """Return the spreader that goes up and down with one: its like on the other side, at its height."""
    level = [
        other
        for other in _across(layout, bar)
        if isinstance(other, Spreader) and abs(other.from_masthead_mm - bar.from_masthead_mm) <= _LEVEL_MM
    ]
    mate = mate_of(layout, bar)
    return next((other for other in level if other is mate), level[0] if len(level) == 1 else None)


def together(one: Spreader, other: Spreader) -> str:
    """Return what to call a pair: Lower spreaders."""
    base = without_side(one.name)
    if base == without_side(other.name) and base.lower().endswith(_COUNTED):
        return _("{name}s").format(name=base)
    return _("{one} and {other}").format(one=one.name, other=other.name)


def without_side(name: str) -> str:
    """Return a name without what says its side: Lower spreader."""
    base = _SIDE.sub("", name).strip(", ")
    return base[:1].upper() + base[1:]


def _across(layout: Layout, item: Spreader | Stay) -> list[Spreader | Stay]:
    everything: tuple[Spreader | Stay, ...] = layout.spreaders if isinstance(item, Spreader) else layout.stays
    side = OTHER_SIDE.get(item.side)
    return [other for other in everything if other.role == item.role and other.side == side]

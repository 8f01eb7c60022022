"""What rings say in words: each light or antenna by its number, what stands before it by its letter."""

import string
from collections.abc import Mapping, Sequence

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.arcs import overlap_deg
from mastlayout.ranges.rings import Bearings, InTheWay, Ring
from mastlayout.ranges.sails_before import SailBefore
from mastlayout.words import _


@dataclass(frozen=True)
class Lettered:
    """A thing in a ring's way under its letter, its line, and where a light is dark behind it."""

    letter: str
    thing: InTheWay
    line: str
    dark: Bearings | None


@dataclass(frozen=True)
class Numbered:
    """A ring under its number: its title, and what stands in its way within its arcs."""

    number: int
    ring: Ring
    title: str
    things: tuple[Lettered, ...]


def numbered(rings: Sequence[Ring], names: Mapping[str, str]) -> tuple[Numbered, ...]:
    """Number rings and letter what stands in their way; what is outside their arcs is left out."""
    return tuple(_numbered(count, ring, names) for count, ring in enumerate(rings, 1))


def _numbered(count: int, ring: Ring, names: Mapping[str, str]) -> Numbered:
    things = [thing for thing in ring.in_the_way if _within(ring, thing)]
    lettered = tuple(
        Lettered(
            string.ascii_lowercase[i % 26],
            thing,
            _line(ring, thing, names),
            thing.dark if ring.is_light else None,
        )
        for i, thing in enumerate(things)
    )
    shows = ", ".join(arc.name for arc in ring.arcs)
    return Numbered(count, ring, _("{name}: {shows}").format(name=ring.name, shows=shows), lettered)


def _within(ring: Ring, thing: InTheWay) -> bool:
    arcs = np.array([thing.seen])
    return any(float(overlap_deg(arcs, arc.first_deg, arc.last_deg)[0]) > 0 for arc in ring.arcs)


def _line(ring: Ring, thing: InTheWay, names: Mapping[str, str]) -> str:
    said = {"thing": names.get(thing.id, thing.id), "seen": between(thing.seen), "share": 100 * thing.share}
    if not ring.is_light:
        return _("{thing} stands before it, {seen}").format(**said)
    if thing.dark is not None:
        return _("{thing}, {seen}: dark {dark}").format(**said, dark=between(thing.dark))
    return _("{thing}, {seen}: dimmed, {share:.0f} % of the lens covered").format(**said)


def nothing() -> str:
    """Return what is said of a ring that nothing stands before."""
    return _("nothing in its way")


def sail_seen(one: SailBefore) -> str:
    """Write where a sail stands: 104° to 256°; what may be anywhere is so on the lee side alone."""
    return _("ahead to aft, lee side") if one.all_round else between(one.seen)


def between(bearings: Bearings) -> str:
    """Write bearings as a compass does: 206° to 213°."""
    first, last = (round(bearing) % 360 for bearing in bearings)
    if first == last:
        return f"{first:03d}°"
    return _("{first:03d}° to {last:03d}°").format(first=first, last=last)

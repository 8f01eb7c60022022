"""Fasteners as they are bought: by size, length or grip, and metal, with spares."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import field
from typing import TypeVar

from mastlayout.documents.rows import OrderRow
from mastlayout.documents.schedule.places import tags_of
from mastlayout.fastening.at_hole import choices
from mastlayout.fastening.choice import Choice
from mastlayout.fastening.words import bought_as, not_chosen_words
from mastlayout.frozen import dataclass
from mastlayout.geometry.placed import Placed
from mastlayout.limits import Limits
from mastlayout.model.kind import Fastener
from mastlayout.units import Units, write_size
from mastlayout.words import _

_Key = TypeVar("_Key", bound=tuple[str, ...])


@dataclass
class _Lot:
    """All fasteners of one size, metal and state."""

    size: str
    count: int = 0
    of: list[Placed] = field(default_factory=list)


def fastener_rows(new: Iterable[Placed], limits: Limits, units: Units) -> Iterator[OrderRow]:
    """Yield the fasteners of new fittings with their spares, then compression tubes to cut."""
    lots: dict[tuple[str, str, str], _Lot] = {}
    tubes: dict[tuple[str, str], _Lot] = {}
    for placed in new:
        for fastener, choice in held_by(placed):
            what = bought_as(choice) if choice else fastener.size
            state = _state(placed, choice)
            _into(lots, (what, fastener.metal or "", state), _grip(choice, units), placed)
            if choice and choice.tube_mm is not None:
                size = _("cut {length}").format(length=write_size(choice.tube_mm, units=units))
                _into(
                    tubes,
                    (_("Compression tube for {thread}").format(thread=fastener.thread), size),
                    size,
                    placed,
                )
    spares = limits["order.spares"].value
    for (what, metal, state), lot in sorted(lots.items()):
        words = ", ".join(part for part in (_(metal) if metal else _("metal not known"), lot.size) if part)
        extra = max(1, math.ceil(lot.count * spares / 100.0 - 1e-9))
        yield OrderRow(
            "fasteners",
            what,
            words,
            lot.count,
            None if state else lot.count + extra,
            "",
            tags_of(lot.of),
            state,
        )
    for (what, size), lot in sorted(tubes.items()):
        yield OrderRow("fasteners", what, size, lot.count, lot.count, "", tags_of(lot.of))


def held_by(placed: Placed) -> Iterator[tuple[Fastener, Choice | None]]:
    """Yield each fastener of a fitting, with what is chosen for it once its foot is in hand."""
    if placed.holes is not None and placed.foot_known:
        found = ((opening.fastener, choice) for opening, choice in choices(placed))
    else:
        found = ((hole.fastener, None) for hole in (placed.foot.holes if placed.foot else ()))
    return ((fastener, choice) for fastener, choice in found if fastener.is_one)


def _state(placed: Placed, choice: Choice | None) -> str:
    """Return why a fastener is not bought yet; empty where it may be."""
    if not placed.foot_known and placed.foot is not None:
        return _("once part is in hand")
    if placed.skin is None:
        return _("length from the part")
    if placed.skin.mast.material != "aluminium":
        return _("its builder decides")
    if choice is None:
        return not_chosen_words(placed)
    if choice.fastener.how == "rivet" and choice.grip is None:
        return _("no rivet listed: ask its maker")
    return ""


def _grip(choice: Choice | None, units: Units) -> str:
    if choice is None or choice.grip is None:
        return ""
    low, high = (write_size(size, units=units) for size in (choice.grip.low_mm, choice.grip.high_mm))
    return _("grip {low} to {high}").format(low=low, high=high)


def _into(lots: dict[_Key, _Lot], key: _Key, size: str, placed: Placed) -> None:
    lot = lots.setdefault(key, _Lot(size))
    lot.count += 1
    lot.of.append(placed)

"""Packers and backing bars of the order sheet: what is made to lie under a new foot, or behind its wall."""

from collections.abc import Iterable, Iterator

from mastlayout.documents.rows import OrderRow
from mastlayout.documents.schedule.foot import packer_words
from mastlayout.documents.schedule.places import tag_of
from mastlayout.fastening.curve import packer_of
from mastlayout.geometry.placed import Placed
from mastlayout.limits import Limits
from mastlayout.units import Units, write_length, write_size
from mastlayout.words import _


def packer_rows(new: Iterable[Placed], limits: Limits, units: Units) -> Iterator[OrderRow]:
    """Yield a packer for each new foot that stands off the skin, or farther off it than bedding fills."""
    for placed in new:
        skin, foot = placed.skin, placed.foot
        packer = packer_of(skin, foot, placed.places) if skin and foot else None
        if foot is None or packer is None:
            continue
        if placed.fitting.stand_off_mm <= 0.0 and packer.thick_mm <= limits["seat.gap"].value:
            continue
        size = f"{write_length(foot.across_mm, units)} × {write_length(foot.along_mm, units)}"
        words = _("{size}, {packer}").format(size=size, packer=packer_words(packer, units))
        state = "" if placed.foot_known else _("once part is in hand")
        yield OrderRow(
            "consumables", _("Packer or saddle, made to fit"), words, 1, None if state else 1, "",
            tag_of(placed), state,
        )  # fmt: skip


def backing_rows(new: Iterable[Placed], units: Units) -> Iterator[OrderRow]:
    """Yield a bar for each new foot that has one behind the wall, as large as the foot."""
    for placed in new:
        foot = placed.foot
        if foot is None or not foot.backing_mm:
            continue
        size = f"{write_length(foot.across_mm, units)} × {write_length(foot.along_mm, units)}"
        words = _("{size}, {thick} thick").format(size=size, thick=write_size(foot.backing_mm, units=units))
        state = "" if placed.foot_known else _("once part is in hand")
        yield OrderRow(
            "consumables", _("Backing bar, of the mast’s metal"), words, 1, None if state else 1, "",
            tag_of(placed), state,
        )  # fmt: skip

"""What a ship sees of a reflector at a height, in words."""

from collections.abc import Sequence

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.ranges.echo import X_BAND
from mastlayout.ranges.horizon import RADIO, range_nm
from mastlayout.ranges.two_ray import fades, first_seen_nm, lobes
from mastlayout.units import M_PER_FT, Units, write_height
from mastlayout.words import _, ngettext

_JOINED = " · "


@dataclass(frozen=True, eq=False)
class Lane:
    """What one ship sees: her antenna, the horizon, where she first sees it (0 where not told); in words.

    ``share`` (n,) of an echo without the sea comes home from distances ``nm`` (n,).
    """

    ship_m: float
    nm: Array
    share: Array
    horizon_nm: float
    first_nm: float
    title: str
    parts: tuple[str, ...]

    @property
    def told(self) -> str:
        """All of it in one line."""
        return _JOINED.join(self.parts)


def lane_of(height_m: float, ship_m: float, echo_m2: float | None, units: Units) -> Lane:
    """Return what a ship's radar sees of a reflector at a height; ``echo_m2`` None where it is not known."""
    horizon = float(range_nm(np.asarray(ship_m), height_m, RADIO))
    first = first_seen_nm(echo_m2, height_m, ship_m, X_BAND.wave_m) if echo_m2 else 0.0
    title = _("Ship's antenna {antenna}").format(antenna=antenna_words(ship_m, units))
    nm, share = lobes(height_m, ship_m, X_BAND.wave_m)
    return Lane(ship_m, nm, share, horizon, first, title, _told(height_m, ship_m, horizon, first))


def antenna_words(ship_m: float, units: Units) -> str:
    """Write how high a ship's antenna is."""
    return f"{ship_m / M_PER_FT:.0f} ft" if units == "inches" else f"{ship_m:g} m"


def _told(height_m: float, ship_m: float, horizon: float, first: float) -> tuple[str, ...]:
    every = fades(height_m, ship_m, X_BAND.wave_m)
    found = [fade for fade in every if not fade.horizon]
    parts = [_("first seen {nm:.1f} NM").format(nm=first)] if first else []
    parts.append(_("no fade"))
    if found:
        words = ngettext(
            "{n} fade, {first:.1f} to {last:.1f}", "{n} fades, the last {first:.1f} to {last:.1f}", len(found)
        )
        parts[-1] = words.format(n=len(found), first=found[-1].from_nm, last=found[-1].to_nm)
    if every and every[-1].horizon:
        parts.append(_("weak from {nm:.1f}").format(nm=every[-1].from_nm))
    parts.append(_("horizon {nm:.1f} NM").format(nm=horizon))
    return tuple(parts)


def spoken(lanes: Sequence[Lane], height_m: float | None, units: Units) -> str:
    """Return all of it in words, or why there is none."""
    if height_m is None:
        return _("The height above the water is not known: measure from the waterline to the heel.")
    if not lanes:
        return _("Under the water nothing sends an echo back.")
    said = ". ".join(f"{lane.title}: {lane.told}" for lane in lanes)
    return _("A reflector {height} above the water. {said}.").format(
        height=write_height(height_m, units), said=said
    )

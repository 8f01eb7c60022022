"""The skin unrolled on paper about one of the mast's two centrelines, as a sheet of known thickness lies."""

from typing import Literal

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.skin import Ring, Skin
from mastlayout.model.mast import Taper

Middle = Literal["forward", "aft"]


@dataclass(frozen=True, eq=False)
class Unrolled:
    """The skin on flat paper: to the right of the line in the middle, and up from the height ``z_mm``.

    Seen from outside with the masthead up, mm. An offset is a girth counted from that line, on the
    skin. ``paper_mm`` is the sheet's thickness: it bends about its own middle, which lies half of that
    off the skin, so a place is farther along on paper by half the thickness times the angle turned.
    """

    skin: Skin
    z_mm: float
    middle: Middle
    paper_mm: float = 0.0

    def offset(self, girth_mm: Array, z_mm: Array, near_mm: float = 0.0) -> Array:
        """Return the offsets (n,) of girths (n,) at heights (n,), the way round to near ``near_mm``."""
        half = self.skin.half_girth(z_mm)
        plain = girth_mm - (half if self.middle == "forward" else 0.0)
        return np.asarray(plain + 2 * half * np.round((near_mm - plain) / (2 * half)))

    def sheet(self, offset_mm: Array, z_mm: Array) -> Array:
        """Return the places (n, 2), right and up, of offsets (n,) at heights (n,)."""
        offset, z = np.broadcast_arrays(np.asarray(offset_mm, float), np.asarray(z_mm, float))
        found = np.empty((len(z), 2))
        for height in np.unique(z):
            level = z == height
            found[level] = self._on_ring(offset[level], float(height))
        return found

    def at(self, girth_mm: Array, z_mm: Array, near_mm: float = 0.0) -> Array:
        """Return the places (n, 2), right and up, of girths (n,) at heights (n,)."""
        return self.sheet(self.offset(girth_mm, z_mm, near_mm), z_mm)

    def _on_ring(self, offset: Array, z_mm: float) -> Array:
        ring, taper = self.skin.ring(z_mm), self.skin.taper
        right = offset + self.paper_mm / 2 * self._turned(ring, offset)
        up = np.zeros(len(offset))
        if taper is None:
            return np.stack([right, up + z_mm - self.z_mm], axis=-1)
        if z_mm > self._taper_start(taper):
            along, away, rise = self._bent(ring, taper)
            size = np.minimum(np.abs(offset), ring.half_girth_mm)
            right += np.sign(offset) * (np.interp(size, along, away) - size)
            up = np.interp(size, along, rise)
        return np.stack([right, up + self._up_the_line(z_mm) - self._up_the_line(self.z_mm)], axis=-1)

    def _turned(self, ring: Ring, offset: Array) -> Array:
        """Return by how many radians the skin has turned from the line, positive to the right."""
        half = ring.half_girth_mm
        rounds = np.round(offset / (2 * half))
        within = offset - rounds * 2 * half
        _point, normal = ring.at(within + (half if self.middle == "forward" else 0.0))
        ahead = normal[..., 0] if self.middle == "forward" else -normal[..., 0]
        return np.asarray(rounds * 2 * np.pi + np.sign(within) * np.arccos(np.clip(ahead, -1.0, 1.0)))

    def _taper_start(self, taper: Taper) -> float:
        return self.skin.length_mm - taper.from_masthead_mm

    def _slopes(self, ring: Ring, taper: Taper) -> Array:
        """Return how steeply the skin closes in upwards (k,), as tangents, at the knots of a ring."""
        top, full = self.skin.ring(self.skin.length_mm), self.skin.full
        step = np.stack([top.x - full.x, top.y - full.y], axis=-1) / taper.from_masthead_mm
        return np.asarray(-(step[:, 0] * ring.nx + step[:, 1] * ring.ny))

    def _bent(self, ring: Ring, taper: Taper) -> tuple[Array, Array, Array]:
        """Return for a ring in the taper how its line bends on paper: girth from the line, right and up.

        A level ring on a skin that closes in is no straight line on flat paper: as on a cone it bends
        towards the masthead, by the sine of the slope for each radian that the skin turns.
        """
        order = slice(None, None, -1) if self.middle == "forward" else slice(None)
        slope = np.sin(np.arctan(self._slopes(ring, taper)))[order]
        along = np.abs(ring.girth - ring.girth[order][0])[order]
        turned = np.unwrap(np.arctan2(ring.ny, ring.nx))[order]
        angle = _summed((slope[1:] + slope[:-1]) / 2 * np.abs(np.diff(turned)))
        step, middle = np.diff(along), (angle[1:] + angle[:-1]) / 2
        return along, _summed(np.cos(middle) * step), _summed(np.sin(middle) * step)

    def _up_the_line(self, z_mm: float) -> float:
        """Return how far up the line a height is, along the skin: longer than its z where the line slopes."""
        taper = self.skin.taper
        if taper is None or z_mm <= self._taper_start(taper):
            return z_mm
        start = self._taper_start(taper)
        slope = self._slopes(self.skin.full, taper)[-1 if self.middle == "forward" else 0]
        return float(start + (z_mm - start) * np.hypot(1.0, slope))


def _summed(parts: Array) -> Array:
    return np.concatenate([[0.0], np.cumsum(parts)])

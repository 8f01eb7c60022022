"""What openings take of a section: of its girth, and of both its moduli, all sides together.

The outline is the true one, its wall constant. An opening takes a strip of the wall as wide as its
drill. Those that do not stand quite level count together by the rule of staggered holes: a tear
that steps from one to the other gains s2 / 4g (EN 1993-1-1, 6.2.2.2, and AISC 360 B4.3b, from memory).
"""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.section import Properties, tube_properties
from mastlayout.geometry.skin import Ring, Skin
from mastlayout.once import once

# Gauss's three points and weights over a strip's width, from -1 to 1.
_AT = np.array([-np.sqrt(0.6), 0.0, np.sqrt(0.6)])
_WEIGHT = np.array([5.0, 8.0, 5.0]) / 18.0
# In a taper the section is taken at steps of this: it moves a share by less than a hundredth of itself.
_STEP_MM = 50.0
# The widest that openings at one level are looked through for what surely stands.
_WIDEST_MM = 400.0


@dataclass(frozen=True, eq=False)
class Left:
    """What is left, in hundredths: of the girth, and of the moduli fore and aft and athwart. Arrays (n,)."""

    girth: Array
    fore_aft: Array
    athwart: Array

    @property
    def least_modulus(self) -> Array:
        """The smaller of the two moduli's shares."""
        return np.minimum(self.fore_aft, self.athwart)


def properties_at(skin: Skin, z_mm: float, wall_mm: float) -> tuple[Ring, Properties]:
    """Return outline and properties of the section at a height, each outline's worked out once."""
    ring = skin.ring(float(section_mm(skin, np.array(z_mm))))
    return ring, _properties(ring, wall_mm)


_properties = once(tube_properties)


def section_mm(skin: Skin, z_mm: Array) -> Array:
    """Return the height whose section stands for heights (any shape); 0 for all below a taper."""
    taper = skin.taper
    if taper is None:
        return np.zeros(z_mm.shape)
    section = np.rint(z_mm / _STEP_MM) * _STEP_MM
    return np.where(section > height_mm(skin.length_mm, taper.from_masthead_mm), section, 0.0)


def counted_mm(width_mm: Array, step_mm: Array, round_mm: Array | float) -> Array:
    """Return what of a width counts in a tear that steps along the mast by s over a distance g round it.

    Never less than nothing; what stands level counts whole, what stands straight above counts nothing.
    """
    gain = step_mm**2 / (4.0 * np.maximum(round_mm, 1e-9))
    return np.asarray(np.maximum(width_mm - gain, 0.0))


def farthest_mm(width_mm: Array, half_girth_mm: float) -> Array:
    """Return how far along the mast widths may count at all: where the tear steps the farthest round it."""
    return np.sqrt(4.0 * half_girth_mm * width_mm)


def moments(skin: Skin, z_mm: Array, girth_mm: Array, width_mm: Array, wall_mm: float) -> Array:
    """Return, for strips of the wall (…,), each mm of width's share of 1, x, y, x2 and y2: (…, 5)."""
    points, normals = skin.at(z_mm[..., None], girth_mm[..., None] + width_mm[..., None] / 2 * _AT)
    at = (points - wall_mm / 2 * normals)[..., :2]
    x, y = at[..., 0], at[..., 1]
    return np.stack([(power * _WEIGHT).sum(axis=-1) for power in (np.ones_like(x), x, y, x * x, y * y)], -1)


def left_of(ring: Ring, whole: Properties, width_mm: Array, sums: Array, wall_mm: float) -> Left:
    """Return what is left where openings take ``width_mm`` (n,) in all, with ``sums`` (n, 5) of moments.

    Moduli are about the axes through the centroid of what is left, for the fibre farthest from it.
    """
    taken, x, y, xx, yy = np.moveaxis(wall_mm * sums, -1, 0)
    middle = whole.centroid_x_mm
    x, xx = x - middle * taken, xx - 2 * middle * x + middle**2 * taken
    metal = np.maximum(whole.area_mm2 - taken, 1e-9)
    x_mid, y_mid = -x / metal, -y / metal
    fore_aft = whole.fore_aft_mm4 - xx - metal * x_mid**2
    athwart = whole.athwart_mm4 - yy - metal * y_mid**2
    far_x = np.maximum(ring.x[-1] - middle - x_mid, middle - ring.x[0] + x_mid)
    far_y = ring.y.max() + np.abs(y_mid)
    return Left(
        100.0 * (1.0 - width_mm / whole.girth_mm),
        100.0 * np.maximum(fore_aft, 0.0) / far_x / whole.fore_aft_mm3,
        100.0 * np.maximum(athwart, 0.0) / far_y / whole.athwart_mm3,
    )


def harmless_mm(ring: Ring, whole: Properties, wall_mm: float, left_percent: float) -> float:
    """Return how wide openings may be in all and surely leave that share of either modulus.

    As if all of it were taken from one extreme fibre: no other place takes more.
    """
    width = np.linspace(0.0, _WIDEST_MM, 801)
    taken = np.minimum(width * wall_mm, 0.9 * whole.area_mm2)
    metal = whole.area_mm2 - taken
    enough = np.ones(len(width), dtype=bool)
    far_x = max(ring.x[-1] - whole.centroid_x_mm, whole.centroid_x_mm - ring.x[0])
    for far, second in ((far_x, whole.fore_aft_mm4), (float(ring.y.max()), whole.athwart_mm4)):
        shift = taken * far / metal
        inertia = second - taken * far**2 - metal * shift**2
        enough &= 100.0 * inertia / second * far / (far + shift) >= left_percent
    return float(width[np.argmin(enough)] - width[1]) if not enough.all() else _WIDEST_MM

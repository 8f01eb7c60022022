"""The prebend: the mast stands forward of the straight line between its ends.

The mast frame follows the mast, so that it is what is straight there, and a wire between a pin on
the mast and the deck is what moves: aft, against the mast, in the middle.
"""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array


@dataclass(frozen=True)
class Bend:
    """A parabola from heel to masthead, ``middle_mm`` forward at its middle."""

    length_mm: float
    middle_mm: float

    def at(self, z_mm: Array | float) -> Array:
        """Return how far forward the mast stands at heights."""
        part = np.asarray(z_mm) / self.length_mm
        return np.asarray(4 * self.middle_mm * np.clip(part * (1 - part), 0.0, None))

    def of_line(self, part: Array, upper_z_mm: Array | float) -> Array:
        """Return how far a straight wire goes forward with its upper pin, at parts of its height."""
        return np.asarray(np.clip(part, 0.0, 1.0) * self.at(upper_z_mm))

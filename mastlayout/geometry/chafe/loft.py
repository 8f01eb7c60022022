"""A sail laid flat: places (out, up) on it, square from the luff and up the luff from the tack."""

from typing import TYPE_CHECKING

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.main.cloth import PARTS, Swung
from mastlayout.geometry.tack.cloth import Cloths
from mastlayout.model.sails import Reef, Sail

if TYPE_CHECKING:
    from shapely import LineString, Polygon


@dataclass(frozen=True, eq=False)
class Loft:
    """A sail, its ``leech`` (k, 2) from the clew up, and how to lay flat what is at a height of the mast.

    The luff leans ``sine`` aft of the mast; its tack is ``tack_mm`` above the heel, and the cloth
    begins ``begins_mm`` abaft the luff. Of a reefed one ``reefed_mm`` of the luff are below the boom.
    """

    sail: Sail
    leech: Array
    sine: float
    tack_mm: float
    begins_mm: float
    reef: Reef | None = None
    reefed_mm: float = 0.0

    @property
    def name(self) -> str:
        """The sail's name, and its reef's."""
        return f"{self.sail.name}, {self.reef.name}" if self.reef else self.sail.name

    @property
    def outline(self) -> Array:
        """Tack, clew, leech and head (k, 2)."""
        return np.concatenate([np.zeros((1, 2)), self.leech, [[0.0, self.leech[-1, 1]]]])

    @property
    def luff_mm(self) -> float:
        """How long the luff is."""
        return float(self.leech[-1, 1])

    def lay(self, z_mm: Array, away_mm: Array, swung: Array) -> Array:
        """Return the places (r, 2) of cloth at heights, so far from the luff square to the mast.

        ``swung`` is how far off straight aft it is led, radians.
        """
        away = np.maximum(away_mm - self.begins_mm, 0.0)
        along = self.sine * np.cos(swung)
        up = (z_mm - self.tack_mm) / np.sqrt(1 - self.sine**2) + away * along
        return np.asarray(np.stack([away * np.sqrt(1 - along**2), up], axis=-1))


def loft_of_headsail(cloths: Cloths, state: int) -> Loft:
    """Return the loft of a state of a headsail."""
    sail, cos = cloths.states[state].sail, float(cloths.luffs.cosine[cloths.luff[state]])
    tack = height_mm(cloths.luffs.bend.length_mm, float(sail.tack_mm or 0.0))
    z_mm, width = cloths.corner_z[state, 1:], cloths.width[state, 1:]
    up = (z_mm - tack) / cos + width * np.sqrt(1 - cos**2) / cos
    return Loft(
        sail, np.stack([width, up], axis=1), float(np.sqrt(1 - cos**2)), tack, float(cloths.begins_mm[state])
    )


def loft_of_main(state: Swung) -> Loft:
    """Return the loft of a mainsail: its luff is the track."""
    up = PARTS * (state.full_mm - state.low_mm)
    leech = np.stack([state.width, up], axis=1)
    return Loft(state.state.sail, leech, 0.0, state.low_mm, 0.0, state.state.reef, state.down_mm)


def polygon(loft: Loft) -> "Polygon":
    """Return a sail's outline as a polygon."""
    import shapely  # noqa: PLC0415 - 0.1 s, and a check needs none

    return shapely.Polygon(loft.outline).buffer(0)


def leech_line(loft: Loft) -> "LineString":
    """Return a sail's leech as a line from the clew up."""
    import shapely  # noqa: PLC0415 - as above

    return shapely.LineString(loft.leech)

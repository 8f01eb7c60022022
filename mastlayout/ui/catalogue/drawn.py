"""A kind as it is drawn: its solids seen from the side and from the front, as it stands on its host."""

import numpy as np
from PySide6.QtGui import QPainterPath

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Body, body_of
from mastlayout.geometry.silhouette import silhouettes
from mastlayout.model.kind import Kind
from mastlayout.ui.elevation.shapes import FRAME_PARTS, polygon_path

# To the right and up in each drawing, in the kind's own frame: across, along, out.
_ACROSS, _ALONG, _OUT = np.eye(3)
_VIEWS: dict[str, tuple[Array, Array]] = {
    # On the fore face: from starboard with the bow at the right, and from ahead.
    "mast": (np.array([_OUT, _ALONG]), np.array([_ACROSS, _ALONG])),
    # On what faces up: along is ahead, across is to starboard.
    "mount up": (np.array([_ALONG, _OUT]), np.array([-_ACROSS, _OUT])),
    # Under a spreader: along is outboard.
    "spreader": (np.array([_ACROSS, -_OUT]), np.array([_ALONG, -_OUT])),
}


@dataclass(frozen=True, eq=False)
class Drawing:
    """One view: parts back to front, each a path in mm and whether it is bracket or body; its bounds."""

    parts: tuple[tuple[QPainterPath, bool], ...]
    low: Array
    high: Array

    @property
    def size(self) -> Array:
        """How wide and how high it is, mm."""
        return np.asarray(self.high - self.low)


@dataclass(frozen=True, eq=False)
class Drawn:
    """A kind from the side and from the front; ``on_mast`` tells that the mast stands behind it."""

    side: Drawing
    front: Drawing
    on_mast: bool


def drawn(kind: Kind) -> Drawn:
    """Return the drawings of a kind."""
    body = body_of(kind)
    seat = _seat(kind)
    side, front = (_drawing(body, axes) for axes in _VIEWS[seat])
    return Drawn(side, front, seat == "mast")


def _seat(kind: Kind) -> str:
    first = kind.sits_on[0] if kind.sits_on else "mast"
    return first if first in _VIEWS else "mast"


def _drawing(body: Body, axes: Array) -> Drawing:
    shadows = silhouettes(body.solids, axes)
    towards = np.cross(axes[0], axes[1])
    order = np.argsort(body.solids.centre @ towards, kind="stable")
    parts = tuple((polygon_path(shadows[i]), body.parts[i] in FRAME_PARTS) for i in order)
    points = np.concatenate([shadows.reshape(-1, 2), np.zeros((1, 2))])
    return Drawing(parts, points.min(axis=0), points.max(axis=0))

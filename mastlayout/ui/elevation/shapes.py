"""Shapes of the scene as painter paths, in the drawing's own millimetres: right and up."""

import numpy as np
from PySide6.QtGui import QPainterPath

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.silhouette import FROM_AHEAD, FROM_PORT, FROM_STARBOARD, silhouettes
from mastlayout.geometry.solids import Solids
from mastlayout.model.kind import Kind, Part
from mastlayout.once import once
from mastlayout.ui.polygon import path_through
from mastlayout.ui.session import View

AXES: dict[View, Array] = {"starboard": FROM_STARBOARD, "port": FROM_PORT, "ahead": FROM_AHEAD}
# Towards the watcher.
TOWARDS: dict[View, Array] = {
    "starboard": np.array([0.0, -1.0, 0.0]),
    "port": np.array([0.0, 1.0, 0.0]),
    "ahead": np.array([1.0, 0.0, 0.0]),
}
FRAME_PARTS = ("foot", "bracket", "arm", "guard")
# What is this near to a thing's right-hand end belongs to the edge that a leader leaves from.
_EDGE_MM = 3.0


@dataclass(frozen=True)
class Outline:
    """A fitting as it is drawn: its parts back to front, each a path and what part it is.

    ``anchor`` is its foot's place, ``edge`` the middle of its right-hand edge.
    """

    parts: tuple[tuple[QPainterPath, Part], ...]
    low: Array
    high: Array
    behind: bool
    anchor: Array
    edge: tuple[float, float]


def polygon_path(points: Array) -> QPainterPath:
    """Return one closed path round points (k, 2)."""
    return path_through(np.concatenate([points, points[:1]]))


def mast_outline(scene: Scene, view: View) -> Array:
    """Return the mast's outline (k, 2) as the view shows it."""
    skin, right = scene.skin, AXES[view][0][:2]
    heights = [0.0, skin.length_mm]
    if skin.taper:
        heights.insert(1, skin.length_mm - skin.taper.from_masthead_mm)
    sides = [(skin.ring(z).polygon() @ right) for z in heights]
    left = [(float(side.min()), z) for side, z in zip(sides, heights, strict=True)]
    rightmost = [(float(side.max()), z) for side, z in zip(sides, heights, strict=True)]
    return np.array(left + rightmost[::-1])


@once  # the strip and the elevation draw the very same
def outline(placed: Placed, view: View) -> Outline:
    """Return a fitting's outline in a view."""
    shadows = silhouettes(placed.solids, AXES[view])
    depth = placed.solids.centre @ TOWARDS[view]
    order = np.argsort(depth, kind="stable")
    parts = tuple((polygon_path(shadows[i]), _drawn_as(placed.body.parts[i], placed.kind)) for i in order)
    origin = placed.seats.origin[0]
    points = np.concatenate([shadows.reshape(-1, 2), (AXES[view] @ origin)[None]])
    behind = bool(placed.seats.axes[0, 2] @ TOWARDS[view] < -0.5)
    low, high = points.min(axis=0), points.max(axis=0)
    rim = points[points[:, 0] > high[0] - _EDGE_MM]
    edge = float(high[0]), float(rim[:, 1].min() + rim[:, 1].max()) / 2
    return Outline(parts, low, high, behind, AXES[view] @ origin, edge)


def _drawn_as(part: Part, kind: Kind) -> Part:
    """Return the part as which one is drawn: a horn's mouth is no slot, a camera's glass is as dark."""
    if part == "mouth" and kind.group == "sound":
        return "body"
    return "mouth" if part == "lens" and kind.group == "camera" else part


def solid_paths(solids: Solids, view: View) -> list[QPainterPath]:
    """Return the outlines of solids in a view."""
    return [polygon_path(points) for points in silhouettes(solids, AXES[view])]


def line_path(points: Array, view: View) -> QPainterPath:
    """Return a line through points (k, 3) as the view shows it."""
    return path_through((points @ AXES[view].T)[:, :2])

"""A window on a template, and where it lies on the block: 1:1, right is right, up is up the sheet."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from shapely.geometry import LineString, box

from mastlayout.documents.page import Point
from mastlayout.frozen import dataclass


@dataclass(frozen=True)
class View:
    """A window ``left`` to ``right`` and ``low`` to ``high`` of a template, mm; (x, y) its top left."""

    left: float
    right: float
    low: float
    high: float
    x: float = 0.0
    y: float = 0.0
    # How far from its left, right, lower and upper edge a hole must lie to be this sheet's.
    clear: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)

    def at(self, point: Point) -> Point:
        """Return a point of the template on the block."""
        return self.x + point[0] - self.left, self.y + self.high - point[1]

    @property
    def x2(self) -> float:
        """Where the window ends on the right."""
        return self.x + self.right - self.left

    @property
    def y2(self) -> float:
        """Where the window ends below."""
        return self.y + self.high - self.low

    def inset(self, by_mm: float) -> "View":
        """Return the window without this much at its left and right edges, where it lies."""
        return replace(self, left=self.left + by_mm, right=self.right - by_mm, x=self.x + by_mm)

    def holds(self, point: Point, within_mm: float = 0.0) -> bool:
        """Tell whether a point lies in the window, this far from its edges."""
        right, up = point
        return (
            self.left + within_mm <= right <= self.right - within_mm
            and self.low + within_mm <= up <= self.high - within_mm
        )

    def holds_hole(self, point: Point) -> bool:
        """Tell whether a hole is this sheet's: one cut by an edge between sheets is whole on the next."""
        (right, up), (left_mm, right_mm, low_mm, high_mm) = point, self.clear
        return (
            self.left + left_mm <= right <= self.right - right_mm
            and self.low + low_mm <= up <= self.high - high_mm
        )

    def cut(self, points: Sequence[Point]) -> Iterator[tuple[Point, ...]]:
        """Yield the pieces of a line through points that lie in the window, on the block."""
        inside = LineString(points).intersection(box(self.left, self.low, self.right, self.high))
        for part in getattr(inside, "geoms", [inside]):
            if isinstance(part, LineString) and part.length > 0:
                yield tuple(self.at((right, up)) for right, up in part.coords)

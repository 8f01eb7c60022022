"""What a view must say of itself so that a tape can be held to it and drawn on it."""

from collections.abc import Sequence
from typing import Protocol

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtWidgets import QWidget

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.spot import Spot
from mastlayout.geometry.tape import Taped

NEAR_PX = 8.0


@dataclass(frozen=True)
class Stretch:
    """A stretch of tape: its corners in pixels and its value; ``thin`` where it is a plain dimension."""

    corners: tuple[QPointF, ...]
    words: str = ""
    thin: bool = False


class MeasuredView(Protocol):
    """A view on which the tape measure works."""

    @property
    def canvas(self) -> QWidget:
        """The widget that takes the keys."""

    @property
    def surface(self) -> QWidget:
        """The widget that takes the pointer; the tape lies over it."""

    def spot_at(self, at: QPointF) -> Spot | None:
        """Return what a tape held to a pixel is held to; None beside the drawing."""

    def spot_in_hand(self) -> Spot:
        """Return what Enter holds the tape to: what is in hand, else the height in hand."""

    def seen(self, spot: Spot, point: Array) -> QPointF | None:
        """Return the pixel of an end; None where it does not show."""

    def stretches(self, ends: Sequence[Spot], taped: Taped) -> Sequence[Stretch]:
        """Return how the tape lies in this view."""

    def area(self) -> QRectF:
        """Return the rectangle the tape may be drawn in."""

    def taken(self) -> Sequence[QRectF]:
        """Return the rectangles of words that no figure may cover."""


def near(one: QPointF, other: QPointF) -> bool:
    """Tell whether a pixel is as good as another for a hand."""
    way = one - other
    return way.x() ** 2 + way.y() ** 2 <= NEAR_PX**2

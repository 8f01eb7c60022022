"""What a press on the canvas begins: pushing the picture, or moving the thing under it."""

from collections.abc import Mapping
from typing import Protocol

import numpy as np
from PySide6.QtCore import QPointF, Qt

from mastlayout.geometry.rig import SpreaderInSpace, StayInSpace
from mastlayout.model.moving import End
from mastlayout.ui.elevation.along import MoveAlong
from mastlayout.ui.elevation.roundbar import MoveRoundBar
from mastlayout.ui.elevation.shapes import AXES
from mastlayout.ui.elevation.span import Span
from mastlayout.ui.elevation.under import pin_at
from mastlayout.ui.moving.grips import grip_of
from mastlayout.ui.moving.pointer import Gesture
from mastlayout.ui.moving.snap import Target
from mastlayout.ui.moving.way import WayName
from mastlayout.ui.session import Session, View

# Seen shorter than this, of its true length, a spreader is seen end-on.
_END_ON = 0.5
_DOWN = np.array([0.0, -1.0])


class Canvas(Protocol):
    """What a gesture needs of the canvas."""

    session: Session
    span: Span

    @property
    def view(self) -> View:
        """The side the mast is seen from."""
        ...

    def show_span(self, span: Span) -> None:
        """Show another part of the mast."""


class Pan:
    """Pushing the picture along the mast."""

    def __init__(self, canvas: Canvas, at: QPointF) -> None:
        self._canvas, self._start, self._span = canvas, at, canvas.span
        self.snaps: Mapping[WayName, Target] = {}

    def move(self, at: QPointF, _held: Qt.KeyboardModifier) -> None:
        """Follow the pointer."""
        self._canvas.show_span(self._span.moved(at.y() - self._start.y()))

    def finish(self) -> None:
        """Leave the picture where it is."""

    def cancel(self) -> None:
        """Put the picture back."""
        self._canvas.show_span(self._span)


def gesture_for(canvas: Canvas, name: str, at: QPointF) -> Gesture:
    """Return what a press on a thing begins; a stay goes by its ends, elsewhere on it the picture moves."""
    session = canvas.session
    scene = session.desk.scene
    end: End | None = "upper"
    if name in scene.stays:
        end = pin_at(scene, scene.stays[name], canvas.view, canvas.span, at)
    grip = grip_of(scene, name, session.units, end or "upper")
    if grip is None or end is None:
        return Pan(canvas, at)
    placed = scene.placed.get(name)
    host = placed.host if placed is not None else None
    axes = AXES[canvas.view]
    if isinstance(host, SpreaderInSpace):
        way = axes @ host.axes[0]
        if np.hypot(*way) < _END_ON:
            return MoveRoundBar(canvas, grip, host, at)
        return MoveAlong(canvas, grip, way, at)
    if isinstance(host, StayInSpace):
        _point, up = host.at(np.array([grip.along.now]))
        return MoveAlong(canvas, grip, axes @ up[0], at)
    return MoveAlong(canvas, grip, _DOWN, at)

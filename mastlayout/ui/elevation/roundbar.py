"""Carrying a fitting round a spreader that is seen end-on."""

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtCore import QPointF, Qt

from mastlayout.geometry.rig import SpreaderInSpace
from mastlayout.ui.elevation.shapes import AXES
from mastlayout.ui.moving.move import Move
from mastlayout.ui.moving.snap import Target
from mastlayout.ui.moving.way import Grip, WayName

if TYPE_CHECKING:
    from mastlayout.ui.elevation.gestures import Canvas

_REACH_DEG = 6.0


class MoveRoundBar:
    """The fitting turns round the spreader by as much as the pointer does."""

    def __init__(self, canvas: "Canvas", grip: Grip, bar: SpreaderInSpace, at: QPointF) -> None:
        self._canvas, self._grip = canvas, grip
        axes = AXES[canvas.view]
        outboard, chord, thick = bar.axes
        self._centre = axes @ (bar.root + grip.along.now * outboard)
        self._ahead, self._up = axes @ chord, axes @ thick
        self._move = Move(canvas.session, grip)
        self._start = self._angle_deg(at)

    def _angle_deg(self, at: QPointF) -> float:
        """Return the pointer's angle round the spreader: 0 on top, 90 ahead."""
        span = self._canvas.span
        off = np.array([span.right_mm(at.x()), span.z_mm(at.y())]) - self._centre
        return math.degrees(math.atan2(float(off @ self._ahead), float(off @ self._up)))

    @property
    def snaps(self) -> Mapping[WayName, Target]:
        """What it snapped to."""
        return self._move.snaps

    def move(self, at: QPointF, held: Qt.KeyboardModifier) -> None:
        """Follow the pointer round."""
        turned = self._angle_deg(at) - self._start
        self._move.to({"round": (self._grip.round.now + turned) % 360.0}, held, {"round": _REACH_DEG})

    def finish(self) -> None:
        """Make the move one undo step."""
        self._move.finish()

    def cancel(self) -> None:
        """Put it back."""
        self._move.cancel()

"""Moving a thing along what it stands on: up and down the mast, out along a spreader, up a stay."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtCore import QPointF, Qt

from mastlayout.geometry.frames import Array
from mastlayout.model.fitting import MAST
from mastlayout.ui.moving.move import SNAP_PX, Move
from mastlayout.ui.moving.snap import Target
from mastlayout.ui.moving.way import Grip, WayName
from mastlayout.words import _

if TYPE_CHECKING:
    from mastlayout.ui.elevation.gestures import Canvas

# A pull this far to the side, and more so than along, is meant to carry it round.
_SIDEWAYS_PX = 40.0
# A wire seen nearly end-on would shoot along under a small pull.
_LEAST_SEEN = 0.2


class MoveAlong:
    """``way`` is how going farther along by 1 mm looks: (right, up) in the view, up to 1 long.

    An elevation shows the height and not on which side of the mast a thing is, so a pull to the side
    does not carry it round: section and skin do.
    """

    def __init__(self, canvas: "Canvas", grip: Grip, way: Array, at: QPointF) -> None:
        self._canvas, self._grip, self._start = canvas, grip, at
        seen = max(float(np.hypot(*way)), _LEAST_SEEN)
        self._per_mm, self._seen = way / seen**2, seen
        self._move = Move(canvas.session, grip)

    @property
    def snaps(self) -> Mapping[WayName, Target]:
        """What it snapped to."""
        return self._move.snaps

    def move(self, at: QPointF, held: Qt.KeyboardModifier) -> None:
        """Follow the pointer along."""
        by, scale = at - self._start, self._canvas.span.scale
        along = float(np.array([by.x(), -by.y()]) @ self._per_mm) / scale
        sideways = abs(by.x()) > max(_SIDEWAYS_PX, abs(by.y()))
        hint = ""
        if sideways and self._grip.on == MAST:
            hint = _("Here it moves along the mast only: section, skin, or Left and Right carry it round.")
        reach = SNAP_PX / scale / self._seen
        self._move.to({"along": self._grip.along.now + along}, held, {"along": reach}, hint)

    def finish(self) -> None:
        """Make the move one undo step."""
        self._move.finish()

    def cancel(self) -> None:
        """Put it back."""
        self._move.cancel()

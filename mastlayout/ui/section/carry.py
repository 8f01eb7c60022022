"""Carrying a thing round the mast in the section; with Shift, off the skin and back to it."""

import math
from collections.abc import Mapping
from typing import Protocol

from PySide6.QtCore import QPointF, Qt

from mastlayout.geometry.frames import bearing_of
from mastlayout.geometry.skin import Ring
from mastlayout.ui.moving.move import SNAP_PX, Move
from mastlayout.ui.moving.snap import Target
from mastlayout.ui.moving.way import Grip, WayName
from mastlayout.ui.section.plan import Plan
from mastlayout.ui.session import Session


class Canvas(Protocol):
    """What the gesture needs of the canvas."""

    session: Session

    @property
    def plan(self) -> Plan:
        """Where the section lies."""
        ...


class Carry:
    """The thing goes round by as much of the girth as the pointer's bearing does."""

    def __init__(self, canvas: Canvas, grip: Grip, ring: Ring, at: QPointF) -> None:
        self._grip, self._plan, self._ring = grip, canvas.plan, ring
        self._move = Move(canvas.session, grip)
        self._girth, self._out = self._girth_at(at), self._out_at(at)

    def _girth_at(self, at: QPointF) -> float:
        return self._ring.girth_at_bearing(bearing_of(*self._mm(at)))

    def _out_at(self, at: QPointF) -> float:
        """Return how far from the mast's axis a pixel is, mm."""
        return math.hypot(*self._mm(at))

    def _mm(self, at: QPointF) -> tuple[float, float]:
        plan = self._plan
        return (plan.axis_y - at.y()) / plan.scale, (plan.axis_x - at.x()) / plan.scale

    @property
    def snaps(self) -> Mapping[WayName, Target]:
        """What it snapped to."""
        return self._move.snaps

    def move(self, at: QPointF, held: Qt.KeyboardModifier) -> None:
        """Follow the pointer round, or off the skin."""
        reach, wanted = SNAP_PX / self._plan.scale, dict[WayName, float]()
        if held & Qt.KeyboardModifier.ShiftModifier:
            wanted["off"] = self._grip.off.now + self._out_at(at) - self._out
        else:
            wanted["round"] = self._grip.round.now + self._girth_at(at) - self._girth
        self._move.to(wanted, held, dict.fromkeys(wanted, reach))

    def finish(self) -> None:
        """Make the move one undo step."""
        self._move.finish()

    def cancel(self) -> None:
        """Put it back."""
        self._move.cancel()

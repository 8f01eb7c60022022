"""Sliding a thing over the unrolled skin, along the mast and round it at once."""

from collections.abc import Mapping

from PySide6.QtCore import QPointF, Qt

from mastlayout.ui.moving.move import SNAP_PX, Move
from mastlayout.ui.moving.snap import Target
from mastlayout.ui.moving.way import Grip, WayName
from mastlayout.ui.session import Session
from mastlayout.ui.skin.development import Development
from mastlayout.words import _


class Slide:
    """The thing follows the pointer at the skin's own scale, and is held at the line where the skin ends."""

    def __init__(self, session: Session, made: Development, grip: Grip, at: QPointF) -> None:
        self._grip, self._made, self._start = grip, made, at
        self._offset = made.offset_mm(grip.round.now)
        self._move = Move(session, grip, steady=True)

    @property
    def snaps(self) -> Mapping[WayName, Target]:
        """What it snapped to."""
        return self._move.snaps

    def move(self, at: QPointF, held: Qt.KeyboardModifier) -> None:
        """Follow the pointer both ways."""
        made, by = self._made, (at - self._start) / self._made.scale
        half = made.half_girth_mm
        offset = min(max(self._offset + by.x(), -half), half)
        hint = ""
        if offset != self._offset + by.x():
            line = _("the track") if made.middle == "forward" else _("the forward centreline")
            hint = _("The skin ends at {line}: it is held there. The section carries it past.").format(
                line=line
            )
        wanted: dict[WayName, float] = {
            "along": self._grip.along.now + by.y(),
            "round": self._grip.round.now + offset - self._offset,
        }
        self._move.to(wanted, held, dict.fromkeys(wanted, SNAP_PX / made.scale), hint)

    def finish(self) -> None:
        """Make the move one undo step."""
        self._move.finish()

    def cancel(self) -> None:
        """Put it back."""
        self._move.cancel()

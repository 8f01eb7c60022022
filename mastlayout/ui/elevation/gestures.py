"""What a pointer may be doing on the canvas; one class for each, ended by the one who began it."""

from typing import Protocol

from PySide6.QtCore import QPointF, Qt

from mastlayout.errors import MastLayoutError
from mastlayout.geometry.frames import height_mm
from mastlayout.model.edits import change
from mastlayout.ui.elevation.span import Span
from mastlayout.ui.session import Session
from mastlayout.words import _

SNAP_PX = 6.0
Modifiers = Qt.KeyboardModifier


class Canvas(Protocol):
    """What a gesture needs of the canvas."""

    session: Session
    span: Span

    def show_span(self, span: Span) -> None:
        """Show another part of the mast."""


class Pan:
    """Pushing the picture along the mast."""

    def __init__(self, canvas: Canvas, at: QPointF) -> None:
        self._canvas, self._start, self._span = canvas, at, canvas.span

    def move(self, at: QPointF, _held: Modifiers) -> None:
        """Follow the pointer."""
        self._canvas.show_span(self._span.moved(at.y() - self._start.y()))

    def finish(self) -> None:
        """Leave the picture where it is."""

    def cancel(self) -> None:
        """Put the picture back."""
        self._canvas.show_span(self._span)


class MoveFitting:
    """Moving a fitting along the mast: a preview with every move, one undo step at the end."""

    def __init__(self, canvas: Canvas, name: str, at: QPointF) -> None:
        self._canvas, self._name, self._start = canvas, name, at
        session = canvas.session
        self._fitting = next(f for f in session.layout.fittings if f.id == name)
        self._from_mm = self._fitting.from_masthead_mm or 0.0
        self._moved = session.layout

    def move(self, at: QPointF, held: Modifiers) -> None:
        """Follow the pointer along the mast, snapping to neighbours' heights unless Control is held."""
        session = self._canvas.session
        wanted = self._from_mm + (at.y() - self._start.y()) / self._canvas.span.scale
        if not held & Modifiers.ControlModifier:
            wanted = self._snapped(wanted)
        length = session.layout.mast.length_mm
        try:
            self._moved = change(session.layout, self._name, from_masthead_mm=min(max(wanted, 0.0), length))
        except MastLayoutError:
            return
        session.preview(self._moved)

    def _snapped(self, wanted_mm: float) -> float:
        """Return the height of a neighbour within a few pixels, else the whole millimetre."""
        session = self._canvas.session
        length = session.layout.mast.length_mm
        reach = SNAP_PX / self._canvas.span.scale
        others = [
            height_mm(length, placed.z_mm)
            for placed in session.desk.scene.placed.values()
            if placed.id != self._name and placed.fitting.on == self._fitting.on
        ]
        near = min(others, key=lambda other: abs(other - wanted_mm), default=None)
        if near is not None and abs(near - wanted_mm) <= reach:
            return round(near, 2)
        return float(round(wanted_mm))

    def finish(self) -> None:
        """Make the move one undo step."""
        session = self._canvas.session
        session.edit(session.layout, _("Move {name}").format(name=self._fitting.name))

    def cancel(self) -> None:
        """Put the fitting back."""
        self._canvas.session.cancel()

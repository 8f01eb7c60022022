"""What a machine can see of a window: words cut, written over each other, faint, or against the grammar."""

import re
from collections.abc import Iterator

import numpy as np
from painted import Written, shown_widgets
from PySide6.QtCore import QEvent, QPoint, QRectF
from PySide6.QtGui import QHelpEvent, QImage
from PySide6.QtWidgets import QAbstractScrollArea, QApplication, QLineEdit, QMenu, QToolTip, QWidget

from mastlayout.ui.look import contrast

# Half a pixel at each side is rounding of the metrics.
_CLOSE_PX = 1.0
# Success criterion 1.4.3 of the Web Content Accessibility Guidelines 2.2, level AA, for text of any size.
LEAST_CONTRAST = 4.5
_WRONG_WORDS = (
    (re.compile(r"\w\s*!"), "an exclamation mark"),
    (re.compile(r"\.\.\."), "three dots for the sign …"),
    (re.compile(r"(?<![\w.\-/–])-\s?\d"), "a hyphen for a minus"),
    (re.compile(r"\b(?:please|sorry|oops)\b", re.IGNORECASE), "chatter"),
    (re.compile(r"&(?=\w)"), "a mnemonic's mark that shows"),
)


def cut(pieces: list[Written]) -> Iterator[str]:
    """Name the text that does not fit its room, and what is shortened with nothing that says it whole."""
    for piece in pieces:
        if not _fits(piece) and not (isinstance(piece.widget, QLineEdit) and _told_whole(piece)):
            yield f"cut: {_said(piece)}"
        if "…" in piece.words and not _is_whole(piece) and not _told_whole(piece):
            yield f"shortened without a tooltip: {_said(piece)}"


def _fits(piece: Written) -> bool:
    room = piece.room.adjusted(-_CLOSE_PX, -_CLOSE_PX, _CLOSE_PX, _CLOSE_PX)
    if room.contains(piece.box) or (isinstance(piece.widget, QLineEdit) and piece.widget.hasFocus()):
        return True
    if "paintEvent" in vars(type(piece.widget)) and not piece.room.intersects(piece.box):
        return True  # out of the picture, which can be moved
    area = piece.widget.parentWidget()
    if not isinstance(area, QAbstractScrollArea) or area.viewport() is not piece.widget:
        return False
    # What is scrolled out is not cut: it can be scrolled to.
    whole = piece.room.united(piece.box)
    sideways = whole.left() < room.left() or whole.right() > room.right()
    return not sideways or area.horizontalScrollBar().isVisible() or not piece.room.intersects(piece.box)


def _is_whole(piece: Written) -> bool:
    """Tell whether the sign … stands in the words themselves."""
    widget = piece.widget
    own = [getattr(widget, name)() for name in ("text", "placeholderText") if hasattr(widget, name)]
    own += [action.text() for action in widget.actions()]
    return any(piece.words.strip() in words.replace("&", "") for words in own)


def _told_whole(piece: Written) -> bool:
    """Ask for the tooltip at the place, as the pointer would."""
    QToolTip.hideText()
    QApplication.processEvents()
    at = piece.box.center().toPoint()
    there = piece.widget.mapToGlobal(at)
    QApplication.sendEvent(piece.widget, QHelpEvent(QEvent.Type.ToolTip, at, there))
    said = QToolTip.text() if QToolTip.isVisible() else ""
    QToolTip.hideText()
    begin = piece.words.split("…")[0].strip()
    return begin in said


def overlapping(pieces: list[Written]) -> Iterator[str]:
    """Name each two pieces of text that are written over each other."""
    shown = [(piece, piece.seen) for piece in pieces]
    shown = [(piece, box) for piece, box in shown if not box.isEmpty()]
    if not shown:
        return
    boxes = np.array([(b.left(), b.top(), b.right(), b.bottom()) for _piece, b in shown])
    low = np.maximum(boxes[:, None, :2], boxes[None, :, :2])
    high = np.minimum(boxes[:, None, 2:], boxes[None, :, 2:])
    over = ((high - low) > _CLOSE_PX).all(axis=2)
    for i, j in np.argwhere(np.triu(over, 1)):
        one, other = shown[i][0], shown[j][0]
        if one.words != other.words:  # a halo is the same words twice
            yield f"written over each other: {_said(one)} and {_said(other)}"


def faint(pieces: list[Written], seen: np.ndarray) -> Iterator[str]:
    """Name the text whose ink is too near the commonest colour around it in the pixels seen.

    Controls that can not be used now are exempt, as in the guideline.
    """
    for piece in pieces:
        box = piece.seen
        if box.width() < 2 or box.height() < 2 or not piece.widget.isEnabled() or _cannot_be_used(piece):
            continue
        ratio = contrast(piece.ink, _ground(seen, box))
        if ratio < LEAST_CONTRAST:
            yield f"faint, {ratio:.1f} : 1: {_said(piece)}"


def _cannot_be_used(piece: Written) -> bool:
    if not isinstance(piece.widget, QMenu):
        return False
    off = [action for action in piece.widget.actions() if not action.isEnabled()]
    return any(piece.widget.actionGeometry(action).contains(piece.box.center().toPoint()) for action in off)


def pixels(picture: QImage) -> np.ndarray:
    """Return a picture's pixels (height, width) as 0xRRGGBB."""
    picture = picture.convertToFormat(QImage.Format.Format_RGB32)
    flat = np.frombuffer(picture.constBits(), np.uint32).reshape(picture.height(), -1)
    return flat[:, : picture.width()] & 0xFFFFFF


def _ground(seen: np.ndarray, box: QRectF) -> str:
    box = box.adjusted(-1, -1, 1, 1).toRect()
    part = seen[max(box.top(), 0) : box.bottom() + 1, max(box.left(), 0) : box.right() + 1]
    # Under words on shading no one colour is common, but one sort of colour is.
    sorts, at, sizes = np.unique(part & 0xE0E0E0, return_inverse=True, return_counts=True)
    colours, counts = np.unique(part.ravel()[at.ravel() == sizes[: len(sorts)].argmax()], return_counts=True)
    return f"{colours[counts.argmax()]:06x}"


def against_the_grammar(root: QWidget, pieces: list[Written]) -> Iterator[str]:
    """Name what is said with a wrong sign, painted or only told."""
    said = {piece.words for piece in pieces}
    for widget in shown_widgets(root):
        told = (widget.toolTip(), widget.accessibleName(), widget.accessibleDescription())
        said |= {*told, widget.windowTitle()}
    for words in sorted(said):
        for wrong, name in _WRONG_WORDS:
            if wrong.search(words):
                yield f"{name}: “{words}”"


def _said(piece: Written) -> str:
    at = piece.widget.mapTo(piece.widget.window(), QPoint(0, 0)).toPointF() + piece.box.topLeft()
    owner = piece.widget.accessibleName() or type(piece.widget).__name__
    parent = piece.widget.parentWidget()
    inside = type(parent).__name__ if parent else "-"
    return f"“{piece.words}” of {owner} in {inside} at {at.x():.0f}, {at.y():.0f}"

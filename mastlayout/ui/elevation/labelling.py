"""How the column of labels is painted: on a ground of its own, with leaders that never cross."""

import math
from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QLinearGradient, QPainter, QPen

from mastlayout.ui.elevation.labels import Label, Placed, more_words, whole_words
from mastlayout.ui.elevation.span import GUTTER_PX, Span
from mastlayout.ui.inwords import name_among
from mastlayout.ui.lines import width_px
from mastlayout.ui.look import GAP, LABEL, LABEL_PITCH, THIN, THREAD, Colours, font
from mastlayout.ui.marks import paint_mark

# In pixels from a label's left: its bar, the middle of its mark, its words.
_BAR_PX, _MARK_AT, _WORDS_AT, _MARK = 3.0, 14.0, 28.0, 14.0
# A drilled hole with its cross hairs, as the skin shows one.
_MADE_PX, _MADE_HOLE = 16.0, 3.0
_NUMBER_GAP, _EDGE_PX, _TALL_PX = 10.0, 4.0, LABEL_PITCH - 3.0


def wanted_px(words: str, reading: str) -> float:
    """Return the width of the column in which these words stand whole, in hand or not."""
    return width_px(words, LABEL, bold=True) + beside_words_px(reading)


def beside_words_px(reading: str) -> float:
    """Return the width of the column less that of the words: mark, reading and gaps."""
    number = width_px(reading, LABEL, bold=True)
    return _WORDS_AT + _NUMBER_GAP + number + _EDGE_PX + GAP + 1.0


def label_box(span: Span, placed: Placed) -> QRectF:
    """Return the rectangle, in pixels, that a label is painted in."""
    left = span.width_px - span.labels_px
    return QRectF(left, placed.y - _TALL_PX / 2, span.labels_px - GAP, _TALL_PX)


def number_box(box: QRectF, reading: str) -> QRectF:
    """Return the right end of a label's rectangle, in which its reading stands."""
    wide = width_px(reading, LABEL, bold=True)
    return QRectF(box.right() - _EDGE_PX - wide, box.top(), wide, box.height())


def words_box(box: QRectF, reading: str) -> QRectF:
    """Return the part of a label's rectangle in which its words stand."""
    right = number_box(box, reading).left() - _NUMBER_GAP
    return QRectF(box.left() + _WORDS_AT, box.top(), right - box.left() - _WORDS_AT, box.height())


def words_in(label: Label, box: QRectF) -> str:
    """Return a label's words as they find room, told from those of every other name."""
    room = words_box(box, label.reading).width()
    if says_made(label, box):
        return whole_words(label.words, label.made)
    room -= _MADE_PX if label.made else 0.0
    return name_among(label.words, LABEL, room, label.among, bold=label.in_hand)


def says_made(label: Label, box: QRectF) -> bool:
    """Tell whether there is room to say what of a thing is in the mast; else a drilled hole stands for it."""
    whole = whole_words(label.words, label.made)
    room = words_box(box, label.reading).width()
    return bool(label.made) and width_px(whole, LABEL, bold=label.in_hand) <= room


def leader(span: Span, placed: Placed) -> list[QPointF]:
    """Return a label's leader: level out to the gutter, then to the label's row."""
    box, label = label_box(span, placed), placed.label
    elbow = box.left() - GUTTER_PX
    start = min(label.anchor_x, elbow)
    return [
        QPointF(start, label.anchor_y), QPointF(elbow, label.anchor_y), QPointF(box.left() - 4, placed.y)
    ]  # fmt: skip


def paint_labels(
    painter: QPainter, span: Span, labels: Sequence[Placed], left_out: Sequence[Label], colours: Colours
) -> None:
    """Paint the column, so that no body runs under it, the leaders, and the label in hand."""
    paint_fade(painter, span, colours)
    paint_column(painter, span, still(labels), left_out, colours)
    paint_leaders(painter, span, labels, colours)


def still(labels: Sequence[Placed]) -> list[Placed]:
    """Return the labels other than that of what is in hand."""
    return [placed for placed in labels if not placed.label.in_hand]


def paint_column(
    painter: QPainter, span: Span, labels: Sequence[Placed], left_out: Sequence[Label], colours: Colours
) -> None:
    """Paint the column's ground, labels on it, and how many found no room."""
    painter.fillRect(column_box(span), colours["ground"])
    for placed in labels:
        _label(painter, label_box(span, placed), placed.label, colours)
    if left_out:
        box = label_box(span, Placed(left_out[0], span.height_px - LABEL_PITCH / 2))
        painter.setFont(font(LABEL))
        painter.setPen(colours["second"])
        painter.drawText(
            box.adjusted(_WORDS_AT, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, more_words(left_out)
        )


def paint_leaders(painter: QPainter, span: Span, labels: Sequence[Placed], colours: Colours) -> None:
    """Paint the leaders up to their labels, that of what is in hand last, and its label."""
    for placed in sorted(labels, key=lambda one: one.label.in_hand):
        in_hand = placed.label.in_hand
        painter.setPen(QPen(colours["accent" if in_hand else "edge"], THREAD if in_hand else THIN))
        painter.drawPolyline(leader(span, placed))
        if in_hand:
            _label(painter, label_box(span, placed), placed.label, colours)


def column_box(span: Span) -> QRectF:
    """Return the whole pixels that the column takes, whole dots at every quarter of a scale too."""
    left = 4 * math.floor((span.width_px - span.labels_px - GUTTER_PX / 2) / 4)
    return QRectF(left, 0, math.ceil(span.width_px) - left, math.ceil(span.height_px))


def paint_fade(painter: QPainter, span: Span, colours: Colours) -> None:
    """Paint how the drawing fades towards the column."""
    column, wide = column_box(span), GUTTER_PX / 2
    painter.setRenderHints(QPainter.RenderHint.Antialiasing, on=False)  # whole pixels: ten times as fast
    fade = QLinearGradient(column.left() - wide, 0, column.left(), 0)
    clear = QColor(colours["ground"])
    clear.setAlpha(0)
    fade.setColorAt(0.0, clear)
    fade.setColorAt(1.0, colours["ground"])
    painter.fillRect(QRectF(column.left() - wide, 0, wide, column.height()), fade)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)


def _label(painter: QPainter, box: QRectF, label: Label, colours: Colours) -> None:
    if label.in_hand:
        painter.fillRect(box, colours["chosen"])
        painter.fillRect(QRectF(box.left(), box.top(), _BAR_PX, box.height()), colours["accent"])
    paint_mark(painter, label.state, QPointF(box.left() + _MARK_AT, box.center().y()), _MARK, colours)
    painter.setFont(font(LABEL, bold=label.in_hand))
    painter.setPen(colours["ink"])
    middle = Qt.AlignmentFlag.AlignVCenter
    painter.drawText(words_box(box, label.reading), middle, words_in(label, box))
    if label.made and not says_made(label, box):
        _made_mark(painter, words_box(box, label.reading), colours)
    painter.drawText(number_box(box, label.reading), middle | Qt.AlignmentFlag.AlignRight, label.reading)


def _made_mark(painter: QPainter, words: QRectF, colours: Colours) -> None:
    at = QPointF(words.right() - _MADE_PX / 2 + _MADE_HOLE, words.center().y())
    painter.setPen(QPen(colours["ink"], THIN))
    painter.setBrush(colours["hole"])
    painter.drawEllipse(at, _MADE_HOLE, _MADE_HOLE)
    for reach in (QPointF(2 * _MADE_HOLE, 0), QPointF(0, 2 * _MADE_HOLE)):
        painter.drawLine(at - reach, at + reach)
    painter.setPen(colours["ink"])
    painter.setBrush(Qt.BrushStyle.NoBrush)

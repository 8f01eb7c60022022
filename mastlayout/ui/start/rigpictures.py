"""The pictures of where the mast stands, what holds it, how the headsail is set, and what is new."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen, QPolygonF

from mastlayout.ui.look import BODY, THICK, THIN, Colours
from mastlayout.ui.start.strokes import line, said
from mastlayout.words import _

_MOST_PAIRS = 3


def paint_stands(painter: QPainter, colours: Colours, choice: str) -> None:
    """Two hulls cut athwart: through the deck to the keel, or on deck."""
    for left, stands, words in ((120.0, "keel", _("on the keel")), (420.0, "deck", _("on deck"))):
        chosen = stands == choice
        _hull(painter, colours, left)
        foot = 262.0 if stands == "keel" else 138.0
        painter.setPen(QPen(colours["accent" if chosen else "ink"], THICK))
        painter.setBrush(colours["chosen" if chosen else "mast"])
        painter.drawRect(QRectF(left + 71, 20, 18, foot - 20))
        line(painter, colours, "ink", (left + 58, foot), (left + 102, foot), width=4)
        said(
            painter,
            colours,
            words,
            (left + 80, 336),
            size=BODY,
            bold=True,
            role="accent" if chosen else "ink",
        )
    said(painter, colours, _("deck"), (298, 128), left=True)
    said(painter, colours, _("water"), (64, 200))
    said(painter, colours, _("heel"), (232, 262), left=True)
    said(painter, colours, _("heel"), (532, 152), left=True)


def _hull(painter: QPainter, colours: Colours, left: float) -> None:
    hull = QPainterPath(QPointF(left, 132))
    hull.cubicTo(QPointF(left + 4, 210), QPointF(left + 40, 250), QPointF(left + 68, 264))
    hull.lineTo(left + 70, 300)
    hull.lineTo(left + 90, 300)
    hull.lineTo(left + 92, 264)
    hull.cubicTo(QPointF(left + 120, 250), QPointF(left + 156, 210), QPointF(left + 160, 132))
    painter.setPen(QPen(colours["ink"], THICK))
    painter.setBrush(colours["ground"])
    painter.drawPath(hull)
    deck = QPainterPath(QPointF(left, 132))
    deck.quadTo(QPointF(left + 80, 146), QPointF(left + 160, 132))
    painter.drawPath(deck)
    line(painter, colours, "cloth_edge", (left - 30, 190), (left + 190, 190))


def paint_spreaders(painter: QPainter, colours: Colours, choice: str) -> None:
    """Masts from ahead with none to three pairs; four and five are shown by the third."""
    chosen = min(int(choice), _MOST_PAIRS) if choice else -1
    for pairs in range(_MOST_PAIRS + 1):
        x, role = 110.0 + 160.0 * pairs, "accent" if pairs == chosen else "ink"
        tips = [20.0 + 270.0 * (i + 1) / (pairs + 1) for i in range(pairs)]
        for side in (-1.0, 1.0):
            shroud = [QPointF(x, 20), *(QPointF(x + side * (34 + 4 * i), y) for i, y in enumerate(tips))]
            painter.setPen(QPen(colours["second"], THIN))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawPolyline([*shroud, QPointF(x + side * 46, 290)])
            for i, y in enumerate(tips):
                line(painter, colours, role, (x, y), (x + side * (34 + 4 * i), y), width=3)
        line(painter, colours, role, (x, 18), (x, 294), width=6)
        line(painter, colours, "ink", (x - 56, 294), (x + 56, 294), width=THICK)
        words = _("{pairs} or more").format(pairs=pairs) if pairs == _MOST_PAIRS else str(pairs)
        said(painter, colours, words, (x, 320), size=BODY, bold=True, role=role)


def paint_sails(painter: QPainter, colours: Colours, choice: str) -> None:
    """The forestay from starboard: rolled on it, hanked to it, bare."""
    names = {"furled": _("on a furler"), "hanked": _("on hanks"), "none": _("none")}
    for i, (state, words) in enumerate(names.items()):
        x, role = 90.0 + 220.0 * i, "accent" if state == choice else "ink"
        head, tack, clew = QPointF(x, 20), QPointF(x + 110, 286), QPointF(x - 14, 262)
        if state != "none":
            painter.setPen(QPen(colours["cloth_edge"], 2.4))
            painter.setBrush(colours["cloth"])
            painter.drawPolygon(QPolygonF([head + QPointF(8, 26), tack + QPointF(-6, -14), clew]))
        line(painter, colours, "second", head.toTuple(), tack.toTuple(), width=1.2)
        if state == "furled":
            line(painter, colours, role, (x + 9, 42), (x + 102, 266), width=6)
            painter.setPen(QPen(colours[role], THICK))
            painter.setBrush(colours["foot"])
            painter.drawRect(QRectF(x + 95, 264, 20, 14))
        if state == "hanked":
            for part in range(1, 9):
                at = head + (tack - head) * (part / 9)
                line(painter, colours, role, (at.x() - 5, at.y() + 2), (at.x() + 4, at.y() - 2), width=THICK)
        line(painter, colours, "ink", (x, 14), (x, 294), width=6)
        line(painter, colours, "ink", (x - 30, 294), (x + 130, 294), width=THICK)
        said(painter, colours, words, (x + 40, 320), size=BODY, bold=True, role=role)


def paint_gear(painter: QPainter, colours: Colours, _choice: str) -> None:
    """A mast lying, with the gear most often added standing off it."""
    ink = QPen(colours["ink"], THICK)
    painter.setPen(ink)
    painter.setBrush(colours["mast"])
    painter.drawRect(QRectF(40, 210, 620, 56))
    painter.setBrush(colours["foot"])
    for x in (98.0, 226.0, 366.0, 486.0, 596.0):
        painter.drawRect(QRectF(x - 20, 202, 40, 8))
    painter.setBrush(colours["body"])
    horn = QPolygonF([QPointF(92, 202), QPointF(104, 202), QPointF(122, 130), QPointF(74, 130)])
    painter.drawPolygon(horn)
    painter.drawLine(QPointF(226, 202), QPointF(226, 168))
    painter.drawRoundedRect(QRectF(176, 106, 100, 62), 20, 20)
    painter.drawRoundedRect(QRectF(350, 160, 32, 42), 8, 8)
    painter.drawEllipse(QPointF(486, 184), 17, 17)
    painter.setBrush(colours["hole"])
    painter.drawEllipse(QPointF(486, 176), 6, 6)
    painter.drawLine(QPointF(596, 202), QPointF(596, 40))
    for words, x, y in (
        (_("horn"), 98.0, 116.0), (_("radar"), 226.0, 92.0), (_("light"), 366.0, 146.0),
        (_("camera"), 486.0, 152.0), (_("aerial"), 596.0, 26.0),
    ):  # fmt: skip
        said(painter, colours, words, (x, y))
    said(painter, colours, _("heel"), (40, 286), left=True)
    said(painter, colours, _("masthead"), (660, 286), right=True)

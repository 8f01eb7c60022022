"""The head of the hand panel: tag, name, and at the right the state in shape, word and clause."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from mastlayout.checks.sentence import names_of
from mastlayout.ui.hand.things import item_in_hand, state_in_hand
from mastlayout.ui.look import BODY, GAP, MARGIN, NAME, VALUE, font
from mastlayout.ui.marks import colour, paint_mark, word
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_BAR_PX, _MARK_PX, _MARK_GAP_PX, _TALL_PX = 5.0, 19.0, 6.0, 36


class Head(QWidget):
    """Which thing is in hand, and how it stands; painted, and said in its accessible name."""

    def __init__(self, session: Session, theme: Theme) -> None:
        super().__init__()
        self.session, self.theme = session, theme
        self.tag = self.name = self.state = ""
        self.clauses: tuple[str, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setAccessibleDescription(_("What is in hand, and how it stands."))
        theme.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(300, _TALL_PX)

    def refresh(self) -> None:
        """Take what is in hand, and paint anew where that differs."""
        item, name = item_in_hand(self.session), self.session.hand
        tag = getattr(item, "tag", None)
        own = getattr(item, "name", "") or names_of(self.session.layout).get(name, name)
        shown = (str(tag) if tag else "", own, *state_in_hand(self.session))
        if shown != (self.tag, self.name, self.state, self.clauses):
            self.tag, self.name, self.state, self.clauses = shown
            self._say()
            self.update()

    def _say(self) -> None:
        tag = _("tag {tag}").format(tag=self.tag) if self.tag else ""
        clause = next(iter(self.clauses), "")
        state = word(self.state).lower() if self.state else ""
        said = ", ".join(part for part in (self.name, tag, state, clause) if part)
        self.setAccessibleName(said)
        self.setToolTip(f"{self.name}: {clause}" if clause else self.name)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, colours = QPainter(self), self.theme.colours
        painter.fillRect(QRectF(0, 0, _BAR_PX, self.height()), colours["accent"])
        right = self._paint_name(painter)
        if self.state:
            self._paint_state(painter, right)
        painter.end()

    def _paint_name(self, painter: QPainter) -> float:
        """Paint tag and name; return where the name ends."""
        colours, left, tall = self.theme.colours, float(2 * MARGIN), float(self.height())
        middle = Qt.AlignmentFlag.AlignVCenter
        if self.tag:
            painter.setFont(font(BODY))
            painter.setPen(colours["second"])
            painter.drawText(QRectF(left, 2, 80, tall), middle, self.tag)
            left += QFontMetricsF(font(BODY)).horizontalAdvance(self.tag) + GAP
        face = font(NAME, bold=True)
        metrics = QFontMetricsF(face)
        room = self.width() - left - self._said_px() - MARGIN - GAP
        name = metrics.elidedText(self.name, Qt.TextElideMode.ElideMiddle, room)
        painter.setFont(face)
        painter.setPen(colours["ink"])
        painter.drawText(QRectF(left, 0, room + 1, tall), middle, name)
        return left + metrics.horizontalAdvance(name)

    def _said_px(self) -> float:
        """Return the room that mark and word of the state take."""
        if not self.state:
            return 0.0
        return (
            _MARK_PX
            + _MARK_GAP_PX
            + QFontMetricsF(font(VALUE, bold=True)).horizontalAdvance(word(self.state))
        )

    def clause_in(self, room_px: float) -> str:
        """Return the longest clause that finds room, "" where none does: a clause is never cut."""
        words = QFontMetricsF(font(VALUE))
        return next((one for one in self.clauses if words.horizontalAdvance(one) <= room_px), "")

    def _paint_state(self, painter: QPainter, name_right: float) -> None:
        colours, said_px = self.theme.colours, self._said_px()
        room = self.width() - MARGIN - name_right - 3 * GAP - said_px
        clause = self.clause_in(room)
        clause_px = QFontMetricsF(font(VALUE)).horizontalAdvance(clause) + (GAP if clause else 0.0)
        left = self.width() - MARGIN - clause_px - said_px
        centre = self.height() / 2
        paint_mark(painter, self.state, QPointF(left + _MARK_PX / 2, centre), _MARK_PX, colours)
        middle = Qt.AlignmentFlag.AlignVCenter
        painter.setFont(font(VALUE, bold=True))
        painter.setPen(colour(self.state, colours))
        after_mark = left + _MARK_PX + _MARK_GAP_PX
        painter.drawText(QRectF(after_mark, 0, said_px, self.height()), middle, word(self.state))
        painter.setFont(font(VALUE))
        painter.setPen(colours["ink"])
        painter.drawText(QRectF(left + said_px + GAP, 0, clause_px, self.height()), middle, clause)

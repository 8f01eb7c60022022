"""The six steps at the left: which is asked, which are answered; each can be gone back to."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QWidget

from mastlayout.ui.look import LABEL, NAME, VALUE, font
from mastlayout.ui.marks import paint_mark
from mastlayout.ui.start.answers import Question
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_BAR_PX = 5


class Step(QAbstractButton):
    """One step."""

    def __init__(self, number: int, question: Question, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._number, self._question, self._theme = number, question, theme
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.answer: str | None = None
        self.show_answer(None)
        theme.changed.connect(self.update)

    def show_answer(self, answer: str | None) -> None:
        """Show what was answered in the place of what the step is about; None while it was not."""
        self.answer = answer
        said = self._question.about if answer is None else answer
        self.setAccessibleName(
            _("Step {n}, {step}: {said}").format(n=self._number, step=self._question.step, said=said)
        )
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(310, 66)

    def minimumSizeHint(self) -> QSize:
        return QSize(200, 44)

    def paintEvent(self, _event: QPaintEvent) -> None:
        colours, painter = self._theme.colours, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect())
        if self.isChecked():
            painter.fillRect(box, colours["chosen"])
            painter.fillRect(QRectF(0, 0, _BAR_PX, box.height()), colours["accent"])
        if self.hasFocus():
            painter.setPen(QPen(colours["accent"], 1))
            painter.drawRect(box.adjusted(0.5, 0.5, -0.5, -0.5))
        painter.setFont(font(NAME, bold=True))
        painter.setPen(colours["accent" if self.isChecked() else "second"])
        middle = Qt.AlignmentFlag.AlignVCenter
        painter.drawText(QRectF(20, 0, 30, box.height()), middle, str(self._number))
        half = box.height() / 2
        painter.setFont(font(VALUE, bold=self.isChecked()))
        painter.setPen(colours["ink"])
        painter.drawText(QRectF(56, half - 22, box.width() - 80, 22), middle, self._question.step)
        painter.setFont(font(LABEL))
        painter.setPen(colours["second"])
        said = self._question.about if self.answer is None else self.answer
        painter.drawText(QRectF(56, half, box.width() - 80, 20), middle, said)
        if self.answer is not None:
            state = "clear" if self.answer != not_known() else "not checked"
            paint_mark(painter, state, QPointF(box.width() - 18, half), 16, colours)
        painter.end()


def not_known() -> str:
    """Return the words for an answer that nobody has yet."""
    return _("not known yet")

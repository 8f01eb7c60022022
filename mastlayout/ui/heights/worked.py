"""How a figure was found: its formula, what went in, and whose formula it is."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFormLayout, QLabel, QVBoxLayout, QWidget

from mastlayout.ui.heights.words import Working
from mastlayout.ui.look import BODY, GAP, LABEL, MARGIN, UNIT, font
from mastlayout.words import _


class Worked(QWidget):
    """The working of one figure."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.result, self.formula, self.inputs, self.source = (QLabel() for _one in range(4))
        column = QVBoxLayout(self)
        column.setContentsMargins(MARGIN, UNIT, MARGIN, GAP)
        column.setSpacing(GAP)
        self.result.setFont(font(BODY, bold=True))
        column.addWidget(self.result)
        form = QFormLayout()
        form.setHorizontalSpacing(MARGIN)
        form.setVerticalSpacing(UNIT)
        for words, label in (
            (_("Formula"), self.formula),
            (_("Went in"), self.inputs),
            (_("From"), self.source),
        ):
            caption = QLabel(words)
            caption.setProperty("kind", "label")
            caption.setFont(font(LABEL))
            label.setFont(font(LABEL))
            form.addRow(caption, label)
        column.addLayout(form)
        column.addStretch(1)
        column.addWidget(self._caution())
        for label in (self.result, self.formula, self.inputs, self.source):
            label.setWordWrap(True)
            label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)

    @staticmethod
    def _caution() -> QLabel:
        words = QLabel(
            _(
                "Over a smooth sea, in standard air. Haze, swell, a weak light, little power or a small echo "
                "make it less: no height promises that something is seen."
            )
        )
        words.setFont(font(LABEL))
        words.setProperty("kind", "label")
        words.setWordWrap(True)
        return words

    def show_working(self, working: Working | None) -> None:
        """Show a working, or what to do to see one."""
        if working is None:
            hint = _("Nothing is in hand: click a dot on the mast, or Ctrl+Up and Ctrl+Down in the chart.")
            working = Working(hint, "", "", "")
        self.result.setText(working.result)
        self.formula.setText(working.formula)
        self.inputs.setText(working.inputs)
        self.source.setText(working.source)

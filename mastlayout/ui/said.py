"""The line below a field that says what is allowed."""

from PySide6.QtWidgets import QLabel, QWidget

from mastlayout.ui.look import LABEL, font


class Said(QLabel):
    """The sentence below a field: shown only while there is one."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFont(font(LABEL))
        self.setWordWrap(True)
        self.setObjectName("said")
        self.hide()

    def say(self, sentence: str) -> None:
        """Show a sentence, or nothing."""
        self.setText(sentence)
        self.setVisible(bool(sentence))

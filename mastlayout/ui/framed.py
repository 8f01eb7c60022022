"""The frame that small forms share: a title, the parts below it, Cancel and the deed."""

from collections.abc import Callable, Iterable

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QLabel, QLayout, QPushButton, QVBoxLayout, QWidget

from mastlayout.ui.look import GAP, MARGIN, NAME, font


def framed(
    dialog: QDialog, title: str, parts: Iterable[QWidget | QLayout | str], deed: str, act: Callable[[], None]
) -> tuple[QDialogButtonBox, QPushButton]:
    """Lay a dialog out; return its buttons and the one that does the deed. Text among the parts is words."""
    column = QVBoxLayout(dialog)
    column.setContentsMargins(*(2 * MARGIN,) * 4)
    column.setSpacing(GAP)
    head = QLabel(title)
    head.setFont(font(NAME, bold=True))
    column.addWidget(head)
    for part in parts:
        if isinstance(part, QLayout):
            column.addLayout(part)
        else:
            column.addWidget(_words(part) if isinstance(part, str) else part)
    buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
    button = buttons.addButton(deed, QDialogButtonBox.ButtonRole.AcceptRole)
    button.setDefault(True)
    buttons.accepted.connect(act)
    buttons.rejected.connect(dialog.reject)
    column.addWidget(buttons)
    return buttons, button


def _words(text: str) -> QLabel:
    label = QLabel(text)
    label.setWordWrap(True)
    return label

"""The list of keys, and what this program is."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLayout,
    QMessageBox,
    QVBoxLayout,
    QWidget,
)

from mastlayout.ui.inwords import in_words
from mastlayout.ui.look import BODY, GAP, MARGIN, NAME, UNIT, font
from mastlayout.ui.moving.keytable import view_keys
from mastlayout.ui.plainwords import off_button
from mastlayout.words import _

# Longer words break, or lose their middle.
_MOST_PX = 260


def keys_dialog(parent: QWidget) -> QDialog:
    """Return the list of keys: those of the views, then every act of the menus that has one."""
    dialog = QDialog(parent)
    dialog.setWindowTitle(_("Keys"))
    column = QVBoxLayout(dialog)
    column.setContentsMargins(*(2 * MARGIN,) * 4)
    title = QLabel(_("Keys"))
    title.setFont(font(NAME, bold=True))
    column.addWidget(title)
    beside = QHBoxLayout()
    beside.setSpacing(4 * MARGIN)
    acts = _acts(parent)
    half = (len(acts) + 1) // 2
    for rows in (view_keys(), acts[:half], acts[half:]):
        beside.addLayout(_table(rows))
    column.addLayout(beside)
    buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
    buttons.rejected.connect(dialog.reject)
    column.addWidget(buttons)
    # Left to itself Qt makes it two thirds of the screen high, whatever that cuts.
    column.setSizeConstraint(QLayout.SizeConstraint.SetFixedSize)
    return dialog


def _table(rows: list[tuple[str, str]]) -> QFormLayout:
    """Return keys and what they do, one below the other; long words break."""
    form = QFormLayout()
    form.setHorizontalSpacing(2 * MARGIN)
    form.setVerticalSpacing(UNIT)
    form.setFormAlignment(Qt.AlignmentFlag.AlignTop)
    for keys, does in rows:
        key, said = QLabel(keys), QLabel(does)
        key.setFont(font(BODY, bold=True))
        for label in (key, said):
            label.setWordWrap(True)
            label.setMinimumWidth(min(label.fontMetrics().horizontalAdvance(label.text()), _MOST_PX) + GAP)
        form.addRow(key, said)
    return form


def _acts(parent: QWidget) -> list[tuple[str, str]]:
    acts = [action for action in parent.actions() if not action.shortcut().isEmpty()]
    metrics = QFontMetricsF(font(BODY))
    return [
        (act.shortcut().toString(), in_words(off_button(act.text()).rstrip(" …"), metrics, _MOST_PX))
        for act in acts
    ]


def about(parent: QWidget) -> QMessageBox:
    """Return what this program is and what it is not."""
    box = QMessageBox(parent)
    box.setWindowTitle(_("About mastlayout"))
    box.setText(_("mastlayout plans the refit of a yacht's mast: where each fitting goes and what it fouls."))
    box.setInformativeText(
        _(
            "It compares measures and knows nothing of strength: what a hole does to the mast is for its "
            "builder or a surveyor to say. Offer up each part and measure twice before you drill."
        )
    )
    box.setStandardButtons(QMessageBox.StandardButton.Close)
    return box

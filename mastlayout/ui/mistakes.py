"""The list of a file's mistakes: its line, where, and what would be right."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHeaderView,
    QLabel,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from mastlayout.errors import Mistake
from mastlayout.ui.look import GAP, MARGIN, NAME, font
from mastlayout.words import _, ngettext


class MistakesDialog(QDialog):
    """Every mistake of a layout file; ``opened`` tells whether the rest could be opened."""

    def __init__(
        self, path: Path, mistakes: Sequence[Mistake], *, opened: bool, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(_("Mistakes in {name}").format(name=path.name))
        self._path, self._mistakes = path, mistakes
        self.table = self._table()
        column = QVBoxLayout(self)
        column.setContentsMargins(*(2 * MARGIN,) * 4)
        column.setSpacing(GAP)
        title = QLabel(_count(path, len(mistakes)))
        title.setFont(font(NAME, bold=True))
        said = QLabel(_opened() if opened else _refused())
        said.setWordWrap(True)
        column.addWidget(title)
        column.addWidget(said)
        column.addWidget(self.table, 1)
        column.addWidget(self._buttons())
        self.resize(820, 420)

    def _table(self) -> QTableWidget:
        table = QTableWidget(len(self._mistakes), 3, self)
        table.setAccessibleName(_("Mistakes"))
        table.setHorizontalHeaderLabels([_("Line"), _("Where"), _("What")])
        table.verticalHeader().hide()
        table.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        table.setSelectionBehavior(QTableWidget.SelectionBehavior.SelectRows)
        table.setTabKeyNavigation(False)
        table.setWordWrap(True)
        for row, mistake in enumerate(self._mistakes):
            line = str(mistake.line) if mistake.line else "–"
            for i, words in enumerate((line, mistake.field, mistake.sentence)):
                item = QTableWidgetItem(words)
                item.setTextAlignment(Qt.AlignmentFlag.AlignTop)
                table.setItem(row, i, item)
        header = table.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(2, QHeaderView.ResizeMode.Stretch)
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)
        table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        return table

    def _buttons(self) -> QDialogButtonBox:
        box = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        copy = box.addButton(_("Copy the list"), QDialogButtonBox.ButtonRole.ActionRole)
        copy.clicked.connect(self.copy_list)
        box.rejected.connect(self.reject)
        return box

    def copy_list(self) -> None:
        """Put the list on the clipboard, a line for each mistake."""
        lines = [f"{self._path}: {mistake}" for mistake in self._mistakes]
        QGuiApplication.clipboard().setText("\n".join(lines))


def _count(path: Path, count: int) -> str:
    words = ngettext("{name} has {count} mistake", "{name} has {count} mistakes", count)
    return words.format(name=path.name, count=count)


def _opened() -> str:
    return _(
        "What could be read is open. The things named here are left out of it, so saving will ask for a new "
        "name and leave this file as it is."
    )


def _refused() -> str:
    return _("Nothing could be opened, and the file is as it was. Mend these lines in a text editor.")

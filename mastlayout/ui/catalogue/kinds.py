"""The kinds as the rows of a list, under the heads of their groups."""

from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from mastlayout.frozen import dataclass
from mastlayout.model.kind import Kind
from mastlayout.storage.catalogue import catalogue
from mastlayout.ui.catalogue.drawn import Drawn, drawn
from mastlayout.ui.catalogue.words import GROUPS, group_words, holds, size_words, typical_words
from mastlayout.ui.session import Session

ENTRY = Qt.ItemDataRole.UserRole + 1
Index = QModelIndex | QPersistentModelIndex


@dataclass(frozen=True, eq=False)
class Entry:
    """A row: the head of a group, or a kind with its drawings."""

    group: str
    kind: Kind | None = None


class Kinds(QAbstractListModel):
    """The kinds that hold the words sought; a head over each group that has any."""

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._every = [kind for group in GROUPS for kind in catalogue().values() if kind.group == group]
        self._drawn: dict[str, Drawn] = {}
        self.entries: list[Entry] = []
        self.seek("")

    def seek(self, text: str) -> None:
        """Show only the kinds that hold every word of a text."""
        words = text.casefold().split()
        self.beginResetModel()
        self.entries = []
        for kind in self._every:
            if not holds(kind, words):
                continue
            if not self.entries or self.entries[-1].group != kind.group:
                self.entries.append(Entry(kind.group))
            self.entries.append(Entry(kind.group, kind))
        self.endResetModel()

    def drawn(self, kind: Kind) -> Drawn:
        """Return a kind's drawings, made when they are first seen."""
        if kind.id not in self._drawn:
            self._drawn[kind.id] = drawn(kind)
        return self._drawn[kind.id]

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self.entries)

    def flags(self, index: Index) -> Qt.ItemFlag:
        return super().flags(index) if self.entries[index.row()].kind else Qt.ItemFlag.NoItemFlags

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        entry = self.entries[index.row()]
        if role == ENTRY:
            return entry
        if role == Qt.ItemDataRole.DisplayRole:
            return entry.kind.name if entry.kind else group_words(entry.group)
        if role in (Qt.ItemDataRole.AccessibleTextRole, Qt.ItemDataRole.ToolTipRole) and entry.kind:
            units = self._session.units
            return f"{entry.kind.name}, {size_words(entry.kind, units)}, {typical_words(entry.kind, units)}"
        return None

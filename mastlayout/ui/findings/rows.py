"""The open findings as rows, loud first."""

from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from mastlayout.checks.finding import Finding, loud_first
from mastlayout.ui.marks import word
from mastlayout.ui.session import Session

FINDING = int(Qt.ItemDataRole.UserRole)
Index = QModelIndex | QPersistentModelIndex


class FindingRows(QAbstractListModel):
    """One row for each open finding of the session's report."""

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.findings: list[Finding] = sorted(session.desk.report.open, key=loud_first)

    def renew(self) -> None:
        """Take the findings of the report as it stands."""
        self.beginResetModel()
        self.findings = sorted(self._session.desk.report.open, key=loud_first)
        self.endResetModel()

    def respell(self) -> None:
        """Say every row anew, in the units in force."""
        if self.findings:
            self.dataChanged.emit(self.index(0), self.index(len(self.findings) - 1))

    def row_about(self, name: str) -> int:
        """Return the row of the loudest finding about an id, or -1."""
        return next((row for row, found in enumerate(self.findings) if name in found.things), -1)

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self.findings)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        finding = self.findings[index.row()]
        desk, units = self._session.desk, self._session.units
        if role == FINDING:
            return finding
        if role == Qt.ItemDataRole.DisplayRole:
            return desk.short(finding, units)
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
            return f"{word(finding.standing)}. {desk.sentence(finding, units)}"
        return None

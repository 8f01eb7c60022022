"""The list's rows as a Qt model, kept in step with the session row by row, and what is sought in them."""

from typing import Any

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QSortFilterProxyModel,
    Qt,
)

from mastlayout.ui.session import Session
from mastlayout.ui.strip.things import Thing, spoken, things
from mastlayout.ui.tapewords import figure

THING = Qt.ItemDataRole.UserRole + 1
STATE = Qt.ItemDataRole.UserRole + 2
READING = Qt.ItemDataRole.UserRole + 3

Index = QModelIndex | QPersistentModelIndex


class Rows(QAbstractListModel):
    """One row for each thing on the mast, masthead first."""

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._things: list[Thing] = []
        self._states: dict[str, str] = {}
        self.take_all()

    @property
    def names(self) -> tuple[str, ...]:
        """All names, in an order that no move of a fitting changes."""
        return tuple(sorted(thing.name for thing in self._things))

    def take_all(self) -> None:
        """Take everything anew."""
        self.beginResetModel()
        self._things = things(self._session.desk.scene)
        states = self._session.desk.report.states
        self._states = {thing.id: states.get(thing.id, _quiet(thing)) for thing in self._things}
        self.endResetModel()

    def take(self) -> None:
        """Take what an edit changed: only rows whose thing or state differs are told of."""
        before, after = self._things, things(self._session.desk.scene)
        if {thing.id for thing in before} != {thing.id for thing in after}:
            self.take_all()
            return
        restated = self._restate()
        if [thing.id for thing in before] == [thing.id for thing in after]:
            touched = {new.id for old, new in zip(before, after, strict=True) if old != new} | restated
            self._things = after
        else:
            touched = {thing.id for thing in set(after) - set(before)} | restated
            self._put_in_order(after)
        for row, thing in enumerate(after):
            if thing.id in touched:
                self.dataChanged.emit(self.index(row), self.index(row))

    def respell(self) -> None:
        """Tell that every reading is written in other units."""
        self.dataChanged.emit(self.index(0), self.index(len(self._things) - 1))

    def _restate(self) -> set[str]:
        """Ask the report again, accepted findings and all; return whose state differs."""
        states = self._session.desk.report.states
        fresh = {thing.id: states.get(thing.id, _quiet(thing)) for thing in self._things}
        differs = {name for name, state in fresh.items() if state != self._states[name]}
        self._states = fresh
        return differs

    def _put_in_order(self, after: list[Thing]) -> None:
        self.layoutAboutToBeChanged.emit()
        held = self.persistentIndexList()
        names = [self._things[index.row()].id for index in held]
        self._things = after
        self.changePersistentIndexList(held, [self.index(self.row_of(name)) for name in names])
        self.layoutChanged.emit()

    def flags(self, index: Index) -> Qt.ItemFlag:
        return super().flags(index) if self._things[index.row()].id else Qt.ItemFlag.NoItemFlags

    def row_of(self, name: str) -> int:
        """Return the row of an id, or -1 where it has none."""
        return next((row for row, thing in enumerate(self._things) if name and thing.id == name), -1)

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self._things)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        thing = self._things[index.row()]
        if role == THING:
            return thing
        if role == STATE:
            return self._states[thing.id]
        if role == READING:
            return thing.sort if not thing.id or thing.sort else figure(self._session, thing.z_mm)
        if role == Qt.ItemDataRole.DisplayRole:
            return thing.name
        spoken_roles = Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole
        return self._spoken(thing) if role in spoken_roles else None

    def _spoken(self, thing: Thing) -> str:
        return spoken(self._session, thing, self._states[thing.id])


def _quiet(thing: Thing) -> str:
    """Return the state of what nothing was found of: no rule is about a sail or a line alone."""
    return "" if thing.sort or not thing.id else "clear"


class Sought(QSortFilterProxyModel):
    """The rows that hold every word sought: within the name, or at the beginning of the tag."""

    def __init__(self, rows: Rows, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._words: list[str] = []
        self._rows, self._names = rows, rows.names
        for changed in (rows.modelReset, rows.dataChanged, rows.layoutChanged):
            changed.connect(self._forget_names)
        self.setSourceModel(rows)

    @property
    def names(self) -> tuple[str, ...]:
        """The names of all rows, shown or not."""
        self._names = self._names or self._rows.names
        return self._names

    def _forget_names(self, *_changed: object) -> None:
        self._names = ()

    def seek(self, text: str) -> None:
        """Show only what holds the words of a text."""
        self._words = text.casefold().split()
        self.invalidate()

    def filterAcceptsRow(self, row: int, _parent: Index) -> bool:
        thing: Thing = self.sourceModel().index(row, 0).data(THING)
        if not thing.id:
            return not self._words
        name, tag = f"{thing.name} {thing.sort}".casefold(), str(thing.tag or "")
        return all(word in name or tag.startswith(word) for word in self._words)

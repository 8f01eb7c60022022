"""The list of everything on the mast, masthead first: a field to find in, heads, and rows that pick."""

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QEvent, QModelIndex, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QListView, QToolButton, QVBoxLayout, QWidget

from mastlayout.ui.look import BODY, CORNER, GAP, UNIT, font, qt_palette
from mastlayout.ui.moving.keys import moves_from_list, moving_key
from mastlayout.ui.session import Session
from mastlayout.ui.strip.rows import THING, Rows, Sought
from mastlayout.ui.strip.view import Heads, RowsView
from mastlayout.ui.theme import Theme
from mastlayout.words import _

LIST_PX = 292


class MastList(QWidget):
    """Everything on the mast. ``activated`` carries an id on Enter; ``settled`` tells that rows moved."""

    activated = Signal(str)
    settled = Signal()

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self.rows = Rows(session, self)
        self.sought = Sought(self.rows, self)
        self.search, self.view = QLineEdit(), RowsView(self.sought, theme)
        self._rows_changing = False
        self._lay_out()
        self._connect()
        self.recolour()
        self._select_hand()

    def _lay_out(self) -> None:
        self.search.setPlaceholderText(_("Find by name or tag"))
        self.search.setAccessibleName(_("Find on the mast, by name or tag"))
        self.search.setClearButtonEnabled(True)
        for button in self.search.findChildren(QToolButton):
            button.setAccessibleName(_("Show all of the list"))
        self.search.setFont(font(BODY))
        self.search.installEventFilter(self)
        self.view.installEventFilter(self)
        self.view.viewport().installEventFilter(self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, GAP, UNIT, UNIT)
        column.setSpacing(UNIT)
        column.addWidget(self.search)
        column.addWidget(Heads(self.view, self.theme))
        column.addWidget(self.view, 1)

    def _connect(self) -> None:
        self.search.textChanged.connect(self._seek)
        self.view.selectionModel().currentChanged.connect(self._walked)
        self.view.clicked.connect(self._pick)
        self.view.doubleClicked.connect(self._activate)
        self.view.verticalScrollBar().valueChanged.connect(self.settled)
        self.session.turns.strip.connect(self._shown)
        self.session.opened.connect(self._opened)
        self.session.hand_changed.connect(self._hand_changed)
        self.session.units_changed.connect(self.rows.respell)
        self.theme.changed.connect(self.recolour)

    def begin_search(self) -> None:
        """Take the keyboard to the search field, what stands there selected."""
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.search.selectAll()

    # -- the session's changes

    @contextmanager
    def _keeping_hand(self) -> Iterator[None]:
        """Let rows come and go without a neighbour's row being taken for the user's pick."""
        self._rows_changing = True
        try:
            yield
            self._select_hand()
        finally:
            self._rows_changing = False

    def _shown(self) -> None:
        with self._keeping_hand():
            self.rows.take()

    def _opened(self) -> None:
        self.search.clear()
        with self._keeping_hand():
            self.rows.take_all()

    def _seek(self, text: str) -> None:
        with self._keeping_hand():
            self.sought.seek(text)

    def _hand_changed(self, name: str) -> None:
        row = self.rows.row_of(name)
        if row >= 0 and not self._index(name).isValid():
            # What was taken in hand elsewhere must be seen here; the cleared field selects it.
            self.search.clear()
        else:
            self._select_hand()

    def _index(self, name: str) -> QModelIndex:
        row = self.rows.row_of(name)
        return self.sought.mapFromSource(self.rows.index(row)) if row >= 0 else QModelIndex()

    def _select_hand(self) -> None:
        index = self._index(self.session.hand)
        if index.isValid():
            shows = self.view.viewport().rect().contains(self.view.visualRect(index))
            self.view.setCurrentIndex(index)
            if not shows:
                self.view.scrollTo(index, QListView.ScrollHint.PositionAtCenter)
        else:
            self.view.clearSelection()
            self.view.setCurrentIndex(QModelIndex())
        self.settled.emit()

    # -- the user's picks

    def _walked(self, index: QModelIndex) -> None:
        if index.isValid() and not self._rows_changing and index.data(THING).id != self.session.hand:
            self._pick(index)

    def _pick(self, index: QModelIndex) -> None:
        self.session.pick(index.data(THING).id)

    def _activate(self, index: QModelIndex) -> None:
        if index.isValid():
            self._pick(index)
            self.activated.emit(index.data(THING).id)
            self.session.typing_wanted.emit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if watched is self.search:
                return self._search_key(event)
            return self._view_key(event)
        if watched is self.view.viewport() and event.type() == QEvent.Type.Resize:
            self.settled.emit()
        return super().eventFilter(watched, event)

    def _search_key(self, event: QKeyEvent) -> bool:
        key = event.key()
        if key == Qt.Key.Key_Escape and self.search.text():
            self.search.clear()
            return True
        if key in (Qt.Key.Key_Down, Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.sought.rowCount():
            self.view.setFocus(Qt.FocusReason.OtherFocusReason)
            if not self.view.currentIndex().isValid():
                self.view.setCurrentIndex(self.sought.index(0, 0))
            return True
        return False

    def _view_key(self, event: QKeyEvent) -> bool:
        if moves_from_list(event) and moving_key(self.session, event):
            return True
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._activate(self.view.currentIndex())
            return True
        if event.key() == Qt.Key.Key_Escape and self.search.text():
            self.search.clear()
            return True
        command = event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier)
        if event.text().strip() and event.text().isprintable() and not command:
            self.search.setFocus(Qt.FocusReason.OtherFocusReason)
            self.search.setText(event.text())
            return True
        return False

    # -- the look

    def recolour(self) -> None:
        """Take the colours in force."""
        colours = self.theme.colours
        self.setPalette(qt_palette(colours))
        self.search.setStyleSheet(
            f"QLineEdit {{ background: #{colours.field}; color: #{colours.ink}; padding: 2px 4px;"
            f" border: 1px solid #{colours.edge}; border-radius: {CORNER}px; }}"
            f" QLineEdit:focus {{ border: 2px solid #{colours.accent}; padding: 1px 3px; }}"
        )
        self.view.recolour()

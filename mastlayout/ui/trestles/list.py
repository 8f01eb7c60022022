"""The walk as a list: a line is what is alike of one fitting: state, readings, drill or why not."""

from collections.abc import Iterable, Mapping

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetricsF, QIcon, QKeyEvent, QPainter, QPixmap, QPolygonF, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from mastlayout.ui.look import BODY, CORNER, ROW, VALUE, font
from mastlayout.ui.marks import colour, paint_mark
from mastlayout.ui.theme import Theme
from mastlayout.ui.trestles.boxes import step_words
from mastlayout.ui.trestles.walk import BOXES, Run, Walk, WalkHole, runs, why_words
from mastlayout.ui.trestles.words import number
from mastlayout.units import Units, write_drill
from mastlayout.words import _

_MARK_PX = 18
_TALL_FROM_PX = 150
_LAST = 4
# At either side of a cell's words: the padding, and what Qt keeps besides.
_PAD_PX, _INSIDE_PX = 6, 4
_HIGHEST_PX = 1000.0


class WalkList(QTableWidget):
    """The lines of a walk, in its order. ``picked`` carries the key of a line's next hole."""

    picked = Signal(tuple)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(0, 5, parent)
        self.theme = theme
        self.runs: list[Run] = []
        self._walk: Walk | None = None
        self._current: WalkHole | None = None
        self._filling, self._laying_out, self._last_px = False, False, 0
        self.setAccessibleName(_("Holes on this face, in the order of the walk"))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setFrameShape(QTableWidget.Shape.NoFrame)
        self.setWordWrap(True)  # a reason is read whole: it takes a second line where it must
        self.setIconSize(QSize(_MARK_PX, _MARK_PX))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.horizontalHeader().hide()
        self.verticalHeader().hide()
        for column in range(_LAST):
            self.horizontalHeader().setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)
        self.horizontalHeader().setSectionResizeMode(_LAST, QHeaderView.ResizeMode.Stretch)
        self.horizontalHeader().sectionResized.connect(self._column_fits)
        self.verticalScrollBar().valueChanged.connect(self.updateGeometries)
        self.currentCellChanged.connect(self._walked)
        theme.changed.connect(self._again)

    def show_walk(self, walk: Walk, current: WalkHole | None) -> None:
        """Show a walk with the line of its next hole marked."""
        self._walk, self._current = walk, current
        self._again()

    def _again(self) -> None:
        walk = self._walk
        if walk is None:
            return
        self._filling = True
        self._restyle()
        self.runs = list(runs(walk.holes))
        self.setRowCount(len(self.runs) + len(walk.typical))
        told = dict[str, str]()
        for row, run in enumerate(self.runs):
            self._fill(row, run, told)
        for count, block in enumerate(walk.typical):
            reading = number(block.centre.height, block.centre.height.masthead)
            why = _("held back: the foot is not confirmed, offer up the part")
            self._put(len(self.runs) + count, "not checked", (block.tag, block.name, reading, why), held=True)
        at = next((i for i, run in enumerate(self.runs) if self._current in run.holes), -1)
        self.setCurrentCell(at, 1) if at >= 0 else self.setCurrentCell(-1, -1)
        if at >= 0:
            self.scrollTo(self.model().index(at, 1))
        self._filling = False
        self._fit_rows()

    def _column_fits(self, column: int, _before_px: int, now_px: int) -> None:
        """Take the new width of the last column; the table itself still tells the old one."""
        if column == _LAST:
            self._last_px = now_px
            self._fit_rows()

    def _fit_rows(self) -> None:
        """Make each row as high as its last words; while rows are filled, none."""
        for row in range(0 if self._filling else self.rowCount()):
            item = self.item(row, _LAST)
            if item is not None:
                self.setRowHeight(row, max(self._row_px, self._words_px(item) + _PAD_PX))

    def updateGeometries(self) -> None:
        """Begin and end at a row that shows whole: half a reason is none."""
        if not self._laying_out:
            self._laying_out = True
            super().updateGeometries()
            bar = self.verticalScrollBar()
            # Scrolled to its end the table keeps its last row at the bottom, else its first at the top.
            if 0 < bar.value() == bar.maximum():
                self.setViewportMargins(0, self._left_over_px(range(self.rowCount() - 1, -1, -1)), 0, 0)
                rows = self.verticalHeader()
                rows.setOffset(rows.length() - self.viewport().height())
            else:
                self.setViewportMargins(0, 0, 0, self._left_over_px(range(bar.value(), self.rowCount())))
            self._laying_out = False

    def _left_over_px(self, rows: Iterable[int]) -> int:
        """Return what is too little for the next of some rows once those before it show whole."""
        room = self.height() - 2 * self.frameWidth()
        for row in rows:
            if self.rowHeight(row) > room:
                return room
            room -= self.rowHeight(row)
        return 0

    def _words_px(self, item: QTableWidgetItem) -> int:
        """Return how high words are in the last column as wide as it is now: a higher row may narrow it."""
        room = QRectF(0, 0, self._last_px - 2 * _PAD_PX - _INSIDE_PX, _HIGHEST_PX)
        words = QFontMetricsF(item.font()).boundingRect(room, Qt.TextFlag.TextWordWrap, item.text())
        return round(words.height())

    def _fill(self, row: int, run: Run, told: dict[str, str]) -> None:
        """Fill a row; ``told`` are the reasons that stand in rows above, each by the tags of its row."""
        hole, units = run.holes[0], run.holes[0].row.height.units
        heights = sorted({h.row.height.masthead for h in run.holes})
        ends = heights if len(heights) < 3 else [heights[0], heights[-1]]
        words = [number(hole.row.height, value) for value in ends]
        between = _(", ") if len(heights) < 3 else _(" to ")
        own = self._current in run.holes
        state = "own" if own else hole.mark
        self._put(
            row,
            state,
            (run.tags, hole.block.name, between.join(words), _last(hole, units, told)),
            held=hole.held,
            own=own,
            whole=_last(hole, units, {}),
        )
        if hole.held:
            told.setdefault(why_words(hole), run.tags)

    def _put(
        self, row: int, state: str, texts: tuple[str, ...], *, held: bool, own: bool = False, whole: str = ""
    ) -> None:
        """Put a row; ``whole`` are its last words where they stand shortened."""
        c = self.theme.colours
        mark = QTableWidgetItem(self._icon(state), "")
        mark.setData(Qt.ItemDataRole.AccessibleTextRole, _said(state))
        self.setItem(row, 0, mark)
        for column, text in enumerate(texts, 1):
            item = QTableWidgetItem(text)
            # A reason is long enough without bold letters.
            item.setFont(font(self._px, bold=column == 1 or (own and column < _LAST)))
            quiet = held and not own
            item.setForeground(c["second" if quiet or state == "accepted" else "ink"])
            item.setToolTip(whole or text if column == _LAST else text)
            self.setItem(row, column, item)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self.verticalHeader().defaultSectionSize() != self._row_px:
            self.verticalHeader().setDefaultSectionSize(self._row_px)
            self._again()

    @property
    def _row_px(self) -> int:
        return ROW + 6 if self.height() >= _TALL_FROM_PX else ROW

    @property
    def _px(self) -> int:
        return VALUE if self.height() >= _TALL_FROM_PX else BODY

    def _icon(self, state: str) -> QIcon:
        ratio = self.devicePixelRatioF()
        picture = QPixmap(int(_MARK_PX * ratio), int(_MARK_PX * ratio))
        picture.setDevicePixelRatio(ratio)
        picture.fill(QColor(0, 0, 0, 0))
        painter = QPainter(picture)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        middle = QPointF(_MARK_PX / 2, _MARK_PX / 2)
        if state == "own":
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(self.theme.colours["accent"])
            painter.drawPolygon(QPolygonF([QPointF(4, 3), QPointF(15, 9), QPointF(4, 15)]))
        elif state == "":
            painter.setPen(colour("note", self.theme.colours))
            painter.drawRect(3, 3, 12, 12)
        else:
            paint_mark(painter, state, middle, _MARK_PX - 2, self.theme.colours)
        painter.end()
        return QIcon(picture)

    def _restyle(self) -> None:
        c = self.theme.colours
        self.setStyleSheet(
            f"QTableWidget {{ background: #{c.ground}; border: 1px solid #{c.ground}; color: #{c.ink}; }}"
            f"QTableWidget:focus {{ border: 1px solid #{c.accent}; }}"
            f"QTableWidget::item {{ padding: 0 {_PAD_PX}px; border: none; }}"
            f"QTableWidget::item:selected {{ background: #{c.chosen}; color: #{c.ink}; }}"
            f" QScrollBar:vertical {{ background: #{c.ground}; width: 10px; margin: 0; }}"
            f" QScrollBar::handle:vertical {{ background: #{c.edge}; min-height: 24px;"
            f" border-radius: {CORNER}px; margin: 0 2px; }}"
            " QScrollBar::add-line, QScrollBar::sub-line { height: 0; }"
        )

    # -- hands and keys

    def _walked(self, row: int, _column: int, before: int, _before_column: int) -> None:
        if self._filling or row == before or not 0 <= row < len(self.runs):
            return
        holes = self.runs[row].holes
        self.picked.emit(next((hole for hole in holes if hole.left), holes[0]).key)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        # Only the arrows are the list's own: Space, Return and R belong to the hole.
        arrows = (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_Home, Qt.Key.Key_End, Qt.Key.Key_PageUp,
                  Qt.Key.Key_PageDown)  # fmt: skip
        if event.key() in arrows:
            super().keyPressEvent(event)
        else:
            event.ignore()


def _last(hole: WalkHole, units: Units, told: Mapping[str, str]) -> str:
    """Return the drill and fastener of a hole, what is done with it so far, or why it is held back.

    A reason that was ``told`` is not told again: the tags of its row stand for it.
    """
    begun = ", ".join(step_words(step).lower() for step in BOXES if step in hole.done)
    if hole.state == "done":
        return _("done")
    if hole.held:
        why = why_words(hole)
        words = _("held back, as {tags}") if why in told else _("held back: {why}")
        words = words.format(why=why, tags=told.get(why))
    else:
        size = write_drill(hole.row.drill_mm, units) if hole.row.drill_mm is not None else ""
        words = _("drill {size}, {fastener}").format(size=size, fastener=hole.row.fastener)
    return f"{begun}; {words}" if begun else words


def _said(state: str) -> str:
    return {"own": _("next"), "accepted": _("done"), "": _("to drill")}.get(state, _("held back"))

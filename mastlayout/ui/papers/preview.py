"""The papers: every sheet as it will be printed, its size and units, saving and printing."""

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import Any, cast

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from mastlayout.desk import Desk
from mastlayout.documents.page import PAPERS_MM, Page, PaperName
from mastlayout.documents.papers import Paper, Sheets, papers, sheets
from mastlayout.documents.schedule.plan import plan_of
from mastlayout.errors import MastLayoutError
from mastlayout.storage.writing import write_each
from mastlayout.ui.asks import Asks
from mastlayout.ui.look import GAP, MARGIN, NAME, font
from mastlayout.ui.papers.drawing import Drawing
from mastlayout.ui.papers.printing import ask_and_print
from mastlayout.ui.papers.view import PageView
from mastlayout.ui.theme import Theme
from mastlayout.units import Units
from mastlayout.words import _

# What is done sooner shows no progress: it would only flicker.
_PATIENCE_MS = 500
_KINDS = 11
_ROLE = Qt.ItemDataRole.UserRole


# Sentences of files that could not be written; a full disk fails them all alike.
_MOST_SAID = 3


class PapersDialog(QDialog):
    """A preview of every sheet of one layout, as it stands when this opens."""

    def __init__(
        self,
        desk: Desk,
        units: Units,
        theme: Theme,
        asks: Asks,
        kind: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._report, self._asks, self._first_kind = desk.report, asks, kind
        self._day = dt.date.today().isoformat()  # noqa: DTZ011 - the day on the wall of the shed is meant
        self.sheets: list[Sheets] = []
        self._drawing: Drawing | None = None
        self.setWindowTitle(_("Papers"))
        self.list, self.view = QListWidget(), PageView(theme)
        self.paper, self.units = QComboBox(), QComboBox()
        self.progress, self.stop = QProgressBar(), QPushButton(_("Cancel"))
        self.said = QLabel()
        self._patience = QTimer(self, interval=_PATIENCE_MS, singleShot=True)
        self._build(units)
        self._connect()
        self.draw()

    def _build(self, units: Units) -> None:
        title = QLabel(_("Papers"))
        title.setFont(font(NAME, bold=True))
        self.list.setAccessibleName(_("Pages"))
        self.paper.addItems(list(PAPERS_MM))
        self.units.addItem(_("Millimetres"), "metric")
        self.units.addItem(_("Feet and inches"), "inches")
        self.units.setCurrentIndex(self.units.findData(units))
        self.save_button = QPushButton(_("Save all into a folder …"))
        self.print_button = QPushButton(_("Print this sheet …"))
        self.close_button = QPushButton(_("Close"))
        self.said.setWordWrap(True)
        side = QVBoxLayout()
        side.setSpacing(GAP)
        rows: tuple[QWidget, ...] = (
            title, self.list, self._named(_("Paper"), self.paper), self._named(_("Units"), self.units),
            self.said, self.progress, self.stop, self.save_button, self.print_button, self.close_button,
        )  # fmt: skip
        for widget in rows:
            side.addWidget(widget)
        row = QHBoxLayout(self)
        row.setContentsMargins(*(MARGIN,) * 4)
        row.setSpacing(MARGIN)
        row.addLayout(side)
        row.addWidget(self.view, 1)
        self.list.setFixedWidth(280)
        self._show_progress(shown=False)
        self.resize(1240, 820)

    @staticmethod
    def _named(words: str, field: QComboBox) -> QWidget:
        field.setAccessibleName(words)
        box = QWidget()
        row = QHBoxLayout(box)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(QLabel(words))
        row.addWidget(field, 1)
        return box

    def _connect(self) -> None:
        self.list.currentItemChanged.connect(self._show_page)
        self.paper.currentIndexChanged.connect(self.draw)
        self.units.currentIndexChanged.connect(self.draw)
        self.save_button.clicked.connect(self.save_all)
        self.print_button.clicked.connect(self.print_sheet)
        self.close_button.clicked.connect(self.reject)
        self.stop.clicked.connect(self.cancel)
        self._patience.timeout.connect(lambda: self._show_progress(shown=True))

    # -- drawing

    def draw(self) -> None:
        """Draw every sheet anew, on the paper and in the units chosen."""
        report, day, paper, units = self._report, self._day, self._paper(), self._units()
        self._begin(Drawing(lambda: sheets(plan_of(report, units, day), paper), self), self._show_sheets)

    def _paper(self) -> PaperName:
        return cast("PaperName", self.paper.currentText())

    def _units(self) -> Units:
        return cast("Units", self.units.currentData())

    def _begin(self, drawing: Drawing, then: Callable[[list[Any]], None]) -> None:
        self.cancel()
        self._drawing = drawing
        drawing.done.connect(lambda made: self._ended(drawing, lambda: then(made)))
        drawing.failed.connect(lambda words: self._ended(drawing, lambda: self.said.setText(words)))
        drawing.stepped.connect(self.progress.setValue)
        self.progress.setRange(0, _KINDS)
        self.progress.setValue(0)
        self.said.clear()
        self._enable(ready=False)
        self._patience.start()
        drawing.start()

    def _ended(self, drawing: Drawing, then: Callable[[], None]) -> None:
        """Show what a drawing made, unless another was begun or it was cancelled since."""
        if drawing is self._drawing:
            self._rest()
            then()

    def cancel(self) -> None:
        """End what is being drawn; what was shown before stays."""
        if self._drawing is not None:
            self._drawing.cancel()
            self._rest()

    def _rest(self) -> None:
        self._drawing = None
        self._patience.stop()
        self._show_progress(shown=False)
        self._enable(ready=bool(self.sheets))

    def _show_progress(self, *, shown: bool) -> None:
        self.progress.setVisible(shown)
        self.stop.setVisible(shown)

    def _enable(self, *, ready: bool) -> None:
        self.save_button.setEnabled(ready)
        self.print_button.setEnabled(ready)

    # -- the pages

    def _show_sheets(self, made: list[Sheets]) -> None:
        self.sheets = made
        row = self.list.currentRow()
        self.list.clear()
        for sheet in made:
            for number in range(len(sheet.pages)):
                QListWidgetItem(_title(sheet, number), self.list).setData(_ROLE, (sheet.kind, number))
        kinds = [self.list.item(i).data(_ROLE)[0] for i in range(self.list.count())]
        first = kinds.index(self._first_kind) if self._first_kind in kinds else 0
        self.list.setCurrentRow(min(row, self.list.count() - 1) if row >= 0 else first)
        self._enable(ready=bool(made))

    def _current(self) -> tuple[Sheets, int] | None:
        item = self.list.currentItem()
        if item is None:
            return None
        kind, number = item.data(_ROLE)
        return next((sheet, number) for sheet in self.sheets if sheet.kind == kind)

    def _show_page(self, *_items: object) -> None:
        current = self._current()
        page: Page | None = current[0].pages[current[1]] if current else None
        self.view.show_page(page, _title(*current) if current else "")

    # -- saving and printing

    def save_all(self) -> None:
        """Write every paper into a folder that is asked for."""
        folder = self._asks.folder(str(Path.home()))
        if folder is None:
            return
        report, day, paper, units = self._report, self._day, self._paper(), self._units()
        made = Drawing(lambda: iter(papers(report, units=units, paper=paper, day=day)), self)
        self._begin(made, lambda done: self._write(folder, done))

    def _write(self, folder: Path, made: list[Paper]) -> None:
        try:
            written, failed = write_each(folder, ((paper.name, paper.data) for paper in made))
        except MastLayoutError as error:
            self._asks.say(str(error))
            return
        self.said.setText(_("{count} files are in {folder}.").format(count=len(written), folder=folder))
        if failed:
            self._asks.say("\n".join(map(str, failed[:_MOST_SAID])))

    def print_sheet(self) -> None:
        """Print every page of the kind of sheet that shows."""
        current = self._current()
        if current is None:
            return
        try:
            printed = ask_and_print(current[0].pages, current[0].words, self)
        except MastLayoutError as error:
            self._asks.say(str(error))
            return
        if printed:
            self.said.setText(
                _("Sent to the printer. Lay a rule on the sheet's scale before you drill from it.")
            )

    def done(self, result: int) -> None:
        drawing = self._drawing
        self.cancel()
        if drawing is not None:
            drawing.wait()
        super().done(result)


def _title(sheet: Sheets, number: int) -> str:
    if sheet.pages[number].title:
        return sheet.pages[number].title
    words = sheet.words[:1].upper() + sheet.words[1:]
    if len(sheet.pages) == 1:
        return words
    return _("{sheet}, page {page} of {pages}").format(sheet=words, page=number + 1, pages=len(sheet.pages))

"""How the panels stand: side by side on a wide window, with tabs on a narrow one."""

from typing import Literal

from PySide6.QtCore import QByteArray, QSettings, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QSplitter, QStackedWidget, QTabWidget, QWidget

from mastlayout.ui.look import GAP, UNIT
from mastlayout.ui.panels import Panels
from mastlayout.ui.strip.list import MastList
from mastlayout.words import _

Width = Literal["vast", "wide", "narrow"]
NARROW_BELOW_PX, VAST_FROM_PX = 1500, 2560
LEFT_PX, RIGHT_PX = 500, 694
NARROW_LEFT_PX, NARROW_RIGHT_PX = 92, 512
HAND_PX, SECTION_PX, FINDINGS_PX = 256, 356, 360
VAST_HAND_PX = 340  # every property of a fitting
SECTION_WIDE_PX = 312
NARROW_HAND_PX, NARROW_TABS_PX, NARROW_FINDINGS_PX = 112, 306, 290
# On a vast window the strip has room for the whole rig, the skin for the whole girth.
VAST_LEFT_PART, VAST_RIGHT_PART, VAST_SKIN_PX, VAST_ROWS = 0.265, 0.29, 716, (0.55, 0.45)


def _kind(width_px: int) -> Width:
    if width_px < NARROW_BELOW_PX:
        return "narrow"
    return "wide" if width_px < VAST_FROM_PX else "vast"


class Arrangement(QWidget):
    """The panels on splitters that keep their places, one arrangement for each width.

    ``list_made`` carries the list of its own that a narrow window shows.
    """

    list_made = Signal(MastList)

    def __init__(self, panels: Panels, settings: QSettings, size: QSize, parent: QWidget) -> None:
        super().__init__(parent)
        self.resize(size)  # arranged once, for the place it will have
        self.panels, self._settings = panels, settings
        self.width_kind: Width | None = None
        self.tabs: QTabWidget | None = None
        self.list: MastList | None = None
        self._splitters: dict[str, QSplitter] = {}
        self._root: QSplitter | None = None
        self._slot, self._room = QStackedWidget(), None  # type: QStackedWidget, QWidget | None
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(GAP, 0, GAP, UNIT)
        self._arrange(_kind(self.width()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange(_kind(event.size().width()))

    def keep(self, *_moved: int) -> None:
        """Remember where the splitters stand, and which tab is in front."""
        if not self.isVisible():
            return  # nothing has stood there yet
        for name, splitter in self._splitters.items():
            self._settings.setValue(f"window/{self.width_kind}/{name}", splitter.saveState())
        if self.width_kind == "vast":
            left_px, _middle_px, right_px = self._splitters["columns"].sizes()
            for side, px in (("left", left_px), ("right", right_px)):
                self._settings.setValue(f"window/vast/{side}", px / self.width())
        self._keep_tab()

    def _keep_tab(self) -> None:
        if self.tabs is not None:
            self._settings.setValue("window/tab", self.tabs.currentIndex())

    def reset(self) -> None:
        """Put the splitters back where the program has them."""
        for width in ("vast", "wide", "narrow"):
            self._settings.remove(f"window/{width}")
        kind, self.width_kind = self.width_kind, None
        self._splitters.clear()
        self._arrange(kind or "wide")

    def _arrange(self, width: Width) -> None:
        if width == self.width_kind:
            return
        self._keep_tab()  # the splitters are squeezed into the new width by now
        self._splitters.clear()
        self.width_kind = width
        old, self._root = self._root, self._split("columns", Qt.Orientation.Horizontal, self)
        (self._narrow if width == "narrow" else self._wide)(self._root)
        self._row.addWidget(self._root)
        if old is not None:
            self._row.removeWidget(old)
            old.hide()
            old.deleteLater()
        for name, splitter in self._splitters.items():
            state = self._settings.value(f"window/{width}/{name}")
            if isinstance(state, QByteArray) and (width, name) != ("vast", "columns"):
                splitter.restoreState(state)
            splitter.splitterMoved.connect(self.keep)

    def _wide(self, columns: QSplitter) -> None:
        shown = self.panels
        self.tabs = None
        shown.hand.hold_properties()
        self._fill(columns, [self._take_slot(shown.strip, columns), shown.elevation], (0, 1))
        right = self._split("right", Qt.Orientation.Vertical, columns)
        self._fill(right, [shown.hand], (0,))
        middle = self._split("middle", Qt.Orientation.Horizontal, right, 1)
        self._fill(middle, [shown.section, shown.skin], (1, 1) if self.width_kind == "wide" else (0, 1))
        self._fill(right, [shown.findings], (1,))
        if self.width_kind == "wide":
            right.setSizes([HAND_PX, SECTION_PX, FINDINGS_PX])
            self._set_columns(columns, LEFT_PX, RIGHT_PX)
            return
        left_px = self._vast_px("left", VAST_LEFT_PART)
        right_px = self._vast_px("right", VAST_RIGHT_PART)
        right.setSizes([VAST_HAND_PX, *(round(part * (self.height() - VAST_HAND_PX)) for part in VAST_ROWS)])
        skin_px = min(VAST_SKIN_PX, right_px - SECTION_WIDE_PX)
        middle.setSizes([right_px - skin_px, skin_px])
        self._set_columns(columns, left_px, right_px)

    def _vast_px(self, side: str, usual: float) -> int:
        """Return the width of a column as the part of the window that it was left at: such windows differ."""
        part = self._settings.value(f"window/vast/{side}", usual, type=float)
        return round((part if isinstance(part, float) and 0.0 < part < 1.0 else usual) * self.width())

    def _narrow(self, columns: QSplitter) -> None:
        shown = self.panels
        self._fill(columns, [shown.strip, shown.elevation], (0, 1))
        right = self._split("right", Qt.Orientation.Vertical, columns)
        self._fill(right, [shown.hand], (0,))
        tabs = self.tabs = QTabWidget(right)
        tabs.setAccessibleName(_("Views of what is in hand"))
        tabs.setDocumentMode(True)
        for panel, title in self._tabs():
            tabs.addTab(panel, title)
        kept = str(self._settings.value("window/tab", "0"))
        tabs.setCurrentIndex(int(kept) if kept.isdecimal() else 0)
        self._fill(right, [tabs, self._take_slot(shown.findings, right)], (1, 1))
        right.setSizes([NARROW_HAND_PX, NARROW_TABS_PX, NARROW_FINDINGS_PX])
        self._set_columns(columns, NARROW_LEFT_PX, NARROW_RIGHT_PX)

    def _take_slot(self, panel: QWidget, inside: QSplitter) -> QStackedWidget:
        """Let a panel share its place with the room that may stand there for a while."""
        open_now = self.room_open  # before the panel leaves its place: the room would come forward
        slot = QStackedWidget(inside)
        slot.addWidget(panel)
        if self._room is not None:
            slot.addWidget(self._room)
            slot.setCurrentIndex(1 if open_now else 0)
        self._slot = slot
        return slot

    @property
    def room_open(self) -> bool:
        """Tell whether a room stands in the place of a panel."""
        return self._room is not None and self._slot.currentWidget() is self._room

    def open_room(self, room: QWidget) -> None:
        """Put a room in the place of the strip, on a narrow window of the findings: every view stays."""
        self._room = room
        if self._slot.indexOf(room) < 0:
            self._slot.addWidget(room)
        self._slot.setCurrentWidget(room)

    def close_room(self) -> None:
        """Show the panel again in whose place the room stood."""
        self._slot.setCurrentIndex(0)

    def _tabs(self) -> list[tuple[QWidget, str]]:
        strip = self.panels.strip
        everything = self.list = MastList(strip.session, strip.theme)  # the strip is too narrow for its own
        self.list_made.emit(everything)
        return [
            (self.panels.section, _("Section")),
            (self.panels.skin, _("Skin")),
            (self.panels.hand.rest, _("Properties")),
            (everything, _("List")),
        ]

    def _set_columns(self, columns: QSplitter, left_px: int, right_px: int) -> None:
        columns.setSizes([left_px, max(1, self.width() - left_px - right_px - 4 * GAP), right_px])

    def _split(self, name: str, way: Qt.Orientation, inside: QWidget, stretch: int = 0) -> QSplitter:
        """Return an empty splitter in its place: each panel is styled anew whenever what holds it moves."""
        splitter = QSplitter(way, inside)
        splitter.setHandleWidth(GAP)
        splitter.setChildrenCollapsible(False)
        if isinstance(inside, QSplitter):
            self._fill(inside, [splitter], (stretch,))
        self._splitters[name] = splitter
        return splitter

    def _fill(self, splitter: QSplitter, parts: list[QWidget], stretch: tuple[int, ...]) -> None:
        for part, factor in zip(parts, stretch, strict=True):
            splitter.addWidget(part)
            part.show()
            splitter.setStretchFactor(splitter.indexOf(part), factor)

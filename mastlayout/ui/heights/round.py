"""Round the compass: the ring picture, and under it the same in words."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from mastlayout.checks.sentence import names_of
from mastlayout.geometry.scene import Scene
from mastlayout.ranges.ring_words import nothing, numbered
from mastlayout.ranges.rings import mouth_rings, rings
from mastlayout.ui.heights.ring import RingPicture
from mastlayout.ui.look import BODY, GAP, LABEL, MARGIN, font
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_LIST_PX = 190
_KEY = Qt.ItemDataRole.UserRole


class RoundCompass(QWidget):
    """The rings of the layout that is open; a line that is chosen is outlined in the picture."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session = session
        self.picture, self.list = RingPicture(theme), QListWidget()
        self.list.setAccessibleName(_("Lights, antennas and horns, and what stands before each"))
        self.list.setFixedHeight(_LIST_PX)
        self.list.setWordWrap(True)
        self.list.currentItemChanged.connect(self._choose)
        column = QVBoxLayout(self)
        column.setContentsMargins(MARGIN, GAP, MARGIN, MARGIN)
        column.addWidget(self.picture, 1)
        column.addWidget(self.list)
        self._scene: Scene | None = None
        theme.changed.connect(self.picture.update)

    def show_layout(self) -> None:
        """Show the layout as it stands."""
        scene = self.session.desk.scene
        if scene is self._scene:
            return
        self._scene = scene
        row = self.list.currentRow()
        shown = numbered((*rings(scene), *mouth_rings(scene)), names_of(scene.layout))
        self.list.clear()
        for one in shown:
            self._add(f"{one.number}  {one.title}", (one.number, ""), bold=True)
            for item in one.things:
                self._add(f"      {item.letter}  {item.line}", (one.number, item.letter))
            if not one.things:
                self._add(f"      {nothing()}", (one.number, ""))
        if not shown:
            self._add(
                _("No light, no antenna and no horn is on the mast yet: place one from the catalogue."),
                (0, ""),
            )
        self.picture.show_rings(shown, None)
        self.list.setCurrentRow(min(max(row, 0), self.list.count() - 1))

    def _add(self, words: str, key: tuple[int, str], *, bold: bool = False) -> None:
        item = QListWidgetItem(words)
        item.setFont(font(BODY if bold else LABEL, bold=bold))
        item.setData(_KEY, key)
        self.list.addItem(item)

    def _choose(self, item: QListWidgetItem | None, *_before: object) -> None:
        chosen = tuple(item.data(_KEY)) if item is not None else None
        self.picture.show_rings(self.picture.shown, chosen)

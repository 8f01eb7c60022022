"""Round the compass: the ring picture, and under it the same in words."""

from collections.abc import Sequence
from time import perf_counter

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from mastlayout.checks.sentence import names_of
from mastlayout.geometry.scene import Scene
from mastlayout.ranges.ring_words import nothing, numbered
from mastlayout.ranges.rings import Ring, every_ring
from mastlayout.ui.heights.ring import RingPicture
from mastlayout.ui.later import TURN_S
from mastlayout.ui.look import BODY, GAP, LABEL, MARGIN, font
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_LIST_PX = 190
_KEY = Qt.ItemDataRole.UserRole


class _Gathering:
    """The rings of one scene, worked out some at a time."""

    def __init__(self, scene: Scene) -> None:
        self.scene, self.rings = scene, list[Ring]()
        self._left = every_ring(scene)

    def ends(self, seconds: float) -> bool:
        """Work on for so long; tell whether all are there."""
        ends = perf_counter() + seconds
        for ring in self._left:
            self.rings.append(ring)
            if perf_counter() > ends:
                return False
        return True


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
        self._gathering: _Gathering | None = None
        self.turn_s = TURN_S
        theme.changed.connect(self.picture.update)

    def show_layout(self) -> None:
        """Show the layout as it stands; while a gesture is under way that may take some turns."""
        scene, session = self.session.desk.scene, self.session
        if scene is self._scene:
            self._gathering = None
        elif not session.previewing:
            self._gathering = None
            self._show(scene, tuple(every_ring(scene)))
        else:
            self._gathering = self._gathering or _Gathering(scene)
            if self._gathering.ends(self.turn_s):
                self._show(self._gathering.scene, self._gathering.rings)
                self._gathering = None
            if self._scene is not scene:
                session.turns.fields_again()

    def _show(self, scene: Scene, found: Sequence[Ring]) -> None:
        self._scene = scene
        row = self.list.currentRow()
        shown = numbered(found, names_of(scene.layout))
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

"""The view on trestles: the whole mast, the face that is up, the next hole, and the walk."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QGridLayout, QWidget

from mastlayout.model.edits import tick
from mastlayout.model.fitting import Step
from mastlayout.ui.hand.built import BuiltDialog
from mastlayout.ui.look import GAP, UNIT
from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.ui.trestles.boxes import first_open, step_words
from mastlayout.ui.trestles.card import Card
from mastlayout.ui.trestles.face import FaceCanvas
from mastlayout.ui.trestles.lie import Lying
from mastlayout.ui.trestles.walk import Key, Walk, WalkHole, walk_of
from mastlayout.ui.trestles.walkpanel import WalkPanel
from mastlayout.ui.trestles.whole import WholeMast
from mastlayout.words import _

_CARD_SHARE, _LEAST_CARD_PX, _MOST_CARD_PX = 0.335, 400, 1300
_WHOLE_SHARE, _LEAST_WHOLE_PX, _MOST_WHOLE_PX = 0.225, 176, 300
_WALK_SHARE, _LEAST_WALK_PX, _MOST_WALK_PX = 0.25, 156, 460


class TrestlesView(QWidget):
    """The mast as it lies. ``hole`` is the next one; nothing is worked out while the view is hidden."""

    def __init__(self, session: Session, theme: Theme, lying: Lying, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session, self.lying = session, lying
        self.hole: WalkHole | None = None
        self.walk: Walk | None = None
        self._stale = True
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(_("On trestles"))
        self.whole, self.face = WholeMast(theme), FaceCanvas(theme)
        self.card, self.list = Card(session, theme), WalkPanel(session, theme)
        self._lay_out(theme)
        self._connect()

    def _lay_out(self, theme: Theme) -> None:
        grid = self._grid = QGridLayout(self)
        grid.setContentsMargins(GAP, 0, GAP, UNIT)
        grid.setSpacing(GAP)
        framed = []
        for canvas in (self.whole, self.face):
            panel = Panel(self.session, theme)
            panel.body.addWidget(canvas)
            framed.append(panel)
        grid.addWidget(framed[0], 0, 0, 1, 2)
        grid.addWidget(framed[1], 1, 0)
        grid.addWidget(self.list, 2, 0)
        grid.addWidget(self.card, 1, 1, 2, 1)
        grid.setColumnStretch(0, 1)
        grid.setRowStretch(1, 1)
        self._whole_panel = framed[0]

    def _connect(self) -> None:
        session = self.session
        for signal in (session.opened, session.shown, session.units_changed):
            signal.connect(self._refresh)
        session.opened.connect(self._forget)
        self.lying.changed.connect(self._turned)
        self.whole.height_wanted.connect(self.face.show_height)
        self.face.span_changed.connect(self.whole.show_span)
        self.face.picked.connect(self.pick)
        self.list.list.picked.connect(self.pick)
        self.card.ticked.connect(self.tick)
        self.card.go_on.connect(self.go_on)
        self.card.not_planned.connect(self.record_built)

    # -- what shows

    def _forget(self) -> None:
        self.hole = None
        self._refresh()

    def _turned(self) -> None:
        """Another face is up, or one stands elsewhere: what is in hand stays if it is still up."""
        self._refresh()

    def _refresh(self, *_changed: object) -> None:
        if not self.isVisible():
            self._stale = True
            return
        self._stale = False
        session, lie = self.session, self.lying.lie
        before = self.walk
        self.walk = walk_of(session.desk.report, session.units, lie.face)
        kept = self.walk.hole(self.hole.key) if self.hole else None
        self.hole = kept or self._of_hand() or self.walk.first
        moved = kept is None or before is None or before.face != lie.face
        self._show(move=moved)

    def _of_hand(self) -> WalkHole | None:
        """Return the first hole to do of what was in hand in the standing view."""
        walk, hand = self.walk, self.session.hand
        own = [hole for hole in walk.holes if hole.block.fitting == hand] if walk else []
        return next((hole for hole in own if hole.left), own[0] if own else None)

    def _show(self, *, move: bool) -> None:
        scene, lie, walk = self.session.desk.scene, self.lying.lie, self.walk
        if walk is None:
            return
        if move:
            self.face.centre_z_mm = self._height()
        self.whole.show_walk(scene, walk, lie, self.hole)
        self.face.show_walk(scene, walk, lie, self.hole)
        self.list.show_walk(walk, self.hole, lie)
        self.card.show_hole(walk, self.hole, lie)

    def _height(self) -> float:
        """Return the height to show: the foot of the next hole, else a foot on this face, else the middle."""
        scene, walk = self.session.desk.scene, self.walk
        blocks = [self.hole.block] if self.hole else list(walk.typical) if walk else []
        return scene.placed[blocks[0].fitting].z_mm if blocks else self.session.z_mm

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._stale:
            self._refresh()

    def resizeEvent(self, event: QResizeEvent) -> None:
        wide, high = event.size().width(), event.size().height()
        self.card.setFixedWidth(min(max(int(wide * _CARD_SHARE), _LEAST_CARD_PX), _MOST_CARD_PX))
        whole = min(max(int(high * _WHOLE_SHARE), _LEAST_WHOLE_PX), _MOST_WHOLE_PX)
        self._whole_panel.setFixedHeight(whole)
        self.list.setFixedHeight(min(max(int(high * _WALK_SHARE), _LEAST_WALK_PX), _MOST_WALK_PX))
        super().resizeEvent(event)

    # -- what is done

    def pick(self, key: Key) -> None:
        """Take a hole of this face as the next one."""
        found = self.walk.hole(key) if self.walk else None
        if found is None:
            return
        same = self.hole is not None and self.hole.block.fitting == found.block.fitting
        self.hole = found
        self.session.pick(found.block.fitting)
        self._show(move=not same)

    def tick(self, step: Step, ticked: bool) -> None:  # noqa: FBT001 - a slot of a box
        """Keep in the layout that a step of the next hole is done, or is not, as one undo step."""
        hole = self.hole
        if hole is None or (ticked and step not in hole.boxes):
            return
        fitting, hole_number = hole.key
        layout = tick(self.session.layout, fitting, hole_number, step, ticked=ticked)
        words = _("Tick {step} of {tag}") if ticked else _("Take back {step} of {tag}")
        self.session.edit(layout, words.format(step=step_words(step).lower(), tag=hole.row.tag))

    def tick_next(self) -> None:
        """Tick the next open box of the next hole."""
        step = first_open(self.hole) if self.hole else None
        if step is not None:
            self.tick(step, True)  # noqa: FBT003

    def go_on(self) -> None:
        """Go to the next hole with an open box; from the last one, roll the mast."""
        walk = self.walk
        following = walk.after(self.hole.key if self.hole else None) if walk else None
        if following is not None:
            self.pick(following.key)
        else:
            self.roll()

    def roll(self) -> None:
        """Roll the mast to the next face that has holes."""
        if self.walk is not None:
            self.lying.turn_up(self.walk.next_face)

    def record_built(self) -> None:
        """Ask where the next hole was drilled, or where its fitting was found."""
        if self.hole is not None:
            placed = self.session.desk.scene.placed[self.hole.block.fitting]
            BuiltDialog(self.session, placed, self.window(), self.hole.row.number).exec()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        acts = {
            Qt.Key.Key_Space: self.tick_next,
            Qt.Key.Key_Return: self.go_on,
            Qt.Key.Key_Enter: self.go_on,
            Qt.Key.Key_R: self.roll,
        }
        act = acts.get(Qt.Key(event.key())) if not _held(event) else None
        if act is None:
            super().keyPressEvent(event)
        else:
            act()


def _held(event: QKeyEvent) -> bool:
    """Tell whether a key is held with Ctrl or Alt, and so means something else."""
    held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    return held != Qt.KeyboardModifier.NoModifier

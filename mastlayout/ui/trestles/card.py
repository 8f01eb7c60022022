"""The next-hole card: what is read, the loudest warning, the boxes, and on to the next."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from mastlayout.documents.drillhead import banner_words
from mastlayout.documents.faces import face_words
from mastlayout.ui.look import CORNER, GAP, MARGIN, NAME, UNIT, VALUE, font
from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.ui.trestles.band import Band
from mastlayout.ui.trestles.boxes import Boxes
from mastlayout.ui.trestles.lie import Lie
from mastlayout.ui.trestles.reading import Reading
from mastlayout.ui.trestles.walk import Walk, WalkHole, note_words
from mastlayout.words import _

_LARGE_FROM_PX = 640
# On a vast window what is done is as large, against its own sizes, as what is read.
_VAST_FROM_PX, _VAST_SCALE = 1200, 1.6


class Card(Panel):
    """One hole at arm's length. ``ticked``, ``go_on`` and ``not_planned`` carry what is pressed."""

    ticked = Signal(str, bool)
    go_on = Signal()
    not_planned = Signal()

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        self.next, self.other = QPushButton(), QPushButton(_("Not as planned …"))
        self.boxes = Boxes(theme)
        super().__init__(session, theme, "", parent)
        self.setAccessibleName(_("Next hole"))
        self.head, self.count, self.empty = QLabel(_("Next hole")), QLabel(), QLabel()
        self.reading, self.warning, self.banner = Reading(theme), Band(theme), Band(theme)
        self._lay_out()
        self.boxes.ticked.connect(self.ticked)
        self.next.clicked.connect(self._go_on)
        self.other.clicked.connect(self._not_planned)
        self.setMinimumSize(360, 380)
        self._show_size()

    def _lay_out(self) -> None:
        body = self.body
        body.setContentsMargins(2 * MARGIN, MARGIN, 2 * MARGIN, MARGIN + UNIT)
        body.setSpacing(GAP)
        row = QHBoxLayout()
        row.addWidget(self.head)
        row.addWidget(self.count, 1, Qt.AlignmentFlag.AlignRight)
        body.addLayout(row)
        body.addWidget(self.empty, 1, Qt.AlignmentFlag.AlignTop)
        body.addWidget(self.reading, 1)
        for widget in (self.banner, self.warning, self.boxes):
            body.addWidget(widget)
        buttons = QHBoxLayout()
        buttons.setSpacing(MARGIN)
        buttons.addWidget(self.next, 2)
        buttons.addWidget(self.other, 1)
        body.addLayout(buttons)
        self.empty.setWordWrap(True)
        for button in (self.next, self.other):
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)

    def _go_on(self) -> None:
        self.go_on.emit()

    def _not_planned(self) -> None:
        self.not_planned.emit()

    def show_hole(self, walk: Walk, hole: WalkHole | None, lie: Lie) -> None:
        """Show a hole of a walk, or what to do where there is none."""
        self.reading.show_hole(hole, lie, walk.head.units)
        self.boxes.show_hole(hole)
        for widget in (self.reading, self.boxes, self.other):
            widget.setVisible(hole is not None)
        self.empty.setVisible(hole is None)
        self.empty.setText("" if hole else empty_words(walk))
        at = walk.holes.index(hole) + 1 if hole else 0
        on_face = _("{n} of {many} on this face").format(n=at, many=len(walk.holes))
        self.count.setText(on_face if hole else "")
        checked = walk.head.holes_checked
        self.banner.show_text("not checked", "" if checked or hole is None else banner_words(), bare=True)
        why = hole.why if hole else None
        self.warning.show_text(
            why.standing if why else "note", why.words if why else note_words(hole) if hole else ""
        )
        self._show_next(walk, hole)

    def _show_next(self, walk: Walk, hole: WalkHole | None) -> None:
        following = walk.after(hole.key if hole else None)
        done = hole is not None and not hole.left
        if following is not None:
            words = _("Done, go to {tag}") if done else _("Go to {tag}")
            self.next.setText(words.format(tag=following.row.tag))
        else:
            face = face_words(walk.next_face).title.lower()
            words = _("Done, roll: {face}") if done else _("Roll: {face}")
            self.next.setText(words.format(face=face))
        self.next.setProperty("done", done)
        self.next.setAccessibleName(self.next.text())
        self.restyle()

    # -- the look

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._show_size()

    def _show_size(self) -> None:
        large = self.height() >= _LARGE_FROM_PX
        scale = _VAST_SCALE if self.height() >= _VAST_FROM_PX else 1.0
        self.head.setFont(font(round((NAME - 2 if large else VALUE) * scale), bold=True))
        self.count.setFont(font(round((VALUE + 2 if large else VALUE) * scale)))
        self.empty.setFont(font(round((NAME if large else VALUE + 2) * scale)))
        self.boxes.show_size(large=large, scale=scale)
        for band in (self.warning, self.banner):
            band.show_size(large=large, scale=scale)
        for button, size, bold in ((self.next, NAME, True), (self.other, VALUE + 2, False)):
            button.setFont(font(round((size if large else size - 4) * scale), bold=bold))
            button.setMinimumHeight(round((56 if large else 40) * scale))

    def restyle(self) -> None:
        super().restyle()
        c = self.theme.colours
        self.boxes.restyle()
        filled = bool(self.next.property("done"))
        ground, ink = (c.accent, c.on_accent) if filled else (c.chosen, c.ink)
        self.next.setStyleSheet(_button(ground, ink, c.accent, c.ink))
        self.other.setStyleSheet(_button(c.ground, c.ink, c.edge, c.accent))


def _button(ground: str, ink: str, edge: str, focus: str) -> str:
    return (
        f"QPushButton {{ background: #{ground}; color: #{ink}; border: 1px solid #{edge};"
        f" border-radius: {CORNER}px; padding: 4px 12px; }}"
        f"QPushButton:hover {{ border: 2px solid #{edge}; }}"
        f"QPushButton:focus {{ border: 3px solid #{focus}; }}"
    )


def empty_words(walk: Walk) -> str:
    """Return what to do where a face has no hole to walk to."""
    if walk.typical:
        tags = ", ".join(f"{block.tag} {block.name}" for block in walk.typical)
        words = _(
            "No foot on this face is confirmed: {tags}. Take the part, choose it in the standing view and "
            "enter its foot; its holes then stand here."
        )
        return words.format(tags=tags)
    if walk.faces:
        others = ", ".join(face_words(face).title.lower() for face in walk.faces)
        return _("No hole on this face. There is work on: {faces}. R rolls the mast.").format(faces=others)
    return _(
        "Nothing on this mast is to be drilled. Place a new fitting in the standing view; its holes then "
        "stand here."
    )

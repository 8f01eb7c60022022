"""The tape in hand: its two ends, and what it reads as things move."""

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication

from mastlayout.errors import NotKnownError
from mastlayout.frozen import dataclass
from mastlayout.geometry.spot import Spot, end_of, parts_of
from mastlayout.geometry.tape import Taped, taped
from mastlayout.ui.measuring.words import copied, held_words, next_words, status_words
from mastlayout.ui.session import Session
from mastlayout.words import _


@dataclass(frozen=True, eq=False)
class Read:
    """What the tape reads now: the figures, or the sentence that says why there are none."""

    taped: Taped | None
    why: str


class TapeMeasure(QObject):
    """The tape measure. ``changed`` asks card and canvases to look anew; ``said`` is for the status line.

    It is no part of the layout: nothing of it is saved or undone.
    """

    changed = Signal()
    said = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.session: Session | None = None
        self.in_hand = False
        self.ends: tuple[Spot, ...] = ()
        self._hovered: Spot | None = None
        self.read = Read(None, "")

    def follow(self, session: Session) -> None:
        """Measure on this session."""
        self.session = session
        session.turns.elevation.connect(self._look)
        session.units_changed.connect(self._look)
        session.opened.connect(self.put_away)

    def toggle(self) -> None:
        """Take the tape in hand, or put it away."""
        if self.session is None or self.in_hand:
            self.put_away()
            return
        self.in_hand = True
        self._look()

    def put_away(self) -> None:
        """End measuring."""
        self.in_hand, self.ends, self._hovered = False, (), None
        self._look()

    def hold(self, spot: Spot) -> None:
        """Set the first end, then the second; with both set a new measure begins."""
        if not self.in_hand or self.ends[-1:] == (spot,):
            return  # a double click is one
        self.ends = (spot,) if len(self.ends) == 2 else (*self.ends, spot)
        self._hovered = None
        self._look()

    def hold_thing(self, name: str) -> None:
        """Set an end on a thing, on its seat where it has one."""
        if self.session is None or not self.in_hand:
            return
        parts = parts_of(self.session.desk.scene, name)
        if parts:
            self.hold(parts[0])
        else:
            self.said.emit(_("This has no place yet, so no tape can be held to it"))

    def change(self, which: int, spot: Spot) -> None:
        """Hold an end, 0 or 1, to another spot."""
        self.ends = tuple(spot if i == which else end for i, end in enumerate(self.ends))
        self._look()

    def hover(self, spot: Spot | None) -> None:
        """Show what the tape would read with its second end there."""
        if len(self.ends) == 1 and spot != self._hovered:
            self._hovered = spot
            self._look()

    @property
    def shown(self) -> tuple[Spot, ...]:
        """The ends as they are drawn: those that are set, and the one under the pointer."""
        hovered = () if self._hovered is None or len(self.ends) != 1 else (self._hovered,)
        return self.ends + hovered

    def copy(self) -> None:
        """Put the figures on the clipboard, as lines of text."""
        if self.session is not None and self.read.taped is not None:
            QGuiApplication.clipboard().setText(copied(self.session, self.shown, self.read.taped))
            self.said.emit(_("The tape's figures are on the clipboard"))

    def _look(self, *_changed: object) -> None:
        self.read = self._read_now()
        self.changed.emit()
        self.said.emit(self._status())

    def _read_now(self) -> Read:
        if self.session is None:
            return Read(None, "")
        scene, ends = self.session.desk.scene, self.shown
        try:
            for spot in ends:
                end_of(scene, spot)
            return Read(taped(scene, *ends) if len(ends) == 2 else None, "")
        except NotKnownError as error:
            return Read(None, str(error))

    def _status(self) -> str:
        if self.session is None or not self.in_hand:
            return ""
        if self.read.why:
            return _("Tape: {why}").format(why=self.read.why)
        if self.read.taped is None:
            held = [held_words(self.session, spot) for spot in self.ends]
            return next_words(held)
        return status_words(self.session, self.read.taped)

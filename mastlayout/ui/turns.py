"""In which turn views follow the layout while a gesture only shows one.

A drag shows a new layout with every move of the mouse. The view it happens in follows each; the
others take turns, one turn with each round of the event loop, so that a move never waits for all
of them. None is farther behind than there are turns, and all catch up when the mouse rests or the
gesture ends. An edit that is no gesture is followed by all at once. The rules that cost most are
asked in turns as well, a part before each view.
"""

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer, Signal


class Turns(QObject):
    """The turns of a session, in their order; what is cheap goes together.

    ``previewing`` tells whether a gesture is under way. The words, in rows and fields, are not told
    where only the height in hand has changed. ``part`` asks for the next part of the rules.
    """

    part = Signal(int)

    section = Signal()
    skin = Signal()
    words = Signal()
    elevation = Signal()

    def __init__(self, previewing: Callable[[], bool], parent: QObject) -> None:
        super().__init__(parent)
        self._previewing = previewing
        self._order = (self.section, self.skin, self.words, self.elevation)
        self._waits = [False] * len(self._order)
        self._served = len(self._order) - 1
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._serve)

    def tell(self, *, height_only: bool = False) -> None:
        """Say that the layout has changed, or only the height in hand."""
        for i, turn in enumerate(self._order):
            self._waits[i] = self._waits[i] or not (height_only and turn is self.words)
        if not self._previewing():
            self.catch_up()
        elif not self._timer.isActive():
            self._timer.start(0)

    def catch_up(self) -> None:
        """Let all follow that still wait."""
        self._timer.stop()
        for i, turn in enumerate(self._order):
            if self._waits[i]:
                self._waits[i] = False
                turn.emit()

    def _serve(self) -> None:
        count = len(self._order)
        waiting = [
            i % count for i in range(self._served + 1, self._served + 1 + count) if self._waits[i % count]
        ]
        if waiting:
            self._served = waiting[0]
            self.part.emit(self._served)
            self._waits[self._served] = False
            self._order[self._served].emit()
        if any(self._waits):
            self._timer.start(0)

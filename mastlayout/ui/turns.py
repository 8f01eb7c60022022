"""In which turn views follow the layout while a gesture only shows one.

A drag shows a new layout with every move of the mouse. The view it happens in follows each; the
others take turns, one turn with each round of the event loop, so that a move never waits for all
of them. None is farther behind than there are turns, and all catch up when the mouse rests or the
gesture ends. An edit that is no gesture is followed by all at once. Most rules are asked in turns as
well. A round asks rules, the next lets a view follow, or some that are quick, and what took long is
painted in a round of its own.
"""

from collections.abc import Callable, Iterator
from itertools import cycle
from time import perf_counter

from PySide6.QtCore import QObject, QTimer, Signal

# Rules, views, their painting.
_STEPS = 3
# In so long a view begins to follow after another in one round; what takes longer is painted in the next.
_VIEWS_S = 0.002


def _let_it_paint() -> bool:
    """Do nothing: what a view changed is painted in this round."""
    return False


class Turns(QObject):
    """The turns of a session, in their order; what is cheap goes together.

    ``previewing`` tells whether a gesture is under way. The words, in rows and fields, are not told
    where only the height in hand has changed. ``ask_later`` asks some of the rules that wait, and
    tells whether any did.
    """

    section = Signal()
    skin = Signal()
    strip = Signal()
    findings = Signal()
    fields = Signal()
    elevation = Signal()
    cloth = Signal()
    pointed = Signal()
    nearest = Signal()

    def __init__(
        self, previewing: Callable[[], bool], ask_later: Callable[[], bool], parent: QObject
    ) -> None:
        super().__init__(parent)
        self._previewing = previewing
        self._steps: Iterator[Callable[[], bool]] = cycle((ask_later, self._some_views, _let_it_paint))
        self._idle, self._long = 0, False
        self._order = (
            # What the first two find, the section draws.
            *(self.pointed, self.cloth, self.section, self.findings, self.skin),
            *(self.elevation, self.fields, self.strip, self.nearest),
        )
        self._of_words = (self.findings, self.fields)
        self._waits, self._took = [False] * len(self._order), [0.0] * len(self._order)
        self._served = len(self._order) - 1
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._serve)

    def tell(self, *, height_only: bool = False) -> None:
        """Say that the layout has changed, or only the height in hand."""
        for i, turn in enumerate(self._order):
            self._waits[i] = self._waits[i] or not (height_only and turn in self._of_words)
        if not self._previewing():
            self.catch_up()
            return
        self._idle = 0
        if not self._timer.isActive():
            self._timer.start(0)

    def section_again(self) -> None:
        """Say that the section has something new to draw."""
        self._waits[self._order.index(self.section)] = True

    def fields_again(self) -> None:
        """Say that one of those that follow with the fields has more to work out than one turn holds."""
        self._waits[self._order.index(self.fields)] = True

    def catch_up(self) -> None:
        """Let all follow that still wait."""
        self._timer.stop()
        for i, turn in enumerate(self._order):
            if self._waits[i]:
                self._waits[i] = False
                turn.emit()

    def _serve(self) -> None:
        """Take the next step, and come again until a whole round of them found nothing to do."""
        step = next(self._steps)
        if step is _let_it_paint and not self._long:
            step = next(self._steps)
        self._idle = 0 if step() else self._idle + 1
        if self._idle < _STEPS:
            self._timer.start(0)

    def _some_views(self) -> bool:
        """Let views follow, as many as there seems to be time for; tell whether any did wait."""
        begun = perf_counter()
        followed = False
        for at in self._waiting():
            if followed and perf_counter() - begun + self._took[at] > _VIEWS_S:
                break
            self._follow(at)
            followed = True
        self._long = perf_counter() - begun > _VIEWS_S
        return followed

    def _waiting(self) -> list[int]:
        """Return the views that wait, in the order of their turns."""
        count = len(self._order)
        every = (i % count for i in range(self._served + 1, self._served + 1 + count))
        return [i for i in every if self._waits[i]]

    def _follow(self, at: int) -> None:
        begun = perf_counter()
        self._served, self._waits[at] = at, False
        self._order[at].emit()
        self._took[at] = perf_counter() - begun

"""Work on paper apart from the window's thread: its result, its failure, or nothing once cancelled."""

import threading
from collections.abc import Callable, Iterator

from PySide6.QtCore import QObject, Signal

from mastlayout.errors import MastLayoutError


class Drawing(QObject):
    """Steps of work, one at a time; between two it stops when it was cancelled.

    ``stepped`` carries how many are done; ``done`` the list of what they made; ``failed`` a sentence.
    The steps must be pure: they run while the window is in use.
    """

    stepped = Signal(int)
    done = Signal(list)
    failed = Signal(str)

    def __init__(self, steps: Callable[[], Iterator[object]], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._steps = steps
        self._cancelled = threading.Event()
        self._thread = threading.Thread(target=self._run, daemon=True)

    def start(self) -> None:
        """Begin."""
        self._thread.start()

    def cancel(self) -> None:
        """End after the step under way; nothing is heard of it any more."""
        self._cancelled.set()

    def wait(self) -> None:
        """Wait until the thread has ended."""
        if self._thread.ident is not None:
            self._thread.join()

    def _run(self) -> None:
        made: list[object] = []
        try:
            for step in self._steps():
                made.append(step)
                if self._cancelled.is_set():
                    return
                self.stepped.emit(len(made))
        except MastLayoutError as error:
            self.failed.emit(str(error))
        else:
            self.done.emit(made)

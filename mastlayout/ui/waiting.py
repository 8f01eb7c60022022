"""Work that may last: it runs apart from the window's thread, and after half a second shows how far it is."""

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor, wait
from threading import Event
from typing import TypeVar

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QProgressBar, QProgressDialog, QWidget

from mastlayout.desk import Between
from mastlayout.words import _

PATIENCE_S = 0.5
T = TypeVar("T")


def waited(words: str, work: Callable[[Between], T], parent: QWidget | None) -> T | None:
    """Return what the work makes, None where it was cancelled; what it raises is raised here.

    The work is handed a function to call with how much is done, of how much; once cancelled it ends
    there, and the window does not wait for it.
    """
    told, cancelled = _Told(), Event()
    progress = _Progress(words, told, parent)

    def between(done: int, of: int) -> None:
        if cancelled.is_set():
            raise _CancelledError
        told.stepped.emit(done, of)

    pool = ThreadPoolExecutor(1)
    future = pool.submit(work, between)
    future.add_done_callback(lambda _ended: told.ended.emit())
    pool.shutdown(wait=False)
    try:
        ended = _is_over(future) or progress.watch()
    finally:
        progress.end()
    if ended:
        return future.result()
    cancelled.set()
    return None


def _is_over(future: Future[T]) -> bool:
    """Tell whether the work is over before anybody gets impatient."""
    wait([future], PATIENCE_S)
    return future.done()


class _CancelledError(Exception):
    """Ends work that nobody waits for any more."""


class _Told(QObject):
    """What the other thread says; it may outlive the dialog."""

    stepped = Signal(int, int)
    ended = Signal()


class _Progress(QProgressDialog):
    """How far the work of another thread is."""

    def __init__(self, words: str, told: _Told, parent: QWidget | None) -> None:
        super().__init__(words, _("Cancel"), 0, 0, parent)
        self._over = False
        self.setWindowTitle("mastlayout")
        for bar in self.findChildren(QProgressBar):
            bar.setAccessibleName(words)
        self.setWindowModality(Qt.WindowModality.WindowModal)
        self.setAutoReset(False)  # at the last step it would close before the end
        # Queued: the other thread speaks, and it may do so before the dialog runs.
        told.stepped.connect(self._show_step, Qt.ConnectionType.QueuedConnection)
        told.ended.connect(self.accept, Qt.ConnectionType.QueuedConnection)

    def watch(self) -> bool:
        """Show until the work ends; tell whether it did, or was cancelled."""
        self.exec()
        return not self.wasCanceled()

    def end(self) -> None:
        """Go: steps told late, or its own timer, must not show it once the work is over."""
        self._over = True
        self.reset()
        self.deleteLater()

    def _show_step(self, done: int, of: int) -> None:
        if self._over:
            return
        self.setMaximum(of)
        self.setValue(done)

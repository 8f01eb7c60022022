"""The first check of a layout that shows already: apart from the window's thread, once it is painted."""

from contextlib import suppress
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtWidgets import QWidget

from mastlayout.checks.report import Report
from mastlayout.desk import first_report
from mastlayout.ui.session import Session

if TYPE_CHECKING:
    from concurrent.futures import Future

# The picture reaches the screen before the rules take their share of the processor.
_PAINTED_MS = 50


class FirstCheck(QObject):
    """Asks every rule once the window was painted; an edit made meanwhile asks for itself."""

    _ended = Signal()

    def __init__(self, session: Session, window: QWidget) -> None:
        super().__init__(window)
        self._session, self._scene = session, session.desk.scene
        self._future: Future[Report] | None = None
        # Queued: it is told by the other thread.
        self._ended.connect(self.end, Qt.ConnectionType.QueuedConnection)
        window.installEventFilter(self)

    def eventFilter(self, window: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Paint:
            window.removeEventFilter(self)
            QTimer.singleShot(_PAINTED_MS, self.begin)
        return False

    def begin(self) -> None:
        """Begin, unless it was begun or nobody waits for it any more."""
        if self._future is None and self._wanted:
            from concurrent.futures import ThreadPoolExecutor  # noqa: PLC0415 - once it is painted

            pool = ThreadPoolExecutor(1)
            self._future = pool.submit(first_report, self._scene, self._between)
            self._future.add_done_callback(self._tell)
            pool.shutdown(wait=False)

    def end(self) -> None:
        """Bring the report, waiting for it where it has to be; where it is there already, do nothing."""
        self.begin()
        if self._future is not None and self._wanted:
            self._session.take_report(self._future.result())

    def _tell(self, _future: "Future[Report]") -> None:
        with suppress(RuntimeError):  # the window was closed meanwhile
            self._ended.emit()

    @property
    def _wanted(self) -> bool:
        desk = self._session.desk
        return desk.scene is self._scene and not desk.report.asked

    def _between(self, _done: int, _of: int) -> None:
        if self._session.desk.scene is not self._scene:
            raise _OvertakenError


class _OvertakenError(Exception):
    """Ends a check whose layout is no longer the one that shows."""

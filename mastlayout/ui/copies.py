"""Recovery copies in the window: written a few seconds after each change, offered after a crash."""

from pathlib import Path
from uuid import uuid4

from PySide6.QtCore import QLockFile, QObject, QStandardPaths, QTimer, Signal

from mastlayout.errors import MastLayoutError
from mastlayout.storage.recovery import Copy, discard, find_copies, write_copy
from mastlayout.ui.session import Session

PAUSE_MS = 3000


def recovery_folder() -> Path:
    """Return the folder of recovery copies on this system."""
    place = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.AppLocalDataLocation)
    return Path(place) / "recovery"


class Copies(QObject):
    """The recovery copy of one window; ``failed`` says why one could not be written."""

    failed = Signal(str)

    def __init__(self, folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._folder = folder
        self._session: Session | None = None
        self._written: Copy | None = None
        self._writer = uuid4().hex
        self._timer = QTimer(self, interval=PAUSE_MS, singleShot=True)
        self._timer.timeout.connect(self.write)
        self._lock = self._lock_of(self._writer)

    def _lock_of(self, writer: str) -> QLockFile:
        """Return the lock that a window holds as long as it is open."""
        lock = QLockFile(str(self._folder / f"{writer}.lock"))
        lock.setStaleLockTime(0)  # a window may stay open for weeks; a dead one is known by its process
        return lock

    def follow(self, session: Session) -> None:
        """Write a copy of this session's layout some seconds after each change."""
        self._session = session
        session.shown.connect(lambda _change: self._timer.start())

    def left_behind(self) -> tuple[Copy, ...]:
        """Return the copies of windows that ended without closing; those of open ones are theirs."""
        return tuple(copy for copy in find_copies(self._folder) if self._is_left(copy))

    def _is_left(self, copy: Copy) -> bool:
        lock = self._lock_of(copy.writer)
        left = copy.writer != self._writer and lock.tryLock(0)
        lock.unlock()
        return left

    def write(self) -> None:
        """Write the copy now, or take it away where there is nothing unsaved."""
        self._timer.stop()
        if self._session is None:
            return
        if self._session.undo.isClean():
            self.drop()
            return
        document = self._session.desk.document
        original = document.path if document else None
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            self._lock.tryLock(0)
            path = write_copy(self._folder, self._session.layout, original, self._writer)
        except (MastLayoutError, OSError) as error:
            self.failed.emit(str(error))
            return
        if self._written is not None and self._written.path != path:
            discard(self._written)
        self._written = Copy(str(original or ""), path)

    def take_over(self, copy: Copy) -> None:
        """Count a copy that was opened as this window's own."""
        self._written = copy

    def drop(self) -> None:
        """Take the copy away: all is saved, or given up."""
        self._timer.stop()
        if self._written is not None:
            discard(self._written)
            self._written = None

    def close(self) -> None:
        """End: another window may be offered what is left."""
        self._timer.stop()
        self._lock.unlock()

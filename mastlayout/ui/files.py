"""Files in the window: new, open, recent, save, save under a new name, changed on disk, ask once."""

from pathlib import Path

from PySide6.QtCore import QDateTime, QObject, QSettings, Signal
from PySide6.QtWidgets import QWidget

from mastlayout.desk import Desk
from mastlayout.documents.filename import file_stem
from mastlayout.errors import CommentsLostError, LayoutFileError, MastLayoutError
from mastlayout.model.layout import Layout
from mastlayout.storage.reading import Document, Stamp, changed_on_disk, open_document, read_layout, stamp_of
from mastlayout.storage.recovery import Copy, discard
from mastlayout.ui.asks import Asks
from mastlayout.ui.copies import Copies
from mastlayout.ui.session import Session
from mastlayout.words import _

MOST_RECENT = 8
_RECENT = "files/recent"


class Files(QObject):
    """What is open and where it is kept.

    ``opened`` carries a desk to put in the window; ``saved`` tells that name or saved state changed;
    ``said`` carries a sentence for the status line.
    """

    opened = Signal(Desk)
    saved = Signal()
    said = Signal(str)

    def __init__(
        self, settings: QSettings, asks: Asks, copies: Copies, window: QWidget | None = None
    ) -> None:
        super().__init__(window)
        self._window = window
        self.asks, self.copies = asks, copies
        self._settings = settings
        self.session: Session | None = None
        self._holds_more: Path | None = None  # a file with parts that could not be read: never written over
        self._asked: Stamp | None = None
        copies.failed.connect(self.said)

    # -- what is open

    @property
    def path(self) -> Path | None:
        """The file of the open layout, None where it was never saved."""
        document = self.session.desk.document if self.session else None
        return document.path if document else None

    @property
    def unsaved(self) -> bool:
        """Tell whether something would be lost by closing."""
        return self.session is not None and not self.session.undo.isClean()

    @property
    def name(self) -> str:
        """The open layout as sentences name it."""
        if self.path:
            return self.path.name
        return self.session.layout.boat.name if self.session else ""

    def recent(self) -> list[Path]:
        """Return the last layouts, newest first, as far as they are still there."""
        return [path for path in self._remembered() if path.is_file()]

    def _remembered(self) -> list[Path]:
        kept = self._settings.value(_RECENT, [])
        names = kept if isinstance(kept, list) else [kept]  # one name comes back as a text
        return [Path(name) for name in names if isinstance(name, str) and name]

    def _remember(self, path: Path) -> None:
        path = path.absolute()
        names = [str(path), *(str(other) for other in self._remembered() if other != path)]
        self._settings.setValue(_RECENT, names[:MOST_RECENT])

    def folder(self) -> str:
        """Return the folder to begin looking in."""
        last = self.path or next(iter(self.recent()), None)
        return str(last.parent) if last else str(Path.home())

    # -- opening

    def open(self, path: Path | None = None, *, checked: bool = True) -> bool:
        """Open a layout, asked for where none is named; tell whether one was opened.

        One that is not to be ``checked`` shows before any rule is asked; whoever opens it sees to that.
        """
        path = path or self.asks.file_to_open(self.folder())
        return path is not None and self._open(path, checked=checked)

    def open_new(self, layout: Layout) -> bool:
        """Open a layout that was never a file; tell whether it was opened."""
        return self._take(layout, None)

    def _open(self, path: Path, *, checked: bool) -> bool:
        try:
            found = read_layout(path)
        except MastLayoutError as error:
            self.asks.say(str(error))
            return False
        if found.document is None:
            self.asks.mistakes(path, found.mistakes, opened=False)
            return False
        if not found.mistakes:
            taken = self._take(found.document.layout, found.document, checked=checked)
        else:
            taken = self._take(found.document.layout, None, checked=checked)
            self._holds_more = path if taken else self._holds_more
            self.asks.mistakes(path, found.mistakes, opened=taken)
        if taken:
            self._remember(path)
        return taken

    def _take(
        self, layout: Layout, document: Document | None, *, asked: bool = False, checked: bool = True
    ) -> bool:
        """Put a layout in the window, once what is there may go."""
        words = _("Checking {name} …").format(name=layout.boat.name)
        try:
            if checked:
                from mastlayout.ui.waiting import waited  # noqa: PLC0415 - the first layout is not waited for

                desk = waited(words, lambda between: Desk(layout, document, between), self._window)
            else:
                desk = Desk(layout, document, asked=False)
        except MastLayoutError as error:
            self.asks.say(str(error))
            return False
        if desk is None or (not asked and not self.may_leave()):
            return False
        self.copies.drop()
        self._holds_more = self._asked = None
        self.opened.emit(desk)
        if document is None and self.session is not None:
            self.session.undo.resetClean()
        self.saved.emit()
        return True

    # -- saving

    def save(self) -> bool:
        """Save under the layout's own name; tell whether it is saved."""
        session = self.session
        if session is None:
            return False
        document = session.desk.document
        if document is None:
            return self.save_as()
        if changed_on_disk(document) and stamp_of(document.path) is not None:
            answer = self.asks.overwrite(document.path.name)
            if answer == "cancel":
                return False
            if answer == "elsewhere":
                return self.save_as()
        return self._save(session, document.path)

    def save_as(self, *, anew: bool = False) -> bool:
        """Save under a name that is asked for; ``anew`` as of a desk's own saving."""
        if self.session is None:
            return False
        stem = file_stem(self.session.layout.boat.name)
        path = self.asks.file_to_save(self.path or Path(self.folder()) / f"{stem}.toml")
        if path is None:
            return False
        if self._holds_more is not None and path.resolve() == self._holds_more.resolve():
            self.asks.say(
                _(
                    "{name} holds parts that could not be read: save under another name, so that they stay."
                ).format(name=path.name)
            )
            return False
        return self._save(self.session, path, anew=anew)

    def _save(self, session: Session, path: Path, *, anew: bool = False) -> bool:
        session.cancel()  # what a gesture only shows is not in the file
        try:
            session.desk.save(path, anew=anew)
        except CommentsLostError as lost:
            answer = self.asks.comments_lost(str(lost))
            if answer == "elsewhere":
                return self.save_as(anew=True)
            return answer == "overwrite" and self._save(session, path, anew=True)
        except MastLayoutError as error:
            self.asks.say(str(error))
            return False
        session.undo.setClean()
        self._holds_more = self._asked = None
        self.copies.drop()
        self._remember(path)
        self.saved.emit()
        self.said.emit(_("Saved as {path}").format(path=path))
        return True

    def may_leave(self) -> bool:
        """Ask once about unsaved changes; tell whether the layout may go."""
        if not self.unsaved:
            return True
        answer = self.asks.leave(self.name)
        return self.save() if answer == "save" else answer == "discard"

    # -- what others do to the file

    def look_at_disk(self) -> None:
        """Ask once, when the window comes to the front, whether a file written elsewhere is read again."""
        document = self.session.desk.document if self.session else None
        if document is None or not changed_on_disk(document):
            return
        now = stamp_of(document.path)
        if now is None:
            self.said.emit(
                _("{name} is no longer there: saving writes it anew.").format(name=document.path.name)
            )
        elif now != self._asked:
            self._asked = now
            if self.asks.changed_on_disk(document.path.name, unsaved=self.unsaved) == "read":
                self._read_again(document.path)

    def _read_again(self, path: Path) -> None:
        try:
            document = open_document(path)
        except LayoutFileError as error:
            self.asks.mistakes(path, error.mistakes, opened=False)
        except MastLayoutError as error:
            self.asks.say(str(error))
        else:
            self._take(document.layout, document, asked=True)

    # -- after a crash

    def offer_copies(self) -> bool:
        """Offer what a window that ended without closing left behind; tell whether one was opened."""
        for copy in self.copies.left_behind():
            when = QDateTime.fromSecsSinceEpoch(int(copy.path.stat().st_mtime)).toString("yyyy-MM-dd HH:mm")
            answer = self.asks.recover(self._original_name(copy), when)
            if answer == "discard":
                discard(copy)
            elif answer == "open":
                return self._recover(copy)
        return False

    @staticmethod
    def _original_name(copy: Copy) -> str:
        return Path(copy.original).name if copy.original else _("A layout that was never saved")

    def _recover(self, copy: Copy) -> bool:
        """Open a copy as unsaved changes of its own file, where that can still be read."""
        found = read_layout(copy.path).document
        if found is None or not self._take(found.layout, _document_of(copy)) or self.session is None:
            return False
        self.session.undo.resetClean()
        self.copies.take_over(copy)
        self.saved.emit()
        return True


def _document_of(copy: Copy) -> Document | None:
    try:
        return open_document(Path(copy.original)) if copy.original else None
    except MastLayoutError:
        return None

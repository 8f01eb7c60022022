"""The questions and sentences that stand in the way until they are answered.

Boxes and dialogs of Qt are named where one opens: PySide6 makes a class of its own when it is first
named, which no start waits for.
"""

from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from PySide6 import QtWidgets
from PySide6.QtWidgets import QWidget

from mastlayout.errors import Mistake
from mastlayout.ui.mistakes import MistakesDialog
from mastlayout.words import _

Leave = Literal["save", "discard", "cancel"]
Disk = Literal["read", "keep"]
Overwrite = Literal["overwrite", "elsewhere", "cancel"]
Copies = Literal["open", "discard", "later"]


class Asks:
    """Modal questions over one window; a test puts its own answers in their place."""

    def __init__(self, parent: QWidget) -> None:
        self._parent = parent

    def say(self, sentence: str) -> None:
        """Show a sentence until it is read."""
        self._box(sentence, "", QtWidgets.QMessageBox.StandardButton.Ok).exec()

    def leave(self, name: str) -> Leave:
        """Ask what becomes of unsaved changes."""
        buttons = QtWidgets.QMessageBox.StandardButton
        box = self._box(
            _("{name} has changes that are not saved.").format(name=name),
            _("Discarding them cannot be undone."),
            buttons.Save | buttons.Discard | buttons.Cancel,
        )
        box.setDefaultButton(buttons.Save)
        answer = box.exec()
        if answer == buttons.Save:
            return "save"
        return "discard" if answer == buttons.Discard else "cancel"

    def changed_on_disk(self, name: str, *, unsaved: bool) -> Disk:
        """Ask whether a file that somebody else wrote is read again."""
        more = _("Reading it again discards the changes made here.") if unsaved else ""
        words = _("{name} was written by another program since it was opened.").format(name=name)
        read, keep = _("Read it again"), _("Keep what is here")
        return "read" if self._choose(words, more, (read, keep), escape=keep) == read else "keep"

    def overwrite(self, name: str) -> Overwrite:
        """Ask before writing over what somebody else wrote."""
        words = _("{name} was written by another program since it was opened.").format(name=name)
        return self._over(
            words, _("Saving under its name replaces what is in the file now."), _("Replace it")
        )

    def comments_lost(self, sentence: str) -> Overwrite:
        """Ask before a file is written anew, without the comments somebody wrote into it."""
        more = _("Under another name the file with its comments stays as it is.")
        return self._over(sentence, more, _("Write it anew"))

    def _over(self, words: str, more: str, over: str) -> Overwrite:
        elsewhere, cancel = _("Save under another name …"), _("Cancel")
        chosen = self._choose(words, more, (elsewhere, over, cancel), escape=cancel)
        if chosen == over:
            return "overwrite"
        return "elsewhere" if chosen == elsewhere else "cancel"

    def recover(self, name: str, when: str) -> Copies:
        """Ask what becomes of a recovery copy."""
        words = _("{name} was not closed properly. A copy of {when} was kept.").format(name=name, when=when)
        more = _("Opening the copy changes no file until you save.")
        open_it, later, discard = _("Open the copy"), _("Ask me later"), _("Discard the copy")
        chosen = self._choose(words, more, (open_it, later, discard), escape=later)
        if chosen == open_it:
            return "open"
        return "discard" if chosen == discard else "later"

    def mistakes(self, path: Path, mistakes: Sequence[Mistake], *, opened: bool) -> None:
        """Show every mistake of a layout file with its line."""
        MistakesDialog(path, mistakes, opened=opened, parent=self._parent).exec()

    def file_to_open(self, folder: str) -> Path | None:
        """Ask which layout to open."""
        name, _kind = QtWidgets.QFileDialog.getOpenFileName(
            self._parent, _("Open a layout"), folder, _layouts()
        )
        return Path(name) if name else None

    def file_to_save(self, suggested: Path, kinds: str = "") -> Path | None:
        """Ask for the name of a new file; without an ending it gets the suggestion's."""
        name, _kind = QtWidgets.QFileDialog.getSaveFileName(
            self._parent, _("Save under a new name"), str(suggested), kinds or _layouts()
        )
        if not name:
            return None
        path = Path(name)
        return path if path.suffix else path.with_suffix(suggested.suffix)

    def folder(self, suggested: str) -> Path | None:
        """Ask for a folder."""
        name = QtWidgets.QFileDialog.getExistingDirectory(
            self._parent, _("Save the papers into a folder"), suggested
        )
        return Path(name) if name else None

    def _choose(self, words: str, more: str, answers: Sequence[str], *, escape: str) -> str:
        """Return the answer chosen; the first is the default."""
        box = self._box(words, more, QtWidgets.QMessageBox.StandardButton.NoButton)
        buttons = [box.addButton(answer, QtWidgets.QMessageBox.ButtonRole.ActionRole) for answer in answers]
        box.setDefaultButton(buttons[0])
        box.setEscapeButton(buttons[answers.index(escape)])
        box.exec()
        clicked = box.clickedButton()
        return answers[buttons.index(clicked)] if clicked in buttons else escape

    def _box(
        self, words: str, more: str, buttons: "QtWidgets.QMessageBox.StandardButton"
    ) -> "QtWidgets.QMessageBox":
        box = QtWidgets.QMessageBox(self._parent)
        box.setWindowTitle("mastlayout")
        box.setText(words)
        box.setInformativeText(more)
        box.setStandardButtons(buttons)
        return box


def _layouts() -> str:
    return _("Layouts (*.toml)")

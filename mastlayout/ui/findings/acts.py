"""What can be done with a finding: show it, accept it with a remark, open it again."""

import datetime as dt

from PySide6.QtWidgets import QDialog, QLineEdit, QWidget

from mastlayout.errors import UnknownNameError
from mastlayout.model.edits import accept, item_of
from mastlayout.model.layout import Accepted, Layout
from mastlayout.ui.findings.rows import Row
from mastlayout.ui.framed import framed
from mastlayout.ui.session import Session
from mastlayout.words import _

_MOST_LETTERS = 2000


def show(session: Session, row: Row) -> None:
    """Take in hand what a row is about, and go to the height of its worst point."""
    thing = next((name for name in row.things if _can_be_held(session.layout, name)), None)
    if thing is not None:
        session.pick(thing)
    if row.z_mm is not None:
        session.go_to(row.z_mm)


def _can_be_held(layout: Layout, name: str) -> bool:
    try:
        item_of(layout, name)
    except UnknownNameError:
        return False
    return True


def accepted_with(layout: Layout, row: Row, remark: str, day: dt.date) -> Layout:
    """Return the layout in which the owner accepts all that a row says."""
    for found in row.findings:
        own = Accepted(
            code=found.code,
            subjects=found.subjects,
            remark=remark,
            day=day.isoformat(),
            measured=found.measured,
        )
        layout = accept(layout, own)
    return layout


class AcceptDialog(QDialog):
    """Asks for the remark without which nothing is accepted."""

    def __init__(self, session: Session, row: Row, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._row = session, row
        self.setWindowTitle(_("Accept finding"))
        self.remark = QLineEdit()
        self.remark.setMaxLength(_MOST_LETTERS)
        self.remark.setAccessibleName(_("Remark"))
        how = _("Why is it all right as it is? The remark is printed; it opens again when it gets worse.")
        parts = (row.whole, how, self.remark)
        _box, self.button = framed(self, _("Accept with a remark"), parts, _("Accept it"), self.accept_it)
        self.button.setEnabled(False)
        self.remark.textChanged.connect(lambda text: self.button.setEnabled(bool(text.strip())))
        self.setMinimumWidth(440)
        self.remark.setFocus()

    def accept_it(self) -> None:
        """Record the owner's word as one undo step."""
        remark, today = self.remark.text().strip(), dt.datetime.now().astimezone().date()
        layout = accepted_with(self._session.layout, self._row, remark, today)
        self._session.edit(layout, _("Accept finding"))
        self.accept()

"""What can be done with a finding: show it, accept it with a remark, open it again."""

import datetime as dt

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QLabel, QLineEdit, QVBoxLayout, QWidget

from mastlayout.errors import UnknownNameError
from mastlayout.model.edits import accept, item_of
from mastlayout.model.layout import Accepted, Layout
from mastlayout.ui.findings.rows import Row
from mastlayout.ui.look import GAP, MARGIN, NAME, font
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
        title, said = QLabel(_("Accept with a remark")), QLabel(row.whole)
        title.setFont(font(NAME, bold=True))
        how = QLabel(
            _("Why is it all right as it is? The remark is printed; it opens again when it gets worse.")
        )
        for label in (said, how):
            label.setWordWrap(True)
        self.remark = QLineEdit()
        self.remark.setMaxLength(_MOST_LETTERS)
        self.remark.setAccessibleName(_("Remark"))
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        self.button = buttons.addButton(_("Accept it"), QDialogButtonBox.ButtonRole.AcceptRole)
        self.button.setDefault(True)
        self.button.setEnabled(False)
        column = QVBoxLayout(self)
        column.setContentsMargins(*(2 * MARGIN,) * 4)
        column.setSpacing(GAP)
        for widget in (title, said, how, self.remark, buttons):
            column.addWidget(widget)
        self.remark.textChanged.connect(lambda text: self.button.setEnabled(bool(text.strip())))
        buttons.accepted.connect(self.accept_it)
        buttons.rejected.connect(self.reject)
        self.setMinimumWidth(440)
        self.remark.setFocus()

    def accept_it(self) -> None:
        """Record the owner's word as one undo step."""
        remark, today = self.remark.text().strip(), dt.datetime.now().astimezone().date()
        layout = accepted_with(self._session.layout, self._row, remark, today)
        self._session.edit(layout, _("Accept finding"))
        self.accept()

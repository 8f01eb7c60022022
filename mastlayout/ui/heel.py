"""Cutting the heel: how much is taken off, and what that changes."""

from PySide6.QtWidgets import QDialog, QFormLayout, QLabel, QLineEdit, QWidget

from mastlayout.errors import EditError, MastLayoutError
from mastlayout.model.edits import cut_heel
from mastlayout.model.layout import Layout
from mastlayout.ui.framed import framed
from mastlayout.ui.look import GAP, MARGIN
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.ui.typed import typed_length, written
from mastlayout.words import _


class CutHeelDialog(QDialog):
    """A small form: the mast gets shorter at its foot, and no reading from the masthead changes."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.setWindowTitle(_("Cut the heel"))
        self.by = QLineEdit()
        self.by.setAccessibleName(_("Cut off, along the mast"))
        self.after, self.said = QLabel(), Said()
        self.after.setWordWrap(True)
        form = QFormLayout()
        form.setHorizontalSpacing(2 * MARGIN)
        form.setVerticalSpacing(GAP)
        form.addRow(self.by.accessibleName(), self.by)
        how = _(
            "A heel eaten by corrosion is cut square until the wall is sound. Readings from the masthead "
            "stay; readings from the heel, heights above the deck and above the water get less by as much. "
            "All rules are asked again: look at stays, partners, gooseneck, lights, and at the drain and the "
            "cables' way out at the heel. Spar maker and rigger decide."
        )
        parts = (how, form, self.after, self.said)
        _box, self.button = framed(self, self.windowTitle(), parts, _("Cut it"), self.cut)
        self.by.textChanged.connect(self._show_after)
        self._show_after()
        self.setMinimumWidth(480)
        self.by.setFocus()

    def _show_after(self) -> None:
        """Show the mast's length before and after."""
        self.said.say("")
        length, units = self._session.layout.mast.length_mm, self._session.units
        try:
            left = self._cut().mast.length_mm
        except MastLayoutError:
            words = _("The mast is {length} long.").format(length=written(length, units))
        else:
            words = _("The mast is {length} long, and {left} afterwards.").format(
                length=written(length, units), left=written(left, units)
            )
        self.after.setText(words)

    def _cut(self) -> Layout:
        layout, units = self._session.layout, self._session.units
        by_mm, length = round(typed_length(self.by.text(), units), 2), layout.mast.length_mm
        if not 0.0 < by_mm < length:
            words = _("{typed} cannot be cut off: more than 0 and less than the mast's {length} is allowed")
            raise EditError(words.format(typed=self.by.text().strip(), length=written(length, units)))
        return cut_heel(layout, by_mm)

    def cut(self) -> None:
        """Cut it as one undo step; what cannot be cut says why and changes nothing."""
        session = self._session
        try:
            layout = self._cut()
            session.preview(layout)
        except MastLayoutError as error:
            session.cancel()
            self.said.say(str(error))
            return
        by = written(typed_length(self.by.text(), session.units), session.units)
        session.edit(layout, _("Cut heel by {by}").format(by=by))
        self.accept()

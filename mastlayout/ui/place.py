"""Placing a fitting: a kind from the catalogue, put ahead at the height in hand."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from mastlayout.errors import MastLayoutError
from mastlayout.geometry.frames import height_mm
from mastlayout.model.around import AHEAD
from mastlayout.model.edits import add, next_id, next_tag
from mastlayout.model.fitting import Fitting
from mastlayout.model.kind import Kind
from mastlayout.model.layout import Layout
from mastlayout.storage.catalogue import catalogue
from mastlayout.ui.look import GAP, MARGIN, NAME, font
from mastlayout.ui.session import Session
from mastlayout.words import _


class PlaceDialog(QDialog):
    """A list of kinds with a field that narrows it; Return places the one chosen."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.setWindowTitle(_("Place fitting"))
        title = QLabel(_("Place fitting"))
        title.setFont(font(NAME, bold=True))
        self.wanted = QLineEdit(placeholderText=_("Search: radar, horn, light …"))
        self.wanted.setAccessibleName(_("Search the kinds"))
        self.kinds = QListWidget()
        self.kinds.setAccessibleName(_("Kinds of fitting"))
        self.said = QLabel(
            _("It stands ahead at the height in hand; its foot is typical until the part is there.")
        )
        self.said.setWordWrap(True)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        self.button = buttons.addButton(_("Place it"), QDialogButtonBox.ButtonRole.AcceptRole)
        column = QVBoxLayout(self)
        column.setContentsMargins(*(2 * MARGIN,) * 4)
        column.setSpacing(GAP)
        for widget in (title, self.wanted, self.kinds, self.said, buttons):
            column.addWidget(widget)
        self.wanted.textChanged.connect(self._narrow)
        self.kinds.itemActivated.connect(self.place)
        buttons.accepted.connect(self.place)
        buttons.rejected.connect(self.reject)
        self.resize(480, 560)
        self._narrow("")

    def _narrow(self, wanted: str) -> None:
        self.kinds.clear()
        for kind in sorted(catalogue().values(), key=lambda kind: (kind.group, kind.name)):
            words = f"{kind.name}   {kind.group}"
            if all(part in words.lower() for part in wanted.lower().split()):
                item = QListWidgetItem(words, self.kinds)
                item.setData(Qt.ItemDataRole.UserRole, kind.id)
        self.kinds.setCurrentRow(0)
        self.button.setEnabled(self.kinds.count() > 0)

    def place(self, *_chosen: object) -> None:
        """Place the kind chosen and take it in hand."""
        item = self.kinds.currentItem()
        if item is None:
            return
        kind = catalogue()[item.data(Qt.ItemDataRole.UserRole)]
        try:
            layout, name = placed_new(self._session.layout, kind, self._session.z_mm)
        except MastLayoutError as error:
            self.said.setText(str(error))
            return
        self._session.edit(layout, _("Place {name}").format(name=kind.name))
        self._session.pick(name)
        self.accept()


def placed_new(layout: Layout, kind: Kind, z_mm: float) -> tuple[Layout, str]:
    """Return the layout with a new fitting of a kind ahead at a height, and the fitting's id."""
    if all(own.id != kind.id for own in layout.kinds):
        layout = add(layout, "kinds", kind)
    fitting = Fitting(
        id=next_id(layout, kind.id),
        tag=next_tag(layout),
        name=kind.name,
        kind=kind.id,
        from_masthead_mm=round(height_mm(layout.mast.length_mm, z_mm)),
        girth=AHEAD,
        new=True,
    )
    return add(layout, "fittings", fitting), fitting.id

"""The photo of what was found: its name, a button to choose it, and the photo itself where it is there."""

from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QImageReader, QPixmap
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from mastlayout.errors import MastLayoutError
from mastlayout.model.photo import read_photo
from mastlayout.storage.photos import photo_name, photo_path
from mastlayout.ui.look import GAP, UNIT
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.words import _

_HIGH_PX, _WIDE_PX = 120, 300


class PhotoField(QWidget):
    """A field for a photo beside the layout; what cannot be shown says why, and is kept all the same."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.name, self.picture, self.said = QLineEdit(), QLabel(), Said()
        self.name.setAccessibleName(_("Photo"))
        self.name.setPlaceholderText(_("such as photos/13-2.jpg"))
        self.name.setToolTip(_("A file beside the layout, or in a folder there."))
        self.choose_button = QPushButton(_("Choose …"))
        self.choose_button.setAutoDefault(False)
        self.choose_button.setAccessibleName(_("Choose the photo"))
        self.choose_button.clicked.connect(self.choose)
        self.name.editingFinished.connect(self.show_photo)
        self._lay_out()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(UNIT)
        row = QHBoxLayout()
        row.setSpacing(GAP)
        row.addWidget(self.name, 1)
        row.addWidget(self.choose_button)
        column.addLayout(row)
        column.addWidget(self.picture)
        column.addWidget(self.said)
        self.picture.hide()
        self.setFocusProxy(self.name)

    @property
    def _layout_file(self) -> Path | None:
        document = self._session.desk.document
        return document.path if document else None

    def fill(self, name: str | None) -> None:
        """Show the photo of a name, or none."""
        self.name.setText(name or "")
        self.show_photo()

    def typed(self) -> str | None:
        """Return the name that is typed, None where there is none; MastLayoutError says what is allowed."""
        text = self.name.text().strip()
        return read_photo(text) if text else None

    def show_photo(self) -> None:
        """Show the photo that is typed, or one sentence of why it cannot be shown."""
        self.picture.hide()
        self.said.say("")
        try:
            name = self.typed()
            if name:
                self._show(photo_path(self._layout_file, name), name)
        except MastLayoutError as error:
            self.said.say(str(error))

    def _show(self, path: Path, name: str) -> None:
        reader = QImageReader(str(path))
        reader.setAutoTransform(True)
        size = reader.size()
        if size.isValid():
            reader.setScaledSize(size.scaled(QSize(_WIDE_PX, _HIGH_PX), Qt.AspectRatioMode.KeepAspectRatio))
        image = reader.read()
        if image.isNull():
            words = _("The photo {name} cannot be shown: {why}. It is kept by name.")
            self.said.say(words.format(name=name, why=reader.errorString()))
            return
        self.picture.setPixmap(QPixmap.fromImage(image))
        self.picture.setAccessibleName(_("Photo {name}").format(name=name))
        self.picture.show()

    def choose(self) -> None:
        """Ask for a photo; one that does not lie beside the layout says where it must lie."""
        folder = str(self._layout_file.parent) if self._layout_file else ""
        kinds = _("Photos (*.jpg *.jpeg *.png *.webp *.gif *.heic)")
        chosen, _kind = QFileDialog.getOpenFileName(self, _("The photo"), folder, kinds)
        if not chosen:
            return
        try:
            self.fill(photo_name(self._layout_file, Path(chosen)))
        except MastLayoutError as error:
            self.said.say(str(error))

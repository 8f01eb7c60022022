"""The traced outline of a section: a table of its points, or the one closed line of a drawing."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtWidgets import QDialog, QFileDialog, QHBoxLayout, QLineEdit, QPushButton, QWidget

from mastlayout.errors import EditError, MastLayoutError
from mastlayout.model.edits import change
from mastlayout.model.fitting import MAST
from mastlayout.model.layout import Layout
from mastlayout.model.mast import FreeOutline, Mast
from mastlayout.ui.forms.asked import Asked
from mastlayout.ui.forms.table import Rows, Table
from mastlayout.ui.framed import framed
from mastlayout.ui.hand.asking import table
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.property import Property
from mastlayout.ui.look import GAP, ROW
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.words import _, ngettext

_LEAST, _MOST, _WIDE_PX = 8, 5000, 520


def traced(make: Making, mast: Mast) -> Property:
    """Make the table of the traced points; what is taken there becomes the section."""
    columns = (
        Asked("ahead_mm", _("Ahead"), "size", low=None, may_lack=False),
        Asked("port_mm", _("To port"), "size", low=None, may_lack=False),
    )
    known = mast.section if isinstance(mast.section, FreeOutline) else None
    points = known.points if known else ()
    rows = [{"ahead_mm": ahead, "port_mm": port} for ahead, port in points]

    def taken(rows: Rows) -> Layout:
        places = [(float(row["ahead_mm"]), float(row["port_mm"])) for row in rows]
        if known and tuple(places) == known.points:
            return make.session.layout
        return with_outline(make.session.layout, places)

    how = _("The outline as it was traced from the mast: points in order round it, from any origin, the same "
            "on both sides.")  # fmt: skip
    said = ngettext("{n} point", "{n} points", len(points)).format(n=len(points)) if points else ""
    asked = Table(_("Traced section"), how, columns, rows, taken, make.change)
    return table(make, asked, "outline", _("Traced points"), counted=said)


def drawing(make: Making, mast: Mast) -> Property:
    """Make the form that takes the section from a drawing."""
    name = (mast.section.dxf if isinstance(mast.section, FreeOutline) else None) or ""
    tip = _("Takes the section’s outline from a DXF drawing")

    def opens(parent: QWidget) -> DrawingDialog:
        return DrawingDialog(make.session, make.change, parent)

    label = _("From a drawing")
    return Property(make.of, "drawing", label, label, name, tip, make.change, _("choose …"), opens=opens)


def with_outline(layout: Layout, points: Sequence[tuple[float, float]]) -> Layout:
    """Return the layout with a section of traced points (ahead, to port), mm, or EditError."""
    if not _LEAST <= len(points) <= _MOST:
        words = _("An outline of {n} points cannot be: {least} to {most} in order round the mast are needed")
        raise EditError(words.format(n=len(points), least=_LEAST, most=_MOST))
    return change(layout, MAST, section=FreeOutline(shape="points", points=tuple(points)))


class DrawingDialog(QDialog):
    """The path of a drawing, typed or chosen; its one closed line becomes the section."""

    def __init__(self, session: Session, step: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._step = session, step
        title = _("Section from a drawing")
        self.setWindowTitle(title)
        self.path, self.said = QLineEdit(), Said()
        self.path.setAccessibleName(_("Drawing"))
        self.path.setMinimumHeight(ROW)
        self.choose = QPushButton(_("Choose …"))
        self.choose.setAutoDefault(False)
        self.choose.clicked.connect(self._choose)
        row = QHBoxLayout()
        row.setSpacing(GAP)
        row.addWidget(self.path, 1)
        row.addWidget(self.choose)
        how = _("A DXF drawing of the section, ahead to the right and port up, with its outline alone as one "
                "closed line. Its points are kept in the layout; the drawing may go.")  # fmt: skip
        _box, self.button = framed(self, title, (how, row, self.said), _("Take the outline"), self.take)
        self.setMinimumWidth(_WIDE_PX)
        self.path.setFocus()

    def _choose(self) -> None:
        title = _("Choose a drawing")
        name, _kind = QFileDialog.getOpenFileName(self, title, self.path.text(), _("Drawings (*.dxf)"))
        if name:
            self.path.setText(name)

    def take(self) -> None:
        """Take the outline as one step; where it cannot be, say why and leave the layout as it is."""
        from mastlayout.storage.dxf_outline import points_of  # noqa: PLC0415 - ezdxf is heavy and seldom wanted

        session, path = self._session, Path(self.path.text().strip())
        try:
            layout = with_outline(session.layout, points_of(path.parent, path.name))
            session.preview(layout)
        except MastLayoutError as error:
            session.cancel()
            self.said.say(str(error))
            return
        session.edit(layout, self._step)
        self.accept()

"""The part of a scrolling view that shows: made here, so that PySide6 knows what it is."""

from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QAbstractScrollArea, QWidget


def make_viewport(view: QAbstractScrollArea) -> None:
    """Give a view a viewport as Qt itself would make it.

    Asked for one of Qt's own, PySide6 makes every class of widget there is to find out which it is:
    six milliseconds before the first picture.
    """
    made = QWidget()
    made.setObjectName("qt_scrollarea_viewport")
    made.setBackgroundRole(QPalette.ColorRole.Base)
    made.setAutoFillBackground(True)
    view.setViewport(made)

"""Printing pages at their true size."""

from collections.abc import Sequence

from PySide6.QtCore import QMarginsF, QSizeF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QWidget

from mastlayout.documents.page import PAPERS_MM, Page
from mastlayout.errors import FileError
from mastlayout.ui.papers.painter import paint_page
from mastlayout.words import _

_MM_PER_INCH = 25.4


def ask_and_print(pages: Sequence[Page], title: str, parent: QWidget) -> bool:
    """Ask for a printer and print; tell whether it was printed. FileError where it does not begin."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(title)
    _lay_out(printer, pages[0])
    if QPrintDialog(printer, parent).exec() != QPrintDialog.DialogCode.Accepted:
        return False
    print_pages(printer, pages)
    return True


def print_pages(printer: QPrinter, pages: Sequence[Page]) -> None:
    """Print pages, each on its own paper, never scaled."""
    _lay_out(printer, pages[0])
    painter = QPainter()
    if not painter.begin(printer):
        raise FileError(_("The printer did not begin: save the PDF and print that at 100 %."))
    for i, page in enumerate(pages):
        if i:
            _lay_out(printer, page)
            printer.newPage()
        painter.resetTransform()
        painter.scale(printer.resolution() / _MM_PER_INCH, printer.resolution() / _MM_PER_INCH)
        paint_page(painter, page)
    painter.end()


def _lay_out(printer: QPrinter, page: Page) -> None:
    turned = QPageLayout.Orientation.Landscape if page.landscape else QPageLayout.Orientation.Portrait
    size = QPageSize(QSizeF(*PAPERS_MM[page.paper]), QPageSize.Unit.Millimeter)
    printer.setFullPage(True)
    printer.setPageLayout(QPageLayout(size, turned, QMarginsF(0, 0, 0, 0)))

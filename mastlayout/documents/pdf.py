"""Pages as PDF: exact sizes, never scaled by the printer, the same bytes for the same pages."""

import io
from collections.abc import Sequence
from functools import singledispatch

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from mastlayout.documents.lettering import GAP, as_read, face, pieces, width_mm
from mastlayout.documents.page import MM_PER_PT, Circle, Line, Mark, Page, Point, Polyline, Rect, Text

_PT = 1.0 / MM_PER_PT
# Bytes stand in the file as they are: written out in letters they are a quarter more, and slow to write.
rl_config.useA85 = 0


class _Sheet:
    """A canvas that is told pen and ink only where they change: on a sheet most marks have the same."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas = canvas
        self._pen: tuple[float, tuple[float, ...]] | None = None
        self._ink: float | None = None

    def page(self, page: Page) -> None:
        """Draw a page, on whose block a unit is a millimetre; y runs up from its top edge."""
        width, height = page.size_mm
        self.canvas.setPageSize((width * _PT, height * _PT))
        left, top = page.corner_mm
        self.canvas.translate(left * _PT, (height - top) * _PT)
        self.canvas.scale(page.zoom * _PT, page.zoom * _PT)
        self.canvas.setLineJoin(0)
        self.canvas.setStrokeGray(0.0)
        self._pen = self._ink = None
        for mark in page.marks:
            _draw(mark, self)
        self.canvas.showPage()

    def pen(self, width_mm: float, dash_mm: tuple[float, ...]) -> None:
        """Take a pen so wide, black and dashed."""
        if self._pen != (width_mm, dash_mm):
            self._pen = width_mm, dash_mm
            self.canvas.setLineWidth(width_mm)
            self.canvas.setDash(list(dash_mm))

    def ink(self, gray: float) -> None:
        """Take a grey to fill with, 1 white; words are filled too."""
        if self._ink != gray:
            self._ink = gray
            self.canvas.setFillGray(gray)


def pdf(pages: Sequence[Page], title: str) -> bytes:
    """Return the pages as one PDF file; its title is ``title``."""
    store = io.BytesIO()
    canvas = Canvas(store, invariant=1, pageCompression=1, initialFontName=face(bold=False))
    canvas.setTitle(title)
    canvas.setAuthor("mastlayout")
    canvas.setCreator("mastlayout")
    canvas.setSubject("")
    canvas.setViewerPreference("PrintScaling", "None")
    sheet = _Sheet(canvas)
    for page in pages:
        sheet.page(page)
    canvas.save()
    return store.getvalue()


@singledispatch
def _draw(mark: Mark, sheet: _Sheet) -> None:
    raise TypeError(f"no way to draw {mark!r} on {sheet!r}")


@_draw.register
def _line(mark: Line, sheet: _Sheet) -> None:
    sheet.pen(mark.width_mm, mark.dash_mm)
    sheet.canvas.addLiteral(f"{_path(((mark.x1, mark.y1), (mark.x2, mark.y2)))} S")


@_draw.register
def _polyline(mark: Polyline, sheet: _Sheet) -> None:
    stroke, fill = _ink(sheet, mark.width_mm, mark.fill, mark.dash_mm)
    sheet.canvas.addLiteral(f"{_path(mark.points)}{' h' if mark.closed else ''} {_PAINTED[stroke, fill]}")


# How a path is painted, stroked and filled: as the format has it, what lies within by the even-odd rule.
_PAINTED = {(0, 0): "n", (1, 0): "S", (0, 1): "f*", (1, 1): "B*"}


def _path(points: Sequence[Point]) -> str:
    """Write a path straight as the format has it: a library that writes number by number is slow at that."""
    first, *others = (f"{x:.4f} {-y:.4f}" for x, y in points)
    return " ".join([f"n {first} m", *(f"{place} l" for place in others)])


@_draw.register
def _circle(mark: Circle, sheet: _Sheet) -> None:
    stroke, fill = _ink(sheet, mark.width_mm, mark.fill)
    sheet.canvas.circle(mark.x, -mark.y, mark.radius_mm, stroke=stroke, fill=fill)


@_draw.register
def _rect(mark: Rect, sheet: _Sheet) -> None:
    stroke, fill = _ink(sheet, mark.width_mm, mark.fill, mark.dash_mm)
    sheet.canvas.rect(mark.x, -mark.y - mark.height, mark.width, mark.height, stroke=stroke, fill=fill)


@_draw.register
def _text(mark: Text, sheet: _Sheet) -> None:
    sheet.ink(1.0 if mark.white else 0.0)
    sheet.canvas.setFont(face(mark.bold), mark.size_pt * MM_PER_PT)
    if not mark.turn_deg:
        _set(mark, sheet, mark.x, -mark.y)
        return
    sheet.canvas.saveState()
    sheet.canvas.translate(mark.x, -mark.y)
    sheet.canvas.rotate(mark.turn_deg)
    _set(mark, sheet, 0.0, 0.0)
    sheet.canvas.restoreState()


def _set(mark: Text, sheet: _Sheet, x: float, y: float) -> None:
    """Write a text's letters from, about or up to x."""
    if mark.anchor != "start":
        share = 0.5 if mark.anchor == "middle" else 1.0
        x -= share * width_mm(mark.text, mark.size_pt, bold=mark.bold)
    if GAP not in mark.text:
        sheet.canvas.drawString(x, y, mark.text)
        return
    # A reader that copies text is told the number as one word.
    told = b"\xfe\xff" + as_read(mark.text).encode("utf-16-be")
    sheet.canvas.addLiteral(f"/Span <</ActualText <{told.hex()}>>> BDC")
    for piece, advance in pieces(mark.text, mark.size_pt, bold=mark.bold):
        sheet.canvas.drawString(x, y, piece)
        x += advance
    sheet.canvas.addLiteral("EMC")


def _ink(
    sheet: _Sheet, width_mm: float, fill: float | None, dash_mm: tuple[float, ...] = ()
) -> tuple[int, int]:
    """Set pen and fill, and return the stroke and fill flags of the canvas."""
    if width_mm:
        sheet.pen(width_mm, dash_mm)
    if fill is not None:
        sheet.ink(1.0 - fill)
    return int(width_mm > 0), int(fill is not None)

"""Pages as PDF: exact sizes, never scaled by the printer, the same bytes for the same pages."""

import io
from collections.abc import Sequence
from functools import singledispatch

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from mastlayout.documents.lettering import GAP, as_read, face, pieces, width_mm
from mastlayout.documents.page import MM_PER_PT, Circle, Line, Mark, Page, Polyline, Rect, Text

_PT = 1.0 / MM_PER_PT
# Bytes stand in the file as they are: written out in letters they are a quarter more, and slow to write.
rl_config.useA85 = 0


def pdf(pages: Sequence[Page], title: str) -> bytes:
    """Return the pages as one PDF file; its title is ``title``."""
    store = io.BytesIO()
    canvas = Canvas(store, invariant=1, pageCompression=1, initialFontName=face(bold=False))
    canvas.setTitle(title)
    canvas.setAuthor("mastlayout")
    canvas.setCreator("mastlayout")
    canvas.setSubject("")
    canvas.setViewerPreference("PrintScaling", "None")
    for page in pages:
        width, height = page.size_mm
        canvas.setPageSize((width * _PT, height * _PT))
        left, top = page.corner_mm
        canvas.translate(left * _PT, (height - top) * _PT)
        # From here on a unit is a millimetre of the block and y runs up from its top edge.
        canvas.scale(page.zoom * _PT, page.zoom * _PT)
        canvas.setLineJoin(0)
        for mark in page.marks:
            _draw(mark, canvas)
        canvas.showPage()
    canvas.save()
    return store.getvalue()


@singledispatch
def _draw(mark: Mark, canvas: Canvas) -> None:
    raise TypeError(f"no way to draw {mark!r} on {canvas!r}")


@_draw.register
def _line(mark: Line, canvas: Canvas) -> None:
    _pen(canvas, mark.width_mm, mark.dash_mm)
    canvas.line(mark.x1, -mark.y1, mark.x2, -mark.y2)


@_draw.register
def _polyline(mark: Polyline, canvas: Canvas) -> None:
    path = canvas.beginPath()
    path.moveTo(mark.points[0][0], -mark.points[0][1])
    for x, y in mark.points[1:]:
        path.lineTo(x, -y)
    if mark.closed:
        path.close()
    stroke, fill = _ink(canvas, mark.width_mm, mark.fill, mark.dash_mm)
    canvas.drawPath(path, stroke=stroke, fill=fill)


@_draw.register
def _circle(mark: Circle, canvas: Canvas) -> None:
    stroke, fill = _ink(canvas, mark.width_mm, mark.fill)
    canvas.circle(mark.x, -mark.y, mark.radius_mm, stroke=stroke, fill=fill)


@_draw.register
def _rect(mark: Rect, canvas: Canvas) -> None:
    stroke, fill = _ink(canvas, mark.width_mm, mark.fill, mark.dash_mm)
    canvas.rect(mark.x, -mark.y - mark.height, mark.width, mark.height, stroke=stroke, fill=fill)


@_draw.register
def _text(mark: Text, canvas: Canvas) -> None:
    canvas.setFillGray(1.0 if mark.white else 0.0)
    canvas.setFont(face(mark.bold), mark.size_pt * MM_PER_PT)
    if not mark.turn_deg:
        _set(mark, canvas, mark.x, -mark.y)
        return
    canvas.saveState()
    canvas.translate(mark.x, -mark.y)
    canvas.rotate(mark.turn_deg)
    _set(mark, canvas, 0.0, 0.0)
    canvas.restoreState()


def _set(mark: Text, canvas: Canvas, x: float, y: float) -> None:
    """Write a text's letters from, about or up to x."""
    if mark.anchor != "start":
        share = 0.5 if mark.anchor == "middle" else 1.0
        x -= share * width_mm(mark.text, mark.size_pt, bold=mark.bold)
    if GAP not in mark.text:
        canvas.drawString(x, y, mark.text)
        return
    # A reader that copies text is told the number as one word.
    told = b"\xfe\xff" + as_read(mark.text).encode("utf-16-be")
    canvas.addLiteral(f"/Span <</ActualText <{told.hex()}>>> BDC")
    for piece, advance in pieces(mark.text, mark.size_pt, bold=mark.bold):
        canvas.drawString(x, y, piece)
        x += advance
    canvas.addLiteral("EMC")


def _pen(canvas: Canvas, width_mm: float, dash_mm: tuple[float, ...]) -> None:
    canvas.setStrokeGray(0.0)
    canvas.setLineWidth(width_mm)
    canvas.setDash(list(dash_mm))


def _ink(
    canvas: Canvas, width_mm: float, fill: float | None, dash_mm: tuple[float, ...] = ()
) -> tuple[int, int]:
    """Set pen and fill, and return the stroke and fill flags of the canvas."""
    if width_mm:
        _pen(canvas, width_mm, dash_mm)
    if fill is not None:
        canvas.setFillGray(1.0 - fill)
    return int(width_mm > 0), int(fill is not None)

"""A page described once, in millimetres: marks in a block that lies centred on the paper.

x runs right and y down from the block's top left corner; renderers place the block and draw.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Literal

from mastlayout.frozen import dataclass

PaperName = Literal["A4", "Letter", "A3"]
Anchor = Literal["start", "middle", "end"]
Point = tuple[float, float]

MM_PER_PT = 25.4 / 72.0
PAPERS_MM: dict[PaperName, tuple[float, float]] = {
    "A4": (210.0, 297.0),
    "Letter": (215.9, 279.4),
    "A3": (297.0, 420.0),
}
# One block for A4 and Letter, long side first: a sheet printed on either is the same to the tape.
_BLOCK_MM = (259.0, 190.0)
A3_ZOOM = 1.4

THIN, MEDIUM, THICK, BOX = 0.18, 0.35, 0.7, 0.5
DASHED: tuple[float, ...] = (1.4, 1.0)
DOTTED: tuple[float, ...] = (0.5, 0.7)
CENTRE: tuple[float, ...] = (3.2, 0.7, 0.6, 0.7)


@dataclass(frozen=True)
class Line:
    """A straight line; ``dash_mm`` is on, off, … along it, nothing for a full line."""

    x1: float
    y1: float
    x2: float
    y2: float
    width_mm: float = THIN
    dash_mm: tuple[float, ...] = ()


@dataclass(frozen=True)
class Polyline:
    """A line through points, or a polygon where ``closed``.

    ``fill`` is the share of ink, 0 white to 1 black, None for no fill; a ``width_mm`` of 0 draws
    no line.
    """

    points: tuple[Point, ...]
    width_mm: float = MEDIUM
    closed: bool = False
    fill: float | None = None
    dash_mm: tuple[float, ...] = ()


@dataclass(frozen=True)
class Circle:
    """A circle about (x, y)."""

    x: float
    y: float
    radius_mm: float
    width_mm: float = MEDIUM
    fill: float | None = None


@dataclass(frozen=True)
class Rect:
    """A rectangle from its top left corner."""

    x: float
    y: float
    width: float
    height: float
    width_mm: float = MEDIUM
    fill: float | None = None
    dash_mm: tuple[float, ...] = ()


@dataclass(frozen=True)
class Text:
    """Words on a baseline from (x, y); ``turn_deg`` 90 reads upwards.

    U+202F between digits is a gap that is drawn and no character of the file.
    """

    x: float
    y: float
    text: str
    size_pt: float = 8.0
    bold: bool = False
    anchor: Anchor = "start"
    turn_deg: Literal[0, 90] = 0
    white: bool = False


Mark = Line | Polyline | Circle | Rect | Text
Marks = Iterator[Mark]


@dataclass(frozen=True)
class Page:
    """One page: its paper and the marks of its block; lengths mm, ``zoom`` enlarges the whole block.

    ``title`` is its own name in a list, where it has one beside its kind's.
    """

    paper: PaperName
    landscape: bool
    marks: tuple[Mark, ...]
    zoom: float = 1.0
    title: str = ""

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and height of the paper as it is turned."""
        short, long = PAPERS_MM[self.paper]
        return (long, short) if self.landscape else (short, long)

    @property
    def block_mm(self) -> tuple[float, float]:
        """Width and height of the block in its own millimetres."""
        return block_mm(self.paper, self.zoom, landscape=self.landscape)

    @property
    def corner_mm(self) -> Point:
        """Where the block's top left corner lies on the paper."""
        (width, height), (block_width, block_height) = self.size_mm, self.block_mm
        return (width - self.zoom * block_width) / 2, (height - self.zoom * block_height) / 2


def block_mm(paper: PaperName, zoom: float = 1.0, *, landscape: bool) -> tuple[float, float]:
    """Return the block's width and height; A3 holds a block 1.4 times as large, or the same enlarged."""
    grown = (A3_ZOOM if paper == "A3" else 1.0) / zoom
    long, short = (side * grown for side in _BLOCK_MM)
    return (long, short) if landscape else (short, long)


def moved(marks: Iterable[Mark], dx: float, dy: float) -> Marks:
    """Yield the marks shifted by (dx, dy)."""
    for mark in marks:
        if isinstance(mark, Line):
            yield replace(mark, x1=mark.x1 + dx, x2=mark.x2 + dx, y1=mark.y1 + dy, y2=mark.y2 + dy)
        elif isinstance(mark, Polyline):
            yield replace(mark, points=tuple((x + dx, y + dy) for x, y in mark.points))
        else:
            yield replace(mark, x=mark.x + dx, y=mark.y + dy)

"""Pictures of the mast as a whole: section, tape, rake, water, the yacht."""

from mastlayout.documents.page import BOX, DASHED, MEDIUM, THIN, Line, Marks, Polyline, Rect
from mastlayout.documents.pictures.strokes import GREY, arc, arrow, both_ways, ellipse, word
from mastlayout.words import _


def section() -> Marks:
    """The section with its two diameters and the tape round it."""
    yield ellipse((11, 9), 5.2, 7.4)
    yield from both_ways((11, 1.7), (11, 16.3))
    yield from both_ways((5.9, 9), (16.1, 9))
    yield arc((11, 9), 8.4, -62, 62, THIN)
    yield word(21, 7.4, _("girth,"))
    yield word(21, 10.4, _("length,"))
    yield word(21, 13.4, _("width"))


def tape() -> Marks:
    """A tape hooked at the masthead, one pull."""
    yield Rect(3, 8, 27, 4.2, MEDIUM)
    yield Polyline(((2.6, 6.2), (2.6, 12.8)), 0.7)
    yield from arrow((2.6, 6.2), (24, 6.2))
    for x in range(6, 24, 3):
        yield Line(x, 6.2, x, 7.2, THIN)
    yield word(3, 4.4, _("masthead"))
    yield word(16.5, 16, _("one pull"), "middle")


def rake() -> Marks:
    """A plumb line from the masthead and its distance abaft the mast."""
    yield Line(20, 1, 23.6, 17.4, 1.0)
    yield Line(20, 1, 20, 13.6, THIN)
    yield Polyline(((19.2, 13.6), (20.8, 13.6), (20, 16)), 0, closed=True, fill=1.0)
    yield from both_ways((20, 12), (22.3, 12))
    yield word(18.6, 9.6, _("plumb line"), "end")
    yield word(18.6, 12.9, _("distance"), "end")
    yield Line(14, 17.5, 29, 17.5, MEDIUM)


def water() -> Marks:
    """The water, the heel and the deck as levels on the mast."""
    yield Rect(7, 1, 3, 15, MEDIUM)
    yield Line(3, 6, 20, 6, BOX)
    yield word(21, 7, _("deck"))
    yield Line(1, 12.4, 20, 12.4, MEDIUM, DASHED)
    yield word(21, 13.4, _("water"))
    yield Line(6, 16, 20, 16, THIN)
    yield word(21, 17, _("heel"))
    yield from both_ways((16, 6), (16, 16))


def boat() -> Marks:
    """A yacht from the side."""
    hull = ((2, 11), (29, 10), (25.5, 15), (7, 15.6))
    yield Polyline(hull, MEDIUM, closed=True, fill=GREY)
    yield Line(17, 10.4, 17, 1, 0.7)
    yield Line(0.5, 13.6, 30.5, 13.6, THIN, DASHED)
    yield Line(17, 1.4, 28.6, 10, THIN)
    yield Line(17, 1.4, 3, 11, THIN)

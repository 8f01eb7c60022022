"""A picture of a pole on its ring ahead of the mast, and of what is measured of it."""

from mastlayout.documents.page import BOX, DASHED, MEDIUM, THIN, Circle, Line, Marks, Polyline, Rect
from mastlayout.documents.pictures.strokes import both_ways, word
from mastlayout.words import _


def pole() -> Marks:
    """The pole set level on its ring, and dashed as it is stowed along the mast."""
    yield Rect(5, 0.6, 2.2, 16.8, MEDIUM)
    yield Circle(9.2, 9.0, 1.0, THIN)
    yield Polyline(((10.2, 8.2), (28.6, 8.2), (28.6, 9.8), (10.2, 9.8)), BOX, closed=True)
    yield from both_ways((7.2, 5.6), (9.2, 5.6))
    yield word(10.4, 6.0, _("ahead"))
    yield from both_ways((24.0, 8.2), (24.0, 9.8))
    yield word(19.4, 12.6, _("across"))
    yield Line(8.4, 10.6, 8.4, 16.8, THIN, DASHED)
    yield Line(9.8, 10.6, 9.8, 16.8, THIN, DASHED)
    yield word(11.0, 16.2, _("stowed"))

"""Pictures of sails, stays and spreaders."""

from mastlayout.documents.page import BOX, DASHED, MEDIUM, THIN, Circle, Line, Marks, Polyline, Rect
from mastlayout.documents.pictures.strokes import GREY, arc, both_ways, word
from mastlayout.words import _


def sail() -> Marks:
    """A sail on the floor: a string from head to clew and the hollow of its leech."""
    yield Polyline(((5, 1), (5, 17), (27, 15.6)), MEDIUM)
    yield Polyline(((5, 1), (8.6, 6.4), (13.4, 11), (19.4, 14), (27, 15.6)), BOX)
    yield Line(5, 1, 27, 15.6, THIN, DASHED)
    yield Line(12.4, 10.2, 14.9, 7.4, BOX)
    yield word(17, 7, _("hollow"))


def stay() -> Marks:
    """A stay between its pins."""
    yield Circle(3, 9, 1.6, MEDIUM)
    yield Circle(28, 9, 1.6, MEDIUM)
    yield Line(4.6, 9, 26.4, 9, 0.7)
    for left in (4.6, 21.4):
        yield Rect(left, 8, 5, 2, MEDIUM, GREY)
    yield Line(3, 11, 3, 14.4, THIN)
    yield Line(28, 11, 28, 14.4, THIN)
    yield from both_ways((3, 13.4), (28, 13.4))
    yield word(15.5, 17, _("pin to pin"), "middle")


def tied() -> Marks:
    """A line led from the mast to where it is made fast, and the two distances to take."""
    yield Rect(4, 1, 2, 16.4, MEDIUM)
    yield Polyline(((6, 1.6), (23, 12.4)), BOX)
    yield Circle(23, 12.4, 0.8, 0, 1.0)
    yield from both_ways((6.1, 12.4), (21.8, 12.4))
    yield word(8.4, 11.4, _("ahead"))
    yield Line(4, 17.4, 26, 17.4, THIN)
    yield from both_ways((23, 13.4), (23, 17.3))
    yield word(21.8, 16.2, _("above heel"), "end")


def spreader() -> Marks:
    """Two spreaders on the mast and a string across their tips."""
    yield Rect(14.2, 1, 2.6, 16, MEDIUM)
    yield Line(14.2, 7, 2.4, 6, 0.9)
    yield Line(16.8, 7, 28.6, 6, 0.9)
    yield Line(2.4, 6, 28.6, 6, THIN, DASHED)
    yield Line(2.4, 6, 4, 17, THIN)
    yield Line(28.6, 6, 27, 17, THIN)
    yield word(5, 4.2, _("string"))
    yield from both_ways((16.9, 10.6), (28.2, 10.6))
    yield word(17.8, 13.8, _("length"))


def swivel() -> Marks:
    """The halyard's angle to the forestay at the furler's swivel."""
    yield Rect(5, 1, 1.8, 16.4, MEDIUM)
    yield Line(6.8, 1.6, 28, 16.6, BOX)
    yield Polyline(((6.8, 3.4), (14.4, 9)), THIN)
    yield Rect(13.2, 7.4, 3, 2.2, 0, 1.0)
    yield arc((14.4, 8.4), 6.4, 214, 226, THIN)
    yield Line(10.4, 4.4, 14.8, 2.6, THIN)
    yield word(15.4, 3.4, _("angle here"))

"""Pictures of walls, holes, feet and what runs inside the mast."""

from mastlayout.documents.page import BOX, CENTRE, DASHED, MEDIUM, THIN, Circle, Line, Marks, Polyline, Rect
from mastlayout.documents.pictures.strokes import GREY, arrow, both_ways, ellipse, word
from mastlayout.words import _


def wall() -> Marks:
    """A hook gauge in a hole of the wall."""
    yield Rect(0.5, 9, 11, 2.6, MEDIUM, GREY)
    yield Rect(15, 9, 13, 2.6, MEDIUM, GREY)
    yield Polyline(((13.4, 1), (13.4, 12.2), (15.8, 12.2)), 0.7)
    yield from arrow((23.5, 5.4), (23.5, 8.9))
    yield from arrow((23.5, 15.2), (23.5, 11.7))
    yield word(25, 6.6, _("wall"))


def hole() -> Marks:
    """A drill's shank tried in a hole."""
    yield Rect(1, 11, 29, 2.6, MEDIUM, GREY)
    yield Rect(13, 10.8, 5, 3, 0, 0.0)
    yield Line(13, 11, 13, 13.6, MEDIUM)
    yield Line(18, 11, 18, 13.6, MEDIUM)
    yield Rect(13.5, 2, 4, 9.8, MEDIUM, 0.0)
    yield from both_ways((13, 16), (18, 16))
    yield word(19.5, 17, _("across"))


def conduit() -> Marks:
    """The section from the heel with a conduit at its bearing."""
    yield ellipse((15.5, 9), 6, 8.4)
    yield Circle(18.6, 5.6, 1.8, MEDIUM, GREY)
    yield Circle(12.4, 5.6, 1.8, THIN)
    yield word(12.4, 6.5, "?", "middle")
    yield word(8.3, 5.2, _("stbd"), "end")
    yield word(22.7, 5.2, _("port"))
    yield word(8.3, 13.4, _("from"), "end")
    yield word(8.3, 16.3, _("the heel"), "end")


def slot() -> Marks:
    """A slot in a conduit and the tape from the masthead."""
    yield Rect(3.6, 4, 26, 6.6, MEDIUM)
    yield Rect(13, 5.4, 8, 3.8, 0, 1.0)
    yield Polyline(((0.2, 7.3), (2.6, 5.9), (2.6, 8.7)), 0, closed=True, fill=1.0)
    yield from both_ways((3.6, 13), (17, 13))
    yield word(4.6, 16.4, _("from the masthead"))


def halyard() -> Marks:
    """A halyard crossing inside behind the place of a drill."""
    yield Rect(1.5, 4.6, 28, 11, MEDIUM)
    yield Polyline(((1.5, 7), (7, 7.3), (12, 8.8), (18, 11.6), (24, 13), (29.5, 13.2)), 0.9)
    yield Line(15.5, 1, 15.5, 9.4, BOX)
    yield word(17, 3, _("drill"))
    yield from both_ways((9.6, 4.7), (9.6, 7.8))
    yield word(2.4, 14.2, _("how deep?"))


def foot() -> Marks:
    """A foot with its holes, traced with its centreline."""
    yield Rect(4, 4.2, 23, 11, 0.7)
    for x in (7.6, 23.4):
        for y in (6.8, 12.6):
            yield Circle(x, y, 1.0, MEDIUM)
    yield Line(15.5, 1.8, 15.5, 17.6, THIN, CENTRE)
    yield Polyline(((14.5, 2.2), (15.5, 0.3), (16.5, 2.2)), 0, closed=True, fill=1.0)
    yield word(13.6, 3.2, _("UP"), "end")
    yield word(20.4, 3.2, _("PORT"))


def cable() -> Marks:
    """A cable's sheath and its plug, each across."""
    yield Rect(0.5, 7, 16, 4, MEDIUM, GREY)
    yield Rect(16.5, 5, 9, 8, MEDIUM, 0.0)
    yield Line(25.5, 9, 28, 9, 0.7)
    yield from both_ways((6, 7), (6, 11))
    yield Line(6, 4.4, 6, 6.8, THIN, DASHED)
    yield word(6, 3.9, _("sheath"), "middle")
    yield from both_ways((21, 5), (21, 13))
    yield word(21, 16.4, _("plug"), "middle")

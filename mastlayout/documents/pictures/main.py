"""Pictures of the measures of a mainsail: the boom from above, and the headboard."""

from mastlayout.documents.page import BOX, DASHED, MEDIUM, THIN, Line, Marks, Polyline, Rect
from mastlayout.documents.pictures.strokes import arc, both_ways, ellipse, word
from mastlayout.words import _

_MAST = (5.6, 3.6)
_END = (18.4, 15.4)


def boom() -> Marks:
    """The boom from above, eased until it lies on a shroud: its end off the centreline and abaft the mast."""
    yield ellipse(_MAST, 2.0, 1.2)
    yield Line(1.0, _MAST[1], 30.0, _MAST[1], THIN, DASHED)
    yield Line(_MAST[0] + 2.4, _MAST[1] + 0.4, *_END, BOX)
    yield ellipse((11.4, 9.4), 0.5, 0.5)
    yield arc(_MAST, 8.0, 4, 42, THIN)
    yield word(19.6, 10.0, _("off"))
    yield from both_ways((_MAST[0] + 2.0, 16.8), (_END[0], 16.8))
    yield from both_ways((_END[0], _MAST[1]), _END)
    yield word(19.6, 17.2, _("abaft"))


def headboard() -> Marks:
    """The head of a mainsail beside its track: the board's length, and its corner ahead of the luff."""
    yield Rect(3.0, 0.6, 4.0, 16.8, MEDIUM)
    yield Line(9.4, 0.6, 9.4, 17.4, THIN, DASHED)
    yield Polyline(((8.2, 5.0), (20.0, 6.2), (21.0, 9.4), (9.4, 9.4)), BOX, closed=True)
    yield Polyline(((9.4, 9.4), (9.4, 17.2), (27.4, 17.2), (21.0, 9.4)), MEDIUM)
    yield from both_ways((9.4, 3.0), (20.0, 3.0))
    yield word(12.4, 2.2, _("long"))
    yield word(11.0, 14.0, _("luff"))

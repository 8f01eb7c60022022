"""Pictures of the measures of a headsail and of the triangle it hangs in."""

from mastlayout.documents.page import BOX, DASHED, MEDIUM, THIN, Line, Marks, Polyline, Rect
from mastlayout.documents.pictures.strokes import both_ways, word
from mastlayout.words import _

# Head, tack and clew of a headsail on its stay, the mast left of it, forward to the right.
_HEAD, _TACK, _CLEW = (7.4, 2.0), (26.0, 15.6), (10.2, 14.4)


def _rig() -> Marks:
    yield Rect(5, 0.6, 1.8, 16.8, MEDIUM)
    yield Line(6.8, 1.0, 27.6, 16.8, THIN)


def _sail() -> Marks:
    yield Polyline((_HEAD, _TACK, _CLEW), BOX, closed=True)


def perpendicular() -> Marks:
    """The longest perpendicular: from the clew square to the luff."""
    yield from _rig()
    yield from _sail()
    # The foot of the perpendicular on the luff, by projection.
    (x, y), (dx, dy) = _HEAD, (_TACK[0] - _HEAD[0], _TACK[1] - _HEAD[1])
    part = ((_CLEW[0] - x) * dx + (_CLEW[1] - y) * dy) / (dx * dx + dy * dy)
    yield from both_ways(_CLEW, (x + part * dx, y + part * dy))
    yield word(20.5, 7.2, _("LP"))


def luff() -> Marks:
    """The luff: from head to tack along the stay."""
    yield from _rig()
    yield from _sail()
    yield from both_ways((9.6, 0.9), (27.6, 14.0))
    yield word(19.6, 6.2, _("luff"))


def corners() -> Marks:
    """Heights of head, clew and tack, from the masthead's level down."""
    yield from _rig()
    yield from _sail()
    yield Line(1.0, 0.6, 30.0, 0.6, THIN, DASHED)
    for x, corner in ((8.4, _HEAD), (10.2, _CLEW), (26.0, _TACK)):
        yield from both_ways((x, 0.7), (x, corner[1]))
    yield word(11.2, 10.4, _("clew"))
    yield word(20.0, 9.0, _("tack"))


def foretriangle() -> Marks:
    """I up the mast from the sheer, J along the deck."""
    yield from _rig()
    yield Line(1.0, 15.6, 30.0, 15.6, MEDIUM)
    yield from both_ways((3.2, 1.2), (3.2, 15.4))
    yield word(0.6, 9.0, _("I"))
    yield from both_ways((6.9, 13.2), (22.8, 13.2))
    yield word(13.6, 12.2, _("J"))

"""Where a thing stands to the mainsail's cloth at one height: by how much, and between which two points.

Measured as the checks do (``passes``), one outline and one side at a time.
"""

from collections.abc import Iterator

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.main.arc import along, arc_lines, mast_lines, pushed_off
from mastlayout.geometry.main.carried import Carried
from mastlayout.geometry.main.cloth import Swung
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.main.stops import mirrored
from mastlayout.geometry.tack.directions import DIRECTIONS, along_all
from mastlayout.geometry.tack.outlines import STEP_MM
from mastlayout.geometry.tack.standing import Stand, touched

# How far an outline (1, COUNT) is clear, and the way (2,) that is measured along.
_Off = tuple[float, Array]
_TOUCHED_MM = 0.1


def stand(main: Main, state: Swung, z_mm: float, support: Array, belly: float) -> Stand | None:
    """Return how the worst of outlines (q, COUNT) stands to a state's cloth; None without an outline.

    What straight cloth does not touch is measured to the nearer of it and its full belly.
    """
    straight = _worst(main, state, z_mm, support, 0.0)
    if straight is None or straight.clear_mm < -_TOUCHED_MM:
        return straight
    bellied = _worst(main, state, z_mm, support, belly)
    return min((one for one in (straight, bellied) if one), key=lambda one: one.clear_mm)


def stand_of_carried(main: Main, own: Carried, z_mm: float, support: Array) -> Stand | None:
    """Return how the worst of outlines (q, COUNT) stands to what is carried past them along the track."""
    found = []
    for one, side in _both_sides(support):
        away, nearest = _from(main.luff, one)
        swings = _swings(main, np.array([own.angle]), np.zeros(1), z_mm, 0.0, one, port=side > 0)
        off = max(((away - own.length_mm, nearest), swings), key=lambda off: off[0])
        off = min(
            (off[0] - own.half_mm, off[1]),
            (away - max(own.ahead_mm, own.half_mm), nearest),
            key=lambda off: off[0],
        )
        found.append(_stand(off, one, side, bears=True))
    return min(found, key=lambda one: one.clear_mm, default=None)


def _worst(main: Main, state: Swung, z_mm: float, support: Array, belly: float) -> Stand | None:
    bears = not belly and not state.state.hoisting
    found = [
        _stand(_off(main, state, z_mm, one, belly, port=side > 0), one, side, bears=bears)
        for one, side in _both_sides(support)
    ]
    return min(found, key=lambda one: one.clear_mm, default=None)


def _both_sides(support: Array) -> Iterator[tuple[Array, float]]:
    """Yield each outline (1, COUNT) as port sees it, and as starboard does, mirrored."""
    for one in support:
        yield one[None], 1.0
        yield mirrored(one)[None], -1.0


def _off(main: Main, state: Swung, z_mm: float, support: Array, belly: float, *, port: bool) -> _Off:
    z = np.array([z_mm])
    chord, free = state.chord(z), state.angle(z)
    stopped, out = main.stops_at(np.array([round(z_mm / STEP_MM)]), port=port).first(chord)
    held = bool(stopped[0] < free[0])
    if state.state.hoisting and held:
        chord, held = np.minimum(chord, out), False
    angle, span = (stopped, out) if held else (free, chord)
    away, nearest = _from(main.luff, support)
    swings = _swings(main, angle, span, z_mm, belly, support, port=port)
    off = max(((away - float(chord[0]), nearest), swings), key=lambda off: off[0])
    if held:
        point, left = main.luff + out[:, None] * along(angle), chord - out
        top = free + np.pi / 2 + np.arctan(4 * belly)
        lines, offset = arc_lines(point, free, left, belly, top)
        room = (offset - lines.reach(support))[0]
        away, nearest = _from(point[0], support)
        beyond = max(
            ((away - float(left[0]), nearest), _of(room, lines.normal[0], int(room.argmax()))),
            key=lambda off: off[0],
        )
        off = min(off, beyond, key=lambda off: off[0])
    return off


def _swings(
    main: Main, angle: Array, span: Array, z_mm: float, belly: float, support: Array, *, port: bool
) -> _Off:
    """Return how far an outline is off cloth that swings about the luff; past abeam it lies on the mast."""
    mast = main.stops_at(np.array([round(z_mm / STEP_MM)]), port=port).mast
    if angle[0] >= np.pi / 2 and not belly:
        lines, offset = mast_lines(main.luff, angle, mast)
        room = (offset - lines.reach(support))[0]
        return _of(room, lines.normal[0], int(room.argmin()))
    point = pushed_off(main.luff, angle, mast)
    lines, offset = arc_lines(point, angle, span, belly, np.pi - angle)
    room = (offset - lines.reach(support))[0]
    return _of(room, lines.normal[0], int(room.argmax()))


def _of(room: Array, normal: Array, at: int) -> _Off:
    return float(room[at]), np.asarray(normal[at])


def _from(point: Array, support: Array) -> _Off:
    """Return how far an outline is from a point, and the way back to it."""
    room = along_all(point) - support[0]
    at = int(room.argmax())
    return float(room[at]), np.asarray(DIRECTIONS[at])


def _stand(off: _Off, support: Array, side: float, *, bears: bool) -> Stand:
    clear, way = off
    at = touched(support[0], way)
    other = at + clear * way
    return Stand(
        clear,
        (float(at[0]), side * float(at[1])),
        (float(other[0]), side * float(other[1])),
        bears,
        behind=False,
    )

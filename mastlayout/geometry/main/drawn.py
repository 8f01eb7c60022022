"""The mainsail as lines to draw, mm in the mast's frame: cloth eased, and the band it sweeps on the mast."""

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.geometry.main.arc import abaft, along, pushed_off
from mastlayout.geometry.main.cloth import Swung
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.tack.outlines import STEP_MM

# A belly is drawn by so many points.
_POINTS = 17


def band(state: Swung) -> tuple[float, float]:
    """Return the heights, from the heel, between which a state's cloth sweeps the mast."""
    return state.low_mm, state.head_mm


def lies(
    main: Main, state: Swung, z_mm: float, *, port: bool, part: float = 1.0, belly: float = 0.0
) -> Array:
    """Return where cloth lies (k, 2) from the luff to the leech, eased a ``part`` of all it can be.

    What stops it bends it; ``belly`` is k of each length that hangs free. Empty where there is none.
    """
    z = np.array([z_mm])
    chord, free = state.chord(z), part * state.angle(z)
    if chord[0] <= 0:
        return np.empty((0, 2))
    edge = main.stops_at(np.array([round(z_mm / STEP_MM)]), port=port)
    stopped, out = edge.first(chord)
    held = bool(stopped[0] < free[0])
    angle, span = (stopped, out) if held else (free, chord)
    line = _hung(pushed_off(main.luff, angle, edge.mast)[0], float(angle[0]), float(span[0]), belly)
    if held:
        beyond = _hung(line[-1], float(free[0]), float(chord[0] - out[0]), belly)
        line = np.concatenate([line, beyond[1:]])
    return np.asarray(np.concatenate([main.luff[None], line]) * (1.0, 1.0 if port else -1.0))


def swept(main: Main, state: Swung, z_mm: float, belly: float = 0.0) -> Array:
    """Return the outline (k, 2) of all that a state's cloth sweeps at a height, from leech to leech."""
    angles = np.linspace(0.0, 1.0, _POINTS)
    sides = [lies(main, state, z_mm, port=port, belly=belly) for port in (True, False)]
    if not len(sides[0]):
        return sides[0]
    ends = [
        np.array([lies(main, state, z_mm, port=port, part=float(p))[-1] for p in angles[1:-1]])
        for port in (True, False)
    ]
    aft = main.luff + (-float(state.chord(np.array([z_mm]))[0]), 0.0)
    return np.asarray(np.concatenate([sides[0], ends[0][::-1], aft[None], ends[1], sides[1][::-1]]))


def _hung(start: Array, angle: float, span: float, belly: float) -> Array:
    """Return the points (k, 2) of a length of cloth from where it begins, bulging ahead."""
    parts = np.linspace(0.0, 1.0, _POINTS if belly else 2)[:, None]
    way, back = along(np.array(angle)), abaft(np.array(angle))
    return np.asarray(start + span * parts * way - span * 4 * belly * parts * (1 - parts) * back)

"""A pole at one height, to be drawn from above: the ground it swings over, and its cut as it lies stowed."""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.pole.poles import PoleInSpace

_STEP = np.radians(3.0)
_ROUND = 24


@dataclass(frozen=True, eq=False)
class PoleAt:
    """A pole at one height: ``swept`` and ``lying`` are outlines (k, 2), None where they are not there.

    Places are ahead and to port; ``ring`` (2,) is where its inner end turns.
    """

    id: str
    name: str
    ring: Array | None
    swept: Array | None
    lying: Array | None


def pole_at(pole: PoleInSpace, z_mm: float) -> PoleAt | None:
    """Return what a pole does at a height; None where it never comes there."""
    swept = _swept(pole, z_mm)
    lying = _lying(pole, z_mm)
    if swept is None and lying is None:
        return None
    ring = None if pole.run is None else _hinge(pole.run, z_mm)
    return PoleAt(pole.item.id, pole.item.name, ring, swept, lying)


def _hinge(run: Array, z_mm: float) -> Array:
    """Return where (2,) the inner end is nearest to a height."""
    part = np.interp(z_mm, run[:, 2], (0.0, 1.0)) if run[1, 2] > run[0, 2] else 0.0
    return np.asarray((run[0] + part * (run[1] - run[0]))[:2])


def _swept(pole: PoleInSpace, z_mm: float) -> Array | None:
    if pole.run is None or pole.item.diameter_mm is None:
        return None
    reach = _reach(pole, float(max(z_mm - pole.run[1, 2], pole.run[0, 2] - z_mm, 0.0)))
    if reach is None:
        return None
    near, far = reach
    bearing = np.linspace(-pole.squared, pole.squared, max(3, int(2 * pole.squared / _STEP)))
    out = np.stack([np.cos(bearing), np.sin(bearing)], axis=1)
    # Its sides lie half its thickness beyond the bearings it is squared to.
    aside = pole.radius_mm * np.array([[np.sin(-pole.squared), -np.cos(pole.squared)]])
    to_port = aside * (1.0, -1.0)
    if near > 0:
        back = near * out[::-1]
    else:
        turn = np.linspace(pole.squared + np.pi / 2, 1.5 * np.pi - pole.squared, _ROUND)
        back = pole.radius_mm * np.stack([np.cos(turn), np.sin(turn)], axis=1)
    edge = [
        far * out[:1] + aside,
        far * out,
        far * out[-1:] + to_port,
        max(near, 0.0) * out[-1:] + to_port,
        back,
    ]
    edge.append(max(near, 0.0) * out[:1] + aside)
    return np.asarray(np.concatenate(edge) + _hinge(pole.run, z_mm))


def _reach(pole: PoleInSpace, off_mm: float) -> tuple[float, float] | None:
    """Return from how near to how far of its ring a pole comes so far above or below its run."""
    tilt, radius, length = pole.tilt[1], pole.radius_mm, pole.item.length_mm
    if off_mm > length * np.sin(tilt) + radius:
        return None
    near = 0.0 if off_mm <= radius else (off_mm - radius / np.cos(tilt)) / max(np.tan(tilt), 1e-9)
    return max(near, 0.0), float(np.sqrt(max(length**2 - off_mm**2, 0.0)) + radius)


def _lying(pole: PoleInSpace, z_mm: float) -> Array | None:
    """Return the cut of the stowed pole, a round one drawn out as it leans."""
    if pole.stowed is None or not len(pole.lying):
        return None
    upper, lower = pole.stowed
    along = upper - lower
    rise = along[2] / np.linalg.norm(along)
    if not min(upper[2], lower[2]) <= z_mm <= max(upper[2], lower[2]) or rise < 0.2:
        return None
    at = lower + (z_mm - lower[2]) / along[2] * along
    turn = np.linspace(0.0, 2 * np.pi, _ROUND, endpoint=False)
    lean = float(np.linalg.norm(along[:2]))
    level = along[:2] / lean if lean > 1e-9 else np.array([1.0, 0.0])
    long, wide = pole.radius_mm / rise, pole.radius_mm
    square = np.array([-level[1], level[0]])
    outline = long * np.cos(turn)[:, None] * level + wide * np.sin(turn)[:, None] * square
    return np.asarray(at[:2] + outline)

"""Echoing areas by formula: the most that corners, plates and balls send back, and how tilt ends it.

All are the maxima of physical optics for clean, square metal: bent or dented sheet gives less.
"""

from collections.abc import Callable, Mapping
from typing import Literal

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.model.kind import Corner
from mastlayout.words import _

LIGHT_M_S = 299_792_458.0
_MM = 1000.0


@dataclass(frozen=True)
class Band:
    """A band of marine radar: its frequency, Hz, is the middle of what ships use."""

    key: Literal["x", "s"]
    name: str
    hz: float

    @property
    def wave_m(self) -> float:
        """The wavelength, m."""
        return LIGHT_M_S / self.hz


X_BAND, S_BAND = Band("x", _("X band"), 9.41e9), Band("s", _("S band"), 3.05e9)
BANDS = (X_BAND, S_BAND)


def triangular_m2(edge_m: Array | float, wave_m: float) -> Array:
    """Return the peak of corners of three triangles, m²; ``edge_m`` is the edge where two of them meet."""
    return np.asarray(4 * np.pi * np.asarray(edge_m, float) ** 4 / (3 * wave_m**2))


def square_m2(edge_m: Array | float, wave_m: float) -> Array:
    """Return the peak of corners of three squares, m²."""
    return np.asarray(12 * np.pi * np.asarray(edge_m, float) ** 4 / wave_m**2)


def circular_m2(edge_m: Array | float, wave_m: float) -> Array:
    """Return the peak of corners of three quarters of a disc, m²; the factor is from memory."""
    return np.asarray(15.6 * np.asarray(edge_m, float) ** 4 / wave_m**2)


def dihedral_m2(edge_m: Array | float, other_m: Array | float, wave_m: float) -> Array:
    """Return the peak of two plates at a right angle, m², of so much by so much each."""
    return np.asarray(
        8 * np.pi * np.asarray(edge_m, float) ** 2 * np.asarray(other_m, float) ** 2 / wave_m**2
    )


def plate_m2(edge_m: Array | float, other_m: Array | float, wave_m: float) -> Array:
    """Return the peak of a flat plate seen square to it, m²."""
    return np.asarray(4 * np.pi * (np.asarray(edge_m, float) * np.asarray(other_m, float)) ** 2 / wave_m**2)


def ball_m2(radius_m: Array | float) -> Array:
    """Return the echoing area of a metal ball many waves round, m²: what its shadow covers."""
    return np.asarray(np.pi * np.asarray(radius_m, float) ** 2)


def cylinder_m2(radius_m: Array | float, length_m: Array | float, wave_m: float) -> Array:
    """Return the peak of a metal tube seen square to it, m²."""
    return np.asarray(2 * np.pi * np.asarray(radius_m, float) * np.asarray(length_m, float) ** 2 / wave_m)


_PEAKS: Mapping[str, Callable[[float, float, float], Array]] = {
    "triangular": lambda edge, _other, wave: triangular_m2(edge, wave),
    "square": lambda edge, _other, wave: square_m2(edge, wave),
    "circular": lambda edge, _other, wave: circular_m2(edge, wave),
    "dihedral": dihedral_m2,
    "ball": lambda edge, _other, _wave: ball_m2(edge),
    "tube": cylinder_m2,
}
_READ, _MEMORY = _("physical optics, peak of clean square metal"), _("from memory")
FORMULAS: Mapping[str, tuple[str, str]] = {
    "triangular": ("n² 4 π a⁴ / (3 λ²)", _READ),
    "square": ("n² 12 π a⁴ / λ²", _READ),
    "circular": ("n² 15.6 a⁴ / λ²", _("{source}; 15.6 {memory}").format(source=_READ, memory=_MEMORY)),
    "dihedral": ("n² 8 π a² b² / λ²", _READ),
    "ball": ("π r²", _READ),
    "tube": ("2 π r L² / λ", _READ),
}


def peak_m2(corner: Corner, band: Band) -> float:
    """Return the most that a reflector of such corners sends back, m², its stacked corners in step."""
    edge, other = corner.edge_mm / _MM, (corner.other_mm or corner.edge_mm) / _MM
    return corner.stacked**2 * float(_PEAKS[corner.shape](edge, other, band.wave_m))


def tilt_share(tall_m: float, tilt_deg: Array | float, wave_m: float) -> Array:
    """Return which share of its peak a strip or stack of a height gives when tilted: sinc²."""
    way = 2 * tall_m * np.sin(np.radians(np.asarray(tilt_deg, float))) / wave_m
    return np.asarray(np.sinc(way) ** 2)


def first_null_deg(tall_m: float, wave_m: float) -> float:
    """Return the tilt at which a strip or stack first sends nothing back, degrees; 90 where none does."""
    return float(np.degrees(np.arcsin(min(wave_m / (2 * tall_m), 1.0))))


def most_when_tilted_m2(corner: Corner, band: Band, tilt_deg: float) -> float | None:
    """Return the most that is left of the peak at a tilt and beyond; None where no formula says.

    A stack's echo ripples with tilt: what is told is the line over its crests.
    """
    if corner.tall_mm is None:
        return peak_m2(corner, band) if corner.shape == "ball" else None
    way = 2 * np.pi * corner.tall_mm / _MM * np.sin(np.radians(abs(tilt_deg))) / band.wave_m
    crest = 1.0 if way <= np.pi / 2 else 1.0 / way**2
    return peak_m2(corner, band) * min(crest, 1.0)


def edge_needed_m(echo_m2: float, wave_m: float) -> float:
    """Return the edge, m, of a corner of three triangles whose peak is an echoing area."""
    return float((3 * echo_m2 * wave_m**2 / (4 * np.pi)) ** 0.25)

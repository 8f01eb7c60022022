"""The yacht's own radar: the nearest sea it sees, heeled too, and how far off its beam is harmless."""

import numpy as np

from mastlayout.geometry.frames import Array
from mastlayout.words import _

SEA_SOURCE = _("geometry: height / tan(half the beam), the beam tilted by the heel")
LOSS_SOURCE = _("a beam of bell shape, 3 dB down at half its width; common radar practice")
POWER_SOURCE = _("S = P G / (4 π R²), the power density of a far field; gain by 30 000 / (width × height)")
_SQUARE_DEGREES = 30_000.0


def nearest_sea_m(height_m: Array | float, beam_deg: float, down_deg: Array | float = 0.0) -> Array:
    """Return how near the sea is in the beam, m; ``down_deg`` is how far the beam is tilted down.

    To leeward that is the heel, to windward less than 0. Infinite where the whole beam is over the sea's
    rim, 0 where it reaches straight down.
    """
    edge = beam_deg / 2 + np.asarray(down_deg, float)
    height = np.asarray(height_m, float)
    near = height / np.tan(np.radians(np.clip(edge, 1e-9, 90.0)))
    return np.asarray(np.where(edge <= 0.0, np.inf, np.where(edge >= 90.0, 0.0, near)))


def loss_db(beam_deg: float, off_deg: Array | float) -> Array:
    """Return what is lost one way, dB, where the target is so far off the beam's middle."""
    return np.asarray(3.0 * (np.asarray(off_deg, float) / (beam_deg / 2)) ** 2)


def in_beam_deg(beam_deg: float, heel_deg: Array | float) -> Array:
    """Return how far from bow and stern the horizon stays in the beam, degrees; 90 is all round."""
    heel = np.abs(np.asarray(heel_deg, float))
    half = np.sin(np.radians(beam_deg / 2))
    part = half / np.maximum(np.sin(np.radians(heel)), 1e-12)
    return np.asarray(np.degrees(np.arcsin(np.clip(part, 0.0, 1.0))))


def gain(wide_deg: float, tall_deg: float) -> float:
    """Return an antenna's gain from how wide and tall its beam is."""
    return _SQUARE_DEGREES / (wide_deg * tall_deg)


def density_w_m2(mean_w: float, gain_: float, away_m: Array | float, reflected: float = 1.0) -> Array:
    """Return the mean power density in the beam, W/m²; ``reflected`` is what the ground adds."""
    return np.asarray(reflected * mean_w * gain_ / (4 * np.pi * np.asarray(away_m, float) ** 2))


def harmless_m(mean_w: float, gain_: float, limit_w_m2: float) -> float:
    """Return the distance, m, beyond which a beam that stands still is under a limit.

    Within 2 D² / λ of the antenna it says more than there is: the safe side.
    """
    return float(np.sqrt(mean_w * gain_ / (4 * np.pi * limit_w_m2)))

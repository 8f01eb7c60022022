"""What a thing before a mouth takes of the sound, by the curve of a thin screen; what is small takes nothing.

Sound bends round what is small against its wave: only what is as wide and as tall as the wave counts as a
screen (ISO 9613-2, 7.4, from memory, asks it of the width; in the air sound goes over and under as well).
"""

import math
from functools import lru_cache

import numpy as np

from mastlayout.figures import Figure
from mastlayout.geometry.crowd import crowd_of
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.solids import Solids
from mastlayout.model.fitting import MAST, Fitting
from mastlayout.model.measure import measure_of
from mastlayout.ranges.sound import mouth
from mastlayout.words import _

SOURCE = _("Maekawa 1968, measured behind a wide thin screen; round one with more edges more sound comes")
SOUND_MS = 340.0
# The highest tone by which COLREG Annex III lets a whistle be heard: its wave is the shortest.
_HIGHEST_HZ = 2100.0
_DIRECTIONS = 12


def wave_mm(tone_hz: float) -> float:
    """Return the wavelength of a tone in air, mm."""
    return 1000.0 * SOUND_MS / tone_hz


SHORTEST_WAVE_MM = wave_mm(_HIGHEST_HZ)


def screen_db(detour_mm: Array | float, wave: float) -> Array:
    """Return what a screen takes, dB, that sound passes by a detour: 10 log10(3 + 20 N), N = 2 detour / wave.

    At no detour, its edge in the line of sight, that is 4.8 dB.
    """
    return np.asarray(10.0 * np.log10(3.0 + 40.0 * np.asarray(detour_mm, float) / wave))


def screen_mm(scene: Scene, name: str) -> float:
    """Return how large a thing is, mm: the less of its width and height, which a wave bends round or not."""
    if name == MAST:
        return float(np.ptp(scene.skin.full.polygon(), axis=0).max())
    return _size_mm(_solids(scene, name))


@lru_cache(maxsize=512)  # what stays where it is keeps its solids
def _size_mm(solids: Solids) -> float:
    if not len(solids):
        return 0.0
    low, high = solids.span_z()
    least = min(_across_mm(solids), float(high.max() - low.min()))
    # Of rods, as of a hoop, the sound finds its way between.
    return min(least, 2.0 * float(crowd_of([("", solids)]).thick_mm.max(initial=0.0)))


def _across_mm(solids: Solids) -> float:
    """Return the widest of solids together, level, by directions 15 degrees apart."""
    angles = np.linspace(0.0, np.pi, _DIRECTIONS, endpoint=False)
    ways = np.stack([np.cos(angles), np.sin(angles), np.zeros(_DIRECTIONS)], axis=1)
    return float(max(solids.support(way).max() + solids.support(-way).max() for way in ways))


def _solids(scene: Scene, name: str) -> Solids:
    if name in scene.placed:
        return scene.placed[name].solids
    return scene.spreaders[name].solids if name in scene.spreaders else scene.stays[name].solids


def taken(scene: Scene, placed: Placed, name: str, *, over: bool) -> Figure:
    """Return what a thing takes of the sound right behind its middle, dB, for a ship far off.

    None, with the reason as its formula, of what a wave bends round and of what stands right ``over`` it.
    """
    words = _("taken right behind it, as by a wide screen")
    formula = "10 log10(3 + 20 N), N = 2 (√(d² + h²) − d) / λ"
    tone, least = placed.fitting.tone_hz, screen_mm(scene, name)
    if over:
        return Figure(words, None, "dB", _("none: right over the mouth"), SOURCE)
    if least < (SHORTEST_WAVE_MM if tone is None else wave_mm(tone)):
        return Figure(words, None, "dB", _("none: its wave bends round it"), SOURCE)
    if tone is None:
        return Figure(words, None, "dB", formula, SOURCE, missing=measure_of(Fitting, "tone_hz").key)
    distance, edge = _to_edge(scene, placed, name)
    value = float(screen_db(math.hypot(distance, edge) - distance, wave_mm(tone)))
    inputs = {"tone_hz": tone, "wave_m": wave_mm(tone) / 1000.0, "distance_mm": distance, "edge_mm": edge}
    return Figure(words, value, "dB", formula, SOURCE, inputs)


def _to_edge(scene: Scene, placed: Placed, name: str) -> tuple[float, float]:
    """Return how far off a thing is, and how far its nearest edge is from the line through its middle, mm."""
    start = mouth(placed)
    if name == MAST:
        return float(np.hypot(start[0], start[1])), screen_mm(scene, name) / 2
    solids = _solids(scene, name)
    off = solids.centre.mean(axis=0)[:2] - start[:2]
    away = max(float(np.hypot(*off)), 1.0)
    side, up = np.array([-off[1], off[0], 0.0]) / away, np.array([0.0, 0.0, 1.0])
    edges = [float((solids.support(way) - start @ way).max()) for way in (side, -side, up, -up)]
    return away, max(min(edges), 0.0)

"""What a thing before a mouth takes of the sound, by the curve of a thin screen; what is small takes nothing.

Sound bends round what is small against its wave: only what is as wide and as tall as the wave counts as a
screen (ISO 9613-2, 7.4, from memory, asks it of the width; in the air sound goes over and under as well).
"""

import math
from collections.abc import Sequence
from weakref import WeakKeyDictionary

import numpy as np

from mastlayout.figures import Figure
from mastlayout.geometry.crowd import Crowd, crowd_of
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
# Level ways (24, 3) half round, and the same ways back.
_HALF_ROUND: Array = np.linspace(0.0, np.pi, _DIRECTIONS, endpoint=False)
_LEVEL: Array = np.stack([np.cos(_HALF_ROUND), np.sin(_HALF_ROUND), np.zeros(_DIRECTIONS)], axis=1)
_WAYS: Array = np.concatenate([_LEVEL, -_LEVEL])


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


# What stays where it is keeps its solids, and so its size.
_KNOWN: WeakKeyDictionary[Solids, float] = WeakKeyDictionary()


def _size_mm(solids: Solids) -> float:
    if solids not in _KNOWN:
        _learn([solids])
    return _KNOWN[solids]


def _learn(every: Sequence[Solids]) -> None:
    """Work out the sizes of several things at once: the least of width, height and thickness."""
    crowd = crowd_of([("", own) for own in every])
    if not len(crowd.solids):
        _KNOWN.update(dict.fromkeys(every, 0.0))
        return
    # Of rods, as of a hoop, the sound finds its way between: thickness counts.
    thick = _most(2.0 * crowd.thick_mm, crowd, len(every))
    reach = crowd.solids[np.repeat(np.arange(len(crowd.solids)), len(_WAYS))].support(
        np.tile(_WAYS, (len(crowd.solids), 1))
    )
    most = np.full((len(every), len(_WAYS)), -np.inf)
    np.maximum.at(most, crowd.owner, reach.reshape(-1, len(_WAYS)))
    across = (most[:, :_DIRECTIONS] + most[:, _DIRECTIONS:]).max(axis=1)
    low, high = crowd.solids.span_z()
    tall = _most(high, crowd, len(every)) + _most(-low, crowd, len(every))
    sizes = np.maximum(np.minimum(np.minimum(across, tall), thick), 0.0)
    _KNOWN.update(zip(every, sizes.tolist(), strict=True))


def _most(values: Array, crowd: Crowd, count: int) -> Array:
    """Return the most of values (k,) that each of so many owners has; of one without solids -inf."""
    most = np.full(count, -np.inf)
    np.maximum.at(most, crowd.owner, values)
    return most


def unheard(scene: Scene, small_mm: float) -> frozenset[str]:
    """Return the ids of stays, spreaders and fittings that are too small for anybody to hear, as rods are."""
    names = (*scene.gear.ids, *scene.bars.ids, *scene.wires.ids)
    every = {name: _solids(scene, name) for name in names}
    new = [solids for solids in every.values() if solids not in _KNOWN]
    if new:
        _learn(new)
    return frozenset(name for name, solids in every.items() if _KNOWN[solids] < small_mm)


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

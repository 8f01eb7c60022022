"""Where along the mast, or round it, a fitting would be free of faults: asked of every rule on arrays.

It serves no finding: what is looked for is any place at which no rule finds a fault of the fitting.
"""

import math
from collections.abc import Callable, Iterator, Sequence

import numpy as np

from mastlayout.checks.rule import Batch, Margins
from mastlayout.checks.rules import FITTING_RULES
from mastlayout.geometry.frames import Whole, height_mm
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.seat import Places
from mastlayout.geometry.skin import Skin
from mastlayout.limits import Limits
from mastlayout.model.around import Around
from mastlayout.places.family import Family
from mastlayout.places.sieve import picked, untold
from mastlayout.places.ways import Fields, aimed, places_of, reach

# Along the mast every so many mm; where that finds none, round it too, so far apart.
STEP_MM, ROUND_STEP_MM, ROUND_STEP_DEG = 100.0, 200.0, 30.0
_Ask = Callable[[Scene, Sequence[Batch], Limits], list[Margins]]


def on_its_line(scene: Scene, family: Family, limits: Limits) -> tuple[Fields, ...]:
    """Return the free places on the line it stands on, masthead first."""
    girth = family.root.fitting.girth
    return _free(scene, family, limits, [] if girth is None else [girth], STEP_MM)


def around(scene: Scene, family: Family, limits: Limits) -> tuple[Fields, ...]:
    """Return the free places at other bearings, masthead first; none for what faces one way."""
    bearings = [] if aimed(family) else np.arange(0.0, 360.0, ROUND_STEP_DEG).tolist()
    every = [Around(origin="bearing", offset=bearing) for bearing in bearings]
    return _free(scene, family, limits, every, ROUND_STEP_MM)


def _free(
    scene: Scene, family: Family, limits: Limits, girths: Sequence[Around], step_mm: float
) -> tuple[Fields, ...]:
    skin = family.root.host
    if not isinstance(skin, Skin) or not girths:
        return ()
    least, most = reach(scene, family, skin)
    heights = np.arange(math.ceil(least / step_mm) * step_mm, most, step_mm).tolist()
    z_mm = np.array([height_mm(skin.length_mm, height) for height in heights])
    turn = np.array([[skin.girth_of(girth, z) for girth in girths] for z in z_mm.tolist()]).reshape(-1)
    places = places_of(family.root, along_mm=np.repeat(z_mm, len(girths)), around=turn)
    rows = free_rows(family, places, limits)
    fields: list[Fields] = [{"from_masthead_mm": high, "girth": own} for high in heights for own in girths]
    return tuple(fields[row] for row in rows.tolist())


def free_rows(family: Family, places: Places, limits: Limits) -> Whole:
    """Return the indices of the places (n,) at which no rule finds a fault of any of the family."""
    rows, batches = np.arange(len(places)), family.at(places)
    for ask, fault_below in _asked():
        if not len(rows):
            return rows
        lost = np.zeros(len(rows), dtype=bool)
        for margins in ask(family.others, batches, limits):
            lost |= margins.faults(fault_below).any(axis=1)
        if lost.any():
            rows = rows[~lost]
            batches = family.at(picked(places, rows)) if len(rows) else []
    return rows[~untold(family, picked(places, rows))]


def _asked() -> Iterator[tuple[_Ask, float]]:
    """Yield how each rule is asked, those first that rule most out; the mainsail's is the dearest by far."""
    quick = [rule for rule in FITTING_RULES if rule.quick is not None]
    one = [rule for rule in FITTING_RULES if rule.many is None]
    many = [rule for rule in FITTING_RULES if rule.many is not None and rule.quick is None]
    many.sort(key=lambda rule: rule.code.startswith("main/"))
    for rule in quick:
        if rule.quick is not None:
            yield rule.quick, rule.fault_below
    for rule in (*many, *one):
        yield rule.margins, rule.fault_below

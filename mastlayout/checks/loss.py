"""What new holes leave of the mast at their own levels, with all that is or will be open round it."""

from dataclasses import dataclass
from weakref import WeakKeyDictionary

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.holes import will_be_drilled
from mastlayout.checks.neighbours import old_holes, round_skin
from mastlayout.checks.openings import Widths, joined, size_of, widths_of
from mastlayout.checks.rule import Batch, Depends, Margins, Rule, no_margins
from mastlayout.fastening.loss import Left, counted_mm, harmless_mm, left_of, moments, properties_at
from mastlayout.geometry.frames import Array, Whole, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.wall import nearest_thickness_mm
from mastlayout.limits import Limits
from mastlayout.model.fitting import OldHole
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of

CODES = ("hole/girth", "hole/modulus")
_LIMITS = ("hole.girth", "hole.modulus")
# Places within so much height are worked out together, against what stands near them.
_BAND_MM = 200.0


def left(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure what of the girth and of the smaller modulus is left at the worst of a fitting's levels, %."""
    holes, places = batch.holes, len(batch.places)
    if not will_be_drilled(batch.placed) or holes is None or not len(holes):
        return no_margins(places)
    required = np.array([100.0 - limits[limit].value for limit in _LIMITS])
    wall = nearest_thickness_mm(scene.layout.mast, height_mm(scene.skin.length_mm, batch.placed.z_mm))
    measured = np.full((places, 2), np.inf if wall else np.nan)
    if wall:
        low, high = float(holes.z_mm.min()), float(holes.z_mm.max())
        others, own = others_of(scene, batch.placed.id).between(low, high), own_widths(batch)
        for rows in _bands(scene, batch, own, others, wall, required):
            worst = worst_left(scene, batch, rows, own, others, wall)
            measured[rows] = np.stack([worst.girth, worst.least_modulus], axis=-1)
    missing = None if wall else measure_of(Mast, "walls")
    subject = (batch.placed.id,)
    return Margins(
        (subject, subject),
        measured,
        np.broadcast_to(required, (places, 2)),
        np.broadcast_to(batch.seats.origin[:, None], (places, 2, 3)),
        (missing, missing),
        typical=not batch.placed.foot_known,
    )


@dataclass(frozen=True, eq=False)
class Own:
    """A fitting's own openings at n places: widths and half lengths (n, h), and the widest level (n,)."""

    width_mm: Array
    half_length_mm: Array
    widest_mm: Array


def own_widths(batch: Batch) -> Own:
    """Return a fitting's own openings as they are turned, each turn worked out once."""
    holes = batch.holes
    if holes is None:
        raise ValueError(batch.placed.id)
    turns, first, which = np.unique(batch.places.turn_deg, return_index=True, return_inverse=True)
    sizes = np.array([[size_of(opening, float(turn)) for opening in holes.openings] for turn in turns])
    sizes = np.nan_to_num(sizes)
    skin = batch.placed.skin
    even = skin is not None and skin.taper is None
    shaped = even and batch.placed.foot is not None and batch.placed.foot.seat == "shaped"
    full = skin.full.half_girth_mm if skin else 0.0
    widest = np.empty(len(turns))
    for i, row in enumerate(first.tolist()):
        z, girth = holes.z_mm[row], holes.girth_mm[row]
        step = np.maximum(np.abs(z[:, None] - z) - sizes[i, :, 1] - sizes[i, :, 1][:, None], 0.0)
        # Of a flat foot, or in a taper, holes stand otherwise round the skin from place to place.
        local = skin.half_girth(z)[:, None] if skin else full
        apart = np.abs(round_skin(girth[:, None] - girth, local)) if shaped else np.full(step.shape, full)
        counted = counted_mm(sizes[i, :, 0], step, apart)
        np.fill_diagonal(counted, sizes[i, :, 0])
        widest[i] = counted.sum(axis=1).max()
    return Own(sizes[which][..., 0], sizes[which][..., 1], widest[which])


def _bands(
    scene: Scene, batch: Batch, own: Own, others: Widths, wall_mm: float, required: Array
) -> list[Whole]:
    """Return the rows at which less than is required may be left, by widths alone, in bands of height."""
    holes, skin = batch.holes, scene.skin
    if holes is None:
        return []
    least = float(required.max())
    ends = (0.0, skin.length_mm) if skin.taper else (0.0,)
    harmless = min(harmless_mm(*properties_at(skin, z, wall_mm), wall_mm, least) for z in ends)
    level = _most_counted(scene, others)
    at = np.clip((holes.z_mm / _GRID_MM).astype(int), 0, len(level) - 1)
    rows = np.flatnonzero(own.widest_mm + level[at].max(axis=1) > harmless)
    band = (batch.places.along_mm[rows] // _BAND_MM).astype(int)
    order = np.argsort(band, kind="stable")
    cuts = np.flatnonzero(np.diff(band[order])) + 1
    return [part for part in np.split(rows[order], cuts) if len(part)]


# How finely the mast is looked along for what others may take at a level.
_GRID_MM = 5.0


def _most_counted(scene: Scene, others: Widths) -> Array:
    """Return for each step along the mast the most that others can count for there, round any girth."""
    half = scene.skin.full.half_girth_mm
    steps = int(scene.skin.length_mm / _GRID_MM) + 1
    level = np.zeros(steps)
    for z, width, length in zip(others.z_mm, others.width_mm, others.half_length_mm, strict=True):
        reach = length + np.sqrt(4.0 * half * width)
        low, high = max(int((z - reach) / _GRID_MM), 0), min(int((z + reach) / _GRID_MM) + 1, steps)
        middle = (np.arange(low, high) + 0.5) * _GRID_MM
        step = np.maximum(np.abs(middle - z) - length - _GRID_MM / 2, 0.0)
        level[low:high] += counted_mm(np.full(len(step), width), step, np.full(len(step), half))
    return level


def worst_left(scene: Scene, batch: Batch, rows: Whole, own: Own, others: Widths, wall_mm: float) -> Left:
    """Return the least that is left over the levels of a fitting's holes, at some of its places (rows,)."""
    holes, skin = batch.holes, scene.skin
    if holes is None:
        raise ValueError(batch.placed.id)
    z, girth, width, half = (
        holes.z_mm[rows],
        holes.girth_mm[rows],
        own.width_mm[rows],
        own.half_length_mm[rows],
    )
    girth, round_mm = np.nan_to_num(girth), skin.half_girth(z)
    o = others.between(float(z.min()), float(z.max()))
    of_own = moments(skin, z, girth, width, wall_mm)
    of_others = moments(skin, o.z_mm, o.girth_mm, o.width_mm, wall_mm)
    ring, whole = properties_at(skin, float(z.mean()), wall_mm)
    least: list[Array] = []
    for h in range(len(holes)):
        mine = _counted(
            z[:, h, None], girth[:, h, None], half[:, h, None], (z, girth, width, half), round_mm[:, h, None]
        )
        mine[:, h] = width[:, h]
        theirs = _counted(
            z[:, h, None],
            girth[:, h, None],
            half[:, h, None],
            (o.z_mm, o.girth_mm, o.width_mm, o.half_length_mm),
            round_mm[:, h, None],
        )
        sums = np.einsum("nk,nkp->np", mine, of_own) + theirs @ of_others
        found = left_of(ring, whole, mine.sum(axis=1) + theirs.sum(axis=1), sums, wall_mm)
        least.append(np.stack([found.girth, found.fore_aft, found.athwart]))
    return Left(*np.min(least, axis=0))


def _counted(
    z: Array, girth: Array, half: Array, others: tuple[Array, Array, Array, Array], half_girth: Array
) -> Array:
    """Return what counts of other openings at the level of one: (n, k)."""
    step = np.maximum(np.abs(others[0] - z) - others[3] - half, 0.0)
    return counted_mm(others[2], step, np.abs(round_skin(others[1] - girth, half_girth)))


_OF_SCENE: WeakKeyDictionary[Scene, tuple[tuple[str, ...], Widths]] = WeakKeyDictionary()


def others_of(scene: Scene, name: str) -> Widths:
    """Return every opening of the layout but a fitting's own; of old holes those whose size is known."""
    if scene not in _OF_SCENE:
        old = old_holes(scene)
        sized = ~np.isnan(old.diameter_mm)
        none = np.zeros(int(sized.sum()))
        parts = [("", Widths(old.z_mm[sized], old.girth_mm[sized], old.diameter_mm[sized], none))]
        parts += [(one.id, own) for one in scene.placed.values() if (own := widths_of(one)) is not None]
        names = tuple(own for own, part in parts for _hole in range(len(part.z_mm)))
        _OF_SCENE[scene] = names, joined([part for _own, part in parts])
    names, every = _OF_SCENE[scene]
    return every.kept(np.array([own != name for own in names], dtype=bool) & ~np.isnan(every.girth_mm))


def _judged(placed: Placed, margins: Margins, _limits: Limits) -> list[Finding]:
    """Say each share that is too small, by its own code: a caution, since only the rigger knows the loads."""
    if not margins.subjects:
        return []
    missing = margins.unknown[0]
    if missing is not None:
        return [Finding(CODES[1], "not checked", (placed.id,), measure=missing.key, z_mm=placed.z_mm)]
    return [
        Finding(
            code,
            "caution",
            (placed.id,),
            float(margins.measured[0, i]),
            float(margins.required[0, i]),
            "%",
            limit,
            z_mm=placed.z_mm,
            typical=margins.typical,
        )
        for i, (code, limit) in enumerate(zip(CODES, _LIMITS, strict=True))
        if margins.short[0, i]
    ]


def unmeasured(scene: Scene, batch: Batch, _limits: Limits) -> Margins:
    """Say "not checked" of old holes round a new one's ring whose size nobody took."""
    holes, places = batch.holes, len(batch.places)
    old = old_holes(scene)
    lacking = np.flatnonzero(np.isnan(old.diameter_mm)).tolist()
    if not will_be_drilled(batch.placed) or holes is None or not len(holes) or not lacking:
        return no_margins(places)
    apart = np.abs(holes.z_mm[:, :, None] - old.z_mm[lacking]).min(axis=1)
    measured = np.where(apart < _RING_MM, np.nan, np.inf)
    missing = measure_of(OldHole, "diameter_mm")
    return Margins(
        tuple((batch.placed.id, old.ids[i]) for i in lacking),
        measured,
        np.full(measured.shape, np.nan),
        np.broadcast_to(batch.seats.origin[:, None], (*measured.shape, 3)),
        (missing,) * len(lacking),
    )


# Holes are of one ring as long as any that is drilled here would count in the same tear.
_RING_MM = 50.0
_DEPENDS: frozenset[Depends] = frozenset({"mast", "holes", "fittings", "limits"})
LEFT = Rule("hole/left", None, _DEPENDS, left, together=True, fault_below=-np.inf, unit="%", judge=_judged)
UNMEASURED = Rule("hole/ring", None, _DEPENDS, unmeasured)

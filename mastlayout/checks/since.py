"""What has changed from one scene to another: for every fitting at once, of single ones, and near them."""

from collections.abc import Iterator, Sequence
from dataclasses import field

import numpy as np

from mastlayout.checks.rule import Depends, Rule
from mastlayout.frozen import dataclass
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.tack.guarding import guarded
from mastlayout.limits import Limits
from mastlayout.model.layout import begun_lists, same_items

_NOTHING: frozenset[Depends] = frozenset()
_FITTINGS: frozenset[Depends] = frozenset({"fittings"})


@dataclass(frozen=True, eq=False)
class _Change:
    """What changed for every fitting at once, and which moved, came or went.

    ``touched`` is what changed for the layout as a whole: a fitting that has no place counts too.
    """

    changed: frozenset[Depends]
    moved: frozenset[str]
    touched: frozenset[Depends]


@dataclass(frozen=True, eq=False)
class Changes:
    """What has changed up to one scene since others, each worked out once."""

    scene: Scene
    _known: dict[int, _Change] = field(default_factory=dict)

    def since(self, before: Scene | None) -> _Change:
        """Return what has changed since another scene; since none, every fitting has come."""
        if id(before) not in self._known:
            self._known[id(before)] = _change(self.scene, before)
        return self._known[id(before)]


def same_things(before: Scene, scene: Scene) -> bool:
    """Tell whether two scenes hold the same things, wherever they stand."""
    return (
        before.placed.keys() == scene.placed.keys()
        and before.stays.keys() == scene.stays.keys()
        and before.spreaders.keys() == scene.spreaders.keys()
    )


def _change(scene: Scene, before: Scene | None) -> _Change:
    moved = _moved(scene, before)
    changed = _changed(scene, before, moved) if before else _NOTHING
    listed = before is None or same_items(before.layout.fittings, scene.layout.fittings)
    return _Change(changed, moved, changed if listed and not moved else changed | _FITTINGS)


def _changed(scene: Scene, before: Scene, moved: frozenset[str]) -> frozenset[Depends]:
    """Return what has changed for every fitting at once; of single ones only those that load the mast."""
    old, new = before.layout, scene.layout
    halyards = not same_items(old.halyards, new.halyards)
    # A list that was begun and holds nothing says more than one that nobody began.
    begun = begun_lists(old) ^ begun_lists(new)
    differs: dict[Depends, bool] = {
        "mast": old.mast is not new.mast,
        "holes": not same_items(old.holes, new.holes) or "holes" in begun,
        "boat": old.boat is not new.boat,
        "stays": before.wires is not scene.wires or "stays" in begun,
        "spreaders": before.bars is not scene.bars or "spreaders" in begun,
        "inside": not same_items(before.inside, scene.inside) or "halyards" in begun,
        "lines": before.running is not scene.running,
        "cables": not same_items(old.cables, new.cables),
        "sails": halyards or not (same_items(old.sails, new.sails) and same_items(old.poles, new.poles)),
        "limits": not same_items(old.limits, new.limits),
        "loads": any(one.kind.loads for where in (before, scene) for one in _those(where, moved)),
    }
    return frozenset(name for name, it_does in differs.items() if it_does)


def _moved(scene: Scene, before: Scene | None) -> frozenset[str]:
    """Return the fittings that are new, gone or otherwise placed than before."""
    old = before.placed if before else {}
    return frozenset(
        name for name in old.keys() | scene.placed.keys() if old.get(name) is not scene.placed.get(name)
    )


def _those(scene: Scene, names: frozenset[str]) -> Iterator[Placed]:
    return (scene.placed[name] for name in names if name in scene.placed)


def near_of(
    rule: Rule, scene: Scene, before: Scene, limits: Limits, moved: frozenset[str]
) -> tuple[str, ...]:
    """Return what a rule of pairs may say something else of, since a fitting that moved is near or was."""
    far = max(rule.reach_mm, limits[rule.limit].value if rule.limit else 0.0)
    spans = [
        where.placed[name].span_z_mm for where in (before, scene) for name in moved if name in where.placed
    ]
    names, low, high = scene.spans_z
    near = np.zeros(len(names), dtype=bool)
    for bottom, top in spans:
        near |= (low - far <= top) & (bottom <= high + far)
    return tuple(names[i] for i in np.flatnonzero(near).tolist() if names[i] not in moved)


def guarded_in(
    rule: Rule, scene: Scene, before: Scene, limits: Limits, moved: frozenset[str]
) -> frozenset[str]:
    """Return what stood or stands behind a guard that moved: what is guarded now, or no more."""
    there = [where.placed[name] for where in (before, scene) for name in moved if name in where.placed]
    guards = [one for one in there if one.kind.guards]
    near = near_of(rule, scene, before, limits, frozenset(one.id for one in guards)) if guards else ()
    return frozenset(name for name in near if _behind_one(scene.placed[name], guards, scene.skin))


def _behind_one(placed: Placed, guards: Sequence[Placed], skin: Skin) -> bool:
    return any(guarded([guard], skin, placed.solids, len(placed.solids)).any() for guard in guards)

"""Ask rules once of what moved in several layouts, where it stands in each: far quicker than one by one.

Only rules are asked that look at nothing but the fitting, the mast, its rig and its sails: what a rule of
pairs says hangs on what else stands there.
"""

from collections.abc import Iterable, Mapping, Sequence

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import Rule, findings, where_it_stands
from mastlayout.checks.since import Changes
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits

# What rules say of fittings: by rule, and by the fitting in its place.
Ahead = Mapping[tuple[str, Placed], tuple[Finding, ...]]


def ask_ahead(rules: Iterable[Rule], before: Scene, scenes: Sequence[Scene], limits: Limits) -> Ahead:
    """Return what rules say of what moved from ``before`` to each scene, of those that can be asked at once.

    A rule that breaks says nothing here: it is asked again of one layout at a time, and named.
    """
    since = [Changes(scene).since(before) for scene in scenes]
    moved = [
        scene.placed[name]
        for scene, change in zip(scenes, since, strict=True)
        for name in sorted(change.moved & scene.placed.keys())
    ]
    changed = frozenset(what for change in since for what in change.changed)
    if any(placed.kind.guards for placed in moved):
        changed |= {"guards"}
    told: dict[tuple[str, Placed], tuple[Finding, ...]] = {}
    for rule in rules:
        alone = rule.many is not None and not (rule.pairs or rule.together)
        if moved and alone and not rule.depends & changed:
            told |= _asked(rule, scenes[0], moved, limits)
    return told


def _asked(
    rule: Rule, scene: Scene, moved: Sequence[Placed], limits: Limits
) -> dict[tuple[str, Placed], tuple[Finding, ...]]:
    try:
        margins = rule.margins(scene, [where_it_stands(placed) for placed in moved], limits)
        return {
            (rule.code, placed): tuple(findings(rule, placed, own, limits))
            for placed, own in zip(moved, margins, strict=True)
        }
    except Exception:  # noqa: BLE001 - the check that follows asks it again, and says what broke
        return {}

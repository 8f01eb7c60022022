"""What nobody has looked for yet: stays that have no place, fittings that hang on them, lists never begun.

A list that is in the file, even empty, says that somebody looked; one left out blocks what it
would be measured against.
"""

from collections.abc import Iterator

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import WholeRule
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import MAST
from mastlayout.model.layout import Layout
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of

# The lists of a layout that others are measured against, and the rule that waits for each.
_LISTS = (("stays", "clearance/stay"), ("spreaders", "clearance/spreader"), ("halyards", "hole/inside"),
          ("holes", "hole/spacing"))  # fmt: skip
_OF_MAST = (("taper", "seat/girth"), ("conduits", "hole/inside"), ("stretches", "hole/wall"))


def in_space(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Say once of each stay, spreader or fitting that cannot be placed: nothing was checked against it."""
    for name, stay in scene.stays.items():
        for missing in stay.unknown:
            yield Finding("clearance/stay", "not checked", (name,), measure=missing.key)
    for name, bar in scene.spreaders.items():
        for missing in bar.unknown:
            yield Finding(
                "clearance/spreader", "not checked", (name,), measure=missing.key, z_mm=float(bar.root[2])
            )
    for fitting in scene.layout.fittings:
        for missing in scene.unplaced.get(fitting.id, ()):
            yield Finding("seat/unplaced", "not checked", (fitting.id, fitting.on), measure=missing.key)


def begun(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Say of each list that was never begun, and of what nobody knows of the mast, what waits for it."""
    layout = scene.layout
    for field, code in _LISTS:
        if field not in layout.model_fields_set:
            yield Finding(code, "not checked", (MAST,), measure=measure_of(Layout, field).key)
    for field, code in _OF_MAST:
        if getattr(layout.mast, field) is None:
            yield Finding(code, "not checked", (MAST,), measure=measure_of(Mast, field).key)


IN_SPACE = WholeRule("known/in-space", frozenset({"mast", "stays", "spreaders", "fittings"}), in_space)
BEGUN = WholeRule(
    "known/begun", frozenset({"mast", "holes", "stays", "spreaders", "inside", "fittings"}), begun
)

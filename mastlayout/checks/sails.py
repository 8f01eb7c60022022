"""Sails: what the paths of cloth will need and nobody has measured.

What they sweep the rules of the tack, the clew and the main ask.
"""

from collections.abc import Iterator

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import WholeRule
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.measure import measure_of
from mastlayout.model.sails import Sail

_HEADSAIL = (
    "lp_mm",
    "luff_mm",
    "tack_mm",
    "clew_mm",
    "head_mm",
    "quarter_width_mm",
    "half_width_mm",
    "three_quarter_width_mm",
)
_MAIN = ("quarter_width_mm", "half_width_mm", "three_quarter_width_mm")


def measured(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Name once for each sail every measure that its path needs and that is missing."""
    for sail in scene.layout.sails:
        fields = _MAIN if sail.role == "main" else _HEADSAIL
        missing = dict.fromkeys(measure_of(Sail, f).key for f in fields if getattr(sail, f) is None)
        for key in missing:
            yield Finding("sail/measured", "not checked", (sail.id,), measure=key)


MEASURED = WholeRule("sail/measured", frozenset({"sails", "limits"}), measured)

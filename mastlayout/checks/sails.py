"""Sails: what the paths of cloth will need and nobody has measured.

What they sweep the rules of the tack, the clew and the main ask.
"""

from collections.abc import Iterator

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import WholeRule
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.measure import measure_of
from mastlayout.model.sails import Halyard, Sail

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


def measured(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name once for each sail every measure that its path needs and that is missing."""
    for sail in scene.layout.sails:
        fields = _MAIN if sail.role == "main" else _HEADSAIL
        missing = dict.fromkeys(measure_of(Sail, f).key for f in fields if getattr(sail, f) is None)
        for key in missing:
            yield Finding("sail/measured", "not checked", (sail.id,), measure=key)
    yield from _swivels(scene, limits)


def _swivels(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """A furled headsail's halyard must pull the swivel's upper half aside, or it wraps round the foil."""
    lines = {halyard.id: halyard for halyard in scene.layout.halyards}
    for sail in scene.layout.sails:
        halyard = lines.get(sail.halyard or "")
        if halyard is None or sail.furled_mm is None or sail.role != "headsail":
            continue
        if halyard.swivel_angle_deg is None:
            missing = measure_of(Halyard, "swivel_angle_deg").key
            yield Finding("halyard/swivel", "not checked", (halyard.id, sail.id), measure=missing)
        elif halyard.swivel_angle_deg < limits["halyard.swivel"].value:
            worst = halyard.swivel_angle_deg < limits["halyard.swivel_least"].value
            yield Finding(
                "halyard/swivel",
                "fault" if worst else "caution",
                (halyard.id, sail.id),
                halyard.swivel_angle_deg,
                limits["halyard.swivel"].value,
                "deg",
                "halyard.swivel",
            )


MEASURED = WholeRule("sail/measured", frozenset({"sails", "limits"}), measured)

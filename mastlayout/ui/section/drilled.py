"""The drills at a height: where each goes in, how deep it is followed, and what it passes too near."""

from collections.abc import Iterator, Mapping

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.holes import hole_id, will_be_drilled
from mastlayout.checks.report import Report
from mastlayout.checks.sentence import hole_tag
from mastlayout.fastening.drill import drill_mm
from mastlayout.frozen import dataclass
from mastlayout.geometry.holes import Use
from mastlayout.geometry.placed import Placed
from mastlayout.limits import limits_of

Flat = tuple[float, float]
# Holes of others are shown this near the height: of what is in hand all are.
NEAR_MM = 25.0


@dataclass(frozen=True)
class Drill:
    """One drill from above, places ahead and to port: on the skin, and as deep as it is followed.

    ``worst`` is the finding that it passes something too near, None where it passes clear.
    """

    id: str
    owner: str
    tag: str
    use: Use
    skin: Flat
    deep: Flat
    diameter_mm: float | None
    worst: Finding | None


def drills_at(report: Report, placed: Placed, z_mm: float, *, every: bool) -> Iterator[Drill]:
    """Yield the drills of a new fitting at a height, or ``every`` one of it."""
    holes = placed.holes
    if holes is None or not will_be_drilled(placed):
        return
    reach, near = limits_of(report.scene.layout)["drill.reach"].value, nearest_passed(report, placed.id)
    for opening, z, point, way in zip(
        holes.openings, holes.z_mm[0], holes.point[0], holes.direction[0], strict=True
    ):
        here = every or abs(float(z) - z_mm) <= NEAR_MM
        if not here or opening.use == "cutout" or np.isnan(point).any():
            continue
        name, deep = hole_id(placed, opening.number), point + reach * way
        yield Drill(
            name,
            placed.id,
            hole_tag(report.scene, name),
            opening.use,
            (float(point[0]), float(point[1])),
            (float(deep[0]), float(deep[1])),
            drill_mm(opening),
            near.get(name),
        )


def nearest_passed(report: Report, name: str) -> Mapping[str, Finding]:
    """Return by hole of a fitting the open finding of what its drill passes nearest."""
    found: dict[str, Finding] = {}
    for finding in report.said_by("hole/inside", name):
        hole = finding.subjects[0]
        if finding.measured is not None and (
            hole not in found or finding.measured < (found[hole].measured or 0.0)
        ):
            found[hole] = finding
    return found

"""Radar reflectors: what hides one at its place, and what MSC.164(78) asks of it.

A mast hides every reflector that stands against it somewhere: told is what is wider than the widest
null that is allowed. One finding speaks of the reflector itself, the first row that it fails.
"""

from collections.abc import Iterator

import numpy as np

from mastlayout.checks.finding import Finding, Unit
from mastlayout.checks.graded import Grades
from mastlayout.checks.rule import Batch, Depends, Margins, Rule, WholeRule, no_margins
from mastlayout.checks.shadow import Judge, Told, by_thing
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.fitting import ECHO
from mastlayout.ranges.asks import Ask
from mastlayout.ranges.hidden import cast
from mastlayout.ranges.reflector import asks_in_the_open, body_parts, is_reflector
from mastlayout.words import _

GRADES: Grades = (("", "note"), ("reflector/hidden", "caution"))
_TOLERANCE_DEG = 0.05
# Rows of the rule that are told of the reflector itself, the weightiest first; height and what hides it
# have findings of their own.
_OWN = ("echo_x", "heel", "echo_s", "arc", "null", "apart")


def margins(scene: Scene, batch: Batch, limits: Limits) -> Margins:
    """Measure, in degrees, over which arc each thing hides a reflector whole, at its places."""
    if not is_reflector(batch.placed):
        return no_margins(len(batch.places))
    parts, limit = body_parts(batch.placed), limits["reflector.hidden"].value
    # What is narrower than a reflector hides none of its circle: whole is asked, and nothing less.
    seen = cast(scene, batch.placed, batch.solids, parts, 1.0, 0.0)
    dark = seen.found.dark
    wide = np.nan_to_num(dark[:, 1] - dark[:, 0])
    grade = np.where(wide > limit + _TOLERANCE_DEG, 1, 0)
    own = Told(seen, grade.astype(np.intp), wide, dark, limit, "reflector.hidden")
    return by_thing(batch.seats.origin, [own], GRADES)


HIDDEN = Rule(
    "reflector/hidden",
    "reflector.hidden",
    frozenset({"mast", "stays", "spreaders", "fittings", "limits"}),
    margins,
    pairs=True,
    unit="deg",
    judge=Judge("deg", _("the reflector")),
)


def performance(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Hold each reflector to what MSC.164(78) asks: its height, and the first row that it fails."""
    for placed in scene.placed.values():
        if not is_reflector(placed):
            continue
        # What hides it has its own rule: here it is held to its papers, as if nothing stood before it.
        rows = {row.key: row for row in asks_in_the_open(scene, placed)}
        yield from _height(placed, rows["height"])
        own = [rows[key] for key in _OWN]
        failed = next((row for row in own if row.answer == "no"), None)
        if failed is not None:
            yield _failed(placed, failed)
        elif any(row.answer == "unknown" for row in own):
            yield Finding("reflector/echo_x", "not checked", (placed.id,), measure=ECHO.key, z_mm=placed.z_mm)


def _height(placed: Placed, row: Ask) -> Iterator[Finding]:
    if row.answer == "no":
        above = 1000.0 * (row.figure.value or 0.0)
        yield _said("reflector/height", placed, above, 1000.0 * row.required, "mm")
    elif row.answer == "unknown":
        yield Finding(
            "reflector/height", "not checked", (placed.id,), measure=row.figure.missing, z_mm=placed.z_mm
        )


def _failed(placed: Placed, row: Ask) -> Finding:
    if row.key == "heel" and row.figure.value is None:
        return _said("reflector/stack", placed, None, row.required, "deg")
    unit: Unit = "m²" if row.key.startswith("echo") else "deg"
    return _said(f"reflector/{row.key}", placed, row.figure.value, row.required, unit)


def _said(code: str, placed: Placed, measured: float | None, required: float, unit: Unit) -> Finding:
    return Finding(code, "caution", (placed.id,), measured, required, unit, None, None, placed.z_mm)


_DEPENDS: frozenset[Depends] = frozenset({"mast", "fittings", "spreaders", "stays", "boat", "limits"})
RULES = (WholeRule("reflector/echo_x", _DEPENDS, performance),)

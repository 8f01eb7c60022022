"""What resources/fasteners.toml says: drills, pitches, grips and lengths, each read off once."""

from functools import cache
from typing import Any

import tomli

from mastlayout.resources import resources
from mastlayout.units import MM_PER_INCH

# A numbered screw of the unified series is 0.060 in and 0.013 in for each number.
_NUMBER_0_IN, _EACH_NUMBER_IN = 0.060, 0.013


@cache
def tables() -> dict[str, dict[str, Any]]:
    """Return the tables of resources/fasteners.toml by name."""
    return tomli.loads((resources() / "fasteners.toml").read_text(encoding="utf-8"))


def pitch_mm(thread: str | None) -> float | None:
    """Return the pitch of a thread, mm; None where no table has it."""
    row = tables()["tap_drill"].get(thread or "")
    return float(row["pitch"]) if row else None


def is_metric(thread: str) -> bool:
    """Tell whether a thread is a metric one."""
    return thread.startswith("M")


def diameter_mm(thread: str) -> float:
    """Return the nominal diameter of a thread by its name: M6, 1/4-20, #10-24."""
    size = thread.split("-", maxsplit=1)[0]
    if is_metric(thread):
        return float(size[1:])
    if size.startswith("#"):
        return (_NUMBER_0_IN + _EACH_NUMBER_IN * int(size[1:])) * MM_PER_INCH
    over, under = size.split("/")
    return int(over) / int(under) * MM_PER_INCH


def screw_length_mm(thread: str, least_mm: float) -> float | None:
    """Return the shortest length sold that is at least this; None where none is."""
    screw = tables()["screw"]
    sold = screw["lengths"] if is_metric(thread) else [size * MM_PER_INCH for size in screw["inches"]]
    return min((float(length) for length in sold if length >= least_mm - 1e-6), default=None)

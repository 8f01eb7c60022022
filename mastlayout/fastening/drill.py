"""Which drill a hole wants, and how deep it may go; the tables are resources/fasteners.toml."""

import math

from mastlayout.fastening.tables import is_metric, tables
from mastlayout.geometry.holes import Opening
from mastlayout.model.kind import Fastener

# A drill's point of 118 degrees is 0.3 of its diameter; then room to break through.
_POINT = 0.3
_BREAK_THROUGH_MM = 4.0
# Above this a step drill or hole saw is used, and no pilot is named.
LARGEST_TWIST_MM = 9.0
LEAST_PILOT_MM = 2.5
_TABLE = {
    "tapped": "tap_drill",
    "through": "clearance",
    "nut": "clearance",
    "clearance": "clearance",
    "rivet nut": "rivet_nut",
}


def drill_of(fastener: Fastener) -> float | None:
    """Return the drill's diameter in mm for a fastener; None where no table has it."""
    if fastener.how == "rivet":
        row = tables()["rivet"].get(f"{fastener.rivet_mm:g}")
    elif fastener.how in _TABLE and fastener.thread:
        table = tables()[_TABLE[fastener.how]]
        # Unified clearance rows are named by the screw's size, without its thread: 1/4, #10.
        row = table.get(fastener.thread) or table.get(fastener.thread.split("-")[0])
    else:
        row = None
    return float(row["drill"]) if row else None


def family(fastener: Fastener) -> list[Fastener]:
    """Return the fasteners of the same sort and metal that the tables list, of the same system of threads."""
    if fastener.rivet_mm is not None:
        return [fastener.but(rivet_mm=float(size)) for size in tables()["rivet"]]
    if fastener.thread is None:
        return []
    metric = is_metric(fastener.thread)
    return [fastener.but(thread=name) for name in tables()["tap_drill"] if is_metric(name) == metric]


def drill_mm(opening: Opening) -> float | None:
    """Return the drill of an opening: its own diameter where one is given, else its fastener's."""
    return opening.diameter_mm if opening.diameter_mm is not None else drill_of(opening.fastener)


def pilot_mm(diameter_mm: float) -> float | None:
    """Return the pilot drill, half the drill to 0.5 mm below, at least 2.5.

    None for a step drill, and for a drill that is no larger than its pilot would be.
    """
    pilot = max(LEAST_PILOT_MM, math.floor(diameter_mm / 2 / 0.5) * 0.5)
    return pilot if pilot < diameter_mm <= LARGEST_TWIST_MM else None


def depth_stop_mm(diameter_mm: float, wall_mm: float) -> int:
    """Return how far, from the skin, the stop on the drill lets it go: wall, point and a break-through."""
    return math.ceil(wall_mm + _POINT * diameter_mm + _BREAK_THROUGH_MM)

"""Rows of an invented refit, typed by hand, for the sheets to be tried on."""

import math

from mastlayout.documents.rows import ConduitMark, DrillBlock, EndView, FootPicture, HoleRow, Note, SheetHead
from mastlayout.geometry.frames import reading, round_reading
from mastlayout.units import Units

LENGTH, HALF_GIRTH, HALF_TRACK = 17300.0, 273.5, 2.5
HEAD = SheetHead("Whimbrel", "25 Nov 2026", "7F3A", reading(0, LENGTH))
SECTION = EndView(
    tuple((103 * math.cos(a), 69.5 * math.sin(a)) for a in (math.tau * k / 72 for k in range(72))),
    (ConduitMark("A", (54.0, 44.0), 21.0), ConduitMark("B", (58.0, -46.0), 16.0)),
)
NEAR_CONDUIT = Note(
    "13.4",
    "the drill passes 11.8 from conduit A; 15 is wanted. Turn or move the bracket, or give it another "
    "hole, in the plan. Then print anew.",
)
NO_WALL = Note(
    "14",
    "wall not measured within 500 of 7\u202f355 above the heel (nearest 7\u202f980). Write it in the boxes; "
    "thread, drill and fastener are chosen from it.",
)
BEARS = Note(
    "13", 'every headsail bears on the hailer, no guard. Accepted by the owner on 24 Nov: "guard on order".'
)
FAULT = Note(
    "15",
    "open fault: the 140 % genoa bears on it by 245; the jib clears it by 0, its leech not measured. "
    "Not even a centre mark before this is settled.",
)
TYPICAL = Note(
    "12",
    "typical rivets 74 round from the line would meet conduit A to port and B to starboard: a narrower "
    "foot, or the rivets elsewhere.",
)


def box(across: float, along: float, x: float = 0.0, y: float = 0.0) -> tuple[tuple[float, float], ...]:
    """Return a foot's rectangle about (x, y)."""
    a, b = across / 2, along / 2
    return ((x - a, y - b), (x + a, y - b), (x + a, y + b), (x - a, y + b))


def hole(
    tag: str, masthead: float, to_port: float, centre: float, units: Units = "metric", **more
) -> HoleRow:
    """Return a hole ``to_port`` of the forward centreline, its foot centred on it."""
    girth = math.copysign(HALF_GIRTH - abs(to_port), -to_port) if to_port else HALF_GIRTH
    return HoleRow(
        tag,
        reading(masthead, LENGTH, units),
        round_reading(girth, HALF_GIRTH, HALF_TRACK, units),
        (to_port, centre - masthead),
        **more,
    )


def block(tag: str, name: str, centre: float, facts: tuple[str, ...], foot, **more) -> DrillBlock:
    """Return a fitting on the forward centreline."""
    units = more.pop("units", "metric")
    return DrillBlock(
        tag,
        name,
        "forward",
        facts,
        SECTION,
        "273.5" if units == "metric" else "10 25/32",
        "2.5" if units == "metric" else "3/32",
        FootPicture(foot),
        hole(tag, centre, 0.0, centre, units),
        **more,
    )


def hailer(units: Units = "metric") -> DrillBlock:
    """Return a hailer's bracket with four tapped holes and a cable entry."""
    tapped = {
        "diameter_mm": 5.0,
        "drill_mm": 5.0,
        "how": "pilot 2.5 · stop 10",
        "fastener": "M6 tapped",
        "stack": "3.0 + 0.5 + 3.9 = 7.4",
    }
    rows = (
        hole("13.1", 9667, -30, 9685, units, **tapped),
        hole("13.2", 9667, 30, 9685, units, **tapped),
        hole("13.3", 9703, -44, 9685, units, **tapped),
        hole("13.4", 9703, 44, 9685, units, stop=NEAR_CONDUIT, **tapped),
        hole(
            "13.5",
            9743,
            -86.5,
            9685,
            units,
            diameter_mm=10.0,
            drill_mm=10.0,
            how="step · stop 12",
            fastener="grommet",
            stack="cable 7.0 to B",
        ),
    )
    facts = (
        "centre 9685, on the line",
        "foot 110 across × 60 along (in hand)",
        "saddle 26.1 deep",
        "square to the skin",
    )
    return block("13", "Hailer bracket", 9685, facts, box(110, 60), rows=rows, notes=(BEARS,), units=units)


def horn(units: Units = "metric") -> DrillBlock:
    """Return a fog horn's bracket whose wall is not measured."""
    more = {"fastener": "M6, after wall", "stack": "3.0 + 0.5 + wall", "wall_missing": True, "stop": NO_WALL}
    rows = (
        hole("14.1", 9931, 0, 9945, units, **more),
        hole("14.2", 9959, -26, 9945, units, **more),
        hole("14.3", 9959, 26, 9945, units, **more),
        hole("14.4", 9995, -86.5, 9945, units, **{**more, "fastener": "grommet", "stack": "cable 7.0 to B"}),
    )
    facts = (
        "centre 9945, on the line",
        "foot 80 across × 50 along (in hand)",
        "saddle 15.0 deep",
        "square to the skin",
    )
    return block("14", "Fog horn bracket", 9945, facts, box(80, 50), rows=rows, units=units)


REFLECTOR = block(
    "15",
    "Reflector, cluster 230",
    4235,
    ("centre 4235, on the line", "foot 60 across × 160 along is typical, 4 M5"),
    box(60, 160),
    fault=FAULT,
)
RADOME = block(
    "12",
    "Radome bracket with guard",
    9160,
    ("centre 9160, on the line", "foot 180 across × 120 along is typical, 8 rivets 6.4"),
    box(180, 120),
    notes=(TYPICAL,),
)
DRILL = (REFLECTOR, RADOME, hailer(), horn())

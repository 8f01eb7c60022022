"""Rows of the mounting schedule, elevation, measure list and findings, typed by hand; | parts the cells."""

from sample_plan import DRILL, HEAD, LENGTH

from mastlayout.documents.rows import (
    Chafe,
    ChafeRow,
    ChafeSail,
    ChairCard,
    Elevation,
    ElevationRow,
    FindingRow,
    LimitRow,
    MeasureRow,
    MountRow,
    Note,
    Plan,
    StayLine,
)
from mastlayout.geometry.frames import reading


def cells(text: str) -> list[list[str]]:
    """Return the cells of each line."""
    return [[cell.strip() for cell in line.split("|")] for line in text.strip().splitlines()]


_MOUNT = """
15|Reflector, cluster 230|4235|AHEAD|on line|1.6|4 M5|foot 60 × 160, typical|liner, paste|\
no cable|open fault
16|Camera, looking aft|5960|AFT, PORT|24.5 off track edge|0.3|3 M4|foot typical|liner|\
data 7.5|offer up the part
12|Radome bracket, guard|9160|AHEAD|on line|8.0|8 rivets 6.4|foot 180 × 120|liner|radar 9.0 to B|offer it up
13|Hailer|9685|AHEAD|on line|1.9|4 M6|saddle 26.1 deep|liner, paste|2 × 1.5, 7.0 to B|one hole stopped
14|Fog horn|9945|AHEAD|on line|1.3|3 M6|saddle 15.0 deep|liner, paste|2 × 1.5, 7.0 to B|measure first
17|Flood light, port|10340|PORT spreader|440 out|0.35|2 M5|under the spreader|liner, paste|7.0 to B|
18|Flood light, starboard|10340|STBD spreader|440 out|0.35|2 M5|under the spreader|liner, paste|7.0 to B|
11|Tricolour, anchor light|0|TOP|40 forward|0.4|2 M5|post 25|on the bench|3 × 1.5, 7.4 to A|
10|AIS whip|0|TOP|150 aft, 110 STBD|0.3|1 nut|bracket|washer, paste|6.1 to A|
"""
OFFER = Note("", "foot typical, not in hand: offer up the part, then print anew.")
_NOTES = {
    "15": (Note("", "open fault: the genoa bears on it by 245. Do not fit before this is settled."),),
    "16": (Note("", "conduit B is filled 53 %, 40 % wanted: no room."), OFFER),
    "12": (Note("", "conduit B cable; plug 23: fit after pulling."), OFFER),
    "13": (
        Note("", "13.4 too near conduit A: 11.8, wanted 15."),
        Note("", "every headsail bears, no guard."),
    ),
    "14": (Note("", "wall at 7\u202f355 not measured."),),
    "10": (Note("", "220 from the VHF whip."),),
}


def _mount(line: list[str]) -> MountRow:
    tag, name, masthead, face, place, mass, holes, foot, isolation, cable, remark = line
    return MountRow(
        tag,
        name,
        reading(float(masthead), LENGTH),
        masthead == "0",
        face,
        place,
        float(mass),
        holes,
        foot,
        isolation,
        cable,
        remark,
        bool(remark),
        _NOTES.get(tag, ()),
    )


MOUNT = tuple(_mount(line) for line in cells(_MOUNT))
CHAIR = (
    ChairCard(
        MOUNT[0].height,
        MOUNT[1].height,
        12830.0,
        "300 above upper spreader P",
        MOUNT,
        ("11 Tricolour", "10 AIS whip"),
        tuple(f"thing {number} to bring up on a lanyard, in the order used" for number in range(1, 12)),
        ("16: 5 holes to tap by hand are too many for a chair",),
    ),
)

# A tag makes a label new, an exclamation mark a fault, capitals a spreader.
_LABELS = """
0|Tricolour, anchor light|top|11
0|AIS whip|top, stbd|10
150|Main, topping-lift sheaves|aft|
170|Genoa, spinnaker sheaves|ahead|
250|Cap shroud tangs|P S|
1250|Folding steps|P S|
4235|Reflector, cluster 230!|ahead|15
5000|Inner-stay tang|ahead|
5100|Runner tangs|P S aft|
5350|UPPER SPREADERS|P S|
5450|Intermediate tangs|P S|
5850|Lazy-jack eyes|P S aft|
5960|Camera, looking aft|aft, port|16
7700|Pole-lift exit|ahead|
9160|Radome bracket, guard|ahead|12
9685|Hailer!|ahead|13
9945|Fog horn|ahead|14
10300|LOWER SPREADERS|P S|
10340|Flood lights, 17 and 18|P S|17
10400|Lower tangs|P S|
10945|Steaming, deck light|ahead|
11450|Pole track, upper end|ahead|
12200|Exit, staysail|port|
12550|Exit, topping lift|stbd|
12900|Exit, spinnaker!|port|
13140|Exit, genoa!|port|
13250|Exit, main|stbd|
14020|Gooseneck|aft|
14350|Pole track, lower end|ahead|
14450|Winches|P S|
14600|Preventer eye, steel bolt!|port fwd|
14680|Cleats, upper pair|P S|
14850|Cleats, lower pair|P S|
15050|Vang tang!|aft|
15350|PARTNERS||
"""


def _label(line: list[str]) -> ElevationRow:
    masthead, what, face, tag = float(line[0]), *line[1:]
    name = what.rstrip("!")
    return ElevationRow(
        masthead,
        reading(masthead, LENGTH),
        LENGTH - masthead - 250.0,
        name,
        face,
        tag,
        strong=bool(tag) or name.isupper(),
        fault="!" in what,
    )


def _gear(left: float, top: float, right: float, bottom: float) -> tuple[tuple[float, float], ...]:
    return ((left, top), (right, top), (right, bottom), (left, bottom))


ELEVATION = Elevation(
    LENGTH,
    _gear(-103, 0, 103, LENGTH),
    tuple(_label(line) for line in cells(_LABELS)),
    gear=(
        _gear(103, 4115, 348, 4355),
        _gear(213, 9050, 683, 9270),
        _gear(103, 9600, 293, 9760),
        _gear(103, 9880, 273, 10010),
        _gear(-193, 5910, -103, 6010),
        _gear(20, -250, 60, 0),
    ),
    stays=(
        StayLine("forestay", (133, 220), (4652, 15541)),
        StayLine("backstay", (-273, 60), (-7003, 15416)),
        StayLine("inner stay", (128, 5000), (3195, 15613)),
        StayLine("", (30, 10400), (481, 15722)),
        StayLine("", (-30, 10400), (-479, 15732)),
    ),
    spreaders_mm=(5350, 10300),
    deck_mm=15350,
    water_mm=17050,
)

_MEASURE = """
standing|Halyard at the furler's swivel|Sail full up: the angle of halyard to forestay.|\
halyard wrap|camera|± 1°|swivel|°
standing|Jib: hollow of the leech|A string from head to clew.|15 Reflector|string, tape|\
± 10|sail|1/4;1/2;3/4
standing|Genoa on the lower spreader|Where the leech lies, out from the mast.|17, 18|\
tape, crayon|± 20|spreader|P;S
trestles|Wall at each new foot|Clear of sleeve and pits.|22 holes|\
hook or ultrasonic gauge|± 0.1|wall|15;16;12;13;14
trestles|Conduit B, 5\u202f350 to 10\u202f300|Does it lie on the wall?|every hole of 12|\
magnet|± 5|conduit|9160;9685;9945
trestles|Slots in conduits A and B|From the masthead to each slot.|cable entries 12.9|\
camera, tape|± 10|slot|A;B
trestles|Halyards inside, behind 12 to 14|Which side, how deep?|depth stops|\
inspection camera|± 10|halyard|P;S
trestles|Feet of the new parts|Rub each foot on paper.|hole rows|paper, pencil|± 0.5|foot|\
15 traced;16;12;13;14
chair|Tricolour lens and the whip's coil|Above the plate: middle of lens.|stern light|\
tape|± 5|tape|lens;coil;apart
"""


def _asked(line: list[str]) -> MeasureRow:
    *words, boxes = line
    return MeasureRow(*words, tuple(boxes.split(";")))  # type: ignore[arg-type] # the first word is a group


MEASURE = tuple(_asked(line) for line in cells(_MEASURE))

_FINDINGS = """
fault|clearance/stay|15 Reflector|\
Reflector: stands 12 into the inner stay, 4235 from the masthead.|−12|20|to a stay: 20 mm|no source|
caution|hole/inside|13.4 Hailer|\
Hailer, hole 13.4: passes 11.8 from conduit A, 15 is wanted.|11.8|15|inside: 15 mm|no source|
not checked|hole/wall|14 Fog horn|\
Fog horn: not checked, the wall is not known. Hook gauge in an open hole.|||||
note|rig/bisector|Upper spreader S|\
Upper spreader S: 1.5° off the bisector, 1.0° is allowed.|1.5°|1.0°|1.0°|set by the owner|
accepted|clearance/room|13 Hailer|Hailer: in the room that the steaming light needs.|||||\
Accepted 24 Nov 2026: “guard on order”.
"""
FINDINGS = tuple(FindingRow(*line) for line in cells(_FINDINGS))  # type: ignore[arg-type] # the first is a standing
LIMITS = (LimitRow("Spreader off its bisector", "0.5 deg", "1.0 deg", "Set up by the rigger, old wire."),)
PLAN = Plan(HEAD, DRILL, MOUNT, ELEVATION, MEASURE, FINDINGS, LIMITS)


def _patch(out: float, up: float) -> tuple[tuple[float, float], ...]:
    return ((out, up), (out + 300, up), (out + 300, up + 600), (out, up + 600))


# A sail whose patches fill more than one sheet, and one that meets nothing.
CHAFE = Chafe(
    (
        ChafeSail(
            "Genoa, 140 %",
            "luff 14680, LP 6370",
            ((0, 0), (6370, 2590), (4780, 5610), (3180, 8630), (1590, 11660), (0, 14680)),
            tuple(
                ChafeRow(
                    "Upper spreader, P and S; Intermediate shroud, P and S",
                    "sheeted in",
                    ("10690", "10600"),
                    ("1870", "1720"),
                    ("9260",),
                    ("710 up", "470 wide"),
                    _patch(600 + 100 * number, 4000 + 300 * number),
                )
                for number in range(20)
            ),
            ("31 Sheave box, staysail", "51 Pole track"),
            ("15 Reflector, cluster 230",),
        ),
        ChafeSail(
            "Mainsail, first reef", "luff 13600, foot 4300", ((0, 0), (4300, 0), (0, 13600)), reefed_mm=2000.0
        ),
    ),
    ("150", "450", "150"),
    ("Code sail: its luff is free: see on the water what it meets.",),
)

"""What the sheets print, as plain rows: ready to set, already rounded, nothing worked out later.

The same rows fill the PDF sheets, the spreadsheet and the tables, so that no two papers differ.
Points of a foot are (across, along) in mm from its centre as seen from outside: across to the
right, along towards the masthead. Points of a section are (x forward, y to port) in mm.
"""

from typing import Literal

from mastlayout.documents.page import Point
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Face, Reading, RoundReading
from mastlayout.geometry.unrolled import Middle
from mastlayout.model.fitting import Step
from mastlayout.ranges.ring_words import Numbered
from mastlayout.units import Units

Outline = tuple[Point, ...]
Group = Literal["standing", "trestles", "chair"]
OrderGroup = Literal["fittings", "fasteners", "cables", "consumables", "tools"]
Standing = Literal["fault", "caution", "not checked", "note", "accepted"]


@dataclass(frozen=True)
class SheetHead:
    """What every sheet of one printing says of its yacht and plan.

    ``total`` is the mast's length in the whole millimetres or sixteenths of its readings.
    ``holes_checked`` False prints the banner and takes away every drill box.
    """

    yacht: str
    day: str
    plan_mark: str
    total: Reading
    units: Units = "metric"
    rake_deg: float | None = None
    holes_checked: bool = False


@dataclass(frozen=True)
class Note:
    """A note of a sheet, under a letter: ``tags`` it speaks of, then one or two sentences."""

    tags: str
    text: str


@dataclass(frozen=True)
class ConduitMark:
    """A conduit in the end view: its letter, and its circle, None where nobody knows its place."""

    letter: str
    centre: Point | None = None
    radius_mm: float = 0.0


@dataclass(frozen=True)
class EndView:
    """The section at one height, with its conduits; None where nobody looked for any."""

    outline: Outline
    conduits: tuple[ConduitMark, ...] | None = None


@dataclass(frozen=True)
class HoleRow:
    """One hole. ``drill_mm`` None is not known yet; ``how`` is pilot and depth stop in words.

    ``stop`` takes its drill, deburr and fasten boxes; ``wall_missing`` asks for the wall instead
    of naming a drill. ``at`` is its place in the picture of the foot, ``number`` its place in the
    foot's pattern. ``built`` says where it was found, "" where nobody measured it. ``done`` are the
    steps that are done with it: their boxes are printed ticked, so that nothing is drilled twice.
    """

    tag: str
    height: Reading
    round: RoundReading
    at: Point
    diameter_mm: float | None = None
    drill_mm: float | None = None
    how: str = ""
    fastener: str = ""
    stack: str = ""
    wall_missing: bool = False
    stop: Note | None = None
    number: int = 0
    built: str = ""
    done: frozenset[Step] = frozenset()


@dataclass(frozen=True)
class FootPicture:
    """The true shape of a foot; ``line_across_mm`` is where the sheet's line runs, None if far off."""

    outline: Outline
    line_across_mm: float | None = 0.0
    cutouts: tuple[Outline, ...] = ()


@dataclass(frozen=True)
class DrillBlock:
    """One fitting of the drilling schedule.

    ``half_girth`` and ``half_track`` are written in the sheet's units; the latter is None where
    nobody measured the track, and then there is no second reading round. A typical foot has no
    ``rows``: its ``centre`` row is printed and the part is offered up. ``fault`` is the open fault
    that takes even the boxes to mark; ``notes`` belong to the heading; ``fitting`` is its id.
    """

    tag: str
    name: str
    face: Face
    facts: tuple[str, ...]
    section: EndView
    half_girth: str
    half_track: str | None
    foot: FootPicture | None
    centre: HoleRow
    rows: tuple[HoleRow, ...] = ()
    notes: tuple[Note, ...] = ()
    fault: Note | None = None
    continued: bool = False
    fitting: str = ""


@dataclass(frozen=True)
class TemplateHole:
    """A hole of a template, its middle on the sheet; ``cut`` is the outline of one that is not round."""

    row: HoleRow
    at: Point
    cut: Outline = ()


@dataclass(frozen=True)
class Rung:
    """A level line of a template: a round reading, where it crosses the line, and the line on the sheet.

    ``named`` is every fifth centimetre, or every second inch.
    """

    text: str
    named: bool
    up_mm: float
    ring: Outline


@dataclass(frozen=True)
class Template:
    """One foot as it lies on flat paper, mm of paper.

    Points are (right, up) from where the fitting's height crosses the line in the sheet's middle, seen
    from outside with the masthead up. ``rungs`` are level lines at round readings, ``ruler`` round girths
    from that line to either side. ``half_mm`` is how far away the other centreline lies, ``edge_mm`` the
    edge of the track, None where nobody measured it; ``half_girth``, ``edge`` and ``girth`` are the same on
    the skin, written, and ``longer_mm`` is what the paper's thickness adds to half the girth. ``raised`` is
    a track that paper cannot lie over. ``warnings`` are sentences of the sheet's own.
    """

    block: DrillBlock
    middle: Middle
    centre: Point
    outline: Outline
    holes: tuple[TemplateHole, ...]
    rungs: tuple[Rung, ...]
    ruler: tuple[tuple[float, str], ...]
    half_mm: float
    edge_mm: float | None
    half_girth: str
    edge: str
    raised: bool
    paper_mm: float
    longer_mm: float
    girth: str
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True)
class NoTemplate:
    """A fitting that no template is printed of, and why, in one sentence."""

    tag: str
    name: str
    why: str


@dataclass(frozen=True)
class MountRow:
    """One fitting of the mounting schedule; ``hold`` leaves only the dry run.

    ``top`` stands on the masthead itself. Fields of words are printed as they are.
    """

    tag: str
    name: str
    height: Reading
    top: bool
    face: str
    place: str
    mass_kg: float | None
    holes: str
    foot: str
    isolation: str
    cable: str
    remark: str = ""
    hold: bool = False
    notes: tuple[Note, ...] = ()


@dataclass(frozen=True)
class ChairCard:
    """What is done from the chair at one height: ``top`` and ``bottom`` are the middles of its feet.

    ``water_mm`` is the upper one above the water, None not known. ``jobs`` are what is fitted there,
    ``look`` the tags and names of what was fitted before. ``bring`` is in the order used; ``warnings``
    say what is better not done from a chair; ``near`` are landmarks that are on the mast already.
    """

    top: Reading
    bottom: Reading
    water_mm: float | None
    near: str
    jobs: tuple[MountRow, ...]
    look: tuple[str, ...] = ()
    bring: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    continued: bool = False


@dataclass(frozen=True)
class ElevationRow:
    """One label of the elevation; ``water_mm`` None is not known; ``made``, what is in the mast already."""

    from_masthead_mm: float
    height: Reading
    water_mm: float | None
    what: str
    face: str
    tag: str = ""
    strong: bool = False
    fault: bool = False
    made: str = ""


@dataclass(frozen=True)
class StayLine:
    """A stay in the elevation, (forward of the mast's axis, from the masthead) in mm at both ends."""

    name: str
    upper: Point
    lower: Point


@dataclass(frozen=True)
class Elevation:
    """The mast from starboard. Points are (forward of the axis, from the masthead) in mm."""

    length_mm: float
    profile: Outline
    rows: tuple[ElevationRow, ...]
    gear: tuple[Outline, ...] = ()
    stays: tuple[StayLine, ...] = ()
    spreaders_mm: tuple[float, ...] = ()
    deck_mm: float | None = None
    water_mm: float | None = None


@dataclass(frozen=True)
class MeasureRow:
    """One thing the plan does not know, and what waits for it."""

    group: Group
    title: str
    how: str
    blocks: str
    tool: str
    tolerance: str
    picture: str
    boxes: tuple[str, ...] = ()


@dataclass(frozen=True)
class OrderRow:
    """One thing to buy: how many the plan needs and how many are bought, in ``unit``; None not yet known.

    ``for_`` are the tags it is for, ``state`` says why it is not bought yet, or that it is in hand.
    """

    group: OrderGroup
    what: str
    size: str
    needed: int | None
    buy: int | None
    unit: str = ""
    for_: str = ""
    state: str = ""


@dataclass(frozen=True)
class FindingRow:
    """One finding; measured, needed and source are words with their unit, empty where there are none."""

    standing: Standing
    code: str
    subjects: str
    sentence: str
    measured: str = ""
    needed: str = ""
    limit: str = ""
    source: str = ""
    remark: str = ""


@dataclass(frozen=True)
class LimitRow:
    """A limit the owner set over the program's own."""

    title: str
    value: str
    own: str
    why: str


@dataclass(frozen=True)
class ChafeRow:
    """One patch of a sail: what it is for and in which state.

    ``up`` the luff from the tack, ``out`` from the luff and up the ``leech`` from the clew are
    written for the highest place where cloth lies on it, then the lowest; ``outline`` is the patch, (out, up)
    in mm on the sail laid flat.
    """

    what: str
    when: str
    up: tuple[str, ...]
    out: tuple[str, ...]
    leech: tuple[str, ...]
    size: tuple[str, str]
    outline: Outline = ()


@dataclass(frozen=True)
class ChafeSail:
    """One sail of the chafe sheet, its outline (out, up) in mm.

    ``rubs`` is what it only rubs on, ``moved`` what no patch helps against; of a reefed one
    ``reefed_mm`` of the luff are below the boom.
    """

    name: str
    facts: str
    outline: Outline
    rows: tuple[ChafeRow, ...] = ()
    rubs: tuple[str, ...] = ()
    moved: tuple[str, ...] = ()
    reefed_mm: float = 0.0


@dataclass(frozen=True)
class Chafe:
    """The chafe sheet: its sails, how far patches reach above, below and beside, and what is left out."""

    sails: tuple[ChafeSail, ...] = ()
    margin: tuple[str, str, str] = ("", "", "")
    left_out: tuple[str, ...] = ()


@dataclass(frozen=True)
class Lights:
    """What lights and antennas see: rings for the picture, a row of cells for each light."""

    rings: tuple[Numbered, ...]
    rows: tuple[tuple[str, ...], ...]
    unit: str


@dataclass(frozen=True)
class EchoLane:
    """What one ship sees of a reflector, NM: its echo over distance as (NM, dB), where it fades.

    ``told`` is where it is first seen, its fades and the horizon, in words.
    ``horizon_nm`` is where nothing comes back any more, ``first_nm`` where it is first seen, 0 not told.
    """

    title: str
    told: tuple[str, ...]
    curve: Outline
    fades: tuple[Point, ...]
    horizon_nm: float
    first_nm: float


@dataclass(frozen=True)
class PlaceRow:
    """One place a fitting might go to, under its letter; ``cells`` are its figures, written.

    ``free`` of faults as far as it was checked. ``lanes`` are there for a reflector whose chart is drawn.
    ``water_m`` None is not known.
    """

    letter: str
    place: str
    round: str
    height: str
    cells: tuple[str, ...]
    said: str
    free: bool
    water_m: float | None
    lanes: tuple[EchoLane, ...] = ()


@dataclass(frozen=True)
class Placing:
    """Where one fitting might go: its places masthead first, which and why, and what was asked of it.

    ``heads`` are the two lines over each of the places' cells. ``asked`` are the rows of a published
    rule: answer, what it asks, how much, what is found, and whose figure it is or what is missing.
    """

    tag: str
    name: str
    heads: tuple[tuple[str, str], ...]
    places: tuple[PlaceRow, ...]
    reasons: tuple[str, ...]
    asked: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True)
class Heights:
    """What each height gives: a placing for each fitting, then how each figure is found.

    ``worked`` are name, formula, inputs and source. ``curves`` are lines over the height above the water:
    name, nautical miles to the root of metres, and the other end's height, m; ``top_m`` is the highest.
    """

    placings: tuple[Placing, ...]
    worked: tuple[tuple[str, str, str, str], ...]
    curves: tuple[tuple[str, float, float], ...]
    top_m: float | None
    unit: str
    unit_m: float


@dataclass(frozen=True)
class Plan:
    """All rows of one printing."""

    head: SheetHead
    drill: tuple[DrillBlock, ...] = ()
    mount: tuple[MountRow, ...] = ()
    elevation: Elevation | None = None
    measure: tuple[MeasureRow, ...] = ()
    findings: tuple[FindingRow, ...] = ()
    limits: tuple[LimitRow, ...] = ()
    templates: tuple[Template, ...] = ()
    no_templates: tuple[NoTemplate, ...] = ()
    order: tuple[OrderRow, ...] = ()
    chafe: Chafe = Chafe()
    lights: Lights | None = None
    chair: tuple[ChairCard, ...] = ()
    heights: Heights | None = None

"""What is mounted: fittings on their hosts, holes already there, cables."""

from typing import Annotated, Literal, get_args

from pydantic import Field

from mastlayout.model.around import Round
from mastlayout.model.kind import Foot
from mastlayout.model.measure import Measure
from mastlayout.model.photo import Photo
from mastlayout.model.value import Deg, Id, Kg, Loose, Mm, Name, NotNegativeMm, PositiveMm, Remark, Value

MAST = "mast"
Tag = Annotated[int, Field(ge=1, le=9999)]
Step = Literal["marked", "measured again", "drilled", "deburred", "isolated", "fitted"]
STEPS: tuple[Step, ...] = get_args(Step)
# A hole of the fitting by its number, and what is done with it: "h2 measured again".
Done = Annotated[str, Field(pattern=rf"^h[1-9]\d{{0,3}} ({'|'.join(STEPS)})$")]

# Of an echoing area, m², and of a radar's mean power, W.
Area = Annotated[float, Field(ge=0.0, le=10_000.0)]
Watts = Annotated[float, Field(ge=0.0, le=1_000.0)]
Amperes = Annotated[float, Field(ge=0.0, le=100.0)]
# A conductor's copper, mm².
Copper = Annotated[float, Field(gt=0.0, le=100.0)]

IN_HAND, ECHO, BEAM = Measure("fitting.foot"), Measure("fitting.echo"), Measure("fitting.beam")
# Of what is there already, the same foot is asked for to know its holes.
HOLES_THERE = Measure("fitting.holes")


Day = Annotated[str, Field(pattern=r"^\d{4}-\d{2}-\d{2}$")]
Coaxial = Literal["RG-174", "RG-58", "RG-8X", "RG-213", "low-loss 10 mm", "low-loss 10 mm, flexible"]


class AsBuilt(Value):
    """Where it was found to be, by whom and when; it is what is checked, drawn and printed.

    ``photo`` is a file beside the layout.
    """

    from_masthead_mm: NotNegativeMm | None = None
    girth: Round | None = None
    by: Name
    day: Day
    remark: Remark = ""
    photo: Photo | None = None


class HoleBuilt(Value):
    """Where one hole was drilled, by its number in the foot's pattern; checked, drawn and printed instead.

    ``diameter_mm`` None was drilled as planned.
    """

    number: Annotated[int, Field(ge=1, le=9999)]
    from_masthead_mm: NotNegativeMm
    girth: Round
    diameter_mm: PositiveMm | None = None
    by: Name
    day: Day
    remark: Remark = ""
    photo: Photo | None = None


class Fitting(Value):
    """A fitting on the mast, on a spreader, on a stay or on another fitting's mount.

    On the mast: ``from_masthead_mm`` and ``girth`` of the foot's centre, ``stand_off_mm`` of its
    foot from the skin. On a spreader: ``along_mm`` from the skin at its root and ``round_deg``
    (0 on top, 90 ahead, 180 below, 270 abaft). On a stay: ``along_mm`` from its lower end,
    ``round_deg`` clockwise from ahead. On another fitting: its ``mount``. ``turn_deg`` turns the
    fitting in its own foot, clockwise seen from outside. Of a light, ``visible_nm`` is the range on
    its plate, and ``shim_deg`` how far a wedge under its base leans it forward. Of a reflector, what
    its papers say: the echoing area in each band that it keeps over ``echo_arc_deg`` in all, its widest
    null, how far its nulls lie apart, and the heel it is stated to. Of a radar, how tall and wide its
    beam is, and its mean power. ``replaces_kg`` is the mass of old parts that are taken off there for
    it. Of a horn or hailer ``level_db`` at 1 m and ``tone_hz`` are those of its plate;
    ``compass_safe_mm`` is the plate's distance from a steering compass.
    """

    id: Id
    tag: Tag | None = None
    name: Name
    kind: Id
    on: Id = MAST
    from_masthead_mm: NotNegativeMm | None = None
    girth: Round | None = None
    along_mm: NotNegativeMm | None = None
    round_deg: Deg = 0.0
    mount: Id | None = None
    stand_off_mm: NotNegativeMm = 0.0
    turn_deg: Deg = 0.0
    new: bool = False
    in_hand: Annotated[Foot | None, IN_HAND, HOLES_THERE] = None
    mass_kg: Kg | None = None
    visible_nm: Annotated[int | None, Measure("fitting.visible"), Field(ge=1, le=12)] = None
    shim_deg: Annotated[Deg, Field(ge=-20.0, le=20.0)] = 0.0
    echo_x_m2: Annotated[Area | None, ECHO] = None
    echo_s_m2: Annotated[Area | None, ECHO] = None
    echo_arc_deg: Annotated[Deg | None, ECHO, Field(ge=0.0, le=360.0)] = None
    echo_null_deg: Annotated[Deg | None, ECHO, Field(ge=0.0, le=360.0)] = None
    echo_apart_deg: Annotated[Deg | None, ECHO, Field(ge=0.0, le=360.0)] = None
    echo_heel_deg: Annotated[Deg | None, ECHO, Field(ge=0.0, le=60.0)] = None
    beam_tall_deg: Annotated[Deg | None, BEAM, Field(ge=1.0, le=90.0)] = None
    beam_wide_deg: Annotated[Deg | None, BEAM, Field(ge=0.1, le=90.0)] = None
    mean_power_w: Annotated[Watts | None, Measure("fitting.mean_power")] = None
    level_db: Annotated[int | None, Measure("sound.level"), Field(ge=60, le=170)] = None
    tone_hz: Annotated[int | None, Measure("sound.tone"), Field(ge=50, le=5000)] = None
    compass_safe_mm: Annotated[NotNegativeMm | None, Measure("fitting.compass")] = None
    replaces_kg: Kg | None = None
    fitted: Literal["before stepping", "after stepping", "at the dock"] | None = None
    as_built: AsBuilt | None = None
    holes_built: Annotated[tuple[HoleBuilt, ...], Field(strict=False, max_length=200)] = ()
    done: Annotated[tuple[Done, ...], Field(strict=False, max_length=1200)] = ()
    note: Remark = ""

    @property
    def is_built(self) -> bool:
        """Tell whether it was found somewhere or has a hole in the mast: then no place is left to plan."""
        drilled = any(words.endswith(" drilled") for words in self.done)
        return drilled or self.as_built is not None or bool(self.holes_built)


def done_words(hole: int, step: Step) -> str:
    """Return how a fitting's ``done`` says that a step is done with one of its holes."""
    return f"h{hole} {step}"


def steps_done(fitting: Fitting, hole: int) -> frozenset[Step]:
    """Return what is done with a hole of a fitting, by the hole's number."""
    return frozenset(step for step in STEPS if done_words(hole, step) in fitting.done)


def is_made(fitting: Fitting, hole: int) -> bool:
    """Tell whether a hole of a fitting, by its number, is in the mast: measured there or ticked."""
    measured = any(built.number == hole for built in fitting.holes_built)
    return measured or "drilled" in steps_done(fitting, hole)


class OldHole(Value):
    """A hole that is there already and belongs to no fitting of the layout."""

    id: Id
    name: Name
    from_masthead_mm: NotNegativeMm
    girth: Round
    diameter_mm: Annotated[PositiveMm | None, Measure("hole.diameter")] = None
    state: Literal["open", "filled", "riveted", "tapped", "drain"] = "open"
    note: Remark = ""


class Cable(Value):
    """A cable, from its fitting through the entry hole and a conduit to its exit.

    ``conduit`` is the conduit's id, or ``loose``; ``plug_mm`` is the widest part that must pass,
    0 where the plug goes on after the pull. Of an antenna's cable: its ``coax``, how far it is from where
    it leaves the mast ``to_set_mm``, and how many ``connectors`` it has in all. Of a light's cable: the
    ``current_a`` it carries and the ``copper_mm2`` of one conductor.
    """

    id: Id
    name: Name
    fitting: Id | None = None
    outside_mm: Annotated[PositiveMm | None, Measure("cable.outside")] = None
    plug_mm: Annotated[NotNegativeMm | None, Measure("cable.plug")] = None
    conduit: Annotated[Id | None, Measure("cable.conduit")] = None
    exit: Id | None = None
    exit_from_masthead_mm: Mm | None = None
    coax: Annotated[Coaxial | None, Measure("cable.coax")] = None
    to_set_mm: Annotated[NotNegativeMm | None, Measure("cable.to_set")] = None
    connectors: Annotated[int | None, Measure("cable.connectors"), Field(ge=0, le=20)] = None
    current_a: Annotated[Amperes | None, Measure("cable.current")] = None
    copper_mm2: Annotated[Copper | None, Measure("cable.copper")] = None
    new: bool = False
    note: Remark = ""


__all__ = [
    "IN_HAND",
    "MAST",
    "STEPS",
    "AsBuilt",
    "Cable",
    "Fitting",
    "HoleBuilt",
    "Loose",
    "OldHole",
    "Step",
    "Tag",
    "done_words",
    "is_made",
    "steps_done",
]

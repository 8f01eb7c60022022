"""Sails, measured as the Equipment Rules of Sailing name their measures, and lines."""

from typing import Annotated, Literal

from pydantic import Field

from mastlayout.model.around import Round
from mastlayout.model.measure import Measure
from mastlayout.model.rig import DeckEnd
from mastlayout.model.value import Deg, Id, Loose, Mm, Name, NotNegativeMm, PositiveMm, Remark, Value


class Reef(Value):
    """A reefed or part-furled state: what changes against the full sail."""

    name: Name
    lp_mm: PositiveMm | None = None
    clew_mm: Mm | None = None
    head_mm: Mm | None = None
    rolled_mm: PositiveMm | None = None


_WIDTHS = Measure("sail.widths")


class Sail(Value):
    """A sail. Heights of tack, clew and head are readings from the masthead, as all on the mast.

    A headsail hangs on ``stay``, or flies on a free luff where it has none. Widths are measured at
    the quarter, half, three-quarter and seven-eighth points of the leech, and at the head. The sheets
    lead to ``sheet_lead`` on one side, and to its like on the other. A mainsail hangs on ``cars`` at its
    luff, or slides; dropped, it stands ``stack_mm`` above the lower mark.
    """

    id: Id
    name: Name
    role: Literal["main", "headsail", "code sail", "spinnaker", "staysail"]
    stay: Annotated[Id | None, Measure("sail.free_luff")] = None
    halyard: Id | None = None
    lp_mm: Annotated[PositiveMm | None, Measure("sail.lp")] = None
    luff_mm: Annotated[PositiveMm | None, Measure("sail.luff")] = None
    foot_mm: PositiveMm | None = None
    tack_mm: Annotated[Mm | None, Measure("sail.tack")] = None
    clew_mm: Annotated[Mm | None, Measure("sail.clew")] = None
    head_mm: Annotated[Mm | None, Measure("sail.head")] = None
    quarter_width_mm: Annotated[PositiveMm | None, _WIDTHS] = None
    half_width_mm: Annotated[PositiveMm | None, _WIDTHS] = None
    three_quarter_width_mm: Annotated[PositiveMm | None, _WIDTHS] = None
    seven_eighths_width_mm: PositiveMm | None = None
    head_width_mm: NotNegativeMm | None = None
    p_mm: PositiveMm | None = None
    e_mm: Annotated[PositiveMm | None, Measure("sail.e")] = None
    upper_mark_mm: NotNegativeMm | None = None
    lower_mark_mm: Annotated[NotNegativeMm | None, Measure("sail.marks")] = None
    battens_short: Annotated[int, Field(ge=0, le=20)] = 0
    battens_full: Annotated[int, Field(ge=0, le=20)] = 0
    receptacle: Annotated[
        tuple[PositiveMm, PositiveMm] | None, Field(strict=False), Measure("sail.receptacle")
    ] = None
    headboard_ahead_mm: Annotated[NotNegativeMm | None, Measure("sail.headboard")] = None
    boom_limit_deg: Annotated[Deg | None, Measure("sail.boom")] = None
    twist_deg: Deg | None = None
    stack_mm: PositiveMm | None = None
    cars: Annotated[int | None, Field(ge=0, le=60), Measure("sail.cars")] = None
    car_across_mm: Annotated[PositiveMm | None, Measure("sail.cars")] = None
    car_high_mm: Annotated[PositiveMm | None, Measure("sail.cars")] = None
    headboard_high_mm: Annotated[NotNegativeMm | None, Measure("sail.cars")] = None
    furled_mm: Annotated[PositiveMm | None, Measure("sail.furled")] = None
    clew_hardware: Remark = ""
    clew_reach_mm: NotNegativeMm | None = None
    sheet_lead: Annotated[DeckEnd | None, Measure("sail.sheet")] = None
    reefs: Annotated[tuple[Reef, ...], Field(strict=False, max_length=6)] = ()
    note: Remark = ""


class Pole(Value):
    """A spinnaker or whisker pole, its inner end on a ring or car on the fore centreline.

    The ring runs from ``ring_from_mm`` down to ``ring_to_mm``; the pole turns ``ring_ahead_mm`` ahead
    of the fore face. Its outer end is carried up and down by ``tilt_deg``, and back from ahead by
    ``squared_deg``. Stowed along the mast it stands ``stowed_ahead_mm`` ahead of the fore face, its
    upper end at ``stowed_top_mm``; on its track its inner end stays on the car, hoisted, and only its
    lower end stands there; on deck it lies between its chocks.
    """

    id: Id
    name: Name
    length_mm: PositiveMm
    diameter_mm: Annotated[PositiveMm | None, Measure("pole.diameter")] = None
    ring_from_mm: NotNegativeMm
    ring_to_mm: NotNegativeMm
    ring_ahead_mm: Annotated[NotNegativeMm | None, Measure("pole.ring")] = None
    tilt_deg: Annotated[Deg | None, Field(ge=0, le=80)] = None
    squared_deg: Annotated[Deg | None, Field(ge=0, le=120)] = None
    stowed_on: Annotated[Literal["mast", "track", "deck"] | None, Measure("pole.stowed")] = None
    stowed_top_mm: Annotated[Mm | None, Measure("pole.stowed_top")] = None
    stowed_ahead_mm: Annotated[NotNegativeMm | None, Measure("pole.stowed_ahead")] = None
    chock_fore: Annotated[DeckEnd | None, Measure("pole.chocks")] = None
    chock_aft: Annotated[DeckEnd | None, Measure("pole.chocks")] = None
    stowed: Remark = ""


class LinePoint(Value):
    """A point a line passes: on a fitting, or at a place of its own.

    ``sheave`` is which sheave of its box, counted from port as one stands abaft it and looks ahead.
    """

    at: Literal["sheave", "inside", "outside", "exit", "block", "restrainer", "winch", "cleat", "end"]
    fitting: Id | None = None
    sheave: Annotated[int | None, Measure("halyard.sheave"), Field(ge=1, le=8)] = None
    from_masthead_mm: Mm | None = None
    girth: Round | None = None
    ahead_mm: Mm | None = None
    port_mm: Mm | None = None


class Halyard(Value):
    """A halyard, lift or other line, from aloft to its winch.

    ``inside`` says what is known of its way inside the mast: it runs straight from sheave to exit,
    or it never enters; left out, nobody has looked. Its end is made fast at ``hoisted_at`` while it is
    in use, where no sail hangs on it, and at ``tied_at`` in harbour; off to port. ``slack_mm`` is how
    much longer than its way it is left when slack.
    """

    id: Id
    name: Name
    rope_mm: PositiveMm
    purchase: Literal["1:1", "2:1"] = "1:1"
    inside: Annotated[Literal["straight", "outside"] | None, Measure("halyard.inside")] = None
    points: Annotated[tuple[LinePoint, ...], Loose] = ()
    hoisted: Remark = ""
    hoisted_at: Annotated[DeckEnd | None, Measure("halyard.hoisted")] = None
    tied_off: Remark = ""
    tied_at: Annotated[DeckEnd | None, Measure("halyard.tied")] = None
    slack_mm: NotNegativeMm | None = None
    swivel_angle_deg: Annotated[Deg | None, Measure("halyard.swivel")] = None
    note: Remark = ""

"""What holds the mast up: spreaders, struts, stays, as a tape gives them."""

from typing import Annotated, Literal

from pydantic import Field

from mastlayout.model.around import Round
from mastlayout.model.measure import Measure
from mastlayout.model.value import Deg, Id, Loose, Mm, Name, NotNegativeMm, PositiveMm, Remark, Value

Side = Literal["port", "starboard", "centre"]


class Spreader(Value):
    """A spreader, or a jumper or diamond strut, standing on the skin.

    A side one points athwart, swept aft by ``sweep_deg`` (negative: forward) and raised by
    ``rise_deg``; a strut on the centreline points ahead. The root is the skin athwart of the axis
    for a spreader, ahead of it for a strut on the centreline.
    """

    id: Id
    name: Name
    role: Literal["spreader", "strut"] = "spreader"
    side: Side
    from_masthead_mm: NotNegativeMm
    length_mm: Annotated[PositiveMm | None, Measure("spreader.length")] = None
    sweep_deg: Annotated[Deg | None, Measure("spreader.sweep")] = None
    rise_deg: Annotated[Deg | None, Measure("spreader.rise")] = None
    chord_root_mm: PositiveMm = 60.0
    thickness_root_mm: PositiveMm = 30.0
    chord_tip_mm: PositiveMm = 50.0
    thickness_tip_mm: PositiveMm = 25.0
    new: bool = False
    note: Remark = ""


class MastEnd(Value):
    """An end of a stay on the mast: its pin's height, where round the skin, how far off the skin."""

    from_masthead_mm: NotNegativeMm
    girth: Round
    stand_off_mm: Mm = 0.0


class DeckEnd(Value):
    """An end of a stay on the hull, as a tape gives it: level and plumb from the heel datum.

    ``ahead_mm`` is negative abaft the mast, ``off_mm`` positive to the stay's own side,
    ``above_mm`` negative below the heel.
    """

    ahead_mm: Mm
    off_mm: Mm = 0.0
    above_mm: Mm


class Terminal(Value):
    """A terminal, turnbuckle, cover or furling drum: a can round the wire at one end."""

    kind: Literal["terminal", "turnbuckle", "cover", "toggle", "drum", "swivel", "roll"]
    end: Literal["upper", "lower"]
    from_end_mm: NotNegativeMm = 0.0
    length_mm: PositiveMm
    diameter_mm: PositiveMm


_DECK = Measure("stay.deck")
_FURLER = Measure("stay.furler")


class Stay(Value):
    """A stay, shroud, jumper, diamond or runner.

    ``via`` names the spreaders or struts whose tips it passes, from its upper end down. Its lower
    end is either on deck or on the mast. A removable one may be absent, so it shelters nothing; its
    lower end is then made fast at ``stowed_at``. A furler on it wants the halyard of its sail at an
    angle to it within ``swivel_least_deg`` and ``swivel_most_deg``, as its manual says.
    """

    id: Id
    name: Name
    role: Literal[
        "forestay", "backstay", "cap", "intermediate", "lower", "inner", "runner", "diamond", "jumper", "luff"
    ]
    side: Side = "centre"
    wire_mm: Annotated[PositiveMm | None, Measure("stay.wire")] = None
    upper: MastEnd
    via: Annotated[tuple[Id, ...], Loose] = ()
    deck: Annotated[DeckEnd | None, _DECK] = None
    lower: Annotated[MastEnd | None, Measure("stay.lower")] = None
    length_mm: Annotated[PositiveMm | None, Measure("stay.length")] = None
    removable: bool = False
    stowed: Remark = ""
    stowed_at: Annotated[DeckEnd | None, Measure("stay.stowed")] = None
    swivel_least_deg: Annotated[Deg | None, _FURLER] = None
    swivel_most_deg: Annotated[Deg | None, _FURLER] = None
    terminals: Annotated[tuple[Terminal, ...], Field(strict=False, max_length=12)] = ()
    sag_mm: NotNegativeMm | None = None
    new: bool = False
    note: Remark = ""

    @property
    def ends_on_mast(self) -> bool:
        """Tell whether both ends are on the mast, as a diamond's or a jumper's are."""
        return self.lower is not None or (self.deck is None and self.role in ("diamond", "jumper"))

"""The mast itself: length, section, wall, taper, track, and what lies inside it."""

from typing import Annotated, Literal

from pydantic import Field, field_validator

from mastlayout.model.around import Round
from mastlayout.model.measure import Measure
from mastlayout.model.value import Deg, Id, Kg, Loose, Name, NotNegativeMm, Point2, PositiveMm, Remark, Value
from mastlayout.words import _


class Ellipse(Value):
    """An elliptic outline: ``length_mm`` fore and aft, ``width_mm`` athwart."""

    shape: Literal["ellipse"]
    length_mm: PositiveMm
    width_mm: PositiveMm


class RoundedBox(Value):
    """A rectangle with round corners."""

    shape: Literal["rounded box"]
    length_mm: PositiveMm
    width_mm: PositiveMm
    corner_radius_mm: NotNegativeMm


class DShape(Value):
    """A half ellipse forward, straight sides ``side_mm`` long, a flat aft face with round corners."""

    shape: Literal["d"]
    length_mm: PositiveMm
    width_mm: PositiveMm
    side_mm: NotNegativeMm
    corner_radius_mm: NotNegativeMm = 0.0


class FreeOutline(Value):
    """An outline traced from the mast: points (ahead, to port) in order round it, mm, any origin.

    Symmetric about the centreline to 0.5 mm; ``dxf`` names the drawing beside the layout it was
    read from, if any.
    """

    shape: Literal["points"]
    points: Annotated[tuple[Point2, ...], Field(strict=False, min_length=8, max_length=5000)]
    dxf: str | None = None


Section = Annotated[Ellipse | RoundedBox | DShape | FreeOutline, Field(discriminator="shape")]


class Taper(Value):
    """An even taper to the masthead, taken from the front and the sides; the aft face stays straight."""

    from_masthead_mm: PositiveMm
    length_mm: PositiveMm
    width_mm: PositiveMm


class Track(Value):
    """What the luff runs in. ``width_mm`` is the slot of a groove or the width of a raised track.

    Slides are fed in at the gate, ``gate_mm`` from the masthead to its middle, or at the lower end of a
    track that has none; dropped they stand on a stop, ``stop_mm`` from the masthead, if there is one.
    """

    kind: Literal["groove", "track"]
    width_mm: PositiveMm
    depth_mm: NotNegativeMm = 0.0
    chamber_mm: NotNegativeMm = 0.0
    screw_pitch_mm: PositiveMm | None = None
    lower_end_mm: Annotated[NotNegativeMm | None, Field(description="from the masthead")] = None
    gate_mm: Annotated[
        NotNegativeMm | None, Field(description="from the masthead"), Measure("track.gate")
    ] = None
    gate_length_mm: Annotated[PositiveMm | None, Measure("track.gate")] = None
    gate_closes: bool = False
    stop_mm: Annotated[NotNegativeMm | None, Field(description="from the masthead")] = None


class Wall(Value):
    """One reading of the wall's thickness and where it was taken."""

    from_masthead_mm: NotNegativeMm
    thickness_mm: PositiveMm
    girth: Round | None = None
    state: Literal["sound", "pitted", "sleeved"] = "sound"
    note: Remark = ""


class Run(Value):
    """A stretch of conduit or loose bundle and where it lies; without a bearing nobody knows where."""

    from_masthead_mm: NotNegativeMm
    to_mm: NotNegativeMm
    bearing_deg: Annotated[Deg | None, Measure("conduit.place")] = None


class Slot(Value):
    """An opening in a conduit where a cable may leave; ``new``, it is still to be cut."""

    from_masthead_mm: NotNegativeMm
    length_mm: PositiveMm
    new: bool = False


class Conduit(Value):
    """A pipe inside the mast, lying against the wall; its centre on the ray of its bearing."""

    id: Id
    name: Name
    bore_mm: Annotated[PositiveMm | None, Measure("conduit.bore")] = None
    outside_mm: Annotated[PositiveMm | None, Measure("conduit.outside")] = None
    runs: Annotated[tuple[Run, ...], Loose]
    slots: Annotated[tuple[Slot, ...] | None, Loose, Measure("conduit.slots")] = None


class Stretch(Value):
    """A stretch of the mast: a sleeve, a weld, a pitted zone, a wedge zone."""

    kind: Literal["sleeve", "weld", "pitted", "partners", "foam"]
    from_masthead_mm: NotNegativeMm
    to_mm: NotNegativeMm
    girth: Round | None = None
    note: Remark = ""


class Mast(Value):
    """The mast. Heights on it are stored from the masthead: the upper edge at the aft side, crane off."""

    length_mm: Annotated[PositiveMm, Measure("mast.length")]
    material: Literal["aluminium", "carbon", "wood"] = "aluminium"
    rotating: bool = False
    section: Annotated[Section, Measure("mast.section")]
    taper: Annotated[Taper | Literal["none"] | None, Measure("mast.taper")] = None
    rake_deg: Annotated[Deg | None, Measure("mast.rake")] = None
    prebend_mm: Annotated[NotNegativeMm | None, Measure("mast.prebend")] = None
    step: Literal["keel", "deck"] | None = None
    gooseneck_mm: Annotated[
        NotNegativeMm | None, Field(description="from the masthead"), Measure("mast.gooseneck")
    ] = None
    track: Annotated[Track | None, Measure("mast.track")] = None
    walls: Annotated[tuple[Wall, ...], Field(strict=False, max_length=500), Measure("mast.wall")] = ()
    conduits: Annotated[
        tuple[Conduit, ...] | None, Field(strict=False, max_length=20), Measure("mast.conduits")
    ] = None
    stretches: Annotated[
        tuple[Stretch, ...] | None, Field(strict=False, max_length=200), Measure("mast.stretches")
    ] = None
    mass_per_metre_kg: Annotated[Kg | None, Measure("mast.mass")] = None

    @property
    def name(self) -> str:
        """The name of what has none of its own: lists, findings and sentences call it so."""
        return _("Mast")

    @field_validator("rotating")
    @classmethod
    def _stands_still(cls, rotating: bool) -> bool:  # noqa: FBT001 - pydantic calls it by position
        if rotating:
            raise ValueError(
                _(
                    "a rotating mast is not planned by this program: its fittings turn against the stays, so "
                    "no clearance or sector found here would hold; plan it with its builder"
                )
            )
        return rotating

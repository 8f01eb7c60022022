"""A kind of fitting: what the catalogue and the layout's own copies say of it.

Lengths are in the fitting's own frame, seen from outside with the masthead up: ``across`` to the
right along the girth, ``along`` towards the masthead, ``out`` off the skin. A point is written
[across, along, out].
"""

import re
from typing import Annotated, Any, Literal, get_args

from pydantic import BeforeValidator, Field, PlainSerializer

from mastlayout.errors import UnitError
from mastlayout.model.measure import Measure
from mastlayout.model.value import (
    Deg,
    Id,
    Kg,
    Loose,
    Mm,
    Name,
    NotNegativeMm,
    Point3,
    PositiveMm,
    Remark,
    Value,
)
from mastlayout.words import _

Metal = Literal[
    "aluminium",
    "stainless",
    "plain steel",
    "galvanised steel",
    "bronze",
    "chromed bronze",
    "brass",
    "copper",
    "nickel-copper",
    "titanium",
    "plastic",
    "carbon",
    "wood",
]
# What the part is for: it decides the state it may be in and how it is drawn.
Part = Literal[
    "body", "bracket", "foot", "lens", "antenna", "guard", "arm", "rope", "mouth", "sheave", "room"
]


class Ball(Value):
    """A ball."""

    shape: Literal["ball"]
    part: Part = "body"
    centre: Point3
    radius_mm: PositiveMm
    snags: bool = False


class Tube(Value):
    """A round bar with round ends, such as a hoop's tube or an arm: all within ``radius_mm`` of a line."""

    shape: Literal["tube"]
    part: Part = "body"
    start: Point3
    end: Point3
    radius_mm: PositiveMm
    snags: bool = False


class Can(Value):
    """A cylinder with flat ends, or a cone cut off square where ``end_radius_mm`` differs."""

    shape: Literal["can"]
    part: Part = "body"
    start: Point3
    end: Point3
    radius_mm: NotNegativeMm
    end_radius_mm: NotNegativeMm | None = None
    snags: bool = False


class Box(Value):
    """A box square to the fitting: ``size`` is [across, along, out] in all."""

    shape: Literal["box"]
    part: Part = "body"
    centre: Point3
    size: Annotated[tuple[PositiveMm, PositiveMm, PositiveMm], Loose]
    edge_radius_mm: NotNegativeMm = 0.0
    snags: bool = False


Solid = Annotated[Ball | Tube | Can | Box, Field(discriminator="shape")]

_FASTENER = re.compile(
    r"^(?:(?P<rivet>rivet) (?P<rivet_mm>\d+(?:\.\d+)?)|(?P<thread>M\d+(?:\.\d+)?|\d+/\d+-\d+|#\d+-\d+)"
    r" (?P<how>tapped|through|nut|rivet nut|clearance)|(?P<plain>cable|weld|none|left out))"
    rf"(?:, (?P<metal>{'|'.join(get_args(Metal))}))?$"
)


class Fastener(Value):
    """How a hole is used: ``rivet 6.4``, ``M6 tapped``, ``M12 through``, ``M5 nut``, ``cable``, ``none``.

    Its metal may follow: ``M6 tapped, stainless``. ``none`` is a bare hole; one that is ``left out`` is
    in the part alone, and not drilled.
    """

    how: Literal[
        "rivet", "tapped", "through", "nut", "rivet nut", "clearance", "cable", "weld", "none", "left out"
    ]
    thread: str | None = None
    rivet_mm: PositiveMm | None = None
    metal: Annotated[Metal | None, Measure("fastener.metal")] = None

    @property
    def is_one(self) -> bool:
        """Tell whether something holds the part here: a cable, a weld or a bare hole is no fastener."""
        return self.rivet_mm is not None or self.thread is not None

    @property
    def size(self) -> str:
        """What it is without its metal, as a narrow column prints it."""
        if self.how == "rivet":
            return f"rivet {self.rivet_mm:g}"
        return f"{self.thread} {self.how}" if self.thread else self.how

    def __str__(self) -> str:
        return f"{self.size}, {self.metal}" if self.metal else self.size


def read_fastener(typed: Any) -> Any:
    """Return a Fastener from its phrase; UnitError with the allowed phrases otherwise."""
    if isinstance(typed, Fastener):
        return typed
    found = _FASTENER.match(typed) if isinstance(typed, str) else None
    if not found:
        raise UnitError(
            _(
                "{typed} is no fastener: “rivet 6.4”, “M6 tapped”, “M12 through”, “M5 nut”, “M6 rivet nut”, "
                "“1/4-20 tapped”, “cable”, “weld”, “none” or “left out” is wanted; its metal may follow: "
                "“M6 tapped, stainless”"
            ).format(typed=repr(typed)[:40])
        )
    known: dict[str, Any] = {"metal": found["metal"]} if found["metal"] else {}
    if found["rivet"]:
        return Fastener(how="rivet", rivet_mm=float(found["rivet_mm"]), **known)
    if found["plain"]:
        return Fastener.model_validate({"how": found["plain"]} | known)
    return Fastener.model_validate({"how": found["how"], "thread": found["thread"]} | known)


Fastening = Annotated[Fastener, BeforeValidator(read_fastener), PlainSerializer(str, return_type=str)]


class Hole(Value):
    """A round hole of a foot's pattern; ``diameter_mm`` where the drill is not that of its fastener."""

    across_mm: Mm
    along_mm: Mm
    fastener: Fastening
    diameter_mm: PositiveMm | None = None


class Cutout(Value):
    """A slot or window of a pattern: ``width_mm`` across by ``length_mm`` along."""

    across_mm: Mm = 0.0
    along_mm: Mm = 0.0
    width_mm: PositiveMm
    length_mm: PositiveMm
    corner_radius_mm: Annotated[NotNegativeMm | None, Measure("cutout.corner")] = None


class Entry(Value):
    """Where the fitting's cable enters the mast."""

    across_mm: Mm
    along_mm: Mm
    diameter_mm: PositiveMm


class Foot(Value):
    """What lies on the mast, with its holes.

    ``flat`` and ``radiused`` feet are drilled square to the foot, a ``shaped`` one square to the
    skin, its pattern wrapped along the girth. ``across`` is along the girth, ``along`` the mast.
    ``backing_mm`` is how thick a bar of the wall's metal is behind the wall, inside.
    """

    seat: Literal["flat", "radiused", "shaped"]
    across_mm: PositiveMm
    along_mm: PositiveMm
    corner_radius_mm: NotNegativeMm = 0.0
    thickness_mm: NotNegativeMm = 3.0
    liner_mm: NotNegativeMm = 0.5
    backing_mm: NotNegativeMm = 0.0
    radius_mm: Annotated[PositiveMm | None, Measure("foot.radius")] = None
    centre_across_mm: Mm = 0.0
    centre_along_mm: Mm = 0.0
    holes: Annotated[tuple[Hole, ...], Field(strict=False, max_length=200)] = ()
    cutouts: Annotated[tuple[Cutout, ...], Field(strict=False, max_length=20)] = ()
    entry: Entry | None = None


class Mount(Value):
    """A place the kind offers to others: where, and which way the guest's foot faces."""

    name: Id
    at: Point3
    facing: Literal["out", "up", "down", "left", "right"] = "out"


class Sector(Value):
    """What the kind must see, or be seen over: bearings clockwise from ahead; of a light its colour."""

    what: Literal["light", "radar", "radio", "camera", "sound", "wind", "echo"]
    from_deg: Deg
    to_deg: Deg
    name: Name
    colour: Literal["white", "red", "green", "yellow"] | None = None


class Corner(Value):
    """What of a reflector sends a radar's beam back, for a formula.

    ``edge`` is that where two plates meet, or the radius of a ball or tube; ``other`` the second side of
    a dihedral's plates, or a tube's length. ``stacked`` such corners stand over each other, ``tall`` in all.
    """

    shape: Literal["triangular", "square", "circular", "dihedral", "ball", "tube"]
    edge_mm: PositiveMm
    other_mm: PositiveMm | None = None
    stacked: Annotated[int, Field(ge=1, le=100)] = 1
    tall_mm: PositiveMm | None = None


Seat = Literal["mast", "spreader", "stay", "mount up", "mount out"]


class Kind(Value):
    """A kind of fitting. Sizes are typical until the part is in hand; ``source`` says whose they are.

    ``sits_on`` names the hosts it is made for, a mount by whether it faces up or any other way; left
    out, nobody said so and it may be put on any.
    """

    id: Id
    name: Name
    group: Literal[
        "radar",
        "reflector",
        "light",
        "antenna",
        "wind",
        "sound",
        "camera",
        "halyard",
        "stay",
        "spreader",
        "boom",
        "pole",
        "deck",
        "masthead",
        "guard",
        "bracket",
        "foot",
    ]
    sits_on: Annotated[tuple[Seat, ...] | None, Loose] = None
    mass_kg: Annotated[Kg | None, Measure("kind.mass")] = None
    metal: Annotated[Metal | None, Measure("kind.metal")] = None
    foot: Foot | None = None
    solids: Annotated[tuple[Solid, ...], Field(strict=False, max_length=60)] = ()
    mounts: Annotated[tuple[Mount, ...], Field(strict=False, max_length=20)] = ()
    sectors: Annotated[tuple[Sector, ...], Field(strict=False, max_length=12)] = ()
    corner: Corner | None = None
    cable_type: Name | None = None
    cable_mm: PositiveMm | None = None
    plug_mm: NotNegativeMm | None = None
    guards: bool = False
    welded: bool = False
    note: Remark = ""
    source: Name = "typical size, common practice, no source"

    @property
    def loads(self) -> bool:
        """Whether it loads the mast where it stands: a boom's fitting, or what is welded on."""
        return self.welded or self.group == "boom"

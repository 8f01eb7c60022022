"""Adding to the rig: each item with only what must be known of it, everything else left unknown.

Every function returns the layout and the id of what is to be taken in hand.
"""

from collections.abc import Iterable, Mapping
from typing import Any, Literal

from mastlayout.model.around import AFT, AHEAD, Around
from mastlayout.model.edits import add, change, next_id
from mastlayout.model.fitting import MAST, Cable, OldHole
from mastlayout.model.layout import NAMED, Layout
from mastlayout.model.mast import Conduit, Run, Stretch, Wall
from mastlayout.model.rig import MastEnd, Side, Spreader, Stay
from mastlayout.model.sails import Halyard, Pole, Sail
from mastlayout.model.value import Value
from mastlayout.words import _

Added = tuple[Layout, str]
StayRole = Literal[
    "forestay", "backstay", "cap", "intermediate", "lower", "inner", "runner", "diamond", "jumper", "luff"
]
SailRole = Literal["main", "headsail", "code sail", "spinnaker", "staysail"]
# Both ends of these are on the mast.
ON_MAST: tuple[StayRole, ...] = ("diamond", "jumper")
_PAIRED: tuple[StayRole, ...] = ("cap", "intermediate", "lower", "runner", "diamond")
_SIDES: tuple[Side, Side] = ("port", "starboard")
_ENDS = (", P", ", S")


def names_of_stays() -> dict[StayRole, str]:
    """Return what each sort of stay is called."""
    return {
        "forestay": _("Forestay"), "inner": _("Inner forestay"), "backstay": _("Backstay"),
        "cap": _("Cap shroud"), "intermediate": _("Intermediate shroud"), "lower": _("Lower shroud"),
        "runner": _("Runner"), "diamond": _("Diamond"), "jumper": _("Jumper"), "luff": _("Free luff"),
    }  # fmt: skip


def names_of_sails() -> dict[SailRole, str]:
    """Return what each sort of sail is called."""
    return {
        "main": _("Mainsail"), "headsail": _("Headsail"), "staysail": _("Staysail"),
        "code sail": _("Code sail"), "spinnaker": _("Spinnaker"),
    }  # fmt: skip


def comes_in_pairs(role: StayRole) -> bool:
    """Tell whether there is one to port and one to starboard."""
    return role in _PAIRED


def pin_of(role: StayRole) -> Around:
    """Return where round the mast the upper pin of a stay is, to starboard for one of a pair."""
    if comes_in_pairs(role):
        return Around(origin="bearing", offset=90.0)
    return AFT if role == "backstay" else AHEAD


def mirrored(around: Around) -> Around:
    """Return the same place on the other side."""
    if around.origin == "bearing":
        return around.but(offset=-around.offset % 360.0)
    return around.but(offset=-around.offset) if around.offset else around


def add_spreaders(layout: Layout, from_masthead_mm: float) -> Added:
    """Add a pair of spreaders; the one to port is taken in hand."""
    name = free_name(layout, _("Spreader"), _ENDS)
    pair = [
        {"name": name + end, "side": side, "from_masthead_mm": from_masthead_mm}
        for side, end in zip(_SIDES, _ENDS, strict=True)
    ]
    return _each(layout, "spreaders", "spreader", Spreader, *pair)


def add_strut(layout: Layout, from_masthead_mm: float) -> Added:
    """Add a jumper strut ahead."""
    name = free_name(layout, _("Jumper strut"))
    strut = {"name": name, "role": "strut", "side": "centre", "from_masthead_mm": from_masthead_mm}
    return _each(layout, "spreaders", "strut", Spreader, strut)


def add_stays(layout: Layout, role: StayRole, from_masthead_mm: float, girth: Around) -> Added:
    """Add a stay, or a pair of them; ``girth`` is that of the one to starboard."""
    called = names_of_stays()[role]
    stem = called.lower().replace(" ", "-")
    if not comes_in_pairs(role):
        upper = MastEnd(from_masthead_mm=from_masthead_mm, girth=girth)
        one = {"name": free_name(layout, called), "role": role, "upper": upper}
        return _each(layout, "stays", stem, Stay, one)
    name = free_name(layout, called, _ENDS)
    pair = [
        {
            "name": name + end,
            "role": role,
            "side": side,
            "upper": MastEnd(from_masthead_mm=from_masthead_mm, girth=around),
        }
        for side, end, around in zip(_SIDES, _ENDS, (mirrored(girth), girth), strict=True)
    ]
    return _each(layout, "stays", stem, Stay, *pair)


def add_sail(layout: Layout, role: SailRole) -> Added:
    """Add a sail."""
    sail = {"name": free_name(layout, names_of_sails()[role]), "role": role}
    return _each(layout, "sails", role.replace(" ", "-"), Sail, sail)


def add_halyard(layout: Layout, called: str, rope_mm: float) -> Added:
    """Add a halyard or other line of a rope; nothing is known of its way."""
    line = {"name": free_name(layout, called), "rope_mm": rope_mm}
    return _each(layout, "halyards", "halyard", Halyard, line)


def add_pole(layout: Layout, length_mm: float, ring_from_mm: float, ring_to_mm: float) -> Added:
    """Add a spinnaker or whisker pole with the run of its ring on the mast."""
    sizes = {"length_mm": length_mm, "ring_from_mm": ring_from_mm, "ring_to_mm": ring_to_mm}
    return _each(layout, "poles", "pole", Pole, {"name": free_name(layout, _("Pole")), **sizes})


def add_cable(layout: Layout, fitting: str | None = None) -> Added:
    """Add a cable, of a fitting where it is known which."""
    owner = next((one.name for one in layout.fittings if one.id == fitting), "")
    name = free_name(layout, _("Cable of {name}").format(name=owner) if owner else _("Cable"))
    return _each(layout, "cables", "cable", Cable, {"name": name, "fitting": fitting})


def add_conduit(layout: Layout) -> Added:
    """Add a conduit: it may lie anywhere over the mast's whole length until somebody looked."""
    everywhere = Run(from_masthead_mm=0.0, to_mm=layout.mast.length_mm)
    pipe = {"name": free_name(layout, _("Conduit")), "runs": (everywhere,)}
    return _each(layout, "conduits", "conduit", Conduit, pipe)


def add_old_hole(layout: Layout, from_masthead_mm: float, girth: Around, diameter_mm: float | None) -> Added:
    """Add a hole that is there already and belongs to nothing that is entered."""
    place = {"from_masthead_mm": from_masthead_mm, "girth": girth, "diameter_mm": diameter_mm}
    return _each(layout, "holes", "old-hole", OldHole, {"name": free_name(layout, _("Old hole")), **place})


def add_wall(layout: Layout, from_masthead_mm: float, thickness_mm: float) -> Added:
    """Add a reading of the wall."""
    wall = Wall(from_masthead_mm=from_masthead_mm, thickness_mm=thickness_mm)
    return change(layout, MAST, walls=(*layout.mast.walls, wall)), MAST


def add_stretch(layout: Layout, kind: str, from_masthead_mm: float, to_mm: float) -> Added:
    """Add a sleeve, a weld, a pitted zone, the partners' wedges or foam."""
    stretch = Stretch.model_validate({"kind": kind, "from_masthead_mm": from_masthead_mm, "to_mm": to_mm})
    return change(layout, MAST, stretches=(*(layout.mast.stretches or ()), stretch)), MAST


def free_name(layout: Layout, called: str, ends: Iterable[str] = ("",)) -> str:
    """Return a name that nothing has yet, with any of the ends behind it: Spreader, Spreader 2, …."""
    given = {item.name for part in NAMED for item in getattr(layout, part)}
    given |= {pipe.name for pipe in layout.mast.conduits or ()}
    ends = tuple(ends)
    tried = (called if n == 1 else f"{called} {n}" for n in range(1, len(given) + 2))
    return next(name for name in tried if not any(name + end in given for end in ends))


def _each(layout: Layout, part: str, stem: str, model: type[Value], *items: Mapping[str, Any]) -> Added:
    """Add items of a model, each with the next free id; the first is taken in hand."""
    first = ""
    for item in items:
        name = next_id(layout, stem)
        first = first or name
        given = {key: value for key, value in item.items() if value is not None}
        layout = add(layout, part, model.model_validate({"id": name, **given}))
    return layout, first

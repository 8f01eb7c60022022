"""What the catalogue says of a kind: its group, its size, and what of it is only typical yet."""

import numpy as np

from mastlayout.geometry.placed import body_of
from mastlayout.model.kind import Kind
from mastlayout.ui.typed import written, written_size
from mastlayout.units import Units
from mastlayout.words import _, ngettext

# The order in which groups stand in the list: what is most often added in a refit comes first.
GROUPS = (
    "radar", "reflector", "light", "antenna", "wind", "sound", "camera", "halyard", "boom", "pole", "deck",
    "masthead", "bracket", "guard", "foot", "stay", "spreader",
)  # fmt: skip


def group_words(group: str) -> str:
    """Return the head of a group, with the words under which people look for it."""
    return {
        "radar": _("Radar"), "reflector": _("Radar reflectors"), "light": _("Lights"),
        "antenna": _("Antennas and domes"), "wind": _("Wind gear"),
        "sound": _("Hailers, horns, loudspeakers"),
        "camera": _("Cameras"), "halyard": _("Halyards: exits, sheaves, blocks, eyes"),
        "boom": _("Boom and luff: gooseneck, vang, track"), "pole": _("Pole: track, car, ring"),
        "deck": _("Cleats, winches, clutches, steps, cable exits"), "masthead": _("Masthead: crane, rod"),
        "bracket": _("Brackets"), "guard": _("Guards"), "foot": _("Feet and pads"),
        "stay": _("Tangs of stays and shrouds"), "spreader": _("Roots of spreaders and struts"),
    }[group]  # fmt: skip


def size_words(kind: Kind, units: Units) -> str:
    """Return how large a kind is: across, along and off its host, and its mass."""
    solids = body_of(kind).solids
    size = [float(solids.support(axis).max() + solids.support(-axis).max()) for axis in np.eye(3)]
    words = " × ".join(written(side, units) for side in size)
    return words if kind.mass_kg is None else f"{words},  {kind.mass_kg:g} kg"


def typical_words(kind: Kind, units: Units) -> str:
    """Say what of a kind is only typical until the part is in hand."""
    parts = []
    if kind.foot is not None:
        size = f"{written(kind.foot.across_mm, units, 1)} × {written(kind.foot.along_mm, units, 1)}"
        parts.append(_("foot {size}").format(size=size))
        many = len(kind.foot.holes)
        if many:
            parts.append(ngettext("{n} hole", "{n} holes", many).format(n=many))
    if kind.cable_mm is not None:
        parts.append(_("cable ⌀ {size}").format(size=written_size(kind.cable_mm, units)))
    if not parts:
        parts.append(_("shape and mass") if kind.mass_kg is not None else _("shape"))
    return _("Typical: {what}").format(what=", ".join(parts))


def holds(kind: Kind, words: list[str]) -> bool:
    """Tell whether every word stands in a kind's name or its group's."""
    text = f"{kind.name} {group_words(kind.group)} {kind.group}".casefold()
    return all(word in text for word in words)

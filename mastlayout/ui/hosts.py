"""The hosts a fitting can be hung on, in words, and its place on one near the height in hand."""

import numpy as np

from mastlayout.checks.sentence import names_of
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.scene import Scene
from mastlayout.model.around import AFT, AHEAD, Around
from mastlayout.model.fitting import MAST
from mastlayout.model.hosting import Offer, Place
from mastlayout.model.kind import Kind, Seat
from mastlayout.model.layout import Layout
from mastlayout.words import _

_STEP_MM = 5.0
_BELOW_DEG = 180.0


def offer_words(layout: Layout, offer: Offer) -> str:
    """Call a host by name: "Mast", "Spreader, P", "Radar bracket: platform"."""
    name = names_of(layout).get(offer.on, offer.on)
    return f"{name}: {offer.mount}" if offer.mount else name


def seats_words(kind: Kind) -> str:
    """Say what a kind is made to sit on; "" where nobody said."""
    words: dict[Seat, str] = {
        "mast": _("the mast"), "spreader": _("a spreader"), "stay": _("a stay"),
        "mount up": _("a mount that faces up, such as a bracket's or a crane's"),
        "mount out": _("another fitting's mount"),
    }  # fmt: skip
    return _(" or ").join(words[seat] for seat in kind.sits_on or ())


def first_girth(kind: Kind) -> Around:
    """Return the face on which a kind most often sits: what holds the boom aft, all else ahead."""
    return AFT if kind.group == "boom" else AHEAD


def place_on(scene: Scene, offer: Offer, z_mm: float, kind: Kind, girth: Around | None = None) -> Place:
    """Return a place on a host: at the height in hand where it reaches there, else near its middle."""
    length = scene.skin.length_mm
    if offer.on == MAST:
        z = min(max(z_mm, 0.0), length)
        return Place(from_masthead_mm=round(height_mm(length, z), 2), girth=girth or first_girth(kind))
    if offer.seat == "spreader":
        half = (scene.spreaders[offer.on].item.length_mm or 0.0) / 2
        below = 0.0 if kind.group == "antenna" else _BELOW_DEG
        return Place(on=offer.on, along_mm=round(half, 1), round_deg=below)
    if offer.seat == "stay":
        return Place(on=offer.on, along_mm=_along_stay(scene, offer.on, z_mm))
    return Place(on=offer.on, mount=offer.mount)


def _along_stay(scene: Scene, name: str, z_mm: float) -> float:
    """Return how far from its lower end a stay is nearest to a height; 0 where nobody knows its ends."""
    stay = scene.stays[name]
    if stay.length_mm is None:
        return 0.0
    along = np.arange(0.0, stay.length_mm, _STEP_MM)
    points, _up = stay.at(along)
    return float(along[np.argmin(np.abs(points[:, 2] - z_mm))])

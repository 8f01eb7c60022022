"""Small pictures of where to hold the tape: each 31 mm wide and 18 mm high, not to scale."""

from mastlayout.documents.page import Mark
from mastlayout.documents.pictures.inside import cable, conduit, foot, halyard, hole, slot, wall
from mastlayout.documents.pictures.main import boom, headboard
from mastlayout.documents.pictures.mast import boat, rake, section, tape, water
from mastlayout.documents.pictures.poles import pole
from mastlayout.documents.pictures.rig import sail, spreader, stay, swivel, tied
from mastlayout.documents.pictures.sails import corners, foretriangle, luff, perpendicular

PICTURES = {
    drawn.__name__: drawn
    for drawn in (
        boat, boom, cable, conduit, corners, foot, foretriangle, halyard, headboard, hole, luff,
        perpendicular, pole, rake, sail, section, slot, spreader, stay, swivel, tape, tied, wall, water,
    )
}  # fmt: skip


def picture(name: str) -> tuple[Mark, ...]:
    """Return the marks of a picture from its top left corner; KeyError where there is none."""
    return tuple(PICTURES[name]())

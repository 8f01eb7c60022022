"""A free point as it is typed: its reading from the masthead, and where round or off the mast."""

from collections.abc import Sequence

import numpy as np

from mastlayout.errors import EditError
from mastlayout.geometry.frames import bearing_of, height_mm
from mastlayout.geometry.spot import InSpace, OnSkin, end_of
from mastlayout.ui.measuring.words import skin_phrase
from mastlayout.ui.session import Session
from mastlayout.ui.typed import typed_girth, typed_length, written
from mastlayout.words import _

# A point farther off than this is no place on a yacht.
_FARTHEST_MM = 50_000.0


def fields_of(session: Session, spot: OnSkin | InSpace) -> Sequence[tuple[str, str, str]]:
    """Return the name, the text and the tip of each field of a free point."""
    from_masthead = height_mm(session.desk.scene.skin.length_mm, spot.z_mm)
    height = (
        _("from the masthead"),
        written(from_masthead, session.units, 1),
        _("From the masthead, in any unit"),
    )
    if isinstance(spot, OnSkin):
        tip = _("“ahead”, “aft”, “bearing 285”, “44 to port of ahead”, “30 to starboard of aft”")
        return (height, (_("round the skin"), skin_phrase(session, spot), tip))
    ahead, port = (written(value, session.units, 1) for value in (spot.ahead_mm, spot.port_mm))
    return (
        height,
        (_("ahead of the mast's axis"), ahead, _("Ahead of the mast's axis; aft of it with a minus")),
        (_("to port of the mast's axis"), port, _("To port of the mast's axis; to starboard with a minus")),
    )


def retyped(session: Session, spot: OnSkin | InSpace, texts: Sequence[str]) -> OnSkin | InSpace:
    """Return a free point from the texts of its fields; EditError or UnitError says what is allowed."""
    skin, units = session.desk.scene.skin, session.units
    z = height_mm(skin.length_mm, typed_length(texts[0], units))
    if isinstance(spot, InSpace):
        ahead, port = (typed_length(text, units) for text in texts[1:])
        if max(abs(ahead), abs(port), abs(z)) > _FARTHEST_MM:
            words = _("That is more than {most} off: no place on this yacht")
            raise EditError(words.format(most=written(_FARTHEST_MM, units)))
        return InSpace(ahead, port, z)
    if not 0.0 <= z <= skin.length_mm:
        words = _("{typed} is not on the mast: 0 to {length} from the masthead is allowed")
        raise EditError(words.format(typed=texts[0].strip(), length=written(skin.length_mm, units)))
    around = typed_girth(texts[1], units, skin.ring(z).half_girth_mm)
    return OnSkin(z, skin.girth_of(around, z))


def converted(session: Session, spot: OnSkin | InSpace, to: type[OnSkin] | type[InSpace]) -> OnSkin | InSpace:
    """Return a free point held to the skin instead of off it, or the other way round."""
    if isinstance(spot, to):
        return spot
    skin = session.desk.scene.skin
    if isinstance(spot, OnSkin):
        x, y, _z = (float(value) for value in np.round(np.asarray(end_of(session.desk.scene, spot).point), 1))
        return InSpace(x, y, spot.z_mm)
    z = min(max(spot.z_mm, 0.0), skin.length_mm)
    return OnSkin(z, skin.ring(z).girth_at_bearing(bearing_of(spot.ahead_mm, spot.port_mm)))

"""Putting what is in hand at another height, whatever it is; and its height in every datum."""

from mastlayout.geometry.frames import height_mm, reading, reading_of
from mastlayout.model.layout import Layout
from mastlayout.ui.hand.datums import Datum
from mastlayout.ui.hand.property import Property
from mastlayout.ui.moving.height import at_height, moved_name
from mastlayout.ui.session import Session, height_of
from mastlayout.ui.tapewords import tape_text
from mastlayout.ui.typed import written
from mastlayout.units import Units
from mastlayout.words import _


def height_in(session: Session, datum: Datum) -> Property:
    """Return the height in hand of what is in hand, read from one datum."""
    name, z = session.hand, height_of(session.desk, session.hand)
    length = session.desk.scene.skin.length_mm

    def take(text: str) -> Layout:
        return at_height(session.layout, name, height_mm(length, datum.typed_z(text, session.units)))

    step = _("Move {name}").format(name=moved_name(session.layout, name))
    if z is None or datum.lacks is not None:
        return Property(name, datum.key, datum.label, datum.name, "", datum.tip, step)
    text = _reading(datum, z, session.units)
    return Property(name, datum.key, datum.label, datum.name, text, "", step, take=take)


def _reading(datum: Datum, z_mm: float, units: Units) -> str:
    if datum.key not in ("masthead", "heel"):
        return written(datum.read(z_mm), units)
    read = reading_of(z_mm, datum.length_mm, units)
    return tape_text(read, read.masthead if datum.key == "masthead" else read.heel)


def total_text(session: Session) -> str:
    """Return the length that every pair of readings adds up to."""
    read = reading(0.0, session.desk.scene.skin.length_mm, session.units)
    return tape_text(read, read.total)

"""Putting what is in hand at another height, whatever it is; and its height in every datum."""

from mastlayout.checks.sentence import names_of
from mastlayout.errors import EditError
from mastlayout.geometry.frames import height_mm, reading
from mastlayout.model.edits import change, item_of, refuse_as_built
from mastlayout.model.fitting import MAST, Fitting, OldHole
from mastlayout.model.layout import Layout
from mastlayout.model.rig import Spreader, Stay
from mastlayout.ui.elevation.tape import tape_text
from mastlayout.ui.hand.datums import Datum
from mastlayout.ui.hand.property import Property
from mastlayout.ui.hand.typed import written
from mastlayout.ui.session import Session, height_of
from mastlayout.units import Units
from mastlayout.words import _


def at_height(layout: Layout, name: str, from_masthead_mm: float) -> Layout:
    """Return the layout with a thing at another height; EditError where its height is not its own."""
    _part, item = item_of(layout, name)
    match item:
        case Fitting():
            _refuse_where_fixed(layout, item)
            return change(layout, name, from_masthead_mm=from_masthead_mm)
        case Spreader() | OldHole():
            return change(layout, name, from_masthead_mm=from_masthead_mm)
        case Stay():
            return change(layout, name, upper=item.upper.but(from_masthead_mm=round(from_masthead_mm, 2)))
    raise EditError(_("{name} has no height of its own.").format(name=item.name))


def _refuse_where_fixed(layout: Layout, fitting: Fitting) -> None:
    if fitting.on != MAST:
        raise EditError(
            _("{name} stands on {host}: it goes where that goes.").format(
                name=fitting.name, host=names_of(layout).get(fitting.on, fitting.on)
            )
        )
    refuse_as_built(fitting, "from_masthead_mm")


def height_in(session: Session, datum: Datum) -> Property:
    """Return the height in hand of what is in hand, read from one datum."""
    name, z = session.hand, height_of(session.desk, session.hand)
    thing = names_of(session.layout).get(name, name)
    length = session.desk.scene.skin.length_mm

    def take(text: str) -> Layout:
        return at_height(session.layout, name, height_mm(length, datum.typed_z(text, session.units)))

    step = _("Move {name}").format(name=thing)
    if z is None or datum.lacks is not None:
        return Property(name, datum.key, datum.label, datum.name, "", datum.tip, step)
    text = _reading(datum, z, session.units)
    return Property(name, datum.key, datum.label, datum.name, text, "", step, take=take)


def _reading(datum: Datum, z_mm: float, units: Units) -> str:
    if datum.key not in ("masthead", "heel"):
        return written(datum.read(z_mm), units)
    read = reading(height_mm(datum.length_mm, z_mm), datum.length_mm, units)
    return tape_text(read, read.masthead if datum.key == "masthead" else read.heel)


def total_text(session: Session) -> str:
    """Return the length that every pair of readings adds up to."""
    read = reading(0.0, session.desk.scene.skin.length_mm, session.units)
    return tape_text(read, read.total)

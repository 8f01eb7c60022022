"""The properties of spreaders, stays and holes that are there already."""

from collections.abc import Iterator

from pydantic import ValidationError

from mastlayout.errors import EditError
from mastlayout.model.edits import change
from mastlayout.model.fitting import OldHole
from mastlayout.model.layout import Layout
from mastlayout.model.measure import measure_of
from mastlayout.model.rig import DeckEnd, Spreader, Stay
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.property import Property
from mastlayout.ui.hand.typed import typed_length
from mastlayout.ui.session import Session
from mastlayout.words import _

_STEEP_DEG = 90.0


def properties_of_spreader(session: Session, item: Spreader) -> Iterator[Property]:
    """Yield a spreader's length, sweep and rise, and its note."""
    make = Making(session, item.id, item.name)
    length = measure_of(Spreader, "length_mm")
    yield make.size("length_mm", _("Length"), item.length_mm, measure=length, above_0=True)
    for key, label, value in (
        ("sweep_deg", _("Sweep aft"), item.sweep_deg),
        ("rise_deg", _("Rise"), item.rise_deg),
    ):
        yield make.angle(key, label, value, -_STEEP_DEG, _STEEP_DEG, measure=measure_of(Spreader, key))
    yield make.words("note", _("Note"), item.note)


def properties_of_stay(session: Session, item: Stay) -> Iterator[Property]:
    """Yield a stay's wire, its lower end, its measured length and its note."""
    make = Making(session, item.id, item.name)
    wire, length = measure_of(Stay, "wire_mm"), measure_of(Stay, "length_mm")
    yield make.size("wire_mm", _("Wire"), item.wire_mm, measure=wire, above_0=True)
    if not item.ends_on_mast:
        yield _deck_end(make, item.deck)
    yield make.size("length_mm", _("Length, measured"), item.length_mm, measure=length, above_0=True)
    yield make.words("note", _("Note"), item.note)


def _deck_end(make: Making, deck: DeckEnd | None) -> Property:
    """Make one field of the three readings that fix a deck end; emptied, it is not known."""
    how = _("Ahead of the mast; off to its own side; above the heel: three lengths with “;” between them.")

    def take(text: str) -> Layout:
        return change(make.session.layout, make.of, deck=_read_deck(make, text, how))

    readings = (deck.ahead_mm, deck.off_mm, deck.above_mm) if deck else ()
    text = "; ".join(make.written(reading, 1) for reading in readings)
    tip = f"{how} {make.tip(measure_of(Stay, 'deck'))}"
    return make.typed("deck", _("Deck end"), text, take, make.change, tip)


def _read_deck(make: Making, text: str, how: str) -> DeckEnd | None:
    if not text.strip():
        return None
    parts = text.split(";")
    if len(parts) != 3:
        raise EditError(how)
    ahead, off, above = (round(typed_length(part, make.session.units), 2) for part in parts)
    try:
        return DeckEnd(ahead_mm=ahead, off_mm=off, above_mm=above)
    except ValidationError as error:
        raise EditError(how) from error


def properties_of_hole(session: Session, item: OldHole) -> Iterator[Property]:
    """Yield an old hole's diameter, where round the mast it is, its state and its note."""
    make = Making(session, item.id, item.name)
    across = measure_of(OldHole, "diameter_mm")
    yield make.size("diameter_mm", _("Diameter"), item.diameter_mm, measure=across, above_0=True)
    yield make.read("girth", _("Girth"), str(item.girth))
    yield make.read("state", _("State"), item.state)
    yield make.words("note", _("Note"), item.note)

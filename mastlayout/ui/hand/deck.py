"""A place on deck in one field: three readings, level and plumb from the heel, with “;” between them."""

from collections.abc import Sequence

from pydantic import ValidationError

from mastlayout.errors import EditError
from mastlayout.model.edits import change
from mastlayout.model.layout import Layout
from mastlayout.model.measure import Measure
from mastlayout.model.rig import DeckEnd
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.property import Property
from mastlayout.ui.typed import retyped_length
from mastlayout.words import _

# Digits of the readings that stand in one field, between “;”.
READINGS = 1


def on_deck(make: Making, key: str, label: str, deck: DeckEnd | None, measure: Measure) -> Property:
    """Make one field of the three readings that fix a place on deck; emptied, it is not known."""
    how = _("Ahead of the mast; off to its own side; above the heel: three lengths with “;” between them.")

    readings = (deck.ahead_mm, deck.off_mm, deck.above_mm) if deck else ()

    def take(text: str) -> Layout:
        return change(make.session.layout, make.of, **{key: _read(make, text, how, readings)})

    text = "; ".join(make.written(reading, READINGS) for reading in readings)
    return make.typed(key, label, text, take, make.change, f"{how} {make.tip(measure)}")


def _read(make: Making, text: str, how: str, readings: Sequence[float]) -> DeckEnd | None:
    if not text.strip():
        return None
    parts = text.split(";")
    if len(parts) != 3:
        raise EditError(how)
    ahead, off, above = (
        round(retyped_length(part, make.session.units, before, READINGS), 2)
        for part, before in zip(parts, readings or (None,) * 3, strict=True)
    )
    try:
        return DeckEnd(ahead_mm=ahead, off_mm=off, above_mm=above)
    except ValidationError as error:
        raise EditError(how) from error

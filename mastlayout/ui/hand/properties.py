"""The properties of what is in hand, whichever kind of thing it is."""

from collections.abc import Callable, Iterable
from typing import Any

from mastlayout.model.boat import Boat
from mastlayout.model.fitting import Cable, Fitting, OldHole
from mastlayout.model.mast import Conduit, Mast
from mastlayout.model.rig import Spreader, Stay
from mastlayout.model.sails import Halyard, Pole, Sail
from mastlayout.ui.hand.of_boat import properties_of_boat
from mastlayout.ui.hand.of_fitting import properties_of_fitting, properties_of_unplaced
from mastlayout.ui.hand.of_lines import properties_of_cable, properties_of_conduit, properties_of_halyard
from mastlayout.ui.hand.of_mast import properties_of_mast
from mastlayout.ui.hand.of_rig import properties_of_hole, properties_of_spreader, properties_of_stay
from mastlayout.ui.hand.of_sails import properties_of_pole, properties_of_sail
from mastlayout.ui.hand.property import Property
from mastlayout.ui.hand.things import item_in_hand
from mastlayout.ui.session import Session


def properties(session: Session) -> list[Property]:
    """Return the properties of what is in hand, heights apart."""
    item = item_in_hand(session)
    match item:
        case Fitting():
            placed = session.desk.scene.placed.get(item.id)
            return list(
                properties_of_fitting(session, placed) if placed else properties_of_unplaced(session, item)
            )
        case Mast():
            return list(properties_of_mast(session))
        case Boat():
            return list(properties_of_boat(session))
    made = _MADE.get(type(item))
    return list(made(session, item)) if made else []


_MADE: dict[type, Callable[[Session, Any], Iterable[Property]]] = {
    Spreader: properties_of_spreader,
    Stay: properties_of_stay,
    OldHole: properties_of_hole,
    Sail: properties_of_sail,
    Pole: properties_of_pole,
    Halyard: properties_of_halyard,
    Cable: properties_of_cable,
    Conduit: properties_of_conduit,
}

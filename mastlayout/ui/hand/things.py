"""What is in hand, whichever kind of thing it is."""

from mastlayout.checks.report import of_fitting, state_of
from mastlayout.checks.sentence import names_of
from mastlayout.errors import UnknownNameError
from mastlayout.model.edits import item_of
from mastlayout.model.fitting import Fitting, OldHole
from mastlayout.model.rig import Spreader, Stay
from mastlayout.ui.hand.of_fitting import properties_of_fitting
from mastlayout.ui.hand.of_rig import properties_of_hole, properties_of_spreader, properties_of_stay
from mastlayout.ui.hand.property import Property
from mastlayout.ui.session import Session


def item_in_hand(session: Session) -> Fitting | Spreader | Stay | OldHole | None:
    """Return what is in hand, None where it is nothing or has no place on the mast."""
    try:
        _part, item = item_of(session.layout, session.hand)
    except UnknownNameError:
        return None
    return item if isinstance(item, Fitting | Spreader | Stay | OldHole) else None


def properties(session: Session) -> list[Property]:
    """Return the properties of what is in hand, heights apart."""
    item = item_in_hand(session)
    match item:
        case Fitting():
            placed = session.desk.scene.placed.get(item.id)
            return list(properties_of_fitting(session, placed)) if placed else []
        case Spreader():
            return list(properties_of_spreader(session, item))
        case Stay():
            return list(properties_of_stay(session, item))
        case OldHole():
            return list(properties_of_hole(session, item))
    return []


def state_in_hand(session: Session) -> tuple[str, str]:
    """Return the state of what is in hand, and its loudest finding in one clause without its name."""
    report, name = session.desk.report, session.hand
    first = next(of_fitting(report, name), None)
    if first is None:
        return state_of(report, name), ""
    clause = session.desk.short(first, session.units)
    own = names_of(session.layout).get(name, name)
    return state_of(report, name), clause.removeprefix(f"{own}: ")

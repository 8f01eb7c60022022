"""What is in hand, whichever kind of thing it is."""

from mastlayout.checks.report import of_fitting, state_of
from mastlayout.checks.sentence import brief, measured_text, names_of, needed_text, thing
from mastlayout.errors import UnknownNameError
from mastlayout.model.edits import item_of
from mastlayout.model.fitting import Fitting, OldHole
from mastlayout.model.rig import Spreader, Stay
from mastlayout.ui.hand.of_fitting import properties_of_fitting
from mastlayout.ui.hand.of_rig import properties_of_hole, properties_of_spreader, properties_of_stay
from mastlayout.ui.hand.property import Property
from mastlayout.ui.session import Session
from mastlayout.words import _


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


def state_in_hand(session: Session) -> tuple[str, tuple[str, ...]]:
    """Return the state of what is in hand, and its loudest finding without its name, longest first.

    The thing's own name stands beside it; where room is short the figures go before the words.
    """
    report, name = session.desk.report, session.hand
    first = next(of_fitting(report, name), None)
    if first is None:
        return state_of(report, name), ()
    names = names_of(session.layout)
    happens = brief(report.scene, first, names)
    if name != first.things[0]:  # it is the other of two
        happens = f"{thing(report.scene, first, names)}: {happens}"
    measured, needed = measured_text(first, session.units), needed_text(first, session.units)
    clauses = (
        _("{what}: {measured}, needed {needed}").format(what=happens, measured=measured, needed=needed)
        if first.measured is not None and first.required
        else "",
        f"{happens}: {measured}" if measured else "",
        happens,
    )
    return state_of(report, name), tuple(clause for clause in clauses if clause)

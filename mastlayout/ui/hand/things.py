"""What is in hand, whichever kind of thing it is."""

from typing import Any

from mastlayout.checks.report import of_fitting, state_of
from mastlayout.checks.sentence import brief, measured_text, names_of, needed_text, thing
from mastlayout.errors import UnknownNameError
from mastlayout.model.edits import item_of
from mastlayout.model.fitting import Fitting, OldHole
from mastlayout.model.rig import Spreader, Stay
from mastlayout.ui.session import Session
from mastlayout.words import _


def item_in_hand(session: Session) -> Any:
    """Return what is in hand, None where it is nothing."""
    try:
        return item_of(session.layout, session.hand)[1]
    except UnknownNameError:
        return None


def has_height(session: Session) -> bool:
    """Tell whether what is in hand has a place on the mast, known or not."""
    return isinstance(item_in_hand(session), Fitting | Spreader | Stay | OldHole)


def state_in_hand(session: Session) -> tuple[str, tuple[str, ...]]:
    """Return the state of what is in hand, and its loudest finding without its name, longest first.

    The thing's own name stands beside it; where room is short the figures go before the words. No
    rule is about a sail or a line alone: where nothing is found of one it has no state, "".
    """
    report, name = session.desk.report, session.hand
    first = next(of_fitting(report, name), None)
    if first is None and not has_height(session):
        return "", ()
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

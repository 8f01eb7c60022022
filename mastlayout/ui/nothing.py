"""What a drawing of one height says where it cannot show what is in hand, and what to do about it."""

from mastlayout.checks.sentence import names_of
from mastlayout.geometry.placed import Placed
from mastlayout.model.measure import Measure, instructions
from mastlayout.ui.session import Session
from mastlayout.words import _


def missing_words(session: Session) -> str:
    """Return why what is in hand is not in the drawing; "" where it is, or could be."""
    scene, hand = session.desk.scene, session.hand
    if not hand:
        return _("Nothing in hand: pick a thing. Wheel and arrow keys move the height.")
    if hand in scene.unplaced:
        return _no_place(names_of(session.layout).get(hand, hand), scene.unplaced[hand])
    placed = scene.placed.get(hand)
    if placed is None or _foundation(placed).skin is not None:
        return ""
    return _off_the_mast(session, placed)


def _no_place(name: str, lacks: tuple[Measure, ...]) -> str:
    titles = ", ".join(dict.fromkeys(instructions()[measure.key].title for measure in lacks))
    return _("{name} has no place yet. Not known: {titles}.").format(name=name, titles=titles)


def _off_the_mast(session: Session, placed: Placed) -> str:
    host = names_of(session.layout).get(_foundation(placed).fitting.on, "")
    return _("{name} is on {host}, not on the mast.").format(name=placed.fitting.name, host=host)


def _foundation(placed: Placed) -> Placed:
    """Return the fitting that carries a fitting and stands on no other."""
    while isinstance(placed.host, Placed):
        placed = placed.host
    return placed

"""What is done to the thing in hand by menus and keys: turn, copy, mirror, remove; each one undo step."""

from collections.abc import Callable

from mastlayout.errors import MastLayoutError
from mastlayout.model.copying import copied
from mastlayout.model.edits import item_of, remove
from mastlayout.model.layout import Layout
from mastlayout.model.mirror import mirrored
from mastlayout.model.moving import turned
from mastlayout.ui.session import Session
from mastlayout.words import _

_QUARTER_DEG = 90.0


def turn_hand(session: Session, by_deg: float = _QUARTER_DEG) -> None:
    """Turn what is in hand in its foot, clockwise seen from outside."""
    _edit(session, lambda layout, name: turned(layout, name, by_deg), _("Turn {name}"))


def mirror_hand(session: Session) -> None:
    """Take what is in hand to the other side of the mast."""
    _edit(session, mirrored, _("Mirror {name}"))


def copy_hand(session: Session) -> None:
    """Copy what is in hand, and take the copy in hand."""
    made: list[str] = []

    def copy(layout: Layout, name: str) -> Layout:
        layout, another = copied(layout, name)
        made.append(another)
        return layout

    if _edit(session, copy, _("Copy {name}")):
        session.pick(made[0])


def remove_hand(session: Session) -> None:
    """Take what is in hand off the mast; what something else needs stays, with the reason said."""
    if _edit(session, remove, _("Remove {name}")):
        session.pick("")


def _edit(session: Session, edit: Callable[[Layout, str], Layout], step: str) -> bool:
    """Edit what is in hand as one undo step; where it is refused, say why and return False."""
    if not session.hand:
        return False
    try:
        _part, item = item_of(session.layout, session.hand)
        session.edit(edit(session.layout, session.hand), step.format(name=item.name))
    except MastLayoutError as error:
        session.said.emit(str(error))
        return False
    return True

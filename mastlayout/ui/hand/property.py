"""A property of what is in hand: its words, and the edit that a typed value makes."""

from collections.abc import Callable
from dataclasses import dataclass, field

from mastlayout.model.layout import Layout
from mastlayout.ui.hand.typed import not_known

# From what was typed to the edited layout; MastLayoutError says what is allowed instead.
Take = Callable[[str], Layout]


@dataclass(frozen=True)
class Property:
    """One property of the thing ``of``; ``take`` is None where it is only read.

    ``text`` is empty where the value is not known, and ``tip`` then says what to measure. ``step``
    names the undo step that an edit makes, ``empty`` stands where the text is empty.
    """

    of: str
    key: str
    label: str
    name: str
    text: str
    tip: str = ""
    step: str = ""
    empty: str = field(default_factory=not_known)
    take: Take | None = field(default=None, compare=False)

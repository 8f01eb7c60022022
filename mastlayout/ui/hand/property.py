"""A property of what is in hand: its words, and the edit that a typed value makes."""

from collections.abc import Callable
from dataclasses import field

from PySide6.QtWidgets import QDialog, QWidget

from mastlayout.frozen import dataclass
from mastlayout.model.layout import Layout
from mastlayout.ui.typed import not_known

# From what was typed to the edited layout; MastLayoutError says what is allowed instead.
Take = Callable[[str], Layout]


@dataclass(frozen=True)
class Property:
    """One property of the thing ``of``; ``take`` is None where it is only read.

    ``text`` is empty where the value is not known, and ``tip`` then says what to measure. ``step``
    names the undo step that an edit makes, ``empty`` stands where the text is empty. With
    ``choices`` (value and words) ``text`` is a value and ``take`` takes one; with ``opens`` a form
    or a table is typed in.
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
    choices: tuple[tuple[str, str], ...] = ()
    opens: Callable[[QWidget], QDialog] | None = field(default=None, compare=False)

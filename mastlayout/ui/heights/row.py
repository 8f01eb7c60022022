"""A line of the view "Aloft"."""

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass


@dataclass(frozen=True, eq=False)
class Row:
    """A line of the view: a heading, which has no figures, or what is known before, after and of the change.

    ``word`` stands behind the figure: what is highest, or whether a rule is met that asks for ``asked_mm``.
    """

    what: str
    before: Figure | None = None
    after: Figure | None = None
    change: Figure | None = None
    word: str = ""
    asked_mm: float | None = None

    @property
    def heads(self) -> bool:
        """Tell whether it is a heading."""
        return self.before is None and self.after is None and self.change is None

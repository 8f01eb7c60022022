"""What the words of one rule are."""

from mastlayout.frozen import dataclass
from mastlayout.words import _

# Of what no publication asks.
PRACTICE = _("common practice, no source")


@dataclass(frozen=True, eq=False)
class Wording:
    """What a rule asks, what its findings say in short, and what helps.

    ``a`` and ``b`` are the subjects, ``m`` the measured value, ``r`` the required one, ``s`` the state
    of what moves in which it is worst. ``brief`` and
    ``brief_deep`` say it without thing and figures, where these stand in places of their own. ``rule`` is
    the published rule it asks by, with its number; "" where a limit's source says it all.
    """

    asks: str
    short: str
    deep: str
    helps: str
    brief: str = ""
    brief_deep: str = ""
    rule: str = ""

    @property
    def published(self) -> str:
        """The published rule; "" where there is none."""
        return "" if self.rule == PRACTICE else self.rule

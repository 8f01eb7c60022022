"""One way in which a thing can go, with its ends; and the grip: the ways of one thing."""

from collections.abc import Callable
from dataclasses import field
from typing import Literal

from mastlayout.frozen import dataclass
from mastlayout.model.around import Around
from mastlayout.model.layout import Layout
from mastlayout.words import _

WayName = Literal["along", "round", "off"]
Unit = Literal["mm", "girth", "degrees"]
_FAR = float("inf")


@dataclass(frozen=True, eq=False)
class Way:
    """One way a thing can go: where it is ``now``, its ends, and the edit that takes it elsewhere.

    A girth and an angle run on round and have no ends. ``why`` says what keeps a thing from going
    this way, ``ends`` what is said where it is held at the low or the high end. ``up`` is -1 where
    going up makes the number less: a reading from the masthead.
    """

    unit: Unit
    now: float = 0.0
    take: Callable[[Layout, float | Around], Layout] | None = None
    why: str = ""
    low: float = -_FAR
    high: float = _FAR
    ends: tuple[str, str] = ("", "")
    up: float = 1.0

    def held(self, value: float) -> tuple[float, str]:
        """Return a value between the ends, and what is said of it where it had to be held there."""
        if value < self.low:
            return self.low, self.ends[0]
        if value > self.high:
            return self.high, self.ends[1]
        return value, ""


@dataclass(frozen=True, eq=False)
class Grip:
    """A thing and the ways it can go: along what it stands on, round it, and off it.

    ``mate`` is the id of what goes along with it, and ``moved`` what the undo step calls the two.
    """

    id: str
    name: str
    on: str
    along: Way
    round: Way
    off: Way = field(default_factory=lambda: Way("mm"))
    mate: str = ""
    moved: str = ""

    @property
    def step(self) -> str:
        """The name of the undo step that moves it."""
        return _("Move {name}").format(name=self.moved or self.name)

    def way(self, name: WayName) -> Way:
        """Return one of the ways."""
        ways: dict[WayName, Way] = {"along": self.along, "round": self.round, "off": self.off}
        return ways[name]

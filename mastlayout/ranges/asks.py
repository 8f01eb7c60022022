"""What a published rule asks, and whether it is met: yes, no, or nobody knows."""

from typing import Literal

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass

Answer = Literal["yes", "no", "unknown"]


@dataclass(frozen=True, eq=False)
class Ask:
    """One row of a rule: what it asks, the figure that answers, and the answer.

    ``most`` tells that the figure must not be more than ``required``, rather than not less.
    """

    key: str
    words: str
    required: float
    figure: Figure
    answer: Answer
    source: str
    most: bool = False


def answered(value: float | None, required: float, *, most: bool = False) -> Answer:
    """Hold a value to what is asked; one not known is neither."""
    if value is None:
        return "unknown"
    return "yes" if (value <= required if most else value >= required) else "no"

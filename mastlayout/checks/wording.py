"""What the words of one rule are."""

from dataclasses import dataclass


@dataclass(frozen=True, eq=False)
class Wording:
    """What a rule asks, what its findings say in short, and what helps.

    ``a`` and ``b`` are the subjects, ``m`` the measured value, ``r`` the required one, ``s`` the state
    of what moves in which it is worst. ``brief`` and
    ``brief_deep`` say it without thing and figures, where these stand in places of their own.
    """

    asks: str
    short: str
    deep: str
    helps: str
    brief: str = ""
    brief_deep: str = ""

"""A finding: what a rule says of a layout as it stands."""

from functools import cached_property
from typing import Literal

from mastlayout.frozen import dataclass

Standing = Literal["fault", "caution", "not checked", "note"]
# Loud to quiet; what was not checked outranks a note, and all outrank silence.
STANDINGS: tuple[Standing, ...] = ("fault", "caution", "not checked", "note")
Unit = Literal["mm", "deg", "%", "V", "NM", "m²", "dB", ""]
# What a finding is about, whatever its figure: its code, its subjects, and the measure that is missing.
Key = tuple[str, frozenset[str], str | None]


@dataclass(frozen=True)
class Finding:
    """One finding.

    ``code`` never changes. ``subjects`` are ids, the fitting first. ``measured`` and ``required``
    are in ``unit``, None where nothing was measured. ``limit`` names an entry of the limits,
    ``measure`` an instruction of the measure list when something is not known. ``z_mm`` is the
    height of the worst point along the mast, from the heel. ``state`` names, in words, the
    state of what moves in which it is worst: "first reef, luff sagged"; "" where there is only one.
    ``hint`` is a word more on what helps, by its key in ``HINTS``.
    """

    code: str
    standing: Standing
    subjects: tuple[str, ...]
    measured: float | None = None
    required: float | None = None
    unit: Unit = "mm"
    limit: str | None = None
    measure: str | None = None
    z_mm: float | None = None
    typical: bool = False
    state: str = ""
    hint: str = ""

    def __hash__(self) -> int:
        # Reports are compared with every move of a drag; equal findings have equal codes and subjects.
        return hash((self.code, self.subjects))

    @cached_property
    def things(self) -> tuple[str, ...]:
        """The ids of what it is about, a hole's fitting standing for the hole."""
        return tuple(subject.partition("/")[0] for subject in self.subjects)

    @cached_property
    def key(self) -> Key:
        """What it is about, whichever subject it was found from; a missing measure is a matter of its own."""
        return self.code, frozenset(self.subjects), self.measure

    @cached_property
    def likeness(self) -> tuple[object, ...]:
        """What it shares with findings that say the same of other holes of the fitting; see ``alike``."""
        owner, _slash, hole = self.subjects[0].partition("/")
        others = self.subjects[1:]
        measured = None if self.measured is None else round(self.measured, 1)
        # Two holes of one foot against each other are a pair of their own.
        apart = self.subjects if not hole or any(other.startswith(f"{owner}/") for other in others) else ()
        return self.code, self.standing, owner, others, self.required, measured, self.measure, apart

    @cached_property
    def rank(self) -> tuple[int, float, str, tuple[str, ...]]:
        """Its place among others: fault, caution, not checked, note; each from the masthead down."""
        height = -(self.z_mm if self.z_mm is not None else 0.0)
        return STANDINGS.index(self.standing), height, self.code, self.subjects


def loud_first(finding: Finding) -> tuple[int, float, str, tuple[str, ...]]:
    """Sort findings loud to quiet."""
    return finding.rank

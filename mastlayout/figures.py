"""A number with how it was found: its formula, what went in, and whose formula it is."""

from collections.abc import Mapping
from dataclasses import field

from mastlayout.frozen import dataclass


@dataclass(frozen=True, eq=False)
class Figure:
    """A computed number that can show its working.

    ``formula`` is written in plain words and symbols; ``inputs`` are the named numbers that went
    in, units in their names; ``value`` is None where an input is not known, and ``missing`` says which.
    """

    name: str
    value: float | None
    unit: str
    formula: str
    source: str
    inputs: Mapping[str, float] = field(default_factory=dict)
    missing: str | None = None

"""How long the benchmarks measure: in full, or short, as CI does after every change.

The short form (MASTLAYOUT_BENCHMARKS=short) measures the same things against the same limits with
fewer frames and turns: it shows what has grown, and a figure near its limit wants the full form.
"""

import os

SHORT = os.environ.get("MASTLAYOUT_BENCHMARKS") == "short"


def turns(full: int, short: int) -> int:
    """How many turns a measurement takes."""
    return short if SHORT else full

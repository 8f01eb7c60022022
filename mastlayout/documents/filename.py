"""Names of files."""

import re

_LONGEST_NAME = 60


def file_stem(yacht: str) -> str:
    """Return a yacht's name as the beginning of a file name that every system takes."""
    stem = re.sub(r"[^\w]+", "-", yacht.lower()).strip("-_")[:_LONGEST_NAME].strip("-")
    return stem or "mast"

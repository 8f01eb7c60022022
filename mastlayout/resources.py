"""Where the program's own data lies: in a checkout beside the package, in a wheel inside it."""

from pathlib import Path

_PACKAGE = Path(__file__).parent


def resources() -> Path:
    """Return the folder of limits, catalogue, tables and fonts."""
    return _inside_or_beside("resources")


def demo_masts() -> Path:
    """Return the folder of the example layouts."""
    return _inside_or_beside("demo_masts")


def _inside_or_beside(name: str) -> Path:
    inside = _PACKAGE / f"_{name}"
    return inside if inside.is_dir() else _PACKAGE.parent / name

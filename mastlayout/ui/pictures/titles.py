"""Which views a picture can be taken of."""

from mastlayout.words import _

VIEWS = ("elevation", "rig", "section", "skin")


def title(view: str) -> str:
    """Return what a view is called."""
    return {
        "elevation": _("Elevation"), "rig": _("Whole rig"), "section": _("Section from above"),
        "skin": _("Skin unrolled"),
    }[view]  # fmt: skip

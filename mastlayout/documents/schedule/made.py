"""What of a fitting is made already, in a word or two; apart, so that the window needs no sheet for it."""

from mastlayout.geometry.placed import Placed
from mastlayout.model.fitting import is_made
from mastlayout.words import _

# What a tape cannot tell apart.
SAME_MM = 0.25


def made_words(placed: Placed) -> str:
    """Return what of a new fitting is made already, in a word or two: as built, drilled, 1 of 4 drilled."""
    fitting = placed.fitting
    if fitting.as_built is not None:
        return _("as built")
    if placed.holes is None or not fitting.new:
        return ""
    made = [is_made(fitting, opening.number) for opening in placed.holes.openings]
    if not any(made):
        return ""
    return _("drilled") if all(made) else _("{n} of {many} drilled").format(n=sum(made), many=len(made))

"""What is chosen for a hole, in words: as it is bought, and how it holds."""

from mastlayout.fastening.choice import Choice
from mastlayout.fastening.curve import packer_of
from mastlayout.fastening.tables import is_metric
from mastlayout.geometry.placed import Placed
from mastlayout.model.kind import Fastener
from mastlayout.units import MM_PER_INCH, Units, write_size
from mastlayout.words import _


def bought_as(choice: Choice) -> str:
    """Return a fastener as it is asked for: M6 × 12 tapped, rivet 4.8 × 12; its length where one is sold."""
    fastener, length = choice.fastener, choice.grip.length_mm if choice.grip else choice.length_mm
    if length is None:
        return fastener.size
    size = _length(fastener, length)
    if fastener.how == "rivet":
        return _("rivet {size} × {length}").format(size=f"{fastener.rivet_mm:g}", length=size)
    return f"{fastener.thread} × {size} {fastener.how}"


def _length(fastener: Fastener, length_mm: float) -> str:
    """Write a length as it is sold: unified screws in inches, all others in millimetres."""
    if fastener.thread and not is_metric(fastener.thread):
        return _("{inches:g} in").format(inches=length_mm / MM_PER_INCH)
    return f"{round(length_mm, 1):g}"


def holds_by(choice: Choice, units: Units) -> tuple[str, ...]:
    """Return how a fastener holds, in clauses: threads or grip, a tube to cut, how far it stands inside."""
    said = []
    if choice.threads is not None:
        said.append(_("{count:.1f} threads").format(count=int(choice.threads * 10 + 1e-6) / 10))
    if choice.grip:
        low, high = (write_size(size, units=units) for size in (choice.grip.low_mm, choice.grip.high_mm))
        said.append(_("grips {low} to {high}").format(low=low, high=high))
    if choice.fastener.how == "rivet" and choice.grip is None:
        said.append(_("no rivet listed for {stack}").format(stack=write_size(choice.stack_mm, units=units)))
    if choice.tube_mm is not None:
        said.append(_("tube {tube}").format(tube=write_size(choice.tube_mm, units=units)))
    elif choice.inside_mm is not None:
        inside = write_size(choice.inside_mm, units=units)
        unset = _("{inside} inside, unset") if choice.grip else _("{inside} inside")
        said.append(unset.format(inside=inside))
    return tuple(said)


def not_chosen_words(placed: Placed) -> str:
    """Return what is waited for where nothing is chosen for a fitting: wall, or radius of its foot."""
    skin, foot = placed.skin, placed.foot
    if skin is not None and foot is not None and packer_of(skin, foot, placed.places) is None:
        return _("after the foot’s radius is measured")
    return _("after the wall is measured")

"""What to bring to the mast for one face, from the rows that may be drilled or marked."""

from collections import Counter
from collections.abc import Iterator

from mastlayout.ui.trestles.walk import Walk
from mastlayout.units import write_drill
from mastlayout.words import _


def bring(walk: Walk) -> Iterator[str]:
    """Yield what the holes still to do want: drills with pilot and stop, then fasteners, counted."""
    todo = [hole.row for hole in walk.holes if hole.state == "to drill"]
    if not todo:
        if walk.holes or walk.typical:
            yield _("tape, square, pencil")
        yield _("no drill: nothing may be drilled")
        return
    for size, how in dict.fromkeys((row.drill_mm, row.how) for row in todo):
        if size is None:
            continue
        words = _("drill {size}").format(size=write_drill(size, walk.head.units))
        yield f"{words}: {how}" if how else words
    for fastener, many in Counter(row.fastener for row in todo).items():
        yield f"{many} × {fastener}"
    yield _("tape, pencil, centre punch, file")

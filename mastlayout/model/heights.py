"""Heights against the mast's length, and stretches against themselves."""

from collections.abc import Iterator

from mastlayout.model.layout import Layout
from mastlayout.model.mast import Mast, Taper
from mastlayout.model.parts import Parts, Path, PathMistake
from mastlayout.words import _


def height_mistakes(layout: Layout | Parts) -> Iterator[PathMistake]:
    """Tell each height that is not on the mast, and each stretch that is upside down."""
    mast = layout.mast
    if mast is None:
        return
    for path, height_mm in (*_on_mast(mast), *_of_rig(layout), *_of_items(layout)):
        if height_mm is not None and not 0 <= height_mm <= mast.length_mm:
            yield PathMistake(path, _off_the_mast(str(path[-1]), height_mm, mast.length_mm))
    yield from _upside_down(mast)


def _off_the_mast(key: str, height_mm: float, length_mm: float) -> str:
    sentence = (
        _("{key} {height} is above the masthead: 0 to {length} is allowed")
        if height_mm < 0
        else _("{key} {height} is below the heel: 0 to {length} is allowed")
    )
    return sentence.format(key=key, height=_said(height_mm), length=_said(length_mm))


def _said(length_mm: float) -> str:
    return f"{round(length_mm, 2):,.10g}"


_Height = tuple[Path, float | None]


def _on_mast(mast: Mast) -> Iterator[_Height]:
    yield ("mast", "gooseneck"), mast.gooseneck_mm
    if mast.track:
        yield ("mast", "track", "lower_end"), mast.track.lower_end_mm
    if isinstance(mast.taper, Taper):
        yield ("mast", "taper", "from_masthead"), mast.taper.from_masthead_mm
    for at, wall in enumerate(mast.walls):
        yield ("mast", "walls", at, "from_masthead"), wall.from_masthead_mm
    yield from _slots(mast)
    for at_run, top_mm, bottom_mm in _stretches(mast):
        yield (*at_run, "from_masthead"), top_mm
        yield (*at_run, "to"), bottom_mm


def _slots(mast: Mast) -> Iterator[tuple[Path, float]]:
    for at, conduit in enumerate(mast.conduits or ()):
        for place, slot in enumerate(conduit.slots or ()):
            yield ("mast", "conduits", at, "slots", place, "from_masthead"), slot.from_masthead_mm


def _stretches(mast: Mast) -> Iterator[tuple[Path, float, float]]:
    """Yield path, upper and lower end of each conduit run and each stretch."""
    for at, conduit in enumerate(mast.conduits or ()):
        for place, run in enumerate(conduit.runs):
            yield ("mast", "conduits", at, "runs", place), run.from_masthead_mm, run.to_mm
    for at, stretch in enumerate(mast.stretches or ()):
        yield ("mast", "stretches", at), stretch.from_masthead_mm, stretch.to_mm


def _upside_down(mast: Mast) -> Iterator[PathMistake]:
    for path, top_mm, bottom_mm in _stretches(mast):
        if bottom_mm < top_mm:
            yield PathMistake(
                (*path, "to"),
                _(
                    "to {bottom} is above from_masthead {top}: the upper end comes first, "
                    "both count down from the masthead"
                ).format(bottom=_said(bottom_mm), top=_said(top_mm)),
            )


def _of_rig(layout: Layout | Parts) -> Iterator[_Height]:
    for at, spreader in enumerate(layout.spreaders):
        yield ("spreaders", at, "from_masthead"), spreader.from_masthead_mm
    for at, stay in enumerate(layout.stays):
        yield ("stays", at, "upper", "from_masthead"), stay.upper.from_masthead_mm
        if stay.lower:
            yield ("stays", at, "lower", "from_masthead"), stay.lower.from_masthead_mm
    for at, sail in enumerate(layout.sails):
        yield ("sails", at, "upper_mark"), sail.upper_mark_mm
        yield ("sails", at, "lower_mark"), sail.lower_mark_mm
    for at, pole in enumerate(layout.poles):
        yield ("poles", at, "ring_from"), pole.ring_from_mm
        yield ("poles", at, "ring_to"), pole.ring_to_mm
        yield ("poles", at, "stowed_top"), pole.stowed_top_mm
    for at, halyard in enumerate(layout.halyards):
        for place, point in enumerate(halyard.points):
            if point.girth is not None:
                yield ("halyards", at, "points", place, "from_masthead"), point.from_masthead_mm


def _of_items(layout: Layout | Parts) -> Iterator[_Height]:
    for at, fitting in enumerate(layout.fittings):
        yield ("fittings", at, "from_masthead"), fitting.from_masthead_mm
        if fitting.as_built:
            yield ("fittings", at, "as_built", "from_masthead"), fitting.as_built.from_masthead_mm
        for place, built in enumerate(fitting.holes_built):
            yield ("fittings", at, "holes_built", place, "from_masthead"), built.from_masthead_mm
    for at, hole in enumerate(layout.holes):
        yield ("holes", at, "from_masthead"), hole.from_masthead_mm
    for at, cable in enumerate(layout.cables):
        yield ("cables", at, "exit_from_masthead"), cable.exit_from_masthead_mm

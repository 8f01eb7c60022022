"""Rows of the view "Aloft": what is asked of reflectors and met, and what shadows the own radar."""

from collections.abc import Iterator, Mapping

from mastlayout.figures import Figure
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene, masthead_first
from mastlayout.ranges.asks import Ask
from mastlayout.ranges.reflector import is_reflector, reflector_row
from mastlayout.ranges.ring_words import between
from mastlayout.ranges.rings import InTheWay, rings_of
from mastlayout.ui.heights.row import Row
from mastlayout.words import _


def reflector_rows(scene: Scene) -> Iterator[Row]:
    """Yield a heading and a row for each thing that MSC.164(78) asks, for each reflector."""
    for placed in (one for one in masthead_first(scene) if is_reflector(one)):
        yield Row(_("{name}: what MSC.164(78) and ISO 8729-1 ask").format(name=placed.fitting.name))
        for ask in reflector_row(scene, placed).asked:
            yield Row(_capital(ask.words), None, ask.figure, None, answer_words(ask))


def answer_words(ask: Ask) -> str:
    """Say whether what is asked is met, and how much is asked; the working says what is missing."""
    answer = {"yes": _("yes"), "no": _("no"), "unknown": _("unknown")}[ask.answer]
    bound = _("at most") if ask.most else _("at least")
    return f"{answer}: {bound} {ask.required:g} {ask.figure.unit}".replace(" °", "°")


def shadow_rows(scene: Scene, placed: Placed, names: Mapping[str, str]) -> Iterator[Row]:
    """Yield what stands before a radar: how wide, where, and whether all of the antenna is covered."""
    for ring in rings_of(scene, placed):
        for thing in ring.in_the_way:
            yield _shadow(thing, names)


def _shadow(thing: InTheWay, names: Mapping[str, str]) -> Row:
    """Return the row of a sector in shadow: how wide, where, and whether all of the antenna is covered."""
    what = names.get(thing.id, thing.id)
    wide = (thing.seen[1] - thing.seen[0]) % 360.0
    where = _("{seen}, part of it").format(seen=between(thing.seen))
    if thing.dark is not None:
        where = _("{seen}, all {dark}").format(seen=between(thing.seen), dark=between(thing.dark))
    share = {"covered_share": thing.share}
    figure = Figure(
        _("in shadow"),
        wide,
        "°",
        _("bearings it covers, as wide as antenna and thing are"),
        _("geometry"),
        share,
    )
    return Row(_("Shadow of {what}").format(what=what), None, figure, None, where)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]

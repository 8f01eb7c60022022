"""Names that one item gives of another, and whether something answers to them."""

from collections.abc import Collection, Container, Iterable, Iterator

from mastlayout.errors import did_you_mean, nearest
from mastlayout.model.layout import Layout
from mastlayout.model.parts import Parts, Path, PathMistake
from mastlayout.words import _

LOOSE = "loose"


def reference_mistakes(
    layout: Layout | Parts, kind_names: Iterable[str], unread: Container[str]
) -> Iterator[PathMistake]:
    """Tell each kind, spreader, stay, fitting and conduit that is named and not there."""
    kinds = {kind.id for kind in layout.kinds}
    for at, fitting in enumerate(layout.fittings):
        if fitting.kind not in kinds and fitting.kind not in unread:
            known = {*kinds, *kind_names}
            yield unknown(("fittings", at, "kind"), _("a kind"), fitting.kind, known)
    for path, what, name, among in (*_rig(layout), *_lines(layout), *_cables(layout)):
        if name not in among and name not in unread:
            yield unknown(path, what, name, among)


def unknown(path: Path, what: str, name: str, known: Collection[str]) -> PathMistake:
    """Return the mistake that ``name`` is asked for and is not among ``known``."""
    return PathMistake(
        path,
        _("“{name}” is not {what} of this layout{hint}").format(
            name=name, what=what, hint=did_you_mean(nearest(name, known))
        ),
    )


_Reference = tuple[Path, str, str, Collection[str]]


def _rig(layout: Layout | Parts) -> Iterator[_Reference]:
    spreaders = {spreader.id for spreader in layout.spreaders}
    for at, stay in enumerate(layout.stays):
        for place, name in enumerate(stay.via):
            yield ("stays", at, "via", place), _("a spreader or strut"), name, spreaders
    stays = {stay.id for stay in layout.stays}
    halyards = {halyard.id for halyard in layout.halyards}
    for at, sail in enumerate(layout.sails):
        if sail.stay is not None:
            yield ("sails", at, "stay"), _("a stay"), sail.stay, stays
        if sail.halyard is not None:
            yield ("sails", at, "halyard"), _("a halyard"), sail.halyard, halyards


def _lines(layout: Layout | Parts) -> Iterator[_Reference]:
    fittings = {fitting.id for fitting in layout.fittings}
    for at, halyard in enumerate(layout.halyards):
        for place, point in enumerate(halyard.points):
            if point.fitting is not None:
                yield ("halyards", at, "points", place, "fitting"), _("a fitting"), point.fitting, fittings


def _cables(layout: Layout | Parts) -> Iterator[_Reference]:
    fittings = {fitting.id for fitting in layout.fittings}
    exits = fittings | {hole.id for hole in layout.holes}
    conduits = {LOOSE, *(conduit.id for conduit in (layout.mast and layout.mast.conduits) or ())}
    for at, cable in enumerate(layout.cables):
        if cable.fitting is not None:
            yield ("cables", at, "fitting"), _("a fitting"), cable.fitting, fittings
        if cable.exit is not None:
            yield ("cables", at, "exit"), _("a fitting or an old hole"), cable.exit, exits
        if cable.conduit is not None and layout.mast is not None:
            yield ("cables", at, "conduit"), _("a conduit"), cable.conduit, conduits

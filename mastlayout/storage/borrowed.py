"""Kinds that a layout uses and its file does not carry: they are taken from the catalogue."""

from collections.abc import Container, Iterable

from mastlayout.model.fitting import Fitting
from mastlayout.model.kind import Kind


def borrowed(
    fittings: Iterable[Fitting], kinds: Iterable[Kind], unread: Container[str] = frozenset()
) -> tuple[list[Kind], Iterable[str]]:
    """Return the kinds used and not carried, and every name of the catalogue where it was asked."""
    carried = {kind.id for kind in kinds}
    absent = dict.fromkeys(
        fitting.kind for fitting in fittings if fitting.kind not in carried and fitting.kind not in unread
    )
    if not absent:
        return [], ()
    from mastlayout.storage.catalogue import catalogue  # noqa: PLC0415 - most layouts carry all their kinds

    known = catalogue()
    return [known[name] for name in absent if name in known], known

"""Whether each fitting stands on something that is there, at coordinates that host understands."""

from collections.abc import Container, Iterator, Mapping

from mastlayout.model.fitting import MAST, Fitting
from mastlayout.model.layout import Layout
from mastlayout.model.parts import Parts, PathMistake
from mastlayout.model.references import unknown
from mastlayout.words import _

DEEPEST = 3
# What places a fitting on each sort of host; every one of them belongs to no other sort.
_MAST, _WIRE_OR_SPREADER, _FITTING = ("from_masthead", "girth"), ("along",), ("mount",)


def host_mistakes(layout: Layout | Parts, unread: Container[str]) -> Iterator[PathMistake]:
    """Tell hosts that are not there, wrong coordinates, unknown mounts, cycles and too long chains."""
    fittings = {fitting.id: fitting for fitting in layout.fittings}
    rig = {spreader.id for spreader in layout.spreaders} | {stay.id for stay in layout.stays}
    mounts = {kind.id: {mount.name for mount in kind.mounts} for kind in layout.kinds}
    for at, fitting in enumerate(layout.fittings):
        host = fitting.on
        if host == MAST:
            if (
                fitting.from_masthead_mm is None
                or fitting.girth is None
                or fitting.along_mm is not None
                or fitting.mount is not None
            ):
                yield from _coordinates(at, fitting, _MAST, _("the mast"))
        elif host in rig:
            yield from _coordinates(at, fitting, _WIRE_OR_SPREADER, _("a spreader or a stay"))
        elif host in fittings:
            yield from _coordinates(at, fitting, _FITTING, _("another fitting"))
            yield from _mount(at, fitting, mounts.get(fittings[host].kind))
            yield from _chain(at, fitting, fittings)
        elif host not in unread:
            yield unknown(
                ("fittings", at, "on"),
                _("the mast, a spreader, a stay or a fitting"),
                host,
                {MAST, *rig, *fittings},
            )


def _coordinates(at: int, fitting: Fitting, wanted: tuple[str, ...], host: str) -> Iterator[PathMistake]:
    given = {
        "from_masthead": fitting.from_masthead_mm,
        "girth": fitting.girth,
        "along": fitting.along_mm,
        "mount": fitting.mount,
    }
    both = _(" and ").join(wanted)
    for key, value in given.items():
        if key in wanted and value is None:
            sentence = _("{key} is missing: a fitting on {host} needs {wanted}")
        elif key not in wanted and value is not None:
            sentence = _("{key} says nothing of a fitting on {host}: it is placed by {wanted}")
        else:
            continue
        yield PathMistake(("fittings", at, key), sentence.format(key=key, host=host, wanted=both))


def _mount(at: int, fitting: Fitting, offered: set[str] | None) -> Iterator[PathMistake]:
    """``offered`` is None where the host's own kind is not known: that is told elsewhere."""
    if offered is None or fitting.mount is None or fitting.mount in offered:
        return
    if offered:
        what = _("a mount of “{host}”, whose kind offers {offered}: not one")
        yield unknown(
            ("fittings", at, "mount"),
            what.format(host=fitting.on, offered=", ".join(f"“{name}”" for name in sorted(offered))),
            fitting.mount,
            offered,
        )
    else:
        yield PathMistake(
            ("fittings", at, "mount"),
            _("“{host}” offers no mount: its kind needs one before a fitting can stand on it").format(
                host=fitting.on
            ),
        )


def _chain(at: int, fitting: Fitting, fittings: Mapping[str, Fitting]) -> Iterator[PathMistake]:
    chain = [fitting.id]
    host = fittings.get(fitting.on)
    while host is not None and host.id not in chain:
        chain.append(host.id)
        host = fittings.get(host.on)
    if host is not None and host.id == fitting.id:
        sentence = _("{chain}: a fitting cannot stand on itself")
    elif host is None and len(chain) > DEEPEST:
        sentence = _("{chain} is {deep} deep: at most {deepest} fittings may stand on one another")
    else:
        return
    names = _(" on ").join(f"“{name}”" for name in (*chain, *([host.id] if host else ())))
    yield PathMistake(("fittings", at, "on"), sentence.format(chain=names, deep=len(chain), deepest=DEEPEST))

"""Mistakes by reference: what no single item of a layout can show."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from mastlayout.errors import did_you_mean, nearest
from mastlayout.model.fitting import MAST, Cable, Fitting
from mastlayout.model.kind import Kind
from mastlayout.model.layout import LISTS, NAMED, Layout
from mastlayout.model.mast import Mast, Taper
from mastlayout.model.rig import Stay
from mastlayout.words import _

Path = tuple[str | int, ...]
Mistakes = Iterator[tuple[Path, str]]
LOOSE = "loose"
DEEPEST = 3


@dataclass(frozen=True)
class Parts:
    """The items of a layout that could be read, each with its place in the file.

    ``broken`` holds the ids of items that could not: who refers to one makes no mistake of its own.
    """

    mast: Mast | None
    lists: Mapping[str, list[tuple[int, Any]]]
    retired: frozenset[str] = frozenset()
    broken: frozenset[str] = field(default=frozenset())

    def ids(self, *parts: str) -> dict[str, Any]:
        """Return the items of some lists by id."""
        return {item.id: item for part in parts for _i, item in self.lists.get(part, ())}


def parts_of(layout: Layout) -> Parts:
    """Return the parts of a whole layout."""
    lists = {name: list(enumerate(getattr(layout, name))) for name in LISTS}
    return Parts(layout.mast, lists, frozenset(layout.retired))


def crosscheck(parts: Parts, catalogue: Iterable[str] = ()) -> list[tuple[Path, str]]:
    """Return every mistake by reference, as a path and a sentence.

    ``catalogue`` names kinds that need no copy in the layout yet.
    """
    kinds = _kinds(parts, catalogue)
    checks = (
        _ids(parts),
        _tags(parts),
        kinds,
        _hosts(parts),
        _references(parts),
        _mast(parts),
        _heights(parts),
    )
    return [mistake for check in checks for mistake in check]


def _ids(parts: Parts) -> Mistakes:
    seen: dict[str, str] = {}
    conduits = (parts.mast and parts.mast.conduits) or ()
    places: list[tuple[Path, str]] = [(("mast", "conduits", i, "id"), c.id) for i, c in enumerate(conduits)]
    places += [((part, i, "id"), item.id) for part in NAMED for i, item in parts.lists.get(part, ())]
    for path, name in places:
        if name in seen:
            yield (
                path,
                _("the id “{id}” is given already to {other}: each id is given once").format(
                    id=name, other=seen[name]
                ),
            )
        elif name in parts.retired or name == MAST:
            yield path, _("the id “{id}” was given before: an id is never used again").format(id=name)
        seen.setdefault(name, f"{path[0]}[{path[-2]}]")
    yield from _repeated_kinds(parts)


def _repeated_kinds(parts: Parts) -> Mistakes:
    seen: set[str] = set()
    for i, kind in parts.lists.get("kinds", ()):
        if kind.id in seen:
            yield ("kinds", i, "id"), _("the kind “{id}” is there already").format(id=kind.id)
        seen.add(kind.id)


def _tags(parts: Parts) -> Mistakes:
    seen: dict[int, str] = {}
    for i, fitting in parts.lists.get("fittings", ()):
        if fitting.tag is None:
            continue
        if fitting.tag in seen:
            yield (
                ("fittings", i, "tag"),
                _("tag {tag} is given already to “{other}”: each tag is given once").format(
                    tag=fitting.tag, other=seen[fitting.tag]
                ),
            )
        seen.setdefault(fitting.tag, fitting.id)


def _kinds(parts: Parts, catalogue: Iterable[str]) -> Mistakes:
    known = set(parts.ids("kinds")) | set(catalogue) | parts.broken
    for i, fitting in parts.lists.get("fittings", ()):
        if fitting.kind not in known:
            yield ("fittings", i, "kind"), _unknown(_("kind"), fitting.kind, known - parts.broken)


def _unknown(what: str, name: str, known: Iterable[str]) -> str:
    return _("there is no {what} “{name}”{hint}").format(
        what=what, name=name, hint=did_you_mean(nearest(name, known))
    )


def _hosts(parts: Parts) -> Mistakes:
    fittings, rods = parts.ids("fittings"), parts.ids("spreaders", "stays")
    kinds = parts.ids("kinds")
    for i, fitting in parts.lists.get("fittings", ()):
        at: Path = ("fittings", i)
        if fitting.on == MAST:
            yield from _needs(at, fitting, ("from_masthead_mm", "girth"), _("on the mast"))
        elif fitting.on in rods:
            yield from _needs(at, fitting, ("along_mm",), _("on a spreader or stay"))
        elif fitting.on in fittings:
            yield from _needs(at, fitting, ("mount",), _("on another fitting"))
            yield from _mounted(at, fitting, fittings, kinds)
        elif fitting.on not in parts.broken:
            yield (*at, "on"), _unknown(_("host"), fitting.on, {MAST, *rods, *fittings})


def _needs(at: Path, fitting: Fitting, names: tuple[str, ...], where: str) -> Mistakes:
    for name in names:
        if getattr(fitting, name) is None:
            key = name.removesuffix("_mm")
            yield at, _("“{id}” stands {where}: {key} is needed").format(id=fitting.id, where=where, key=key)


def _mounted(
    at: Path, fitting: Fitting, fittings: Mapping[str, Fitting], kinds: Mapping[str, Kind]
) -> Mistakes:
    chain, host = [fitting.id], fittings.get(fitting.on)
    while host is not None:
        if host.id in chain:
            yield (
                (*at, "on"),
                _("“{id}” hangs on itself: {chain}").format(
                    id=fitting.id, chain=" → ".join([*chain, host.id])
                ),
            )
            return
        chain.append(host.id)
        host = fittings.get(host.on)
    if len(chain) > DEEPEST:
        yield (
            (*at, "on"),
            _("“{id}” hangs {deep} deep: at most {most} are allowed").format(
                id=fitting.id, deep=len(chain), most=DEEPEST
            ),
        )
    kind = kinds.get(fittings[fitting.on].kind)
    offered = [mount.name for mount in kind.mounts] if kind else []
    if kind and fitting.mount is not None and fitting.mount not in offered:
        yield (*at, "mount"), _unknown(_("mount"), fitting.mount, offered)


def _references(parts: Parts) -> Mistakes:
    spreaders, stays, fittings = parts.ids("spreaders"), parts.ids("stays"), parts.ids("fittings")
    for i, stay in parts.lists.get("stays", ()):
        yield from _stay(("stays", i), stay, spreaders, parts)
    for i, sail in parts.lists.get("sails", ()):
        yield from _named(("sails", i, "stay"), sail.stay, _("stay"), stays, parts)
        yield from _named(("sails", i, "halyard"), sail.halyard, _("halyard"), parts.ids("halyards"), parts)
    for i, halyard in parts.lists.get("halyards", ()):
        for j, point in enumerate(halyard.points):
            yield from _named(
                ("halyards", i, "points", j, "fitting"), point.fitting, _("fitting"), fittings, parts
            )
    conduits = {conduit.id: conduit for conduit in (parts.mast and parts.mast.conduits) or ()}
    for i, cable in parts.lists.get("cables", ()):
        yield from _cable(("cables", i), cable, fittings, conduits, parts)


def _stay(at: Path, stay: Stay, spreaders: Mapping[str, Any], parts: Parts) -> Mistakes:
    for j, name in enumerate(stay.via):
        yield from _named((*at, "via", j), name, _("spreader or strut"), spreaders, parts)
    if stay.deck is not None and stay.lower is not None:
        yield (
            at,
            _("“{id}” has a lower end on the mast and one on deck: one of them is wanted").format(id=stay.id),
        )


def _cable(
    at: Path, cable: Cable, fittings: Mapping[str, Any], conduits: Mapping[str, Any], parts: Parts
) -> Mistakes:
    yield from _named((*at, "fitting"), cable.fitting, _("fitting"), fittings, parts)
    yield from _named((*at, "exit"), cable.exit, _("fitting"), fittings, parts)
    if cable.conduit != LOOSE and parts.mast is not None:
        yield from _named((*at, "conduit"), cable.conduit, _("conduit"), {**conduits, LOOSE: None}, parts)


def _named(at: Path, name: str | None, what: str, known: Mapping[str, Any], parts: Parts) -> Mistakes:
    if name is not None and name not in known and name not in parts.broken:
        yield at, _unknown(what, name, known)


def _mast(parts: Parts) -> Mistakes:
    mast = parts.mast
    if mast is None:
        return
    if isinstance(mast.taper, Taper):
        taper, section = mast.taper, mast.section
        if taper.from_masthead_mm > mast.length_mm:
            yield ("mast", "taper"), _("the taper is longer than the mast")
        wide, long = getattr(section, "width_mm", None), getattr(section, "length_mm", None)
        if (wide and taper.width_mm > wide) or (long and taper.length_mm > long):
            yield ("mast", "taper"), _("the head of the taper is larger than the section below it")
    for i, conduit in enumerate(mast.conduits or ()):
        for j, run in enumerate(conduit.runs):
            yield from _span(("mast", "conduits", i, "runs", j), run.from_masthead_mm, run.to_mm, mast)
    for i, stretch in enumerate(mast.stretches or ()):
        yield from _span(("mast", "stretches", i), stretch.from_masthead_mm, stretch.to_mm, mast)
    for i, wall in enumerate(mast.walls):
        yield from _height(("mast", "walls", i, "from_masthead"), wall.from_masthead_mm, mast)


def _span(at: Path, high: float, low: float, mast: Mast) -> Mistakes:
    if low <= high:
        yield (
            at,
            _("it runs from {high:g} to {low:g}: the second reading is farther from the masthead").format(
                high=high, low=low
            ),
        )
    yield from _height((*at, "to"), low, mast)


def _height(at: Path, reading: float | None, mast: Mast) -> Mistakes:
    if reading is not None and reading > mast.length_mm:
        yield (
            at,
            _("{reading:g} from the masthead is below the heel: 0 to {length:g} is allowed").format(
                reading=reading, length=mast.length_mm
            ),
        )


def _heights(parts: Parts) -> Mistakes:
    mast = parts.mast
    if mast is None:
        return
    for part in ("spreaders", "fittings", "holes"):
        for i, item in parts.lists.get(part, ()):
            yield from _height((part, i, "from_masthead"), item.from_masthead_mm, mast)
    for i, stay in parts.lists.get("stays", ()):
        yield from _height(("stays", i, "upper", "from_masthead"), stay.upper.from_masthead_mm, mast)
        if stay.lower is not None:
            yield from _height(("stays", i, "lower", "from_masthead"), stay.lower.from_masthead_mm, mast)

"""All that is on the mast, masthead first, and its height in words."""

from collections.abc import Iterator

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.scene import Scene
from mastlayout.model.edits import BOAT
from mastlayout.model.fitting import MAST
from mastlayout.model.layout import Layout
from mastlayout.ui.marks import word
from mastlayout.ui.session import Session
from mastlayout.ui.tapewords import figure
from mastlayout.words import _


@dataclass(frozen=True)
class Thing:
    """A fitting, a spreader or an old hole; ``z_mm`` from the heel, None where it has no place yet.

    What has no place on the mast, a sail or a cable, has a word in ``sort`` instead; the head over
    all of those has no id.
    """

    id: str
    name: str
    tag: int | None
    new: bool
    z_mm: float | None
    sort: str = ""


def things(scene: Scene) -> list[Thing]:
    """Return all that is on the mast from the masthead down; what has no place yet comes last."""
    on_mast = sorted(_all(scene), key=lambda thing: (thing.z_mm is None, -(thing.z_mm or 0.0)))
    return [*on_mast, *rig(scene.layout)]


def _all(scene: Scene) -> Iterator[Thing]:
    for fitting in scene.layout.fittings:
        placed = scene.placed.get(fitting.id)
        yield Thing(fitting.id, fitting.name, fitting.tag, fitting.new, placed.z_mm if placed else None)
    for bar in scene.spreaders.values():
        yield Thing(bar.item.id, bar.item.name, None, bar.item.new, float(bar.root[2]))
    for hole in scene.layout.holes:
        z = height_mm(scene.skin.length_mm, hole.from_masthead_mm)
        yield Thing(hole.id, hole.name, None, new=False, z_mm=z)


def rig(layout: Layout) -> Iterator[Thing]:
    """Yield the head and what has no one place on the mast: mast and yacht, stays, sails, lines, pipes."""
    yield _without_place("", _("Mast, rig, sails, cables"), "")
    yield _without_place(MAST, layout.mast.name, _("mast"))
    yield _without_place(BOAT, layout.boat.name, _("yacht"))
    parts = (
        (layout.stays, _("stay")), (layout.sails, _("sail")), (layout.poles, _("pole")),
        (layout.halyards, _("halyard")), (layout.mast.conduits or (), _("conduit")),
        (layout.cables, _("cable")),
    )  # fmt: skip
    for items, sort in parts:
        for item in items:
            yield _without_place(item.id, item.name, sort, new=getattr(item, "new", False))


def _without_place(name: str, words: str, sort: str, *, new: bool = False) -> Thing:
    return Thing(name, words, None, new=new, z_mm=None, sort=sort)


def from_masthead(session: Session, z_mm: float | None) -> str:
    """Return a height from the masthead in words, as a screen reader speaks it."""
    if z_mm is None:
        return _("height not known yet")
    return _("{reading} from the masthead").format(reading=figure(session, z_mm))


def spoken(session: Session, thing: Thing, state: str) -> str:
    """Return a thing's whole row in words: name, tag, new, height, state."""
    parts = [thing.name]
    if thing.tag is not None:
        parts.append(_("tag {tag}").format(tag=thing.tag))
    if thing.new:
        parts.append(_("new"))
    parts += [thing.sort or from_masthead(session, thing.z_mm), word(state).lower() if state else ""]
    return ", ".join(filter(None, parts))

"""A fitting with all that it carries, at many places at once."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cached_property

from mastlayout.checks.rule import Batch, at_places, carried_along
from mastlayout.frozen import dataclass
from mastlayout.geometry.crowd import crowd_of
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.seat import Places


@dataclass(frozen=True, eq=False)
class Family:
    """``root`` stands on the mast, a spreader or a stay; ``guests`` hang on it, hosts before their guests."""

    scene: Scene
    root: Placed
    guests: tuple[Placed, ...]

    @cached_property
    def others(self) -> Scene:
        """The scene without all of them: what they are measured against."""
        names = self.names
        placed = {other: one for other, one in self.scene.placed.items() if other not in names}
        gear = crowd_of([(other, one.solids) for other, one in placed.items()])
        return replace(self.scene, placed=placed, gear=gear)

    @property
    def members(self) -> tuple[Placed, ...]:
        """The root and all that it carries."""
        return (self.root, *self.guests)

    @property
    def names(self) -> frozenset[str]:
        """The ids of the members."""
        return frozenset(member.id for member in self.members)

    def at(self, places: Places) -> list[Batch]:
        """Return every member at n places of the root."""
        batches = {self.root.id: at_places(self.root, places)}
        for guest in self.guests:
            batches[guest.id] = carried_along(guest, batches[guest.fitting.on])
        return list(batches.values())


def family_of(scene: Scene, name: str) -> Family:
    """Return the family a placed fitting belongs to; KeyError where it has no place."""
    root = scene.placed[name]
    while isinstance(root.host, Placed):
        root = scene.placed[root.host.id]
    return Family(scene, root, tuple(_carried(scene, root.id)))


def _carried(scene: Scene, host: str) -> Iterator[Placed]:
    for guest in sorted(scene.guests.get(host, ())):
        if guest in scene.placed:
            yield scene.placed[guest]
            yield from _carried(scene, guest)

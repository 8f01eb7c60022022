"""The scene: every shape of one layout, worked out once and kept while its parts stay the same.

A part is kept from the previous scene where its item, kind, host and mast are the very same
objects; finding that out costs microseconds, hashing a layout would not.
"""

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.crowd import Crowd, crowd_of, with_moved
from mastlayout.geometry.frames import Array
from mastlayout.geometry.inside import Inside, conduits, halyard_legs
from mastlayout.geometry.main.main import Main, main_of
from mastlayout.geometry.placed import Body, Host, Placed, place
from mastlayout.geometry.rig import SpreaderInSpace, StayInSpace, place_spreader, place_stay
from mastlayout.geometry.running.led import Running, running_of
from mastlayout.geometry.skin import Skin, skin_of
from mastlayout.geometry.slack import Slack, Slackness, slack_of
from mastlayout.geometry.solids import Solids
from mastlayout.geometry.tack.tack import Tack, tack_of
from mastlayout.limits import limits_of
from mastlayout.model.fitting import MAST, Fitting
from mastlayout.model.kind import Kind
from mastlayout.model.layout import Layout, same_items
from mastlayout.model.measure import Measure
from mastlayout.model.rig import Spreader, Stay
from mastlayout.model.sails import Halyard


@dataclass(frozen=True, eq=False)
class Scene:
    """Every shape of one layout; ``unplaced`` names what has no place yet and the measures it lacks."""

    layout: Layout
    skin: Skin
    spreaders: Mapping[str, SpreaderInSpace]
    stays: Mapping[str, StayInSpace]
    placed: Mapping[str, Placed]
    unplaced: Mapping[str, tuple[Measure, ...]]
    conduits: tuple[Inside, ...]
    halyards: tuple[Inside, ...]
    wires: Crowd
    bars: Crowd
    gear: Crowd
    guests: Mapping[str, frozenset[str]]
    tack: Tack
    slack: Slack
    main: Main
    running: Running

    @cached_property
    def spans_z(self) -> tuple[tuple[str, ...], Array, Array]:
        """The fittings' names, and the lowest and the highest height of each in arrays."""
        spans = np.array([placed.span_z_mm for placed in self.placed.values()]).reshape(-1, 2)
        return tuple(self.placed), spans[:, 0], spans[:, 1]

    @property
    def inside(self) -> tuple[Inside, ...]:
        """All that runs inside the mast."""
        return self.conduits + self.halyards


def masthead_first(scene: Scene) -> tuple[Placed, ...]:
    """Return the placed fittings from the masthead down."""
    return tuple(sorted(scene.placed.values(), key=lambda placed: -placed.z_mm))


def build(layout: Layout, previous: Scene | None = None) -> Scene:
    """Return the scene of a layout, keeping every part of the previous one that still holds.

    Raises NotKnownError where the section cannot be one; what is wrong by reference the model has
    refused before.
    """
    old = previous if previous is not None and previous.layout.mast is layout.mast else None
    skin = old.skin if old else skin_of(layout.mast)
    spreaders = {item.id: _spreader(skin, item, old) for item in layout.spreaders}
    stays = {item.id: _stay(skin, item, spreaders, old) for item in layout.stays}
    placing = _Placing(
        skin,
        spreaders,
        stays,
        {kind.id: kind for kind in layout.kinds},
        {fitting.id: fitting for fitting in layout.fittings},
        old.placed if old else {},
    )
    for fitting in layout.fittings:
        placing.stand(fitting)
    placed = placing.placed
    lines = tuple(_legs(skin, halyard, placed, old) for halyard in layout.halyards)
    wires = old.wires if old and _same(old.stays, stays) else crowd_of(_solids(stays))
    bars = old.bars if old and _same(old.spreaders, spreaders) else crowd_of(_solids(spreaders))
    rig_stands = old is not None and wires is old.wires and bars is old.bars
    kept = (
        old
        if old and rig_stands and old.layout.boat is layout.boat and _same_sails(old.layout, layout)
        else None
    )
    tack = kept.tack if kept else tack_of(layout, skin, spreaders, stays)
    main = kept.main if kept else main_of(layout, skin, stays, tack)
    return Scene(
        layout=layout,
        skin=skin,
        spreaders=spreaders,
        stays=stays,
        placed=placed,
        unplaced=placing.unplaced,
        conduits=old.conduits if old else conduits(skin),
        halyards=tuple(leg for legs in lines for leg in legs),
        wires=wires,
        bars=bars,
        gear=_gear(placed, old),
        guests=_guests(layout),
        tack=tack,
        main=main,
        running=_running(kept, layout, placed)
        or running_of(layout, skin, stays, placed, main, _percent(layout, "line.slack")),
        slack=old.slack
        if old and wires is old.wires and same_items(old.layout.limits, layout.limits)
        else slack_of(stays, Slackness.of(limits_of(layout))),
    )


def _percent(layout: Layout, key: str) -> float:
    return limits_of(layout)[key].value / 100.0


def _running(kept: Scene | None, layout: Layout, placed: Mapping[str, Placed]) -> Running | None:
    """Return the lines as they led before, where neither they nor anything they pass has changed."""
    if kept is None or not same_items(kept.layout.halyards, layout.halyards):
        return None
    stand = all(placed.get(name) is before for name, before in kept.running.passed.items())
    return kept.running if stand else None


def _same_sails(old: Layout, new: Layout) -> bool:
    return same_items(old.sails, new.sails) and same_items(old.limits, new.limits)


def _legs(
    skin: Skin, halyard: Halyard, placed: Mapping[str, Placed], old: Scene | None
) -> tuple[Inside, ...]:
    """Return a halyard's legs, the very same ones while it and the fittings it passes stay the same."""
    passed = [point.fitting for point in halyard.points if point.fitting is not None]
    if old and any(own is halyard for own in old.layout.halyards):  # noqa: SIM102 - two thoughts
        if all(old.placed.get(name) is placed.get(name) for name in passed):
            return tuple(leg for leg in old.halyards if leg.id == halyard.id)
    return halyard_legs(skin, halyard, placed)


def _guests(layout: Layout) -> dict[str, frozenset[str]]:
    guests: dict[str, frozenset[str]] = {}
    for fitting in layout.fittings:
        if fitting.on != MAST:
            guests[fitting.on] = guests.get(fitting.on, frozenset()) | {fitting.id}
    return guests


def _same(old: Mapping[str, object], new: Mapping[str, object]) -> bool:
    return old.keys() == new.keys() and all(old[name] is new[name] for name in new)


def _gear(placed: Mapping[str, Placed], old: Scene | None) -> Crowd:
    """Return the fittings' solids as a crowd; of the previous one's only those that moved are put in anew."""
    if old is None or tuple(placed) != old.gear.ids:
        return crowd_of(_solids(placed))
    moved = {
        at: (before, now)
        for at, (before, now) in enumerate(zip(old.placed.values(), placed.values(), strict=True))
        if before is not now
    }
    if not moved:
        return old.gear
    if any(len(before.solids) != len(now.solids) for before, now in moved.values()):
        return crowd_of(_solids(placed))
    return with_moved(old.gear, {at: now.solids for at, (_before, now) in moved.items()})


def _solids(members: Mapping[str, SpreaderInSpace | StayInSpace | Placed]) -> list[tuple[str, Solids]]:
    return [(name, member.solids) for name, member in members.items()]


def _spreader(skin: Skin, item: Spreader, old: Scene | None) -> SpreaderInSpace:
    kept = old.spreaders.get(item.id) if old else None
    return kept if kept and kept.item is item else place_spreader(skin, item)


def _stay(skin: Skin, item: Stay, spreaders: Mapping[str, SpreaderInSpace], old: Scene | None) -> StayInSpace:
    kept = old.stays.get(item.id) if old else None
    if old and kept and kept.item is item and all(old.spreaders.get(n) is spreaders[n] for n in item.via):
        return kept
    return place_stay(skin, item, spreaders)


@dataclass(frozen=True, eq=False)
class _Placing:
    """Fittings being placed, hosts before their guests."""

    skin: Skin
    spreaders: Mapping[str, SpreaderInSpace]
    stays: Mapping[str, StayInSpace]
    kinds: Mapping[str, Kind]
    fittings: Mapping[str, Fitting]
    old: Mapping[str, Placed]
    placed: dict[str, Placed] = field(default_factory=dict)
    unplaced: dict[str, tuple[Measure, ...]] = field(default_factory=dict)
    bodies: dict[str, Body] = field(default_factory=dict)

    def stand(self, fitting: Fitting) -> None:
        """Place a fitting that has not found its place yet; most stand on the mast as they stood before."""
        kept = self.old.get(fitting.id)
        if kept is not None and self._holds(kept, fitting, self.skin):
            self.placed[fitting.id] = kept
        else:
            self.host(fitting.id)

    def _holds(self, kept: Placed, fitting: Fitting, host: Host) -> bool:
        """Tell whether a fitting stands where it stood before."""
        return kept.fitting is fitting and kept.host is host and kept.kind is self.kinds[fitting.kind]

    def host(self, name: str) -> Host | None:
        """Return what ``name`` is as a host, placed if it can be; None leaves its lack in ``unplaced``."""
        if name == MAST:
            return self.skin
        if name in self.spreaders:
            return self._known(name, self.spreaders[name], self.spreaders[name].unknown)
        if name in self.stays:
            return self._known(name, self.stays[name], self.stays[name].unknown)
        if name not in self.placed and name not in self.unplaced:
            self._place(self.fittings[name])
        return self.placed.get(name)

    def _known(self, name: str, host: Host, unknown: tuple[Measure, ...]) -> Host | None:
        if unknown:
            self.unplaced[name] = unknown
            return None
        return host

    def _place(self, fitting: Fitting) -> None:
        host = self.host(fitting.on)
        if host is None:
            self.unplaced[fitting.id] = self.unplaced[fitting.on]
            return
        kind = self.kinds[fitting.kind]
        kept = self.old.get(fitting.id)
        if kept and self._holds(kept, fitting, host):
            self.placed[fitting.id] = kept
        else:
            body = kept.body if kept and kept.kind is kind else self.bodies.get(kind.id)
            placed = self.placed[fitting.id] = place(host, fitting, kind, body)
            self.bodies[kind.id] = placed.body

"""Spreaders, struts and stays in space."""

from collections.abc import Mapping

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, boat_to_mast, height_mm
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.solids import Solids, bar, cans, joined, tubes
from mastlayout.model.mast import Mast
from mastlayout.model.measure import Measure, measure_of
from mastlayout.model.rig import DeckEnd, MastEnd, Side, Spreader, Stay

_UP = np.array([0.0, 0.0, 1.0])
_ATHWART: dict[Side, float] = {"port": 270.0, "starboard": 90.0, "centre": 0.0}


@dataclass(frozen=True, eq=False)
class SpreaderInSpace:
    """A spreader or strut. What is missing is named in ``unknown``; then it has no tip and no solids."""

    item: Spreader
    skin: Skin
    root: Array
    direction: Array | None
    unknown: tuple[Measure, ...]
    solids: Solids

    @property
    def tip(self) -> Array | None:
        """The wire's place in the tip (3,), or None where not known."""
        if self.direction is None or self.item.length_mm is None:
            return None
        return np.asarray(self.root + self.item.length_mm * self.direction)

    @property
    def axes(self) -> Array:
        """Its own axes (3, 3) as rows: outboard, forward across the chord, up through the thickness."""
        outboard = self.direction if self.direction is not None else np.array([0.0, 1.0, 0.0])
        chord = np.cross(outboard, _UP)
        chord = chord / np.linalg.norm(chord)
        if chord[0] < 0:
            chord = -chord
        thick = np.cross(chord, outboard)
        return np.stack([outboard, chord, thick if thick[2] > 0 else -thick])


def place_spreader(skin: Skin, item: Spreader) -> SpreaderInSpace:
    """Stand a spreader or strut on the skin."""
    z = height_mm(skin.length_mm, item.from_masthead_mm)
    bearing = _ATHWART[item.side]
    if item.role == "strut" and item.side != "centre":
        bearing += (item.sweep_deg or 0.0) * (1.0 if item.side == "starboard" else -1.0)
    points, _normals = skin.at(np.array([z]), np.array([skin.ring(z).girth_at_bearing(bearing)]))
    unknown = _unknown_of(item)
    direction = None if unknown else _pointing(item)
    placed = SpreaderInSpace(item, skin, points[0], direction, unknown, joined([]))
    return placed if unknown else SpreaderInSpace(item, skin, points[0], direction, (), _bar(placed))


def _unknown_of(item: Spreader) -> tuple[Measure, ...]:
    names = ["length_mm", "rise_deg"] + (["sweep_deg"] if item.side != "centre" else [])
    return tuple(measure_of(Spreader, name) for name in names if getattr(item, name) is None)


def _pointing(item: Spreader) -> Array:
    sweep, rise = np.radians(item.sweep_deg or 0.0), np.radians(item.rise_deg or 0.0)
    if item.side == "centre":
        return np.array([np.cos(rise), 0.0, np.sin(rise)])
    side = 1.0 if item.side == "port" else -1.0
    return np.array([-np.sin(sweep) * np.cos(rise), side * np.cos(sweep) * np.cos(rise), np.sin(rise)])


def _bar(placed: SpreaderInSpace) -> Solids:
    item, (_outboard, chord, thick) = placed.item, placed.axes
    root = np.stack([chord * item.chord_root_mm / 2, thick * item.thickness_root_mm / 2, np.zeros(3)])
    tip = np.stack([chord * item.chord_tip_mm / 2, thick * item.thickness_tip_mm / 2, np.zeros(3)])
    return bar(placed.root, np.asarray(placed.tip), root, tip)


@dataclass(frozen=True, eq=False)
class StayInSpace:
    """A stay as its pins and the tips it passes (k, 3), upper end first; None where a measure is missing."""

    item: Stay
    points: Array | None
    unknown: tuple[Measure, ...]
    solids: Solids

    @property
    def length_mm(self) -> float | None:
        """Pin to pin over the tips."""
        if self.points is None:
            return None
        return float(np.linalg.norm(np.diff(self.points, axis=0), axis=1).sum())

    def at(self, along_mm: Array) -> tuple[Array, Array]:
        """Return points (n, 3) and upward directions (n, 3) at distances (n,) from the lower end."""
        points = np.asarray(self.points)[::-1]
        step = np.diff(points, axis=0)
        length = np.linalg.norm(step, axis=1)
        ends = np.concatenate([[0.0], np.cumsum(length)])
        leg = np.clip(np.searchsorted(ends, along_mm, side="right") - 1, 0, len(step) - 1)
        # A leg of no length, which the rules name, leads nowhere: it is taken as upright.
        unit = np.where(length[:, None] > 0, step / np.where(length > 0, length, 1.0)[:, None], _UP)
        return points[leg] + (along_mm - ends[leg])[:, None] * unit[leg], unit[leg]


def place_stay(skin: Skin, item: Stay, spreaders: Mapping[str, SpreaderInSpace]) -> StayInSpace:
    """Lead a stay from its upper pin over its tips to its lower pin."""
    unknown: list[Measure] = []
    tips = []
    for name in item.via:
        tip = spreaders[name].tip
        if tip is None:
            unknown.extend(spreaders[name].unknown)
        else:
            tips.append(tip)
    lower = _lower_pin(skin, item, unknown)
    if unknown or lower is None:
        return StayInSpace(item, None, tuple(unknown), joined([]))
    points = np.stack([mast_end(skin, item.upper), *tips, lower])
    if item.wire_mm is None:
        return StayInSpace(item, points, (measure_of(Stay, "wire_mm"),), joined([]))
    wire = tubes(points[:-1], points[1:], item.wire_mm / 2)
    return StayInSpace(item, points, (), joined([wire, *_terminals(item, points)]))


def mast_end(skin: Skin, end: MastEnd) -> Array:
    """Return the pin (3,) of a stay's end on the mast."""
    z = height_mm(skin.length_mm, end.from_masthead_mm)
    points, normals = skin.at(np.array([z]), np.array([skin.girth_of(end.girth, z)]))
    return np.asarray(points[0] + end.stand_off_mm * normals[0])


def _lower_pin(skin: Skin, item: Stay, unknown: list[Measure]) -> Array | None:
    if item.lower is not None:
        return mast_end(skin, item.lower)
    if item.deck is None:
        unknown.append(measure_of(Stay, "lower" if item.ends_on_mast else "deck"))
    elif skin.mast.rake_deg is None:
        unknown.append(measure_of(Mast, "rake_deg"))
    else:
        return deck_point(item.deck, item.side, skin.mast.rake_deg)
    return None


def deck_point(end: DeckEnd, side: Side, rake_deg: float) -> Array:
    """Return the mast-frame point (3,) of a deck end taped in the boat frame."""
    off = end.off_mm if side != "starboard" else -end.off_mm
    return boat_to_mast(np.array([end.ahead_mm, off, end.above_mm]), rake_deg)


def _terminals(item: Stay, points: Array) -> list[Solids]:
    parts = []
    for terminal in item.terminals:
        pin, beyond = (points[0], points[1]) if terminal.end == "upper" else (points[-1], points[-2])
        length = np.linalg.norm(beyond - pin)
        if length <= 0:
            continue
        along = (beyond - pin) / length
        start = pin + terminal.from_end_mm * along
        radius = np.array([terminal.diameter_mm / 2])
        parts.append(cans(start[None], (start + terminal.length_mm * along)[None], radius, radius))
    return parts

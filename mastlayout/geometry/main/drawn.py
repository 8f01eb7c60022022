"""The mainsail at one height, to be drawn: what its cloth sweeps as it is eased, and the cloth on its way.

Places are ahead and to port, mm in the mast's frame.
"""

from functools import cached_property

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array
from mastlayout.geometry.main.arc import abaft, along, pushed_off
from mastlayout.geometry.main.cloth import Swung
from mastlayout.geometry.main.main import Main
from mastlayout.geometry.main.standing import stand
from mastlayout.geometry.main.stops import Stops
from mastlayout.geometry.tack.bands import Band
from mastlayout.geometry.tack.outlines import STEP_MM
from mastlayout.geometry.tack.standing import Stand

# A belly, and the arc of a leech, are drawn by so many points.
_POINTS = 17


def bands(main: Main) -> tuple[Band, ...]:
    """Return over which heights each mainsail sweeps the mast, full, with its head in each reef."""
    found = []
    for full in main.states:
        own = full.state
        if own.reef is None and not own.hoisting:
            reefs = [(one.state.reef, one.head_mm) for one in main.states if one.state.sail is own.sail]
            reefed = tuple((reef, head) for reef, head in reefs if reef is not None)
            found.append(Band(own.sail, None, full.low_mm, full.head_mm, full.low_mm, reefed))
    return tuple(found)


@dataclass(frozen=True, eq=False)
class Eased:
    """One state of a mainsail at one height; ``belly`` is k of each length that hangs free.

    Cloth is eased by parts: -1 to port as far as it goes, 0 sheeted in amidships, 1 to starboard.
    """

    main: Main
    number: int
    z_mm: float
    belly: float

    @property
    def state(self) -> Swung:
        """The state that is drawn."""
        return self.main.states[self.number]

    @property
    def luff(self) -> Array:
        """The luff point (2,), on the track."""
        return self.main.luff

    @cached_property
    def _stops(self) -> tuple[Stops, Stops]:
        at = np.array([round(self.z_mm / STEP_MM)])
        return self.main.stops_at(at, port=True), self.main.stops_at(at, port=False)

    @cached_property
    def chord_mm(self) -> float:
        """How long the cloth is abaft its track, 0 where there is none."""
        return float(self.state.chord(np.array([self.z_mm]))[0])

    def carried(self, part: float) -> Array:
        """Return the line (k, 2) of straight cloth from the luff to the leech, eased by a part."""
        return self.lies(part, 0.0)

    def hung(self, part: float) -> Array:
        """Return the outline (k, 2) of all that lies between straight cloth and its full belly."""
        return np.concatenate([self.lies(part, 0.0), self.lies(part, self.belly)[::-1]])

    def lies(self, part: float, belly: float) -> Array:
        """Return where cloth lies (k, 2) from the luff to the leech; what stops it bends it."""
        side = 1.0 if part <= 0 else -1.0
        edge, own = self._stops[0 if part <= 0 else 1], np.array([abs(part)])
        start, angle, span, end, left = (one[0] for one in self._bent(edge, own))
        line = _hung(start, float(angle), float(span), belly)
        if left > 0:
            beyond = _hung(line[-1], float(end), float(left), belly)
            line = np.concatenate([line, beyond[1:]])
        return np.asarray(np.concatenate([self.luff[None], line]) * (1.0, side))

    def _bent(self, edge: Stops, parts: Array) -> tuple[Array, Array, Array, Array, Array]:
        """Return of cloth eased by parts (n,) where it begins (n, 2), its angle and how far it runs so.

        Then the angle at which it runs on from what stops it, and how far: 0 where nothing does.
        """
        chord, z = np.array([self.chord_mm]), np.array([self.z_mm])
        free = parts * self.state.angle(z)[0]
        stopped, out = edge.first(chord)
        held = free > stopped[0]
        angle = np.where(held, stopped[0], free)
        span = np.where(held, min(float(out[0]), chord[0]), chord[0])
        mast = np.repeat(edge.mast, len(parts), axis=0)
        return pushed_off(self.luff, angle, mast), angle, span, free, chord[0] - span

    def _leech(self, edge: Stops, side: float) -> Array:
        """Return the line (k, 2) of the leech as cloth is eased from amidships on one side."""
        start, angle, span, end, left = self._bent(edge, np.linspace(0.0, 1.0, _POINTS))
        tip = start + span[:, None] * along(angle) + left[:, None] * along(end)
        return np.asarray(tip * (1.0, side))

    @cached_property
    def ends(self) -> list[Array]:
        """The lines (k, 2) that the leech draws to either side."""
        return [self._leech(edge, side) for edge, side in zip(self._stops, (1.0, -1.0), strict=True)]

    @cached_property
    def edges(self) -> list[Array]:
        """The lines (k, 2) of straight cloth eased as far as it goes; none where it only flogs."""
        return [] if self.state.state.hoisting else self._farthest

    @cached_property
    def _farthest(self) -> list[Array]:
        return [self.carried(-1.0), self.carried(1.0)]

    @cached_property
    def _outline(self) -> Array:
        port, starboard = self._farthest
        return np.concatenate([port, self.ends[0][::-1], self.ends[1], starboard[::-1]])

    @property
    def sailed(self) -> Array:
        """The outline (k, 2) of what straight cloth bears on, from leech to leech."""
        return np.empty((0, 2)) if self.state.state.hoisting else self._outline

    @cached_property
    def whipped(self) -> list[Array]:
        """The outlines (k, 2) of what only a belly gets at, or only cloth on its way up or down."""
        bellies = [self.hung(-1.0), self.hung(1.0)]
        return [self._outline, *bellies] if self.state.state.hoisting else bellies

    def stand(self, support: Array) -> Stand | None:
        """Return how the worst of outlines (q, COUNT) stands to the cloth; None without an outline."""
        return stand(self.main, self.state, self.z_mm, support, self.belly)


def eased(main: Main, number: int, z_mm: float, belly: float) -> Eased | None:
    """Return a state at a height; None where it has no cloth there."""
    found = Eased(main, number, z_mm, belly)
    return found if found.chord_mm > 0 else None


def _hung(start: Array, angle: float, span: float, belly: float) -> Array:
    """Return the points (k, 2) of a length of cloth from where it begins, bulging ahead."""
    parts = np.linspace(0.0, 1.0, _POINTS if belly else 2)[:, None]
    way, back = along(np.array(angle)), abaft(np.array(angle))
    return np.asarray(start + span * parts * way - span * 4 * belly * parts * (1 - parts) * back)

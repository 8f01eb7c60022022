"""Navigation lights: which arc of Rule 21 a lens shows, how far it must be seen, how bright it is then."""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, bearing_of
from mastlayout.geometry.placed import Placed
from mastlayout.model.kind import Sector
from mastlayout.once import once
from mastlayout.words import _

# Rule 21: bearings clockwise from ahead; 22.5 degrees abaft the beam is 112.5 from ahead.
_SAME_DEG = 0.5
# Annex I section 8: I = 3.43e6 T D^2 K^-D, T 2e-7 lux, K 0.8.
_FACTOR, _THRESHOLD_LUX, _CLEAR_AIR = 3.43e6, 2e-7, 0.8
ARCS_SOURCE = _("COLREG Rule 21")
VISIBLE_SOURCE = _("COLREG Rule 22")
INTENSITY_SOURCE = _("COLREG Annex I, section 8")
# Classes are "12 metres or more": 12.0 m belongs to the upper one.
_CLASSES_M = (0.0, 12.0, 20.0, 50.0)


@dataclass(frozen=True)
class Role:
    """What a lens is by the rules: its arc, and least range, NM, under 12, 20 and 50 m and above."""

    key: str
    name: str
    first_deg: float
    last_deg: float
    range_nm: tuple[float, float, float, float]

    @property
    def width_deg(self) -> float:
        """The arc's width, 360 for an all-round light."""
        return (self.last_deg - self.first_deg) % 360.0 or 360.0

    @property
    def all_round(self) -> bool:
        """Tell whether it shows all round."""
        return self.width_deg == 360.0


_SIDE, _STERN = (1.0, 2.0, 2.0, 3.0), (2.0, 2.0, 2.0, 3.0)
PORT = Role("port", _("port sidelight"), 247.5, 360.0, _SIDE)
STARBOARD = Role("starboard", _("starboard sidelight"), 0.0, 112.5, _SIDE)
STERN = Role("stern", _("sternlight"), 112.5, 247.5, _STERN)
STEAMING = Role("steaming", _("steaming light"), 247.5, 112.5, (2.0, 3.0, 5.0, 6.0))
ANCHOR = Role("anchor", _("anchor light"), 0.0, 360.0, _STERN)
SAIL_RED = Role("sail-red", _("all-round red light"), 0.0, 360.0, _STERN)
SAIL_GREEN = Role("sail-green", _("all-round green light"), 0.0, 360.0, _STERN)
ALL_ROUND = Role("all-round", _("all-round light"), 0.0, 360.0, _STERN)
_ARCS = (PORT, STARBOARD, STERN, STEAMING)
_ROUND = {"white": ANCHOR, "red": SAIL_RED, "green": SAIL_GREEN, None: ALL_ROUND}


def role_of(sector: Sector) -> Role | None:
    """Return what a light of a kind is by its arc; None where it is no arc of Rule 21."""
    if abs(sector.to_deg - sector.from_deg) == 360.0:
        return _ROUND[sector.colour]
    for role in _ARCS:
        off = (sector.from_deg - role.first_deg, sector.to_deg - role.last_deg)
        if all(abs((one + 180.0) % 360.0 - 180.0) <= _SAME_DEG for one in off):
            return role
    return None


@dataclass(frozen=True, eq=False)
class Lens:
    """A lens of a fitting: which of its solids, and what it shows."""

    solid: int
    roles: tuple[Role, ...]


def light_sectors(placed: Placed) -> tuple[Sector, ...]:
    """Return the arcs over which a fitting is a navigation light."""
    return tuple(sector for sector in placed.kind.sectors if sector.what == "light")


@once  # asked of every fitting, by several rules with every move
def lenses(placed: Placed) -> tuple[Lens, ...]:
    """Return the lenses of a fitting that are navigation lights.

    Of two, one shows all round or ahead and is the upper: an all-round light stands above a
    tricolour, a steaming light above the deck light in one case with it.
    """
    if placed.kind.group != "light" or not placed.kind.sectors:
        return ()
    roles = [role for role in map(role_of, light_sectors(placed)) if role is not None]
    glass = [i for i, part in enumerate(placed.body.parts) if part == "lens"]
    if not roles or not glass:
        return ()
    by_height = sorted(glass, key=lambda i: float(placed.solids.centre[i, 2]))
    upper = tuple(role for role in roles if role.all_round or role is STEAMING)
    lower = tuple(role for role in roles if role not in upper)
    given = ((by_height[-1], upper), (by_height[0], lower))
    return tuple(Lens(solid, own) for solid, own in given if own)


def is_tricolour(placed: Placed) -> bool:
    """Tell whether a fitting shows both sidelights and the sternlight from one lantern."""
    keys = {role.key for role in map(role_of, light_sectors(placed)) if role}
    return {"port", "starboard", "stern"} <= keys


def is_flood(placed: Placed) -> bool:
    """Tell whether a fitting lights the deck: a light that is not for navigation."""
    return placed.kind.group == "light" and not light_sectors(placed)


def required_nm(role: Role, length_m: float) -> float:
    """Return the least range, NM, of a light on a yacht of a length overall."""
    return role.range_nm[max(i for i, least in enumerate(_CLASSES_M) if length_m >= least)]


def intensity_cd(range_nm: Array | float) -> Array:
    """Return the least intensity, candela, that is seen from ranges in NM (Annex I, section 8)."""
    reach = np.asarray(range_nm, dtype=float)
    return np.asarray(_FACTOR * _THRESHOLD_LUX * reach**2 * _CLEAR_AIR**-reach)


def range_nm(intensity: float) -> float:
    """Return the range, NM, from which an intensity in candela is seen: the formula, solved by halving."""
    low, high = 0.0, 50.0
    for _step in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if float(intensity_cd(middle)) < intensity else (low, middle)
    return (low + high) / 2


def lens_point(placed: Placed, role: Role) -> Array:
    """Return the middle (3,) of the lens that shows a role, in the mast frame; KeyError where none does."""
    for lens in lenses(placed):
        if role in lens.roles:
            return np.asarray(placed.solids.centre[lens.solid])
    raise KeyError(role.key)


def faces_deg(placed: Placed) -> float:
    """Return the bearing a light faces: out of its foot, or along it where the foot lies flat."""
    _across, along, out = placed.seats.axes[0]
    way = along if abs(out[2]) > abs(along[2]) else out
    return bearing_of(float(way[0]), float(way[1]))

"""Seats: where a fitting's own frame stands on its host, at one place or at many."""

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import Array, Index, bearing_direction
from mastlayout.geometry.rig import SpreaderInSpace, StayInSpace
from mastlayout.geometry.skin import Skin
from mastlayout.model.kind import Mount

_UP = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, eq=False)
class Places:
    """n places on one host. Arrays (n,).

    ``along_mm`` is z on the mast, the distance from the root on a spreader, from the lower end on
    a stay. ``around`` is the girth in mm on the mast, degrees round a spreader or a stay.
    """

    along_mm: Array
    around: Array
    stand_off_mm: Array
    turn_deg: Array

    def __len__(self) -> int:
        return len(self.along_mm)

    def some(self, which: Index) -> "Places":
        """Return some of the places."""
        return Places(
            self.along_mm[which], self.around[which], self.stand_off_mm[which], self.turn_deg[which]
        )


@dataclass(frozen=True, eq=False)
class Seats:
    """n frames: origins (n, 3) and axes (n, 3, 3) whose rows are across, along and out."""

    origin: Array
    axes: Array

    def point(self, local: Array) -> Array:
        """Return local points (k, 3) in space, (n, k, 3)."""
        return np.asarray(self.origin[:, None, :] + np.einsum("ki,nij->nkj", local, self.axes))


def turned(across: Array, along: Array, out: Array, turn_deg: Array) -> Array:
    """Return axes (n, 3, 3) turned clockwise as seen from outside."""
    cos, sin = np.cos(np.radians(turn_deg))[:, None], np.sin(np.radians(turn_deg))[:, None]
    return np.stack([cos * across - sin * along, cos * along + sin * across, out], axis=1)


def on_mast(skin: Skin, places: Places) -> Seats:
    """Seat n fittings on the skin: out along its normal, along up the mast."""
    point, out = skin.at(places.along_mm, places.around)
    along = np.broadcast_to(_UP, out.shape)
    across = np.stack([0.0 - out[:, 1], out[:, 0], np.zeros(len(out))], axis=1)  # along x out
    return Seats(point + places.stand_off_mm[:, None] * out, turned(across, along, out, places.turn_deg))


def on_spreader(host: SpreaderInSpace, places: Places) -> Seats:
    """Seat n fittings round a spreader: along outboard, out from top (0) over ahead (90) to below (180)."""
    outboard, chord, thick = host.axes
    angle = np.radians(places.around)[:, None]
    out = np.cos(angle) * thick + np.sin(angle) * chord
    part = (places.along_mm / (host.item.length_mm or 1.0))[:, None]
    item = host.item
    half_chord = (item.chord_root_mm + part * (item.chord_tip_mm - item.chord_root_mm)) / 2
    half_thick = (item.thickness_root_mm + part * (item.thickness_tip_mm - item.thickness_root_mm)) / 2
    # The aerofoil is an ellipse here: its polar radius in the direction the foot faces.
    radius = 1.0 / np.hypot(np.cos(angle) / half_thick, np.sin(angle) / half_chord)
    origin = host.root + places.along_mm[:, None] * outboard + (radius + places.stand_off_mm[:, None]) * out
    along = np.broadcast_to(outboard, out.shape)
    return Seats(origin, turned(np.cross(along, out), along, out, places.turn_deg))


def on_stay(host: StayInSpace, places: Places) -> Seats:
    """Seat n fittings round a wire: along up the wire, out to the bearing nearest square to it."""
    point, up = host.at(places.along_mm)
    ahead = np.concatenate([bearing_direction(places.around), np.zeros((len(places), 1))], axis=1)
    out = ahead - np.einsum("nk,nk->n", ahead, up)[:, None] * up
    out = out / np.linalg.norm(out, axis=1, keepdims=True)
    radius = (host.item.wire_mm or 0.0) / 2
    origin = point + (radius + places.stand_off_mm[:, None]) * out
    return Seats(origin, turned(np.cross(up, out), up, out, places.turn_deg))


def on_mount(host: Seats, mount: Mount, places: Places) -> Seats:
    """Seat n fittings on a mount of a host that is seated at n places, or at one."""
    across, along, out = host.axes[:, 0], host.axes[:, 1], host.axes[:, 2]
    facing = {
        "out": (along, out),
        "up": (out, along),
        "down": (out, -along),
        "right": (along, across),
        "left": (along, -across),
    }
    own_along, own_out = facing[mount.facing]
    origin = host.point(np.asarray(mount.at)[None])[:, 0] + places.stand_off_mm[:, None] * own_out
    return Seats(origin, turned(np.cross(own_along, own_out), own_along, own_out, places.turn_deg))

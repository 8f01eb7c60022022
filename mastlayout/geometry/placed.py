"""A fitting seated on its host, at its own place or at many."""

from collections.abc import Sequence
from functools import cached_property
from math import hypot
from typing import assert_never

import numpy as np

from mastlayout.frozen import dataclass
from mastlayout.geometry.asdrilled import as_drilled
from mastlayout.geometry.frames import Array, height_mm
from mastlayout.geometry.holes import Drilled, drilled, wrapped_outline
from mastlayout.geometry.rig import SpreaderInSpace, StayInSpace
from mastlayout.geometry.seat import Places, Seats, on_mast, on_mount, on_spreader, on_stay
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.solids import Solids, solids_of
from mastlayout.model.fitting import Fitting
from mastlayout.model.kind import Ball, Box, Can, Foot, Kind, Part, Solid, Tube


@dataclass(frozen=True, eq=False)
class Body:
    """A kind's solids in its own frame, what each is for, how its edges are rounded; service room apart."""

    solids: Solids
    parts: tuple[Part, ...]
    snags: tuple[bool, ...]
    edges_mm: tuple[float, ...]
    room: Solids


def body_of(kind: Kind) -> Body:
    """Return the solids of a kind in arrays."""
    bodies = [solid for solid in kind.solids if solid.part != "room"]
    return Body(
        solids_of(bodies),
        tuple(solid.part for solid in bodies),
        tuple(solid.snags for solid in bodies),
        tuple(_edge_mm(solid) for solid in bodies),
        solids_of([solid for solid in kind.solids if solid.part == "room"]),
    )


def _edge_mm(solid: Solid) -> float:
    """Return how far a solid's sharpest edge is rounded: a ball or a round-ended bar is all round."""
    match solid:
        case Ball() | Tube():
            return solid.radius_mm
        case Box():
            return solid.edge_radius_mm
        case Can():
            return 0.0
    assert_never(solid)


@dataclass(frozen=True, eq=False)
class Placed:
    """A fitting in space. ``places`` and ``seats`` hold its one place; solids and room are in space.

    ``holes`` are those of a new fitting or of a foot in hand; others are there, but nobody knows where.
    ``span_z_mm`` are the lowest and the highest height of all of it: body, room and holes.
    """

    fitting: Fitting
    kind: Kind
    host: "Host"
    body: Body
    places: Places
    seats: Seats
    solids: Solids
    room: Solids
    holes: Drilled | None
    span_z_mm: tuple[float, float]

    @property
    def id(self) -> str:
        """The fitting's id."""
        return self.fitting.id

    @property
    def foot(self) -> Foot | None:
        """The foot as it is in hand, else the kind's typical one."""
        return self.fitting.in_hand or self.kind.foot

    @property
    def foot_known(self) -> bool:
        """Tell whether the foot was confirmed from the part in hand."""
        return self.fitting.in_hand is not None

    @cached_property
    def z_mm(self) -> float:
        """The height of its foot's centre along the mast, from the heel."""
        return float(self.seats.origin[0, 2])

    @cached_property
    def outline(self) -> Array | None:
        """The foot's outline (k, 2) on the developed skin, girth and z; None where it has no foot there."""
        if self.foot is None or self.skin is None:
            return None
        return np.asarray(wrapped_outline(self.skin, self.foot, self.places)[0])

    def foot_between(self, low_mm: float, high_mm: float) -> bool:
        """Tell whether its foot lies on the skin somewhere between two heights, z in mm."""
        foot, z_mm = self.foot, float(self.places.along_mm[0])
        if foot is None or self.skin is None:
            return False
        # No corner is farther off than this: most feet need no outline to be told.
        reach = hypot(foot.across_mm, foot.along_mm) / 2 + hypot(foot.centre_across_mm, foot.centre_along_mm)
        if not low_mm - reach <= z_mm <= high_mm + reach or self.outline is None:
            return False
        heights = self.outline[:, 1]
        return bool(heights.min() <= high_mm and heights.max() >= low_mm)

    @property
    def skin(self) -> Skin | None:
        """The skin it stands on; None for what hangs on a spreader, a stay or another fitting."""
        return self.host if isinstance(self.host, Skin) else None

    @property
    def on_mast(self) -> bool:
        """Tell whether it stands on the skin, itself or on another that does: not on a spreader or a stay."""
        return self.host.on_mast if isinstance(self.host, Placed) else self.skin is not None


Host = Skin | SpreaderInSpace | StayInSpace | Placed


def seats_on(host: Host, fitting: Fitting, places: Places) -> Seats:
    """Seat a fitting at n places on its host."""
    match host:
        case Skin():
            return on_mast(host, places)
        case SpreaderInSpace():
            return on_spreader(host, places)
        case StayInSpace():
            return on_stay(host, places)
        case Placed():
            mount = next(mount for mount in host.kind.mounts if mount.name == fitting.mount)
            return on_mount(host.seats, mount, places)
    assert_never(host)


def places_of(host: Host, fitting: Fitting) -> Places:
    """Return the one place of a fitting: as built where that was measured, else as planned."""
    built = fitting.as_built
    if isinstance(host, Skin):
        from_masthead = fitting.from_masthead_mm
        girth = fitting.girth
        if built:
            from_masthead = built.from_masthead_mm if built.from_masthead_mm is not None else from_masthead
            girth = built.girth or girth
        if from_masthead is None or girth is None:
            raise ValueError(fitting.id)  # the model refuses such a fitting
        along = height_mm(host.length_mm, from_masthead)
        around = host.girth_of(girth, along)
    else:
        along, around = fitting.along_mm or 0.0, fitting.round_deg
    return Places(*(np.array([value]) for value in (along, around, fitting.stand_off_mm, fitting.turn_deg)))


def place(host: Host, fitting: Fitting, kind: Kind, body: Body | None = None) -> Placed:
    """Seat one fitting; ``body`` is that of its kind, where it is at hand already."""
    body = body or body_of(kind)
    places = places_of(host, fitting)
    seats = seats_on(host, fitting, places)
    foot = fitting.in_hand or kind.foot
    holes = None
    # What is there already on a foot nobody measured has holes, but none whose place is known.
    if foot and isinstance(host, Skin) and (fitting.new or fitting.in_hand):
        holes = drilled(host, foot, places, seats)
        if fitting.holes_built:
            shaped = foot.seat == "shaped"
            holes = as_drilled(host, holes, fitting.holes_built, square_to_skin=shaped)
    solids = body.solids.moved(seats.origin, seats.axes)
    room = body.room.moved(seats.origin, seats.axes) if len(body.room) else body.room
    return Placed(
        fitting=fitting,
        kind=kind,
        host=host,
        body=body,
        places=places,
        seats=seats,
        solids=solids,
        room=room,
        holes=holes,
        span_z_mm=_span_z_mm(seats, (solids, room), holes),
    )


def _span_z_mm(seats: Seats, bodies: Sequence[Solids], holes: Drilled | None) -> tuple[float, float]:
    heights = [seats.origin[:, 2], *(side for body in bodies if len(body) for side in body.span_z())]
    if holes is not None:
        heights.append(holes.z_mm.ravel())
    every = np.concatenate(heights)
    return float(np.nanmin(every)), float(np.nanmax(every))

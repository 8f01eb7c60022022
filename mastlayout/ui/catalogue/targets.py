"""Where a dragged kind can be dropped: each view turns a pixel into a height and a place round the mast."""

from collections.abc import Callable

from PySide6.QtCore import QPointF
from PySide6.QtWidgets import QWidget

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import bearing_of
from mastlayout.model.around import AFT, AHEAD, Around
from mastlayout.ui.elevation.canvas import ElevationCanvas
from mastlayout.ui.elevation.shapes import AXES
from mastlayout.ui.moving.move import SNAP_PX
from mastlayout.ui.moving.pointer import Pointer
from mastlayout.ui.section.canvas import SectionCanvas
from mastlayout.ui.session import View
from mastlayout.ui.skin.canvas import SkinCanvas
from mastlayout.ui.skin.development import Development

_PORT, _STARBOARD = (Around(origin="bearing", offset=deg) for deg in (270.0, 90.0))
# What lies at the left of the mast, on it, and at its right in each view.
_FACES: dict[View, tuple[Around, Around, Around]] = {
    "starboard": (AFT, _STARBOARD, AHEAD),
    "port": (AHEAD, _PORT, AFT),
    "ahead": (_STARBOARD, AHEAD, _PORT),
}
# How much of the mast's width, from either side, still means what lies beside it.
_EDGE = 0.25


@dataclass(frozen=True)
class Spot:
    """A height z from the heel, mm, and a place round the mast.

    ``reach_mm`` is how near along the mast a snap draws it in, ``round_mm`` how near round it; 0
    where that is not dragged.
    """

    z_mm: float
    girth: Around
    reach_mm: float = 0.0
    round_mm: float = 0.0


@dataclass(frozen=True, eq=False)
class Target:
    """A view to drop on. ``spot`` is asked with a pixel.

    ``takes_hand`` tells whether what is dragged may be in hand meanwhile: a view that would run
    away under the pointer keeps the hand that was there. ``still`` is a canvas to be held still,
    ``pointer`` that of a canvas which shows what was snapped to.
    """

    view: QWidget
    spot: Callable[[QPointF], Spot | None]
    takes_hand: bool = True
    still: ElevationCanvas | SectionCanvas | None = None
    pointer: Pointer | None = None


def on_elevation(canvas: ElevationCanvas) -> Target:
    """Return the elevation: the height of the pixel, ahead or abaft or on the side that is seen."""

    def spot(at: QPointF) -> Spot | None:
        skin, view = canvas.session.desk.scene.skin, canvas.session.view
        z = min(max(canvas.span.z_mm(at.y()), 0.0), skin.length_mm)
        sides = skin.ring(z).polygon() @ AXES[view][0][:2]
        left, right = float(sides.min()), float(sides.max())
        part = (canvas.span.right_mm(at.x()) - left) / (right - left)
        before, on, beyond = _FACES[view]
        girth = before if part < _EDGE else beyond if part > 1 - _EDGE else on
        return Spot(z, girth, SNAP_PX / canvas.span.scale)

    return Target(canvas.viewport(), spot, still=canvas, pointer=canvas.pointer)


def on_section(canvas: SectionCanvas) -> Target:
    """Return the section: the height in hand, the bearing of the pixel from the mast's axis."""

    def spot(at: QPointF) -> Spot | None:
        plan = canvas.plan
        bearing = bearing_of(plan.axis_y - at.y(), plan.axis_x - at.x())
        around = Around(origin="bearing", offset=round(bearing, 1) % 360.0)
        return Spot(canvas.session.z_mm, around, round_mm=SNAP_PX / plan.scale)

    return Target(canvas, spot, still=canvas, pointer=canvas.pointer)


def on_skin(canvas: SkinCanvas) -> Target:
    """Return the skin: height and girth of the pixel; nothing where the skin is cut out."""

    def spot(at: QPointF) -> Spot | None:
        made = canvas.development
        offset = _offset_mm(made, at.x())
        if offset is None or not made.area.top() <= at.y() <= made.area.bottom():
            return None
        z = made.centre_z_mm + (made.area.center().y() - at.y()) / made.scale
        if not 0.0 <= z <= canvas.session.desk.scene.skin.length_mm:
            return None
        origin = AHEAD if made.middle == "forward" else AFT
        # Seen from outside starboard is at the left of the forward line, at the right of the track.
        to_starboard = -offset if made.middle == "forward" else offset
        girth = origin.but(offset=round(to_starboard, 1)) if offset else origin
        return Spot(z, girth, SNAP_PX / made.scale, SNAP_PX / made.scale)

    return Target(canvas, spot, takes_hand=False, pointer=canvas.pointer)


def _offset_mm(made: Development, x_px: float) -> float | None:
    """Return the offset from the line in the middle at a pixel column; None where it is cut out."""
    for piece in made.pieces:
        if piece.clip.left() <= x_px <= piece.clip.right():
            return (x_px - piece.zero_x) / made.scale
    return None

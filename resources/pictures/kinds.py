"""Every kind of the catalogue as the window draws it: from starboard, from ahead, and its section."""

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QImage, QPainter, QPen, QTransform
from PySide6.QtWidgets import QStyleOptionGraphicsItem
from windows import an_app, png_of

from mastlayout.desk import Desk
from mastlayout.geometry.frames import Array
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.silhouette import FROM_ABOVE
from mastlayout.model.boat import Boat
from mastlayout.model.fitting import MAST, Cable, Fitting
from mastlayout.model.kind import Kind, Mount
from mastlayout.model.layout import Layout
from mastlayout.model.mast import Ellipse, Mast, Track, Wall
from mastlayout.storage.catalogue import catalogue
from mastlayout.ui.elevation.cables import CablesItem
from mastlayout.ui.elevation.items import FittingItem, MastItem
from mastlayout.ui.elevation.shapes import outline
from mastlayout.ui.look import BODY, FIGURE, LABEL, LIGHT, NAME, THIN, Colours, font, load_fonts
from mastlayout.ui.section.around import paint_bodies, paint_feet
from mastlayout.ui.section.cut import cut_at, parts_at
from mastlayout.ui.section.drawing import Drawing
from mastlayout.ui.section.feet import FootAt, feet_at
from mastlayout.ui.section.metal import paint_mast
from mastlayout.ui.section.plan import MOST_SCALE, Plan, bodies

# The catalogue does not say how a kind is held; its comments do: these stand up, or hang down.
UP_GROUPS = {"antenna", "wind"}
UP = {
    "lightning-rod",
    "tricolour-anchor",
    "tricolour-anchor-low",
    "tricolour",
    "anchor-light",
    "radome-dome-470",
}
DOWN = {"spreader-light", "flag-halyard-block"}
LENGTH_MM, FROM_MASTHEAD_MM, ASIDE_MM = 12000.0, 6000.0, 320.0
_CELL_PX, _NAME_PX, _GAP_PX, _COLUMNS, _TITLE_PX = 108, 190, 6, 4, 64
_ROOM_PX = 8.0
_VIEWS = ("starboard", "ahead")


def mast() -> Mast:
    """The mast they stand on: an ellipse of 206 by 139 with a track, its wall known."""
    walls = tuple(Wall(from_masthead_mm=z, thickness_mm=3.2) for z in (0.0, FROM_MASTHEAD_MM))
    return Mast(
        length_mm=LENGTH_MM,
        section=Ellipse(shape="ellipse", length_mm=206, width_mm=139),
        taper="none",
        rake_deg=0.0,
        prebend_mm=0.0,
        track=Track(kind="groove", width_mm=5.0),
        walls=walls,
        conduits=(),
        stretches=(),
    )


def on_its_own(kind: Kind) -> Desk:
    """Return a layout with one fitting of a kind on it, as it is held, its typical foot confirmed."""
    pin = Kind(
        id="pin",
        name="Pin",
        group="bracket",
        mounts=(
            Mount(name="up", at=(0.0, 0.0, ASIDE_MM), facing="up"),
            Mount(name="down", at=(0.0, 0.0, ASIDE_MM), facing="down"),
        ),
    )
    own = Fitting(id="own", name=kind.name, kind=kind.id, in_hand=kind.foot, new=True, **_place(kind))
    holder = Fitting(id="pin-1", name="Pin", kind="pin", from_masthead_mm=FROM_MASTHEAD_MM, girth="ahead")
    cables = (Cable(id="cable", name="Cable", fitting="own"),) if kind.cable_type else ()
    return Desk(
        Layout(
            format=1,
            boat=Boat(name="Kinds", heel_above_water_mm=0.0),
            mast=mast(),
            kinds=(pin, kind),
            fittings=(holder, own),
            spreaders=(),
            stays=(),
            halyards=(),
            holes=(),
            cables=cables,
        )
    )


def _place(kind: Kind) -> dict[str, object]:
    """Return where a kind goes: ahead on the mast, or on a mount that faces up or down."""
    if kind.group in UP_GROUPS or kind.id in UP or kind.id in DOWN:
        return {"on": "pin-1", "mount": "down" if kind.id in DOWN else "up"}
    top = kind.id.startswith("crane-plate")
    return {"on": MAST, "from_masthead_mm": 0.0 if top else FROM_MASTHEAD_MM, "girth": "ahead"}


def contact_sheet() -> bytes:
    """Return the sheet as a PNG, group by group in the catalogue's order."""
    an_app()
    load_fonts()
    kinds = sorted(catalogue().values(), key=lambda kind: (kind.group, kind.name))
    rows = -(-len(kinds) // _COLUMNS)
    wide = _NAME_PX + 3 * (_CELL_PX + _GAP_PX)
    sheet = QImage(
        _COLUMNS * wide + 40, _TITLE_PX + rows * (_CELL_PX + _GAP_PX) + 20, QImage.Format.Format_RGB32
    )
    sheet.fill(LIGHT["ground"])
    painter = QPainter(sheet)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _title(painter, len(kinds))
    for i, kind in enumerate(kinds):
        column, row = divmod(i, rows)
        _row(painter, kind, QPointF(20 + column * wide, _TITLE_PX + row * (_CELL_PX + _GAP_PX)))
    painter.end()
    return png_of(sheet)


def _title(painter: QPainter, count: int) -> None:
    painter.setPen(LIGHT["ink"])
    painter.setFont(font(NAME, bold=True))
    painter.drawText(QPointF(20, 36), "Kinds of fitting")
    painter.setFont(font(LABEL))
    painter.setPen(LIGHT["second"])
    words = f"{count} kinds: from starboard, forward right; from ahead, starboard left; section, bow up"
    painter.drawText(QPointF(200, 36), words)


def _row(painter: QPainter, kind: Kind, at: QPointF) -> None:
    desk = on_its_own(kind)
    placed = desk.scene.placed["own"]
    painter.setPen(LIGHT["ink"])
    painter.setFont(font(BODY))
    words = QRectF(at.x(), at.y(), _NAME_PX - 8, _CELL_PX / 2)
    painter.drawText(words, Qt.AlignmentFlag.AlignBottom | Qt.TextFlag.TextWordWrap, kind.name)
    painter.setPen(LIGHT["second"])
    painter.setFont(font(FIGURE))
    painter.drawText(
        words.translated(0, _CELL_PX / 2 + 2), Qt.AlignmentFlag.AlignTop, f"{kind.group}   {kind.id}"
    )
    for i, view in enumerate((*_VIEWS, "section")):
        box = QRectF(at.x() + _NAME_PX + i * (_CELL_PX + _GAP_PX), at.y(), _CELL_PX, _CELL_PX)
        painter.save()
        painter.setClipRect(box)
        if view == "section":
            _section(painter, desk, placed, box)
        else:
            _elevation(painter, desk, placed, view, box)
        painter.restore()
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(LIGHT["hair"], THIN))
        painter.drawRect(box)


def _elevation(painter: QPainter, desk: Desk, placed: Placed, view: str, box: QRectF) -> None:
    shape = outline(placed, view)
    low, high = shape.low, shape.high
    scale = (_CELL_PX - 2 * _ROOM_PX) / max(float((high - low).max()), 60.0)
    middle = (low + high) / 2
    centre = box.center()
    fit = QTransform(
        scale, 0, 0, -scale, centre.x() - float(middle[0]) * scale, centre.y() + float(middle[1]) * scale
    )
    own = FittingItem("own")
    own.show_outline(shape, LIGHT, typical=False)
    tube, cables = MastItem(), CablesItem()
    tube.show_scene(desk.scene, view, LIGHT)
    cables.show_scene(desk.scene, view, LIGHT)
    painter.setTransform(fit)
    for item in (tube, own, cables):
        item.paint(painter, QStyleOptionGraphicsItem())
    painter.resetTransform()


def _section(painter: QPainter, desk: Desk, placed: Placed, box: QRectF) -> None:
    cut = cut_at(desk.report, _height(placed), "")
    outlines = bodies(cut)
    room = box.adjusted(_ROOM_PX, _ROOM_PX, -_ROOM_PX, -_ROOM_PX)
    feet = tuple(feet_at(cut))
    made = Drawing(cut, _plan(placed, feet, outlines, room), outlines, feet)
    colours: Colours = LIGHT
    paint_mast(painter, made, colours)
    paint_feet(painter, made, colours)
    paint_bodies(painter, made, colours)


def _plan(placed: Placed, feet: tuple[FootAt, ...], outlines: dict[str, Array], room: QRectF) -> Plan:
    """Return the section at a scale that shows the fitting, with a little of the mast, not all of it."""
    seat = (FROM_ABOVE @ placed.seats.origin[0])[None]
    points = [outline.reshape(-1, 2) for outline in outlines.values()] + [foot.metal for foot in feet]
    every = np.concatenate([*points, seat])
    low, high = every.min(axis=0), every.max(axis=0)
    scale = min(room.width() / max(float((high - low).max()), 60.0), MOST_SCALE)
    x, y = (low + high) / 2
    return Plan(room.center().x() - float(x) * scale, room.center().y() + float(y) * scale, scale)


def _height(placed: Placed) -> float:
    """Return the height that holds most of a fitting's parts."""
    heights = [*placed.solids.centre[:, 2], placed.z_mm]
    return float(max(heights, key=lambda z: int(parts_at(placed.solids, z).sum())))

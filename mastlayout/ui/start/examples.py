"""The examples: each yacht drawn small, all to one scale, opened with a click or Return."""

from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QAbstractButton, QWidget

from mastlayout.errors import MastLayoutError
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.scene import Scene, build
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document
from mastlayout.ui.look import CORNER, IN_HAND, LABEL, MARGIN, THIN, VALUE, Colours, font
from mastlayout.ui.pens import pen
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_PICTURE_PX = 150.0
_HIGHEST_MM, _BELOW_MM, _WIDEST_MM = 20_500.0, 1_200.0, 15_000.0


@dataclass(frozen=True, eq=False)
class Example:
    """An example layout, its scene for the picture."""

    path: Path
    scene: Scene


def examples() -> Iterator[Example]:
    """Yield the examples that can be read, the longest mast first."""
    found = []
    for path in sorted(demo_masts().glob("*.toml")):
        try:
            found.append(Example(path, build(open_document(path).layout)))
        except MastLayoutError:
            continue
    yield from sorted(found, key=lambda example: -example.scene.skin.length_mm)


class ExampleCard(QAbstractButton):
    """One example: its yacht in profile, its name and its sizes."""

    def __init__(self, example: Example, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._example, self._theme = example, theme
        self.path = example.path
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(_("Open the example {name}").format(name=self._name))
        self.setAccessibleDescription(", ".join(self._facts()))
        theme.changed.connect(self.update)

    @property
    def _name(self) -> str:
        return self._example.scene.layout.boat.name

    def _facts(self) -> list[str]:
        layout = self._example.scene.layout
        boat, length = layout.boat, layout.mast.length_mm
        hull = _("catamaran") if boat.hull == "multihull" else _("monohull")
        first = hull
        if boat.length_overall_mm is not None:
            first = _("{length:.2f} m {hull}").format(length=boat.length_overall_mm / 1000, hull=hull)
        mast = _("mast {length}").format(length=f"{length:,.0f}".replace(",", "\u2009"))
        new = sum(fitting.new for fitting in layout.fittings)
        return [first, mast, _("{all} fittings, {new} new").format(all=len(layout.fittings), new=new)]

    def sizeHint(self) -> QSize:
        return QSize(344, 170)

    def minimumSizeHint(self) -> QSize:
        return QSize(250, 110)

    def paintEvent(self, _event: QPaintEvent) -> None:
        colours = self._theme.colours
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        lit = self.hasFocus() or self.underMouse()
        painter.setPen(QPen(colours["accent" if lit else "edge"], 2 if self.hasFocus() else 1))
        painter.setBrush(colours["chosen" if self.isDown() else "ground"])
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), CORNER, CORNER)
        width = min(_PICTURE_PX, self.height() - 2 * MARGIN, self.width() * 0.36)
        box = QRectF(MARGIN, MARGIN, width, self.height() - 2 * MARGIN)
        paint_yacht(painter, self._example.scene, box, colours)
        self._write(painter, box.right() + MARGIN, colours)
        painter.end()

    def _write(self, painter: QPainter, left: float, colours: Colours) -> None:
        y = self.height() / 2 - 42
        lines = [
            (self._name, VALUE, True, "ink"),
            *((words, LABEL, False, "second") for words in self._facts()),
        ]
        for words, size, bold, role in lines:
            painter.setFont(font(size, bold=bold))
            painter.setPen(colours[role])
            box = QRectF(left, y, self.width() - left - MARGIN, 22)
            painter.drawText(box, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)
            y += 24 if size == VALUE else 20


def paint_yacht(painter: QPainter, scene: Scene, box: QRectF, colours: Colours) -> None:
    """Paint a yacht in profile from starboard, bow right, to the scale that all examples share."""
    boat = scene.layout.boat
    water = -(boat.heel_above_water_mm or 0.0)
    scale = min(box.height() / (_HIGHEST_MM + _BELOW_MM), box.width() / _WIDEST_MM)
    painter.save()
    painter.translate(box.center().x(), box.bottom())
    painter.scale(scale, -scale)
    painter.translate(0.0, _BELOW_MM - water)
    _hull(painter, scene, water, colours, scale)
    for sail in _sails(scene):
        painter.setPen(pen(colours["cloth_edge"], THIN, scale=scale))
        painter.setBrush(colours["cloth"])
        painter.drawPolygon(sail)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(pen(colours["edge"], THIN, scale=scale))
    for stay in scene.stays.values():
        if stay.points is not None:
            painter.drawPolyline(QPolygonF([QPointF(float(x), float(z)) for x, _y, z in stay.points]))
    painter.setPen(pen(colours["ink"], IN_HAND, scale=scale))
    painter.drawLine(QPointF(0, 0), QPointF(0, scene.skin.length_mm))
    painter.restore()


def _hull(painter: QPainter, scene: Scene, water: float, colours: Colours, scale: float) -> None:
    """Paint the hull as far as the layout knows it: its length, its sheer, the water."""
    boat = scene.layout.boat
    painter.setPen(pen(colours["cloth_edge"], THIN, scale=scale))
    painter.drawLine(QPointF(-7500, water), QPointF(7500, water))
    if boat.length_overall_mm is None or boat.sheer_above_heel_mm is None:
        return
    bow = (boat.foretriangle_base_mm or boat.length_overall_mm * 0.4) + 200
    stern, sheer = bow - boat.length_overall_mm, boat.sheer_above_heel_mm
    points = ((stern, sheer - 100), (bow, sheer + 200), (bow - 500, water), (bow * 0.4, water - 500),
              (stern + 1200, water - 300), (stern + 300, water))  # fmt: skip
    painter.setPen(pen(colours["ink"], THIN, scale=scale))
    painter.setBrush(colours["mast"])
    painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in points]))


def _sails(scene: Scene) -> Iterator[QPolygonF]:
    """Yield main and headsail as triangles through the corners that were measured."""
    length = scene.skin.length_mm
    for sail in scene.layout.sails:
        if sail.role == "main" and sail.e_mm and sail.lower_mark_mm and sail.upper_mark_mm is not None:
            low, high = height_mm(length, sail.lower_mark_mm), height_mm(length, sail.upper_mark_mm)
            yield QPolygonF([QPointF(-120, low), QPointF(-120 - sail.e_mm, low), QPointF(-120, high)])
    headsail = next((sail for sail in scene.layout.sails if sail.role == "headsail"), None)
    if headsail is None or headsail.stay is None or headsail.lp_mm is None or headsail.clew_mm is None:
        return
    points = scene.stays[headsail.stay].points if headsail.stay in scene.stays else None
    if points is None:
        return
    head, tack = (QPointF(float(p[0]), float(p[2])) for p in (points[0], points[-1]))
    clew = QPointF(tack.x() - headsail.lp_mm, height_mm(length, headsail.clew_mm))
    yield QPolygonF([tack, clew, head])

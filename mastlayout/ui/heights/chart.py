"""The chart: what each height gives, drawn; the pointer and the keys move the height in hand."""

import math

import numpy as np
from PySide6.QtCore import QEvent, QObject, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QHelpEvent, QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QToolTip, QVBoxLayout, QWidget

from mastlayout.geometry.scene import masthead_first
from mastlayout.ranges.asked import Asked
from mastlayout.ranges.reach import REACHES
from mastlayout.ui.heights.lettering import ROW_PX, AtCurve, AtDot, Lettering, Shown
from mastlayout.ui.heights.plot import Plot, curve_pen
from mastlayout.ui.heights.scale import Name, scale_for
from mastlayout.ui.heights.shown import figures_at, on_mast
from mastlayout.ui.heights.words import missing_words, value_text, what_words
from mastlayout.ui.moving.keys import climb
from mastlayout.ui.moving.steps import PAGE_MM, step, wheel_mm
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.ui.typed import written
from mastlayout.units import write_height
from mastlayout.words import _

_HIT_PX, _RING_PX = 8.0, 3
_LEAST = QSize(420, 300)


class Chart(QWidget):
    """Height above the water up, distance across. ``mast`` is what stands on it, as drawn."""

    def __init__(self, session: Session, theme: Theme, asked: Asked, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session, self.theme, self.asked = session, theme, asked
        self.mast = on_mast(session.desk.scene, asked)
        self.plot = Plot(self)
        self.lettering = Lettering(theme, self)
        column = QVBoxLayout(self)
        # What is covered whole by an opaque child shows no ring when it has the keys.
        column.setContentsMargins(*(_RING_PX,) * 4)
        column.addWidget(self.plot.widget)
        self.setMinimumSize(_LEAST)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(_("Chart of what each height gives"))
        viewport = self.plot.widget.viewport()
        viewport.installEventFilter(self)
        viewport.setCursor(Qt.CursorShape.SizeVerCursor)
        theme.changed.connect(self.restyle)
        self.plot.colour(theme.colours)
        self.show_layout()
        self.plot.view.sigResized.connect(self._fit)

    # -- what is shown

    def restyle(self) -> None:
        """Take the colours in force."""
        self.plot.colour(self.theme.colours)
        self.show_layout()

    def ask(self, asked: Asked) -> None:
        """Ask for other ends."""
        self.asked = asked
        self.show_layout()

    def show_layout(self) -> None:
        """Draw the session's layout as it stands."""
        self.mast = on_mast(self.session.desk.scene, self.asked)
        self.plot.draw_curves(self.mast.top_m, self.asked)
        self.plot.draw_fittings(self.mast, self.session.hand)
        self._frame()
        self.show_height()

    def show_height(self) -> None:
        """Move the line to the height in hand."""
        if self.mast.missing is None:
            self.plot.draw_height(self.height_m, self.asked)
        self._letter()
        self._describe()

    @property
    def height_m(self) -> float:
        """The height in hand above the water, m."""
        return self.mast.at(self.session.z_mm, self.session.desk.scene.skin.length_mm)

    def _ends(self) -> list[tuple[str, float, str]]:
        """Return key, distance at the top and words of each curve that is drawn."""
        top, units = np.array(self.mast.top_m), self.session.units
        ends = [(reach, float(reach.distance_nm(top, self.asked))) for reach in REACHES]
        return [
            (reach.key, nm, f"{what_words(reach, self.asked, units)}, {reach.convention.short}")
            for reach, nm in ends
            if not math.isnan(nm)
        ]

    def _frame(self) -> None:
        wide, high = self.plot.size_px()
        named = [
            Name(nm, AtCurve(words, QPointF(), curve_pen(REACHES[0], self.theme.colours)).wide_px)
            for _key, nm, words in self._ends()
        ]
        low = min(self.mast.heel_m, 0.0)
        self.scale = scale_for(wide, high, self.mast.top_m, low, named, len(named) * ROW_PX)
        self.plot.frame(self.scale, self.mast, self.session.units)

    # -- words

    def _letter(self) -> None:
        top, colours = self.mast.top_m, self.theme.colours
        pens = {reach.key: curve_pen(reach, colours) for reach in REACHES}
        curves = [AtCurve(words, self.plot.pixel(nm, top), pens[key]) for key, nm, words in self._ends()]
        height = None
        if self.mast.missing is None:
            height = self._height_words(), self.plot.pixel(0.0, self.height_m).y()
        missing = missing_words(self.mast.missing.key) if self.mast.missing else ""
        room, leftward = self._room(), self.scale.leftward
        shown = Shown(room, curves, self._dots(), height, missing, leftward)
        self.lettering.show_words(shown)

    def _room(self) -> QRectF:
        return QRectF(self.plot.view.sceneBoundingRect())

    def _dots(self) -> list[AtDot]:
        """Return the dots with the room that the first curve leaves their names."""
        mast, hand = self.mast, self.session.hand
        most, high = self.plot.pixels(REACHES[0].distance_nm(mast.heights_m, self.asked), mast.heights_m)
        left = self.plot.pixel(0.0, 0.0).x()
        return [
            AtDot(name, QPointF(left, y), x - 6, own == hand)
            for name, own, x, y in zip(mast.names, mast.ids, most.tolist(), high.tolist(), strict=True)
        ]

    def _height_words(self) -> str:
        return _("{heel} from the heel, {water} above the water").format(
            heel=written(self.session.z_mm, self.session.units),
            water=write_height(self.height_m, self.session.units),
        )

    def _describe(self) -> None:
        """Say in words what is drawn at the height in hand."""
        if self.mast.missing is not None:
            said = missing_words(self.mast.missing.key)
        else:
            units = self.session.units
            found = figures_at(self.session.desk.scene, self.session.z_mm, self.asked)
            reach = "; ".join(
                f"{what_words(one, self.asked, units)}, {one.convention.short}: "
                f"{value_text(found[one.key], units)}"
                for one in REACHES
            )
            said = f"{self._height_words()}. {reach}."
        self.setAccessibleDescription(said)
        self.lettering.setAccessibleDescription(said)

    # -- pointer

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take the pointer on the plot: it has nothing to pan or to zoom."""
        kinds = (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonDblClick)
        if isinstance(event, QMouseEvent) and watched is self.plot.widget.viewport():
            if event.type() in kinds and event.button() == Qt.MouseButton.LeftButton:
                self.setFocus(Qt.FocusReason.MouseFocusReason)
                self._press(event.position())
            elif event.type() == QEvent.Type.MouseMove:
                self._move(event)
            return True
        if isinstance(event, QWheelEvent):
            climb(self.session, wheel_mm(event))
            return True
        if isinstance(event, QHelpEvent):
            QToolTip.showText(event.globalPos(), ", ".join(self._names_at(QPointF(event.pos()))))
            return True
        return super().eventFilter(watched, event)

    def _press(self, at: QPointF) -> None:
        hit = self.fitting_at(at)
        if hit:
            self.session.pick(hit)
        else:
            self._go_to(at)

    def _move(self, event: QMouseEvent) -> None:
        if event.buttons() & Qt.MouseButton.LeftButton:
            self._go_to(event.position())
        over = bool(self.fitting_at(event.position()))
        shape = Qt.CursorShape.PointingHandCursor if over else Qt.CursorShape.SizeVerCursor
        self.plot.widget.viewport().setCursor(shape)

    def _go_to(self, at: QPointF) -> None:
        """Take the height of a pixel in hand; it stays on the mast."""
        rise, length = self.mast.masthead_m - self.mast.heel_m, self.session.desk.scene.skin.length_mm
        if self.mast.missing is None and rise > 0.0:
            part = (self.plot.height_at(at) - self.mast.heel_m) / rise
            self.session.go_to(min(max(part, 0.0), 1.0) * length)

    def fitting_at(self, at: QPointF) -> str:
        """Return the fitting whose dot is at a pixel, the nearest one; "" for none."""
        near = self._near(at)
        return near[0][1] if near else ""

    def _names_at(self, at: QPointF) -> list[str]:
        return [name for _off, _id, name in self._near(at)]

    def _near(self, at: QPointF) -> list[tuple[float, str, str]]:
        found = []
        for own, name, height in zip(self.mast.ids, self.mast.names, self.mast.heights_m, strict=True):
            off = self.plot.pixel(0.0, float(height)) - at
            if max(abs(off.x()), abs(off.y())) <= _HIT_PX:
                found.append((abs(off.y()), own, name))
        return sorted(found, key=lambda one: one[0])

    # -- keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, up = event.key(), {Qt.Key.Key_Up: 1.0, Qt.Key.Key_PageUp: 1.0}
        length = self.session.desk.scene.skin.length_mm
        if (
            key in (Qt.Key.Key_Up, Qt.Key.Key_Down)
            and event.modifiers() & Qt.KeyboardModifier.ControlModifier
        ):
            self._pick_next(up=key == Qt.Key.Key_Up)
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            climb(self.session, step(event.modifiers()) * up.get(Qt.Key(key), -1.0))
        elif key in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
            climb(self.session, PAGE_MM * up.get(Qt.Key(key), -1.0))
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            self.session.go_to(length if key == Qt.Key.Key_Home else 0.0)
        else:
            super().keyPressEvent(event)

    def _pick_next(self, *, up: bool) -> None:
        """Take the next fitting in hand, in the order from the masthead down."""
        ids = [one.id for one in masthead_first(self.session.desk.scene)]
        if not ids:
            return
        at = ids.index(self.session.hand) if self.session.hand in ids else (len(ids) if up else -1)
        self.session.pick(ids[min(max(at + (-1 if up else 1), 0), len(ids) - 1)])

    def _fit(self, *_view: object) -> None:
        """Take the size that the plot has now."""
        self.lettering.setGeometry(self.plot.widget.geometry())
        self._frame()
        self._letter()

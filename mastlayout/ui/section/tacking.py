"""The rows below the section: which state of a sail is drawn, and the slider that carries or eases it."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QLabel, QSlider, QWidget

from mastlayout.ui.look import GAP, LABEL, MARGIN, UNIT, font
from mastlayout.ui.section.canvas import SectionCanvas
from mastlayout.ui.section.sailwords import carried_words
from mastlayout.ui.section.states import StatePicker
from mastlayout.units import write_length
from mastlayout.words import _

# The slider's steps from the middle to either side; an arrow key takes one stride, a page key ten.
STEPS, _STRIDE = 500, 5
_LONG_MM = 9999.0
_KNOB_PX, _GROOVE_PX, _LEAST_SLIDER_PX = 12, 2, 60
# From this width on picker and slider stand side by side.
_ONE_ROW_PX = 440
# What the slider does, its name for those who do not see it, and its tip: with a headsail, and the main.
_TACKED = (
    _("Tack the sail"),
    _("Tack the sail, from port to starboard"),
    _("Carry the sail from port to starboard"),
)
_EASED = (
    _("Ease the main"),
    _("Ease the main, from port through amidships to starboard"),
    _("In the middle it is sheeted in; at either end it is out as far as boom and twist let it"),
)


class Tacking(QWidget):
    """Below the section: the picker of the state, and the slider for the cloth that the canvas draws."""

    def __init__(self, canvas: SectionCanvas, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._canvas, self._late = canvas, False
        self.picker, self.slider = StatePicker(canvas), QSlider(Qt.Orientation.Horizontal)
        self.words, self._title = QLabel(), QLabel()
        self._rows = QBoxLayout(QBoxLayout.Direction.TopToBottom, self)
        self.slider.setRange(-STEPS, STEPS)
        self.slider.setSingleStep(_STRIDE)
        self.slider.setPageStep(10 * _STRIDE)
        self.slider.setValue(-STEPS)
        self._lay_out()
        self.slider.valueChanged.connect(self._carry)
        canvas.arranged.connect(self._arranged)
        canvas.session.turns.fields.connect(self._catch_up)
        for signal in (canvas.session.sails_changed, canvas.session.cloth_changed):
            signal.connect(self.show_state)
        canvas.theme.changed.connect(self._restyle)
        self._restyle()
        self.show_state()

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        self._rows.setContentsMargins(MARGIN, 0, MARGIN, UNIT)
        self._rows.setSpacing(UNIT)
        row.setSpacing(GAP)
        for label in (self._title, self.words):
            label.setFont(font(LABEL))
        self.words.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.words.setContentsMargins(0, 0, 2, 0)  # a last letter reaches beyond its advance
        self._rows.addWidget(self.picker, 1)
        row.addWidget(self._title)
        row.addWidget(self.slider, 1)
        row.addWidget(self.words)
        self._rows.addLayout(row, 1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Stand in one row where there is the width for it: height is dear below a drawing."""
        super().resizeEvent(event)
        beside = event.size().width() >= _ONE_ROW_PX
        way = QBoxLayout.Direction.LeftToRight if beside else QBoxLayout.Direction.TopToBottom
        self._rows.setDirection(way)
        self._rows.setSpacing(MARGIN if beside else UNIT)
        self._fit_title()

    def _fit_title(self) -> None:
        """Leave the slider's title away where it would leave no length to slide along."""
        across = 2 if self._rows.direction() == QBoxLayout.Direction.LeftToRight else 1
        taken = self._title.sizeHint().width() + self.words.minimumWidth() + 2 * GAP
        self._title.setVisible((self.width() - 2 * MARGIN) / across - taken >= _LEAST_SLIDER_PX)

    def _carry(self, step: int) -> None:
        self._canvas.carry_cloth(step / STEPS)
        self.show_state()

    def _arranged(self) -> None:
        """Follow at once, but in a turn of its own while a gesture is under way."""
        self._late = True
        if not self._canvas.session.previewing:
            self.show_state()

    def _catch_up(self) -> None:
        if self._late:
            self.show_state()

    def show_state(self) -> None:
        """Name the state that is drawn, and say how far its cloth passes from what is in hand."""
        self._late, canvas = False, self._canvas
        self.setVisible(canvas.session.sails)
        if not canvas.session.sails_drawn:
            return
        units, sailed = canvas.session.units, canvas.sailed
        self.picker.show_state(sailed)
        title, name, tip = _EASED if sailed is not None and sailed.is_main else _TACKED
        self._title.setText(title)
        self.slider.setAccessibleName(name)
        self.slider.setToolTip(tip)
        self.slider.setEnabled(sailed is not None)
        said = carried_words(sailed, canvas.carried, units)
        # As wide as it gets, so that the slider does not shake.
        widest = _("{m} from it").format(m=write_length(_LONG_MM, units)), _("no sail here")
        metrics = self.words.fontMetrics()
        self.words.setMinimumWidth(max(map(metrics.horizontalAdvance, widest)) + UNIT)
        self.words.setText(said)
        self._fit_title()
        self.slider.setAccessibleDescription(said)

    def _restyle(self) -> None:
        c = self._canvas.theme.colours
        for label in (self.words, self._title):
            label.setStyleSheet(f"color: #{c.ink}")
        half, ends = _KNOB_PX // 2, f"width: {_KNOB_PX}px; margin: -{(_KNOB_PX - _GROOVE_PX) // 2}px 0;"
        knob = f"{ends} border-radius: {half}px; border: 2px solid"
        self.slider.setStyleSheet(
            f"QSlider::groove:horizontal {{ height: {_GROOVE_PX}px; background: #{c.edge}; }}"
            f"QSlider::handle:horizontal {{ {knob} #{c.accent}; background: #{c.accent}; }}"
            f"QSlider::handle:horizontal:focus {{ {knob} #{c.accent}; background: #{c.ground}; }}"
            f"QSlider::handle:horizontal:disabled {{ {knob} #{c.edge}; background: #{c.edge}; }}"
        )

"""The slider that carries the sail from tack to tack, with the live distance to what is in hand."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSlider, QWidget

from mastlayout.ui.look import GAP, LABEL, MARGIN, UNIT, font
from mastlayout.ui.section.canvas import SectionCanvas
from mastlayout.ui.section.sailwords import carried_words
from mastlayout.units import write_length
from mastlayout.words import _

# The slider's steps from the middle to either side; an arrow key takes one stride, a page key ten.
STEPS, _STRIDE = 500, 5
_LONG_MM = 9999.0
_KNOB_PX, _GROOVE_PX = 12, 2


class Tacking(QWidget):
    """The row below the section: it carries the cloth that the canvas draws."""

    def __init__(self, canvas: SectionCanvas, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._canvas = canvas
        self.slider, self.words, title = (
            QSlider(Qt.Orientation.Horizontal),
            QLabel(),
            QLabel(_("Tack the sail")),
        )
        self.slider.setRange(-STEPS, STEPS)
        self.slider.setSingleStep(_STRIDE)
        self.slider.setPageStep(10 * _STRIDE)
        self.slider.setValue(-STEPS)
        self.slider.setAccessibleName(_("Tack the sail, from port to starboard"))
        self.slider.setToolTip(_("Carry the sail from port to starboard"))
        row = QHBoxLayout(self)
        row.setContentsMargins(MARGIN, 0, MARGIN, UNIT)
        row.setSpacing(GAP)
        for label in (title, self.words):
            label.setFont(font(LABEL))
        self.words.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.words.setContentsMargins(0, 0, 2, 0)  # a last letter reaches beyond its advance
        row.addWidget(title)
        row.addWidget(self.slider, 1)
        row.addWidget(self.words)
        self.slider.valueChanged.connect(self._carry)
        canvas.arranged.connect(self.show_state)
        canvas.session.sails_changed.connect(self.show_state)
        canvas.theme.changed.connect(self._restyle)
        self._restyle()
        self.show_state()

    def _carry(self, step: int) -> None:
        self._canvas.carry_cloth(step / STEPS)
        self.show_state()

    def show_state(self) -> None:
        """Say how far the cloth passes from what is in hand."""
        canvas = self._canvas
        units = canvas.session.units
        self.setVisible(canvas.session.sails)
        self.slider.setEnabled(canvas.sailed is not None)
        said = carried_words(canvas.sailed, canvas.carried, units)
        # As wide as it gets, so that the slider does not shake.
        widest = _("{m} from it").format(m=write_length(_LONG_MM, units)), _("no headsail here")
        metrics = self.words.fontMetrics()
        self.words.setMinimumWidth(max(map(metrics.horizontalAdvance, widest)) + UNIT)
        self.words.setText(said)
        self.slider.setAccessibleDescription(said)

    def _restyle(self) -> None:
        c = self._canvas.theme.colours
        self.words.setStyleSheet(f"color: #{c.ink}")
        half, ends = _KNOB_PX // 2, f"width: {_KNOB_PX}px; margin: -{(_KNOB_PX - _GROOVE_PX) // 2}px 0;"
        knob = f"{ends} border-radius: {half}px; border: 2px solid"
        self.slider.setStyleSheet(
            f"QSlider::groove:horizontal {{ height: {_GROOVE_PX}px; background: #{c.edge}; }}"
            f"QSlider::handle:horizontal {{ {knob} #{c.accent}; background: #{c.accent}; }}"
            f"QSlider::handle:horizontal:focus {{ {knob} #{c.accent}; background: #{c.ground}; }}"
            f"QSlider::handle:horizontal:disabled {{ {knob} #{c.edge}; background: #{c.edge}; }}"
        )

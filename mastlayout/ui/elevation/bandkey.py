"""What each band beside the mast stands for: its pattern and its sail, in as many lines as it takes."""

from collections.abc import Iterator

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from mastlayout.frozen import dataclass
from mastlayout.ui.elevation.bands import bands_of, paint_pattern, pattern_of, state_words
from mastlayout.ui.lines import width_px
from mastlayout.ui.look import GAP, LABEL, MARGIN, UNIT, font
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_LINE_PX, _SWATCH_PX = 18.0, 12.0


@dataclass(frozen=True)
class Entry:
    """One entry of the key: words, with the pattern before them but for the head of the row."""

    words: str
    pattern: Qt.BrushStyle | None
    box: QRectF


_NO_BANDS = _("No sail is drawn beside the mast.")


class BandKey(QWidget):
    """The key below the elevation; without sails, or where they are left out, it takes no room."""

    def __init__(self, session: Session, theme: Theme) -> None:
        super().__init__()
        self.session, self.theme = session, theme
        self.entries: list[Entry] = []
        self.setAccessibleDescription(_NO_BANDS)
        self.setAccessibleName(_("Key of the bands beside the mast"))
        for signal in (session.opened, session.sails_changed, session.turns.elevation):
            signal.connect(self.show_bands)
        theme.changed.connect(self.update)
        self.show_bands()

    def show_bands(self, *_changed: object) -> None:
        """Lay out an entry for each band."""
        found = list(self._laid())
        if found == self.entries:
            return
        self.entries = found
        lines = max((entry.box.bottom() for entry in found), default=0.0)
        self.setFixedHeight(round(lines))
        self.setAccessibleDescription("; ".join(entry.words for entry in found[1:]) or _NO_BANDS)
        self.update()

    def _laid(self) -> Iterator[Entry]:
        scene = self.session.desk.scene
        bands = bands_of(scene.main) if self.session.sails_drawn else ()
        if not bands:
            return
        words: list[tuple[str, Qt.BrushStyle | None]] = [(_("Sweeps the mast:"), None)]
        words += [(state_words(band), pattern_of(bands, i)) for i, band in enumerate(bands)]
        x, y, room = 0.0, 0.0, float(self.width())
        for text, pattern in words:
            wide = width_px(text, LABEL) + (_SWATCH_PX + UNIT if pattern else 0.0)
            if x and x + wide > room:
                x, y = 0.0, y + _LINE_PX
            yield Entry(text, pattern, QRectF(x, y, wide, _LINE_PX))
            x += wide + (MARGIN if pattern else GAP)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.show_bands()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, colours = QPainter(self), self.theme.colours
        painter.setFont(font(LABEL))
        for entry in self.entries:
            box = QRectF(entry.box)
            if entry.pattern is not None:
                swatch = QRectF(box.left() + 0.5, box.center().y() - _SWATCH_PX / 2, _SWATCH_PX, _SWATCH_PX)
                paint_pattern(painter, swatch, entry.pattern, colours)
                box.setLeft(box.left() + _SWATCH_PX + UNIT)
            painter.setPen(colours["second"])
            painter.drawText(box.adjusted(0, 0, UNIT, 0), Qt.AlignmentFlag.AlignVCenter, entry.words)
        painter.end()

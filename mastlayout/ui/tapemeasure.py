"""The tape measure: from the height in hand when it was taken up to the height in hand now."""

from PySide6.QtCore import QObject, Signal

from mastlayout.geometry.frames import height_mm, reading
from mastlayout.ui.session import Session
from mastlayout.words import _


class TapeMeasure(QObject):
    """``said`` carries what the tape reads, "" when it is put away."""

    said = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session: Session | None = None
        self.from_z_mm: float | None = None

    def follow(self, session: Session) -> None:
        """Measure on this session."""
        self._session = session
        session.height_changed.connect(self._read)
        session.units_changed.connect(self._read)
        session.opened.connect(self.put_away)

    def toggle(self) -> None:
        """Hook the tape at the height in hand, or put it away."""
        if self._session is None or self.from_z_mm is not None:
            self.put_away()
            return
        self.from_z_mm = self._session.z_mm
        self._read()

    def put_away(self) -> None:
        """End measuring."""
        self.from_z_mm = None
        self.said.emit("")

    def _read(self, *_changed: object) -> None:
        if self._session is None or self.from_z_mm is None:
            return
        length, units = self._session.desk.scene.skin.length_mm, self._session.units
        hooked, now = height_mm(length, self.from_z_mm), height_mm(length, self._session.z_mm)
        span = reading(now, hooked, units)  # the hooked reading is the whole of this tape
        if not span.heel:
            words = _("Tape hooked at {start} from the masthead: go to another height")
        elif span.heel < 0:
            words = _("Tape from {start} to {end} from the masthead: {apart} down")
        else:
            words = _("Tape from {start} to {end} from the masthead: {apart} up")
        start, end, apart = (span.text(number) for number in (span.total, span.masthead, abs(span.heel)))
        self.said.emit(words.format(start=start, end=end, apart=apart))

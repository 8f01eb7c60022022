"""How the mast lies: which face is up, at which end one stands, and what the eyes then see."""

import numpy as np
from PySide6.QtCore import QObject, QSettings, Signal

from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import FACES, Array, End, Face, Hand, hand_of, lying_axes

ENDS: tuple[End, ...] = ("heel", "masthead")


@dataclass(frozen=True)
class Lie:
    """A lying mast seen from above by who stands at one end: along is away from them, right is right."""

    face: Face = "forward"
    end: End = "heel"

    def along_mm(self, z_mm: float) -> float:
        """Return how far along the look a height z lies; the same turn takes it back."""
        return lying_axes(self.face, self.end)[2] * z_mm

    def right_mm(self, points: Array) -> Array:
        """Return how far to the right of the mast's axis points (…, 2 or 3) of the mast frame lie."""
        return np.asarray(points[..., :2] @ np.array(lying_axes(self.face, self.end)[0]))

    def up_mm(self, points: Array) -> Array:
        """Return how high above the mast's axis points (…, 2 or 3) lie, or how far up normals look."""
        return np.asarray(points[..., :2] @ np.array(lying_axes(self.face, self.end)[1]))

    def side(self, hand: Hand) -> Face:
        """Return the side of the mast that lies on a hand."""
        return next(side for side in FACES if hand_of(side, self.face, self.end) == hand)

    def hand(self, side: Face) -> Hand | None:
        """Return the hand a side lies on; None for what is up or down."""
        return hand_of(side, self.face, self.end)

    @property
    def far_end(self) -> End:
        """The end one looks at."""
        return "masthead" if self.end == "heel" else "heel"


class Lying(QObject):
    """The lie in force, remembered from one day to the next; ``changed`` turns everything."""

    changed = Signal()

    def __init__(self, settings: QSettings, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._settings = settings
        face, end = settings.value("trestles/face"), settings.value("trestles/end")
        self.lie = Lie(
            next((own for own in FACES if own == face), "forward"),
            next((own for own in ENDS if own == end), "heel"),
        )

    def turn_up(self, face: Face) -> None:
        """Turn the mast so that a face is up."""
        self._lie(Lie(face, self.lie.end))

    def stand_at(self, end: End) -> None:
        """Go to an end."""
        self._lie(Lie(self.lie.face, end))

    def _lie(self, lie: Lie) -> None:
        if lie != self.lie:
            self.lie = lie
            self._settings.setValue("trestles/face", lie.face)
            self._settings.setValue("trestles/end", lie.end)
            self.changed.emit()

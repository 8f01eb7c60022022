"""The labels beside the mast: in order of height, never nearer than their pitch, the quietest go first."""

from collections.abc import Sequence
from dataclasses import dataclass

from mastlayout.documents.spread import spread
from mastlayout.ui.look import LABEL_PITCH

# Loud to quiet: when room is short the last go first.
_LOUDNESS = ("fault", "caution", "not checked", "note", "accepted", "clear")


@dataclass(frozen=True)
class Label:
    """One label: a thing's id, its state, its words and reading, and where its leader begins, in pixels."""

    id: str
    state: str
    words: str
    reading: str
    anchor_x: float
    anchor_y: float
    in_hand: bool = False


@dataclass(frozen=True)
class Placed:
    """A label and the middle of its row in pixels."""

    label: Label
    y: float


def placed_labels(
    labels: Sequence[Label], top: float, bottom: float, pitch: float = LABEL_PITCH
) -> tuple[list[Placed], int]:
    """Return the labels with their rows, masthead first, and how many of the quietest found no room.

    The thing in hand always has its label.
    """
    room = max(1, int((bottom - top) / pitch) + 1)
    kept = sorted(labels, key=lambda label: (not label.in_hand, _LOUDNESS.index(label.state)))
    left_out = max(0, len(kept) - room)
    if left_out:
        kept = kept[: room - 1]
        left_out = len(labels) - len(kept)
    rows = sorted(kept, key=lambda label: label.anchor_y)
    places = spread([label.anchor_y for label in rows], pitch, top, bottom)
    return [Placed(label, y) for label, y in zip(rows, places, strict=True)], left_out

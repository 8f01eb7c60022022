"""The labels beside the mast: in order of height, never nearer than their pitch, the quietest go first."""

from collections.abc import Sequence

from mastlayout.documents.spread import spread
from mastlayout.frozen import dataclass
from mastlayout.ui.look import LABEL_PITCH
from mastlayout.ui.marks import word
from mastlayout.words import _

# Loud to quiet; of two alike the thing in hand stays.
LOUDNESS = ("fault", "caution", "not checked", "note", "accepted", "clear")


@dataclass(frozen=True)
class Label:
    """One label: a thing's id, its state, its words and reading, and where its leader begins, in pixels.

    ``among`` are the names it must not be taken for; ``made`` says what of it is in the mast already.
    """

    id: str
    state: str
    words: str
    reading: str
    anchor_x: float
    anchor_y: float
    in_hand: bool = False
    among: tuple[str, ...] = ()
    made: str = ""


def whole_words(words: str, made: str) -> str:
    """Return a name with what of it is in the mast already: Awning eye, P, 1 of 4 drilled."""
    return _("{name}, {made}").format(name=words, made=made) if made else words


@dataclass(frozen=True)
class Placed:
    """A label and the middle of its row in pixels."""

    label: Label
    y: float


def placed_labels(
    labels: Sequence[Label], top: float, bottom: float, pitch: float = LABEL_PITCH
) -> tuple[list[Placed], list[Label]]:
    """Return the labels with their rows, masthead first, and the quietest that found no room.

    Where some are left out the lowest row, at ``bottom``, is kept for saying so. The thing in hand
    always has its label.
    """
    room = max(1, int((bottom - top) / pitch) + 1)
    kept = sorted(labels, key=lambda label: (not label.in_hand, LOUDNESS.index(label.state)))
    left_out: list[Label] = []
    if len(kept) > room:
        kept, left_out = kept[: max(1, room - 1)], kept[max(1, room - 1) :]
        bottom = max(top, bottom - pitch)
    rows = sorted(kept, key=lambda label: label.anchor_y)
    return [
        Placed(label, y) for label, y in zip(rows, _places(rows, top, bottom, pitch), strict=True)
    ], left_out


def _places(rows: Sequence[Label], top: float, bottom: float, pitch: float) -> list[float]:
    """Return the rows' places: what is in hand level with its thread where the others leave it room."""
    wanted = [row.anchor_y for row in rows]
    at = next((i for i, row in enumerate(rows) if row.in_hand), None)
    if at is None:
        return spread(wanted, pitch, top, bottom)
    y = min(max(wanted[at], top + at * pitch), bottom - (len(rows) - 1 - at) * pitch)
    above = spread(wanted[:at], pitch, top, y - pitch)
    return [*above, y, *spread(wanted[at + 1 :], pitch, y + pitch, bottom)]


def more_words(left_out: Sequence[Label]) -> str:
    """Say how many labels found no room, by state: +3 clear; "" where all have one."""
    states = [label.state for label in left_out]
    counts = [(states.count(state), word(state).lower()) for state in LOUDNESS if state in states]
    return _("+{what}").format(what=", ".join(f"{n} {state}" for n, state in counts)) if counts else ""

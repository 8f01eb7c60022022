"""A name where its room is short: whole words go, from the middle, so that thing and side stay."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF

_CUT = "…"


def whole_tip(words: str, tip: str, metrics: QFontMetricsF, room_px: float) -> str:
    """Return a tooltip that begins with the words where they are wider than their room."""
    return "\n".join(filter(None, (words if metrics.horizontalAdvance(words) > room_px else "", tip)))


def in_words(name: str, metrics: QFontMetricsF, room_px: float) -> str:
    """Return a name shortened to fit: "Tang, lower, with turnbuckle, P" to "Tang, lower …, P".

    Where not even its first word and its side fit, its end is cut.
    """
    if metrics.horizontalAdvance(name) <= room_px:
        return name
    body, comma, side = name.rpartition(", ")
    if not comma or len(side) > 1:
        body, side = name, ""
    words = body.split(" ")
    for kept in range(len(words) - 1, 0, -1):
        tried = " ".join(words[:kept]).rstrip(",") + f" {_CUT}" + (f", {side}" if side else "")
        if metrics.horizontalAdvance(tried) <= room_px:
            return tried
    return metrics.elidedText(name, Qt.TextElideMode.ElideRight, room_px)

"""What a template's PDF holds, in mm, as a stranger reads it: lines, circles, words; no code of ours."""

import io
from dataclasses import dataclass

import pdfplumber

MM = 25.4 / 72.0
HAIR_MM, TOLERANCE_MM = 7.0, 0.05


@dataclass(frozen=True)
class Sheet:
    """One page: strokes as (x1, y1, x2, y2, width), circles as (x, y, radius), words with their place."""

    strokes: tuple
    circles: tuple
    words: tuple = ()

    def level(self, length, width=None):
        """Return the middles of level strokes of a length."""
        return [
            ((x1 + x2) / 2, y1)
            for x1, y1, x2, y2, w in self.strokes
            if abs(y1 - y2) < 0.01
            and abs(x2 - x1 - length) < 0.02
            and (width is None or abs(w - width) < 0.02)
        ]

    def upright(self, length, width=None):
        """Return the middles of upright strokes of a length."""
        return [
            (x1, (y1 + y2) / 2)
            for x1, y1, x2, y2, w in self.strokes
            if abs(x1 - x2) < 0.01
            and abs(y2 - y1 - length) < 0.02
            and (width is None or abs(w - width) < 0.02)
        ]

    def crosses(self):
        """Return where two equal hairlines halve each other: the centre marks, and the joining marks."""
        upright = {length: self.upright(length, 0.18) for length in (12.0, *HAIRS)}
        return [
            (length, (x, y))
            for length in (12.0, *HAIRS)
            for x, y in self.level(length, 0.18)
            if any(abs(x - a) < 0.02 and abs(y - b) < 0.02 for a, b in upright[length])
        ]

    def marks(self):
        """Return the centre marks."""
        return [at for length, at in self.crosses() if length != 12.0]

    def word(self, text):
        """Return left, top, right, bottom of a word, the largest of that spelling; None if missing."""
        found = [w for w in self.words if w[0] == text]
        return max(found, key=lambda w: w[4] - w[2])[1:] if found else None


# A centre mark reaches 7 mm to either side, or 2 mm beyond a large hole's edge.
HAIRS = (14.0, 18.0)


def read(data, *, words=False):
    """Return the sheets of a PDF, with their words where they are asked for: that takes longest."""
    with pdfplumber.open(io.BytesIO(data)) as book:
        return [_sheet(page, words) for page in book.pages]


def _sheet(page, with_words):
    strokes = []
    for line in (*page.lines, *page.curves):
        points = line["pts"]
        if len(points) == 2:
            (x1, y1), (x2, y2) = ((x * MM, y * MM) for x, y in points)
            strokes.append((min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2), line["linewidth"] * MM))
    circles = []
    for curve in page.curves:
        wide, tall = (curve["x1"] - curve["x0"]) * MM, (curve["bottom"] - curve["top"]) * MM
        if len(curve["pts"]) > 4 and abs(wide - tall) < 0.02 and not curve["fill"]:
            centre = (curve["x0"] + curve["x1"]) / 2 * MM, (curve["top"] + curve["bottom"]) / 2 * MM
            circles.append((*centre, wide / 2))
    if not with_words:
        return Sheet(tuple(strokes), tuple(circles))
    words = tuple(
        (w["text"], w["x0"] * MM, w["top"] * MM, w["x1"] * MM, w["bottom"] * MM)
        for w in page.extract_words(use_text_flow=True)
    )
    return Sheet(tuple(strokes), tuple(circles), words)

"""What may not happen on any page: text outside its block, text over text, text too small to read."""

from collections.abc import Iterable

from mastlayout.documents.lettering import as_read, box_mm
from mastlayout.documents.page import Page, Text

_SLACK_MM = 0.15
LEAST_PT = 7.0


def texts(page: Page) -> list[Text]:
    """Return all words of a page."""
    return [mark for mark in page.marks if isinstance(mark, Text) and mark.text.strip()]


def words(pages: Iterable[Page]) -> list[str]:
    """Return all texts of pages as they are read back."""
    return [as_read(text.text) for page in pages for text in texts(page)]


def faults(page: Page) -> list[str]:
    """Return one line for each text that is too small, outside the block, or over another."""
    found = []
    width, height = page.block_mm
    boxes = [(text, box_mm(text)) for text in texts(page)]
    for text, (left, top, right, bottom) in boxes:
        if left < -_SLACK_MM or top < -_SLACK_MM or right > width + _SLACK_MM or bottom > height + _SLACK_MM:
            found.append(f"outside: {text}")
        if text.size_pt < LEAST_PT:
            found.append(f"small: {text}")
    for count, (text, one) in enumerate(boxes):
        for other, two in boxes[count + 1 :]:
            wide = min(one[2], two[2]) - max(one[0], two[0])
            tall = min(one[3], two[3]) - max(one[1], two[1])
            if wide > _SLACK_MM and tall > _SLACK_MM:
                found.append(f"over: {text.text!r} ({text.x:.1f}, {text.y:.1f}) and {other.text!r}")
    return found

"""Cuts and insertions in a text, collected against its first form and made all at once."""

import re
from collections.abc import Iterable, Sequence

from mastlayout.storage.lines import Place, headed

_BEHIND = re.compile(r"[ \t]*(?P<comma>,?)[ \t]*(?:#[^\n]*)?\r?(?:\n|\Z)")
_BLANK_LINES = re.compile(r"(?:[ \t]*\r?\n)*")


class Cutting:
    """The changes asked for; ``joined`` makes them."""

    def __init__(self, text: str) -> None:
        self.text = text
        self._changes: list[tuple[int, int, int, str]] = []
        self._line_end = "\r\n" if "\r\n" in text else "\n"

    def joined(self) -> str:
        """Return the text with every change made, new lines ended as the old ones are."""
        pieces, at = [], 0
        for start, end, _order, new in sorted(self._changes):
            pieces += [self.text[at:start], new.replace("\n", self._line_end)]
            at = max(at, end)
        return "".join([*pieces, self.text[at:]])

    def replace(self, start: int, end: int, new: str) -> None:
        """Put ``new`` in the place of a stretch of text; changes at one spot are made in the order asked."""
        self._changes.append((start, end, len(self._changes), new))

    def insert_lines(self, at: int, lines: str) -> None:
        """Put whole lines before the line that begins at ``at``, or at the text's end."""
        joint = "\n" if at and self.text[at - 1] != "\n" else ""
        self.replace(at, at, joint + lines)

    def cut_lines(self, start: int, end: int) -> None:
        """Take away every line that a stretch of text touches."""
        self.replace(self.line_start(start), self.line_end(end), "")

    def cut_blocks(self, place: Place) -> None:
        """Take away what stands under headers, each with the comment over it and the blank lines behind."""
        for table in headed(place):
            blank = _BLANK_LINES.match(self.text, table.end)
            self.replace(self.lead(table), blank.end() if blank else table.end, "")

    def lead(self, table: Place) -> int:
        """Return where the comment begins that stands right over a header, or the header itself."""
        at = table.start
        while at and self.text[self.line_start(at - 1) : at].lstrip().startswith("#"):
            at = self.line_start(at - 1)
        return at

    def line_start(self, at: int) -> int:
        """Return where the line begins that ``at`` is on."""
        return self.text.rfind("\n", 0, at) + 1

    def line_end(self, at: int) -> int:
        """Return where the line after the one that ``at`` is on begins."""
        found = self.text.find("\n", max(0, at))
        return len(self.text) if found < 0 else found + 1

    def cut_members(self, members: Sequence[Place], gone: Sequence[Place]) -> None:
        """Take members out of an array or an inline table, with their commas."""
        numbers = {id(place) for place in gone}
        kept_before = False
        for at, member in enumerate(members):
            if id(member) not in numbers:
                kept_before = True
            elif self._own_line(member):
                self.cut_lines(member.start, member.end)
            elif kept_before:
                self.replace(members[at - 1].end, member.end, "")
            else:
                last = at + 1 == len(members)
                self.replace(member.start, member.end if last else members[at + 1].start, "")

    def add_members(self, container: Place, behind: Place | None, new: Iterable[str]) -> None:
        """Put members into an array or an inline table, behind one that stays or at its beginning."""
        texts = list(new)
        first = next(iter(container.inner.values()), None)
        beside = behind or first
        if not texts:
            return
        if beside is None:
            self.replace(container.value + 1, container.value + 1, ", ".join(texts))
        elif self._own_line(beside):
            indent = self.text[self.line_start(beside.start) : beside.start]
            at = self.line_end(beside.end) if behind else self.line_start(beside.start)
            if behind and not self._comma_behind(behind):
                self.replace(behind.end, behind.end, ",")
            self.insert_lines(at, "".join(f"{indent}{text},\n" for text in texts))
        elif behind:
            self.replace(behind.end, behind.end, "".join(f", {text}" for text in texts))
        else:
            self.replace(beside.start, beside.start, "".join(f"{text}, " for text in texts))

    def _own_line(self, member: Place) -> bool:
        before = self.text[self.line_start(member.start) : member.start]
        return not before.strip() and _BEHIND.match(self.text, member.end) is not None

    def _comma_behind(self, member: Place) -> bool:
        found = _BEHIND.match(self.text, member.end)
        return found is not None and bool(found["comma"])

"""The desk, without a window: an open layout with its scene and report.

Window, command line and tests all go through here. ``show`` takes an edited layout and answers
which shapes and which findings changed, so that a view repaints no more than that.
"""

from collections.abc import Sequence
from pathlib import Path

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import Between, Leave, Report, check, nothing_left, unasked
from mastlayout.checks.sentence import names_of, sentence, short
from mastlayout.frozen import dataclass
from mastlayout.geometry.scene import Scene, build
from mastlayout.model.layout import Layout
from mastlayout.storage.reading import Document, open_document
from mastlayout.units import Units

__all__ = ["Between", "Change", "Desk"]


@dataclass(frozen=True, eq=False)
class Change:
    """What an edit changed: ids of shapes, and the findings that came and went."""

    shapes: frozenset[str]
    came: tuple[Finding, ...]
    went: tuple[Finding, ...]


class Desk:
    """One open layout. ``report`` always speaks of ``layout``.

    ``between`` is told how far the first check is, and may end it by raising. A desk that is not
    ``asked`` shows the layout before any rule is; ``take`` brings the report later.
    """

    def __init__(
        self,
        layout: Layout,
        document: Document | None = None,
        between: Between | None = None,
        *,
        asked: bool = True,
    ) -> None:
        self.document = self._first = document
        self.scene: Scene = build(layout)
        self.report: Report = first_report(self.scene, between) if asked else unasked(self.scene)

    @classmethod
    def open(cls, path: Path) -> "Desk":
        """Open a layout file; LayoutFileError names every mistake, FileError what cannot be read."""
        document = open_document(path)
        return cls(document.layout, document)

    @property
    def layout(self) -> Layout:
        """The layout as it stands."""
        return self.scene.layout

    def show(self, layout: Layout, leave: Leave = nothing_left) -> Change:
        """Take an edited layout: rebuild what it changed, check what that can touch, say what differs.

        Some rules may be left for later, as of ``check``. Raises MastLayoutError where the
        layout has no scene; the desk then stays as it was.
        """
        scene = build(layout, self.scene)
        report = check(scene, self.report, leave=leave)
        change = Change(_changed_shapes(self.scene, scene), *_differences(self.report.open, report.open))
        self.scene, self.report = scene, report
        return change

    def catch_up(self, leave: Leave = nothing_left) -> Change:
        """Ask the rules that were left for later, but for some; say what differs."""
        report = check(self.scene, self.report, leave=leave)
        change = Change(frozenset(), *_differences(self.report.open, report.open))
        self.report = report
        return change

    def take(self, report: Report) -> Change:
        """Take the first report of the scene that is shown; one of another scene is of no use."""
        if report.scene is not self.scene:
            raise ValueError("the report is of another scene")
        change = Change(frozenset(), *_differences(self.report.open, report.open))
        self.report = report
        return change

    def save(self, path: Path | None = None, *, anew: bool = False) -> None:
        """Write the layout, whole or not at all; a file that was read keeps its comments and order.

        Where its text cannot keep them CommentsLostError is raised, unless it may be written ``anew``.
        """
        from mastlayout.storage.saving import save  # noqa: PLC0415 - a check never saves

        # Always cut from the text that was opened: what is put back comes back with its comments.
        self.document = save(self.layout, path or _path_of(self.document), self._first, anew=anew)
        self._first = self.document if anew else self._first or self.document

    def sentence(self, finding: Finding, units: Units = "metric") -> str:
        """Return a finding's whole sentence."""
        return sentence(self.scene, finding, names_of(self.layout), units)

    def short(self, finding: Finding, units: Units = "metric") -> str:
        """Return a finding in one clause."""
        return short(self.scene, finding, names_of(self.layout), units)


def first_report(scene: Scene, between: Between | None = None) -> Report:
    """Ask every rule of a scene."""
    return check(scene, between=between) if between else check(scene)


def _differences(
    before: Sequence[Finding], after: Sequence[Finding]
) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """Return the findings that came and those that went; most are the very same objects, never compared."""
    if before is after:
        return (), ()
    same = set(map(id, before)) & set(map(id, after))
    old, new = ([found for found in side if id(found) not in same] for side in (before, after))
    known, found_now = set(old), set(new)
    return tuple(f for f in new if f not in known), tuple(f for f in old if f not in found_now)


def _path_of(document: Document | None) -> Path:
    if document is None:
        raise ValueError("a layout that was never a file needs a path")
    return document.path


def _changed_shapes(old: Scene, new: Scene) -> frozenset[str]:
    changed = set()
    for before, after in ((old.placed, new.placed), (old.stays, new.stays), (old.spreaders, new.spreaders)):
        changed |= {name for name in before.keys() | after.keys() if before.get(name) is not after.get(name)}
    if old.skin is not new.skin:
        changed.add("mast")
    return frozenset(changed)

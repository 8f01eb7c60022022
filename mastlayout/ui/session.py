"""The session: one desk, what is in hand, and the undo stack; every panel listens to it.

Below this room nothing knows Qt; this is where an edit becomes an undo step and a change becomes
a signal.
"""

from typing import Literal

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from mastlayout.checks.finding import Key
from mastlayout.checks.report import Leave, Report, nothing_left
from mastlayout.checks.sailed import Called
from mastlayout.desk import Change, Desk
from mastlayout.geometry.frames import height_mm
from mastlayout.model.layout import Layout, same_layout
from mastlayout.ui.later import Later, waits
from mastlayout.ui.turns import Turns
from mastlayout.units import Units

View = Literal["starboard", "port", "ahead"]


class _Step(QUndoCommand):
    """One undo step: the layout before and after, under a spoken name."""

    def __init__(
        self, session: "Session", before: Layout, after: Layout, name: str, *, onto_last: bool = False
    ) -> None:
        super().__init__(name)
        self._session, self._before, self.after, self.onto_last = session, before, after, onto_last

    def id(self) -> int:
        return 1

    def mergeWith(self, other: QUndoCommand) -> bool:
        if not isinstance(other, _Step) or not other.onto_last or other.text() != self.text():
            return False
        self.after = other.after
        return True

    def undo(self) -> None:
        self._session.take(self._before)

    def redo(self) -> None:
        self._session.take(self.after)


class Session(QObject):
    """An open layout in the window.

    ``shown`` carries what an edit changed; ``hand_changed`` the id in hand ("" for none);
    ``height_changed`` the height in hand, z in mm; ``view_changed`` and ``units_changed`` the
    user's choices; ``chosen_changed`` that another matter of the report is looked at;
    ``sails_changed`` that the sails are to be drawn, or no longer, ``cloth_changed`` that another
    state of them is; ``said`` a sentence for the status line, "" to take it back. What follows the
    layout and is slow follows through ``turns``.
    ``typing_wanted`` asks for the keys in the height field of what is in hand.
    """

    shown = Signal(Change)
    opened = Signal()
    hand_changed = Signal(str)
    height_changed = Signal(float)
    view_changed = Signal(str)
    units_changed = Signal(str)
    chosen_changed = Signal()
    sails_changed = Signal()
    cloth_changed = Signal()
    said = Signal(str)
    typing_wanted = Signal()

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.undo = QUndoStack(self)
        self.hand = ""
        self.z_mm = desk.scene.skin.length_mm / 2
        self.view: View = "starboard"
        self.units: Units = "metric"
        self.chosen: frozenset[Key] = frozenset()
        self.sails = True
        self.cloth: Called | None = None
        self._before: Layout | None = None
        self._later = Later()
        self.turns = Turns(lambda: self.previewing, self._ask_later, self)

    @property
    def layout(self) -> Layout:
        """The layout as it stands, a drag's preview included."""
        return self.desk.layout

    @property
    def sails_drawn(self) -> bool:
        """Tell whether the sails are drawn: what they sweep is worked out with the first report."""
        return self.sails and self.desk.report.asked

    def open(self, desk: Desk) -> None:
        """Put another desk in place; undo begins anew."""
        self.desk = desk
        self.undo.clear()
        self._before = None
        self.hand, self.cloth = "", None
        self.z_mm = desk.scene.skin.length_mm / 2
        self.opened.emit()

    @property
    def previewing(self) -> bool:
        """Tell whether a gesture is under way whose layout is only shown."""
        return self._before is not None

    def take(self, layout: Layout) -> None:
        """Show a layout without making an undo step; every rule is asked of it."""
        if layout is not self.desk.layout:
            self._show(layout)
        elif self.desk.report.behind:
            self.shown.emit(self.desk.catch_up())
            self.turns.tell()

    def _show(self, layout: Layout, leave: Leave = nothing_left) -> None:
        old = height_of(self.desk, self.hand), self.z_mm
        change = self.desk.show(layout, leave)
        # An old hole is no shape of the scene, but it has a height. What is in hand takes the height in
        # hand along before anyone is told, so that no view shows the old one first.
        z_mm = height_of(self.desk, self.hand)
        if z_mm is not None and (self.hand in change.shapes or z_mm != old[0]):
            self.z_mm = z_mm
        self.shown.emit(change)
        if self.z_mm != old[1]:
            self.height_changed.emit(self.z_mm)
        self.turns.tell()

    def take_report(self, report: Report) -> None:
        """Take the first report of the layout, which shows already; one of another scene is left."""
        if self.desk.report.asked or report.scene is not self.desk.scene:
            return
        self.shown.emit(self.desk.take(report))
        self.sails_changed.emit()
        self.turns.tell()
        self.turns.catch_up()

    def edit(self, layout: Layout, name: str, *, onto_last: bool = False) -> None:
        """Take an edited layout as one undo step; an edit that changes nothing is none.

        ``onto_last`` adds it to the last step where that has the same name: a key held down.
        """
        before = self._before or self.desk.layout
        if same_layout(layout, before):
            self.cancel()
            return
        # What has no scene is refused here, before there is a step.
        self.take(layout)
        self._before = None
        self.turns.catch_up()
        self.undo.push(_Step(self, before, layout, name, onto_last=onto_last))

    def preview(self, layout: Layout) -> None:
        """Show a layout while a gesture is under way; ``edit`` or ``cancel`` ends it."""
        self._before = self._before or self.desk.layout
        if layout is not self.desk.layout:
            self._show(layout, waits)

    def _ask_later(self) -> bool:
        """Ask some of the rules that a gesture left, and tell whether any waited; the views follow."""
        if not self.desk.report.behind:
            return False
        change = self.desk.catch_up(self._later.turn())
        if change.came or change.went:
            self.turns.tell()
        return True

    def cancel(self) -> None:
        """End a gesture and put back what was before it."""
        before, self._before = self._before, None
        if before is not None:
            self.take(before)
        self.turns.catch_up()

    def pick(self, name: str) -> None:
        """Take a thing in hand; its height becomes the height in hand."""
        hand, old, z_mm = self.hand, self.z_mm, height_of(self.desk, name)
        # Both before anyone is told: no view works out the new thing at the old height first.
        self.hand, self.z_mm = name, old if z_mm is None else z_mm
        if name != hand:
            self.hand_changed.emit(name)
        if self.z_mm != old:
            self._tell_height()

    def go_to(self, z_mm: float) -> None:
        """Set the height in hand."""
        if z_mm != self.z_mm:
            self.z_mm = z_mm
            self._tell_height()

    def look_from(self, view: View) -> None:
        """Turn the elevation."""
        if view != self.view:
            self.view = view
            self.view_changed.emit(view)

    def write_in(self, units: Units) -> None:
        """Choose millimetres or feet, inches and sixteenths."""
        if units != self.units:
            self.units = units
            self.units_changed.emit(units)

    def choose(self, keys: frozenset[Key]) -> None:
        """Look at some findings, by their keys: those stay the same while a drag changes the figures."""
        if keys != self.chosen:
            self.chosen = keys
            self.chosen_changed.emit()

    def draw_sails(self, *, drawn: bool) -> None:
        """Draw what the sails sweep, or leave it out."""
        if drawn != self.sails:
            self.sails = drawn
            self.sails_changed.emit()

    def draw_cloth(self, called: Called | None) -> None:
        """Draw one state of a sail; None draws the worst for what is in hand."""
        if called != self.cloth:
            self.cloth = called
            self.cloth_changed.emit()

    def _tell_height(self) -> None:
        self.height_changed.emit(self.z_mm)
        self.turns.tell(height_only=True)


def height_of(desk: Desk, name: str) -> float | None:
    """Return the height z, mm, at which a thing of the layout stands, or None where it has none."""
    scene = desk.scene
    if name in scene.placed:
        return scene.placed[name].z_mm
    if name in scene.spreaders:
        return float(scene.spreaders[name].root[2])
    if name in scene.stays:
        return height_mm(scene.skin.length_mm, scene.stays[name].item.upper.from_masthead_mm)
    for hole in scene.layout.holes:
        if hole.id == name:
            return height_mm(scene.skin.length_mm, hole.from_masthead_mm)
    return None

"""Where the fitting in hand should go, and why: its places, the answer above them, what is found below.

Each place is a layout of its own that is checked whole, so they are worked out one a round of the event
loop while the view shows and nothing is being dragged.
"""

from collections.abc import Iterator

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from mastlayout.checks.alike import alike
from mastlayout.checks.sentence import names_of, sentence
from mastlayout.errors import MastLayoutError
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.scene import masthead_first as fittings_masthead_first
from mastlayout.model.edits import change
from mastlayout.model.measure import instructions
from mastlayout.places.candidates import Candidate, candidates, masthead_first
from mastlayout.places.family import family_of
from mastlayout.places.reasons import reasons
from mastlayout.ranges.given import JOBS, job_of
from mastlayout.ui.heights.where import PLACE, WhereTable, WhereView
from mastlayout.ui.heights.words import Working
from mastlayout.ui.look import BODY, GAP, LABEL, MARGIN, UNIT, font
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _

# So many of what is found at a place are said below the table.
_MOST_SAID = 5


class WherePanel(QWidget):
    """The answer, the table, what is found at the place with the keys, and a button that moves it there."""

    changed = Signal()

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session, self.theme = session, theme
        self.view = WhereView(WhereTable(session, theme, self))
        self.answer, self.why, self.found = QLabel(), QLabel(), QLabel()
        self.go = QPushButton()
        self._of: tuple[Scene | None, bool, str] = (None, False, "")
        self._work: Iterator[Candidate | None] = iter(())
        self._places: list[Candidate] = []
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._step)
        self._lay_out()
        self.view.selectionModel().currentChanged.connect(self._say_found)
        self.go.clicked.connect(self._move)

    def _lay_out(self) -> None:
        column, foot = QVBoxLayout(self), QHBoxLayout()
        column.setContentsMargins(MARGIN, UNIT, MARGIN, GAP)
        column.setSpacing(GAP)
        faces = ((self.answer, font(BODY, bold=True)), (self.why, font(BODY)), (self.found, font(LABEL)))
        for label, face in faces:
            label.setWordWrap(True)
            label.setFont(face)
            label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self.answer.setAccessibleName(_("Which place"))
        self.why.setAccessibleName(_("Why, and what speaks against it"))
        self.found.setAccessibleName(_("What is found at this place"))
        self.go.setAutoDefault(False)
        column.addWidget(self.answer)
        column.addWidget(self.why)
        column.addWidget(self.view)
        column.addWidget(self.found)
        column.addStretch(1)
        foot.addStretch(1)
        foot.addWidget(self.go)
        column.addLayout(foot)

    # -- what is shown

    @property
    def name(self) -> str:
        """The fitting asked about: what is in hand, else the first whose height matters; "" for none."""
        placed = self.session.desk.scene.placed
        own = placed.get(self.session.hand)
        if own is not None and job_of(own) is not None:
            return own.id
        known = [one for one in fittings_masthead_first(self.session.desk.scene) if job_of(one)]
        known.sort(key=lambda one: JOBS.index(job_of(one) or "sound"))
        return known[0].id if known else ""

    def show_layout(self) -> None:
        """Show the session as it stands; a drag is waited for."""
        desk = self.session.desk
        asked = desk.scene, desk.report.asked, self.name
        if self.session.previewing or asked == self._of:
            return
        self._of, self._places = asked, []
        self._timer.stop()
        if not self.name or not desk.report.asked:
            self._work = iter(())
            self._show()
            return
        self._work = candidates(desk.report, self.name)
        self._timer.start(0)

    def write_in(self) -> None:
        """Write in the units in force."""
        self._show()

    def worked(self, row: int, column: int) -> Working | None:
        """Return how the figure of a cell is found."""
        return self.view.table.worked(row, column)

    @property
    def is_looking(self) -> bool:
        """Tell whether places are still being looked at."""
        return self._timer.isActive()

    def _step(self) -> None:
        """Take the next place; the layout may have gone meanwhile."""
        if self.session.previewing or self.session.desk.scene is not self._of[0]:
            return
        try:
            one = next(self._work)
        except StopIteration:
            self._show()
            return
        if one is not None:
            self._places.append(one)
        self._timer.start(0)
        if one is not None:
            self._show()

    def _show(self) -> None:
        table, places = self.view.table, masthead_first(self._places)
        kept = self.view.currentIndex().column()
        job = (
            job_of(self.session.desk.scene.placed[self._of[2]])
            if self._of[2] in self.session.desk.scene.placed
            else None
        )
        table.show_places(places, job or "echo")
        self.view.fit()
        first, *rest = self._answer(places)
        self.answer.setText(first)
        self.why.setText("\n".join(rest))
        self.why.setVisible(bool(rest))
        own = next((row for row, one in enumerate(places) if one.where == "own"), -1)
        if own >= 0:
            self.view.setCurrentIndex(table.index(own, max(kept, PLACE)))
        self._say_found()
        self.changed.emit()

    def _answer(self, places: tuple[Candidate, ...]) -> tuple[str, ...]:
        """Return what is said over the table, the answer first."""
        if not self.name:
            none = _("Nothing here has a height to choose: place a reflector, radar, antenna, light or horn.")
            return (none,)
        if not self.session.desk.report.asked:
            return (_("Being checked …"),)
        name = names_of(self.session.layout).get(self._of[2], "")
        if self.is_looking:
            return (_("{name}: looking for places …").format(name=name),)
        first, *rest = reasons(places, self.session.units) or ("",)
        return (f"{name}. {first}".strip(), *rest)

    def _say_found(self, *_cells: object) -> None:
        one = self._current()
        can = one is not None and bool(one.fields) and not self.is_looking
        self.go.setEnabled(can)
        self.go.setText(_("Move it there"))
        self.found.setText("" if one is None else self._found_at(one))

    def _found_at(self, one: Candidate) -> str:
        names, scene = names_of(one.report.scene.layout), one.report.scene
        loud = alike((*one.of("fault"), *one.of("caution")))
        told = [sentence(scene, own, names, self.session.units) for own in loud[:_MOST_SAID]]
        if len(loud) > _MOST_SAID:
            told.append(_("And {n} more.").format(n=len(loud) - _MOST_SAID))
        unknown = dict.fromkeys(own.measure for own in one.of("not checked") if own.measure)
        if unknown:
            titles = "; ".join(instructions()[key].title for key in unknown)
            told.append(_("Not checked there before it is measured: {titles}.").format(titles=titles))
        return "\n".join(told) or _("Nothing is found there.")

    def _current(self) -> Candidate | None:
        row = self.view.currentIndex().row()
        places = self.view.table.places
        return places[row] if 0 <= row < len(places) else None

    def _move(self) -> None:
        """Move the fitting to the place with the keys, as one undo step."""
        one = self._current()
        if one is None or not one.fields:
            return
        root = family_of(self.session.desk.scene, one.name).root
        try:
            layout = change(self.session.layout, root.id, **one.fields)
            self.session.edit(layout, _("Move {name}").format(name=root.fitting.name))
        except MastLayoutError as error:
            self.session.said.emit(str(error))

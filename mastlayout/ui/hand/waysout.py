"""What can be done about a hole that was drilled wrong: move the fitting, enlarge the hole, or fill it."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from mastlayout.checks.built import WRONG, remedies_of
from mastlayout.checks.holes import hole_id
from mastlayout.errors import MastLayoutError
from mastlayout.fastening.drill import drill_mm
from mastlayout.fastening.wrong import Remedies
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.limits import limits_of
from mastlayout.model.around import Around
from mastlayout.model.fitting import OldHole, is_made
from mastlayout.model.layout import Layout
from mastlayout.model.wrong import enlarge_hole, fill_hole, move_off
from mastlayout.ui.look import GAP
from mastlayout.ui.plainwords import on_button
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.units import write_drill, write_length
from mastlayout.words import _


def is_wrong(session: Session, name: str, hole: int) -> bool:
    """Tell whether a hole as it was drilled is off its place or too large."""
    subject = hole_id(session.desk.scene.placed[name], hole)
    return any(f.code in WRONG and subject in f.subjects for f in session.desk.report.open)


class WaysOut(QWidget):
    """The ways out as buttons, each one undo step; gone where the hole is right.

    ``done`` tells that one was taken.
    """

    done = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.buttons: list[QPushButton] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(GAP)
        self.head = QLabel(_("Drilled wrong. One of these helps; the rigger decides:"))
        self.head.setWordWrap(True)
        self._column.addWidget(self.head)
        self.said = Said()
        self._column.addWidget(self.said)
        self.hide()

    def show_hole(self, name: str, hole: int) -> None:
        """Offer what helps for one hole of a fitting, nothing where it is not wrong; 0 is no hole."""
        for button in self.buttons:
            self._column.removeWidget(button)
            button.deleteLater()
        self.buttons = []
        self.said.say("")
        wrong = bool(hole) and is_wrong(self._session, name, hole)
        if wrong:
            placed = self._session.desk.scene.placed[name]
            found = remedies_of(placed, hole, limits_of(self._session.layout))
            for words, act in self._ways(placed, hole, found) if found else ():
                self._add(words, act)
            if found and found.larger is None:
                self.said.say(_("No larger fastener of its sort takes this hole in."))
        self.setVisible(bool(self.buttons))

    def _add(self, words: str, act: Callable[[], Layout]) -> None:
        button = QPushButton(on_button(words))
        button.setAutoDefault(False)
        button.setAccessibleName(words)
        button.clicked.connect(partial(self._take, words, act))
        self._column.insertWidget(self._column.count() - 1, button)
        self.buttons.append(button)

    def _ways(self, placed: Placed, hole: int, found: Remedies) -> list[tuple[str, Callable[[], Layout]]]:
        units, layout, name = self._session.units, self._session.layout, placed.id
        way = _("towards the masthead") if found.move_mm > 0 else _("towards the heel")
        by = write_length(abs(found.move_mm), units)
        made = [n for n in _numbers(placed) if is_made(placed.fitting, n)]
        olds = [_old(placed, number) for number in made]
        ways: list[tuple[str, Callable[[], Layout]]] = [
            (
                _("Move {name} by {by} {way}, fill its holes").format(
                    name=placed.fitting.name, by=by, way=way
                ),
                lambda: move_off(layout, name, found.move_mm, made, olds),
            )
        ]
        larger, drill = found.larger, found.drill_mm
        if larger is not None and drill is not None:
            size = write_drill(drill, units)
            words = _("Enlarge the hole to {size} for {fastener}").format(size=size, fastener=larger.size)
            ways.append((words, lambda: enlarge_hole(layout, name, hole, larger)))
        foot = placed.fitting.in_hand
        if not found.again and (foot is None or hole > len(foot.holes)):
            return ways  # a cable must enter; of a foot nobody has in hand nothing is left out
        fill = (
            _("Fill the hole, drill it anew in its place")
            if found.again
            else _("Fill the hole, leave it out")
        )
        old = _old(placed, hole)
        ways.append((fill, lambda: fill_hole(layout, name, hole, old, again=found.again)))
        return ways

    def _take(self, words: str, act: Callable[[], Layout]) -> None:
        try:
            layout = act()
        except MastLayoutError as error:
            self.said.say(str(error))
            return
        self._session.edit(layout, words)
        self.done.emit()


def _numbers(placed: Placed) -> list[int]:
    return [opening.number for opening in placed.holes.openings] if placed.holes else []


def _old(placed: Placed, hole: int) -> OldHole:
    """Return a hole as an old one, where it is now; its id is given when it is added."""
    holes = placed.holes
    if holes is None or placed.skin is None:
        raise ValueError(placed.id)
    i = next(i for i, opening in enumerate(holes.openings) if opening.number == hole)
    tag = placed.fitting.tag or placed.fitting.name
    return OldHole(
        id="hole",
        name=_("Hole {tag}.{n}, drilled wrong").format(tag=tag, n=hole)[:200],
        from_masthead_mm=round(height_mm(placed.skin.length_mm, float(holes.z_mm[0, i])), 2),
        girth=Around(origin="aft", offset=round(float(holes.girth_mm[0, i]), 2)),
        diameter_mm=drill_mm(holes.openings[i]),
        state="filled",
    )

"""The row under the menus: the yacht's name and the acts that are wanted most."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QFontMetricsF, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QSizePolicy, QToolButton, QWidget

from mastlayout.ui.actions import Actions
from mastlayout.ui.inwords import in_words
from mastlayout.ui.look import BODY, CORNER, GAP, MARGIN, UNIT, VALUE, font
from mastlayout.ui.plainwords import off_button, on_button
from mastlayout.ui.theme import Theme
from mastlayout.words import _

# How wide the yacht's name and the step to be undone may be, each pair for less room.
_MOST_PX = ((170.0, 180.0), (150.0, 140.0), (130.0, 110.0), (110.0, 90.0), (90.0, 70.0))


class Toolbar(QWidget):
    """The toolbar; a narrow window leaves out what the menus hold anyway."""

    def __init__(self, actions: Actions, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self.yacht = QLabel()
        self.yacht.setFont(font(VALUE, bold=True))
        self._words: list[QLabel] = []
        self._wide_only: list[QWidget] = []
        self._narrow = self._on_trestles = self._fitting = False
        self._yacht, self._step_px = "", _MOST_PX[0][1]
        self._steps: list[tuple[QAction, Callable[[], None]]] = []
        self._fitted: tuple[object, ...] = ()
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(MARGIN, UNIT, MARGIN, UNIT)
        self._row.setSpacing(UNIT)
        self._row.addWidget(self.yacht)
        self._row.addSpacing(MARGIN)
        self._fill(actions)
        theme.changed.connect(self.restyle)
        self.restyle()
        self._show()

    def name_yacht(self, name: str) -> None:
        """Show the yacht's name, a long one by its first words."""
        self._yacht = name
        self.yacht.setToolTip(name)
        self.yacht.setAccessibleName(_("Yacht: {name}").format(name=name))
        self._fit()

    def _fit(self) -> None:
        """Shorten the yacht's name and the steps until the row finds room in the window."""
        steps = (action.text() for action, _show in self._steps)
        asked = self._yacht, self.width(), self._narrow, self._on_trestles, *steps
        if self._fitting or asked == self._fitted:
            return
        self._fitting, self._fitted = True, asked
        held_back = self._narrow and self._on_trestles
        self._measure.setVisible(not held_back)
        for yacht_px, self._step_px in _MOST_PX:
            self.yacht.setText(in_words(self._yacht, QFontMetricsF(self.yacht.font()), yacht_px))
            for _action, show in self._steps:
                show()
            self._row.invalidate()
            if self._row.minimumSize().width() <= self.width():
                break
        else:
            self._measure.setVisible(False)  # the menus hold it
        self._fitting = False

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fill(self, actions: Actions) -> None:
        place, tape = self._button(actions["place"], _("Place fitting")), actions["tape"]
        add = self._button(actions["add"], _("Add …"))
        self._wide_only.append(self._button(tape, _("Tape measure")))
        self._placing = [place, add, self._wide_only[-1], self._bar()]
        self._button(actions["undo"])
        self._wide_only.append(self._button(actions["redo"]))
        self._bar()
        self._word(_("Mast"))
        self._button(actions["mast standing"], _("Standing"))
        self._button(actions["mast trestles"], _("On trestles"))
        self._bar()
        self._standing = [self._word(_("Seen from"))]
        for view, words in (
            ("starboard", _("Starboard")), ("port", _("Port")), ("ahead", _("Ahead")),
        ):  # fmt: skip
            self._standing.append(self._button(actions[f"seen {view}"], words))
        self._standing.append(self._bar())
        self._standing.append(self._button(actions["sails"], _("Sails")))
        self._lying = [self._word(_("Face up"))]
        for face, words in (
            ("forward", _("Forward")), ("aft", _("Track")), ("port", _("Port side")),
            ("starboard", _("Starboard side")),
        ):  # fmt: skip
            self._lying.append(self._button(actions[f"up {face}"], words))
        self._lying.append(self._word(_("I stand at the")))
        for end, words in (("heel", _("Heel")), ("masthead", _("Masthead"))):
            self._lying.append(self._button(actions[f"at {end}"], words))
        self._row.addStretch(1)
        self._measure = self._button(actions["measure"], _("Measure list"))
        self._button(actions["drill"], _("Drilling schedule"))

    def _button(self, action: QAction, words: str = "") -> QToolButton:
        """Add a button for an act; without words of its own it shows the act's, shortened."""
        button = QToolButton()
        button.setFont(font(BODY))
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setCheckable(action.isCheckable())
        button.clicked.connect(lambda _checked: action.trigger())

        def show() -> None:
            said = off_button(action.text())
            short = words or in_words(said, QFontMetricsF(button.font()), self._step_px)
            button.setText(on_button(short))
            button.setAccessibleName(said)
            button.setEnabled(action.isEnabled())
            button.setChecked(action.isChecked())
            keys = action.shortcut().toString()
            button.setToolTip(f"{said} ({keys})" if keys else said)

        action.changed.connect(show)
        if not words:
            self._steps.append((action, show))
            action.changed.connect(self._fit)
        show()
        self._row.addWidget(button)
        return button

    def _word(self, words: str) -> QWidget:
        label = QLabel(words)
        label.setFont(font(BODY))
        self._words.append(label)
        self._row.addWidget(label)
        return label

    def _bar(self) -> QWidget:
        bar = QFrame()
        bar.setFixedWidth(1)
        bar.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        bar.setObjectName("bar")
        self._row.addSpacing(GAP)
        self._row.addWidget(bar)
        self._row.addSpacing(GAP)
        return bar

    def show_width(self, *, narrow: bool) -> None:
        """Leave out on a narrow window what the menus hold anyway."""
        self._narrow = narrow
        self._show()

    def show_mast(self, *, trestles: bool) -> None:
        """Show what turns the mast as it stands, or as it lies on trestles."""
        self._on_trestles = trestles
        self._show()

    def _show(self) -> None:
        trestles, narrow = self._on_trestles, self._narrow
        for widget in (*self._standing, *self._placing):
            widget.setVisible(not trestles)
        for widget in self._lying:
            widget.setVisible(trestles)
        for widget in self._wide_only:
            widget.setVisible(not narrow and not (trestles and widget in self._placing))
        self._fit()

    def restyle(self) -> None:
        """Take the colours in force."""
        c = self._theme.colours
        self.setStyleSheet(
            f"QToolButton {{ border: 1px solid transparent; border-radius: {CORNER}px; padding: 4px 10px; "
            f"color: #{c.ink}; background: transparent; }}"
            f"QToolButton:hover {{ border-color: #{c.edge}; }}"
            f"QToolButton:focus {{ border-color: #{c.accent}; }}"
            f"QToolButton:pressed {{ background: #{c.chosen}; }}"
            f"QToolButton:checked {{ background: #{c.chosen}; border-color: #{c.accent}; }}"
            f"QToolButton:disabled {{ color: #{c.edge}; }}"
            f"#bar {{ background: #{c.hair}; }}"
        )
        for label in self._words:
            label.setStyleSheet(f"color: #{c.second}")

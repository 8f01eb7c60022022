"""The findings, loud first, and the whole sentence of the one that is chosen."""

from collections import Counter

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QFrame, QLabel, QListView, QWidget

from mastlayout.checks.finding import STANDINGS, Finding
from mastlayout.desk import Change
from mastlayout.ui.findings.row import FindingDelegate
from mastlayout.ui.findings.rows import FINDING, FindingRows
from mastlayout.ui.look import BODY, GAP, MARGIN, font
from mastlayout.ui.marks import word
from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _


class FindingsPanel(Panel):
    """What the rules say of the layout as it stands; a click takes in hand what a finding is about."""

    def __init__(self, session: Session, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(session, theme, _("Findings"), parent)
        self.rows, self.view, self.whole = FindingRows(session, self), QListView(), QLabel()
        self._build()
        session.shown.connect(self._shown)
        session.opened.connect(self._renew)
        session.hand_changed.connect(self._hand_changed)
        session.units_changed.connect(self._respell)
        self.recolour()
        self._say()

    def _build(self) -> None:
        self.view.setModel(self.rows)
        self.view.setItemDelegate(FindingDelegate(self.theme, self.view))
        self.view.setUniformItemSizes(True)
        self.view.setFrameShape(QFrame.Shape.NoFrame)
        self.view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.view.setTabKeyNavigation(False)
        self.view.setAccessibleName(_("Findings, loudest first"))
        self.view.clicked.connect(self._pick)
        self.view.selectionModel().currentChanged.connect(self._walked)
        self.whole.setFont(font(BODY))
        self.whole.setWordWrap(True)
        self.whole.setContentsMargins(MARGIN, GAP, MARGIN, GAP)
        self.whole.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.body.addWidget(self.view, 1)
        self.body.addWidget(self.whole)
        self.theme.changed.connect(self.recolour)

    @property
    def chosen(self) -> Finding | None:
        """The finding whose sentence shows."""
        index = self.view.currentIndex()
        return index.data(FINDING) if index.isValid() else None

    def recolour(self) -> None:
        """Take the colours in force."""
        self.view.setStyleSheet(f"QListView {{ background: #{self.theme.colours.ground}; }}")
        self.view.viewport().update()

    def _shown(self, change: Change) -> None:
        if change.came or change.went:
            self._renew()
        else:
            self._respell()

    def _renew(self) -> None:
        kept = self.chosen
        self.rows.renew()
        row = next((at for at, found in enumerate(self.rows.findings) if kept and found.key == kept.key), -1)
        self._choose(row if row >= 0 else self.rows.row_about(self.session.hand))

    def _respell(self, *_units: object) -> None:
        self.rows.respell()
        self._say()

    def _hand_changed(self, name: str) -> None:
        if self.chosen is None or name not in self.chosen.things:
            self._choose(self.rows.row_about(name))

    def _choose(self, row: int) -> None:
        self.view.setCurrentIndex(self.rows.index(row) if row >= 0 else QModelIndex())
        self._say()

    def _walked(self, _index: QModelIndex, _before: QModelIndex) -> None:
        self._say()
        if self.view.hasFocus():
            self._pick()

    def _pick(self, *_index: object) -> None:
        if self.chosen is not None and self.chosen.things:
            self.session.pick(self.chosen.things[0])

    def _say(self) -> None:
        counts = Counter(finding.standing for finding in self.rows.findings)
        self.aside.setText("   ".join(f"{word(s)} {counts[s]}" for s in STANDINGS if counts[s]))
        self.whole.setText(self._sentence())

    def _sentence(self) -> str:
        if self.chosen is not None:
            return self.session.desk.sentence(self.chosen, self.session.units)
        if not self.rows.findings:
            return _("Nothing open. What this version does not ask stands at the end of the findings sheet.")
        return _("Choose a finding to read it whole.")

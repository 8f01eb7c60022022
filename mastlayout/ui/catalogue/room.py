"""The catalogue room: search, kinds, what the chosen one is, on which host it goes, and the deed."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QLineEdit, QPushButton, QToolButton, QVBoxLayout

from mastlayout.errors import MastLayoutError
from mastlayout.model.around import AFT, AHEAD, Around
from mastlayout.model.fitting import MAST
from mastlayout.model.hosting import Offer, offers, placed_new, suits, taken
from mastlayout.model.kind import Kind
from mastlayout.ui.catalogue.drag import DragKind
from mastlayout.ui.catalogue.kinds import Kinds
from mastlayout.ui.catalogue.targets import Target
from mastlayout.ui.catalogue.view import KindsView
from mastlayout.ui.hosts import first_girth, offer_words, place_on, seats_words
from mastlayout.ui.look import BODY, CORNER, GAP, LABEL, MARGIN, ROW, UNIT, font
from mastlayout.ui.panel import Panel
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.ui.tapewords import figure
from mastlayout.ui.theme import Theme
from mastlayout.words import _

_WALK = (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown)
_LOW_BELOW_PX = 420
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class CatalogueRoom(Panel):
    """The catalogue beside the views.

    ``placed`` carries the id of what was placed, ``left`` tells that the room is done with.
    """

    placed = Signal(str)
    left = Signal()

    def __init__(self, session: Session, theme: Theme, targets: Sequence[Target] = ()) -> None:
        self.kinds = Kinds(session)
        self.targets, self._low = targets, False
        self.search, self.view = QLineEdit(), KindsView(session, theme, self.kinds, self._begin_drag)
        self.about, self.said, self.hosts, self.face = QLabel(), Said(), QComboBox(), QComboBox()
        self.button, self.close_button = QPushButton(), QPushButton(_("Close"))
        super().__init__(session, theme, _("Catalogue"))
        self.aside.setText(_("drag one out, or Return at the height in hand"))
        self._lay_out()
        self._connect()
        self._seek("")

    def sizeHint(self) -> QSize:
        return QSize(500, 360)

    def minimumSizeHint(self) -> QSize:
        return QSize(300, 200)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._low = event.size().height() < _LOW_BELOW_PX
        self.view.show_low(low=self._low)
        self._chosen()

    def _lay_out(self) -> None:
        self.search.setPlaceholderText(_("Search: radar, horn, light, exit, cleat …"))
        self.search.setAccessibleName(_("Search the kinds"))
        self.search.setClearButtonEnabled(True)
        for button in self.search.findChildren(QToolButton):
            button.setAccessibleName(_("Show all kinds"))
        self.search.setFont(font(BODY))
        self.search.installEventFilter(self)
        self.view.installEventFilter(self)
        row = QHBoxLayout()
        row.setContentsMargins(MARGIN, 0, MARGIN, GAP)
        row.addWidget(self.search)
        self.body.addLayout(row)
        self.body.addWidget(self.view, 1)
        self.about.setWordWrap(True)
        self.about.setFont(font(LABEL))
        foot = QVBoxLayout()
        foot.setContentsMargins(MARGIN, GAP, MARGIN, GAP)
        foot.setSpacing(UNIT)
        foot.addWidget(self.about)
        foot.addWidget(self.said)
        foot.addLayout(self._where())
        self.body.addLayout(foot)

    def _where(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(GAP)
        self.hosts.setAccessibleName(_("Host"))
        self.hosts.setMinimumContentsLength(8)
        self.face.setAccessibleName(_("Face of the mast"))
        for words, around in _faces():
            self.face.addItem(words, str(around))
        for control in (self.hosts, self.face, self.button, self.close_button):
            control.setFont(font(BODY))
            control.setMinimumHeight(ROW + UNIT)
        self._on = QLabel(_("On"))
        self._on.setFont(font(BODY))
        self._on.setBuddy(self.hosts)
        row.addWidget(self._on)
        row.addWidget(self.hosts, 1)
        row.addWidget(self.face)
        row.addWidget(self.button)
        row.addWidget(self.close_button)
        return row

    def _connect(self) -> None:
        session = self.session
        self.search.textChanged.connect(self._seek)
        self.view.selectionModel().currentChanged.connect(self._chosen)
        self.view.doubleClicked.connect(lambda _index: self.place())
        self.view.dropped.connect(self.placed)
        self.hosts.currentIndexChanged.connect(self._show_host)
        self.button.clicked.connect(self.place)
        self.close_button.clicked.connect(self.left)
        for signal in (session.opened, session.hand_changed):
            signal.connect(self._refresh)
        session.turns.fields.connect(self._refresh)
        for signal in (session.height_changed, session.units_changed):
            signal.connect(self._show_host)

    # -- what is chosen

    def begin(self) -> None:
        """Take the keyboard to the search, what stands there selected."""
        self._chosen()
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.search.selectAll()

    def _seek(self, text: str) -> None:
        self.kinds.seek(text)
        self.view.choose_first()
        self._chosen()

    def _refresh(self, *_changed: object) -> None:
        # Hosts come and go with every edit; a room that nobody sees asks when it is opened.
        if self.isVisible() and self.view.gesture is None:
            self._chosen()

    def _chosen(self, *_index: object) -> None:
        kind = self.view.kind
        self.said.say("")
        self.about.setVisible(kind is not None and not self._low)
        if kind is not None:
            self.about.setText(_about(kind))
            self.view.setToolTip(_about(kind))
            self.face.setCurrentIndex(self.face.findData(str(first_girth(kind))))
        self._offer_hosts(kind)

    def _offer_hosts(self, kind: Kind | None) -> None:
        """Offer the hosts a kind is made for; first what is in hand, then what is free."""
        layout, hand = self.session.layout, self.session.hand
        may = [one for one in offers(layout) if kind is not None and suits(kind, one)]
        may.sort(key=lambda one: (taken(layout, one), one.on != hand, one.on != MAST))
        self.hosts.clear()
        for one in may:
            words = offer_words(layout, one)
            self.hosts.addItem(_("{host} (taken)").format(host=words) if taken(layout, one) else words, one)
        self.hosts.setEnabled(bool(may))
        if kind is not None and not may:
            words = _("{name} sits on {hosts}, and there is none yet: place that first.")
            self.said.say(words.format(name=kind.name, hosts=seats_words(kind)))
        self._show_host()

    def _show_host(self, *_at: object) -> None:
        offer = self.offer
        on_mast = offer is not None and offer.on == MAST
        self.face.setVisible(on_mast)
        self.button.setEnabled(offer is not None)
        height = figure(self.session, self.session.z_mm)
        self.button.setText(_("Place at {height}").format(height=height) if on_mast else _("Place it"))

    @property
    def offer(self) -> Offer | None:
        """The host that is chosen."""
        offer: Offer | None = self.hosts.currentData()
        return offer

    # -- the deed

    def place(self, *_args: object) -> None:
        """Place the kind chosen on the host chosen, and take it in hand."""
        kind, offer, session = self.view.kind, self.offer, self.session
        if kind is None or offer is None:
            return
        girth = next(around for _words, around in _faces() if str(around) == self.face.currentData())
        try:
            place = place_on(session.desk.scene, offer, session.z_mm, kind, girth)
            layout, name = placed_new(session.layout, kind, place)
            session.preview(layout)
        except MastLayoutError as error:
            session.cancel()
            self.said.say(str(error))
            return
        session.edit(layout, _("Place {name}").format(name=kind.name))
        session.pick(name)
        self.left.emit()
        self.placed.emit(name)

    def _begin_drag(self, kind: Kind) -> DragKind:
        return DragKind(self.session, self.theme, kind, self.targets, self.window())

    # -- keys

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if self.view.gesture is not None or not isinstance(event, QKeyEvent):
            return False
        if event.type() != QEvent.Type.KeyPress:
            return False
        if event.key() in _ENTER:
            self.place()
            return True
        if watched is self.search and event.key() in _WALK:
            self.view.keyPressEvent(event)
            return True
        typed = event.text()
        command = event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier)
        if watched is self.view and typed.strip() and typed.isprintable() and not command:
            self.search.setFocus(Qt.FocusReason.OtherFocusReason)
            self.search.setText(self.search.text() + typed)
            return True
        return False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def restyle(self) -> None:
        super().restyle()
        c = self.theme.colours
        self.setStyleSheet(
            self.styleSheet()
            + f"QLabel {{ color: #{c.ink}; }} QLabel#said {{ color: #{c.fault}; }}"
            + f"QLineEdit, QComboBox, QPushButton {{ background: #{c.field}; color: #{c.ink};"
            f" border: 1px solid #{c.edge}; border-radius: {CORNER}px; padding: 2px {GAP}px; }}"
            f"QLineEdit:focus, QComboBox:focus, QPushButton:focus {{ border: 2px solid #{c.accent};"
            f" padding: 1px {GAP - 1}px; }}"
            f"QPushButton:disabled {{ color: #{c.edge}; }}"
        )
        self.view.recolour()


def _faces() -> tuple[tuple[str, Around], ...]:
    starboard, port = (Around(origin="bearing", offset=deg) for deg in (90.0, 270.0))
    return (_("ahead"), AHEAD), (_("to starboard"), starboard), (_("to port"), port), (_("aft"), AFT)


def _about(kind: Kind) -> str:
    """Say what there is to know of a kind beside its row."""
    parts = []
    if kind.sits_on is not None and kind.sits_on != ("mast",):
        parts.append(_("Sits on {hosts}.").format(hosts=seats_words(kind)))
    parts += [kind.note] if kind.note else []
    parts.append(
        _("Its sizes are those of its kind until the part is in hand ({source}).").format(source=kind.source)
    )
    return " ".join(parts)

"""The limits that the rules ask by: the program's own, and the owner's in their place with the reason."""

from collections.abc import Iterator

from PySide6.QtWidgets import QDialog, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from mastlayout.errors import EditError, MastLayoutError, UnitError
from mastlayout.limits import Limit, allowed, built_in
from mastlayout.model.edits import own_limits
from mastlayout.model.layout import LimitOverride
from mastlayout.ui.forms.asked import Asked
from mastlayout.ui.forms.entry import Entry, entry, text_of
from mastlayout.ui.framed import framed
from mastlayout.ui.look import LABEL, ROW, font
from mastlayout.ui.said import Said
from mastlayout.ui.session import Session
from mastlayout.units import read_length
from mastlayout.words import _

_TITLE, _STANDING, _DEFAULT, _OWN, _WHY = range(5)
_WIDE_PX, _HIGH_PX, _OWN_PX, _WHY_PX = 980, 620, 110, 260
_LEAST_LETTERS, _MOST_LETTERS = 3, 500


class LimitsDialog(QDialog):
    """A row for each limit; what is typed beside one holds instead of it, and the papers say why."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session = session
        self._before = {own.key: own for own in session.layout.limits}
        self.table, self.said = QTableWidget(0, 5), Said()
        title = _("Limits of this mast")
        self.setWindowTitle(title)
        self._lay_out(title)
        self._rows = list(built_in().values())
        for limit in self._rows:
            self._append(limit)
        self.resize(_WIDE_PX, _HIGH_PX)

    def _lay_out(self, title: str) -> None:
        table, head = self.table, self.table.horizontalHeader()
        table.setAccessibleName(title)
        table.setHorizontalHeaderLabels(
            [_("Limit"), _("Standing"), _("The program’s"), _("Your own"), _("Why")]
        )
        for column in (_STANDING, _DEFAULT):
            head.setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)
        # A title takes a second line where it must; a reason has room to be typed.
        head.setSectionResizeMode(_TITLE, QHeaderView.ResizeMode.Stretch)
        head.setFont(font(LABEL))
        for column, wide in ((_OWN, _OWN_PX), (_WHY, _WHY_PX)):
            table.setColumnWidth(column, wide)
        table.verticalHeader().hide()
        table.verticalHeader().setMinimumSectionSize(ROW + 4)
        table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        table.setTabKeyNavigation(False)
        table.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        self.said.setStyleSheet("QLabel { color: palette(text); font-weight: bold; }")
        how = _("A limit of your own holds instead of the program’s, on this mast alone. It needs a reason: "
                "the papers print both. Emptied, the program’s holds again.")  # fmt: skip
        _box, self.button = framed(self, title, (how, table, self.said), _("Take these limits"), self.take)

    def _append(self, limit: Limit) -> None:
        row, own = self.table.rowCount(), self._before.get(limit.key)
        self.table.insertRow(row)
        for column, words in (
            (_TITLE, limit.title),
            (_STANDING, _(limit.standing)),
            (_DEFAULT, _said(limit)),
        ):
            item = QTableWidgetItem(words)
            item.setToolTip(limit.source)
            self.table.setItem(row, column, item)
        value = Asked(
            "value", _("{title}: your own, {unit}").format(title=limit.title, unit=limit.unit), "words"
        )
        why = Asked("why", _("{title}: why").format(title=limit.title), "words")
        for column, asked, text in ((_OWN, value, _written(own)), (_WHY, why, own.why if own else "")):
            self.table.setCellWidget(row, column, entry(asked, text))

    def cell(self, key: str, *, why: bool = False) -> Entry:
        """Return where a limit's own value is typed, or its reason."""
        row = next(row for row, limit in enumerate(self._rows) if limit.key == key)
        control: Entry = self.table.cellWidget(row, _WHY if why else _OWN)  # type: ignore[assignment] # put there
        return control

    def take(self) -> None:
        """Take all rows as one step; where one is wrong, say which and leave the layout as it is."""
        session = self.session
        try:
            layout = own_limits(session.layout, tuple(self._typed()))
            session.preview(layout)
        except MastLayoutError as error:
            session.cancel()
            self.said.say(str(error))
            return
        session.edit(layout, _("Set limits"))
        self.accept()

    def _typed(self) -> Iterator[LimitOverride]:
        """Yield the owner's limits, those that were there before in their order."""
        order = [*self._before, *(limit.key for limit in self._rows if limit.key not in self._before)]
        for key in order:
            own = self._own(built_in()[key])
            if own is not None:
                yield own

    def _own(self, limit: Limit) -> LimitOverride | None:
        typed, why = (text_of(self.cell(limit.key, why=which)).strip() for which in (False, True))
        before = self._before.get(limit.key)
        try:
            return _read(limit, typed, why, before)
        except MastLayoutError:
            self.cell(
                limit.key, why=bool(typed) and not _LEAST_LETTERS <= len(why) <= _MOST_LETTERS
            ).setFocus()
            raise


def _said(limit: Limit) -> str:
    return f"{limit.value:g} {limit.unit}"


def _written(own: LimitOverride | None) -> str:
    return f"{own.value:g} {own.unit}" if own else ""


def _read(limit: Limit, typed: str, why: str, before: LimitOverride | None) -> LimitOverride | None:
    """Return what is typed of one limit, None where the program's holds."""
    if not typed and not why:
        return None
    if not typed:
        words = _("{title}: there is a reason but no value; type both, or neither")
        raise EditError(words.format(title=limit.title))
    value = before.value if before and typed == _written(before) else _number(limit, typed)
    if not _LEAST_LETTERS <= len(why) <= _MOST_LETTERS:
        words = _("{title}: a reason of {least} to {most} letters is needed, the papers print it")
        raise EditError(words.format(title=limit.title, least=_LEAST_LETTERS, most=_MOST_LETTERS))
    return LimitOverride(key=limit.key, value=value, unit=limit.unit, why=why)


def _number(limit: Limit, typed: str) -> float:
    low, high = allowed(limit)
    try:
        # A length may be typed in any unit; a bare number is in the limit's own, as it is shown.
        number = read_length(typed) if limit.unit == "mm" else float(typed.removesuffix(limit.unit))
    except (UnitError, ValueError):
        number = None
    if number is None or not low <= number <= high:
        words = _("{title}: {typed} cannot be, {low:g} to {high:g} {unit} is allowed")
        raise EditError(
            words.format(title=limit.title, typed=typed[:40], low=low, high=high, unit=limit.unit)
        )
    return round(number, 2)

"""Properties made from what is asked: a field, a choice, a table or a form for each value of a thing."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from PySide6.QtWidgets import QWidget

from mastlayout.errors import EditError
from mastlayout.frozen import dataclass
from mastlayout.model.edits import change
from mastlayout.model.layout import Layout
from mastlayout.model.measure import Measure, measure_of
from mastlayout.model.value import Value
from mastlayout.ui.forms.asked import Asked
from mastlayout.ui.forms.entry import choices_of
from mastlayout.ui.forms.form import FormDialog, Variant
from mastlayout.ui.forms.table import Rows, Table, TableDialog
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.property import Property
from mastlayout.words import _, ngettext

_MOST_NAME = 200


def name_of_it(make: Making) -> Property:
    """Make the field of a thing's name."""

    def take(text: str) -> Layout:
        name = text.strip()
        if not 0 < len(name) <= _MOST_NAME:
            words = _("A name has 1 to {most} letters: findings and papers call the thing by it")
            raise EditError(words.format(most=_MOST_NAME))
        return change(make.session.layout, make.of, name=name)

    step = _("Rename {name}").format(name=make.name)
    return make.typed("name", _("Name"), make.name, take, step, _("What findings and papers call it"))


def values(make: Making, item: Value, asked: Sequence[Asked]) -> Iterator[Property]:
    """Yield a property for each value that is asked of an item, by the item's own field names."""
    for one in asked:
        yield value(make, one, getattr(item, one.key), _measure(item, one.key))


def value(
    make: Making, asked: Asked, known: Any, measure: Measure | None = None,
    take: Callable[[Any], Layout] | None = None,
) -> Property:  # fmt: skip
    """Make the property of one value; ``take`` edits the layout where that is not the item's own field."""

    def typed(text: str) -> Layout:
        read = asked.read(text, make.session.units, known)
        if asked.sort == "words":
            read = asked.check_words(read)
        return take(read) if take else change(make.session.layout, make.of, **{asked.key: read})

    tip = asked.tip or (make.tip(measure) if measure else "")
    text = asked.write(known, make.session.units)
    empty = asked.empty if asked.may_lack and asked.sort != "words" else ""
    return Property(
        make.of, asked.key, asked.label, asked.label, text, tip, make.change,
        empty=empty, take=typed, choices=choices_of(asked),
    )  # fmt: skip


def table(
    make: Making, asked: Table, key: str, label: str, *, unknown: bool = False, counted: str = ""
) -> Property:
    """Make a property that opens a table; ``counted`` says what is there instead of a number of rows."""
    many = len(asked.rows)
    text = counted or ngettext("{n} row", "{n} rows", many).format(n=many)
    if not many:
        text = "" if unknown else _("none")

    def opens(parent: QWidget) -> TableDialog:
        return TableDialog(make.session, asked, parent)

    return Property(make.of, key, label, label, text, asked.how, asked.step, opens=opens)


@dataclass(frozen=True)
class Listed:
    """A list of a thing's own items, of one model, under a key of the thing; each is a row of a table."""

    key: str
    model: type[Value]
    title: str
    how: str
    columns: Sequence[Asked]


def items_table(
    make: Making, listed: Listed, label: str, items: Sequence[Value] | None, **may: Any
) -> Property:
    """Make a property that opens the table of a list; ``may`` is what ``table`` may be told besides.

    The property's key is ``shown_as`` where that of the list is another property's.
    """

    def taken(rows: Rows) -> Layout:
        return change(make.session.layout, make.of, **{listed.key: items_of(listed.model, rows)})

    rows, shown_as = rows_of(items, listed.columns), may.pop("shown_as", listed.key)
    asked = Table(listed.title, listed.how, listed.columns, rows, taken, make.change)
    return table(make, asked, shown_as, label, **may)


def form(
    make: Making, key: str, label: str, text: str, variants: Sequence[Variant], tip: str = "",
    *, chosen: str = "",
) -> Property:  # fmt: skip
    """Make a property that opens a form of its variants."""

    def opens(parent: QWidget) -> FormDialog:
        title = _("{name}: {label}").format(name=make.name, label=label.lower())
        return FormDialog(make.session, title, _("Take it"), variants, parent, chosen=chosen)

    return Property(make.of, key, label, label, text, tip, make.change, opens=opens)


def rows_of(items: Sequence[Value] | None, columns: Sequence[Asked]) -> Rows:
    """Return items as the rows of a table."""
    return [{asked.key: getattr(item, asked.key) for asked in columns} for item in items or ()]


def items_of(model: type[Value], rows: Rows) -> tuple[Any, ...]:
    """Return the rows of a table as items of a model; what is not known is left out."""
    return tuple(model.model_validate(given(row)) for row in rows)


def given(row: Mapping[str, Any]) -> dict[str, Any]:
    """Return what a row says: nothing of what is not known or not typed."""
    return {key: known for key, known in row.items() if known not in (None, "")}


def _measure(item: Value, key: str) -> Measure | None:
    try:
        return measure_of(type(item), key)
    except KeyError:
        return None

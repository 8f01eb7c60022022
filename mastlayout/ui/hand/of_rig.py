"""The properties of spreaders, stays and holes that are there already."""

from collections.abc import Iterator

from mastlayout.errors import EditError
from mastlayout.model.edits import change
from mastlayout.model.fitting import OldHole
from mastlayout.model.layout import Layout
from mastlayout.model.measure import measure_of
from mastlayout.model.pairs import mate_of
from mastlayout.model.rig import MastEnd, Spreader, Stay, Terminal
from mastlayout.ui.forms.asked import Asked, around_tip
from mastlayout.ui.forms.table import Rows, Table
from mastlayout.ui.hand.asking import Listed, items_table, name_of_it, table, value, values
from mastlayout.ui.hand.deck import READINGS, on_deck
from mastlayout.ui.hand.lower_end import lower_end
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.property import Property
from mastlayout.ui.session import Session
from mastlayout.ui.typed import around_words, retyped_length, typed_around
from mastlayout.words import _

_STEEP_DEG = 90.0


def properties_of_spreader(session: Session, item: Spreader) -> Iterator[Property]:
    """Yield a spreader's name, side, length, sweep and rise, its bar, and its note."""
    make = Making(session, item.id, item.name)
    length = measure_of(Spreader, "length_mm")
    yield name_of_it(make)
    yield make.length("length_mm", _("Length"), item.length_mm, measure=length, above_0=True)
    yield from _other_side(make, item)
    for key, label, known in (
        ("sweep_deg", _("Sweep aft"), item.sweep_deg),
        ("rise_deg", _("Rise"), item.rise_deg),
    ):
        yield make.angle(key, label, known, -_STEEP_DEG, _STEEP_DEG, measure=measure_of(Spreader, key))
    yield from values(make, item, (_role(), side(), *_bar(), _new()))
    yield make.words("note", _("Note"), item.note)


def _other_side(make: Making, item: Spreader) -> Iterator[Property]:
    """Yield the height of its mate, where only that one can be moved."""
    mate = mate_of(make.session.layout, item)
    if not isinstance(mate, Spreader):
        return

    def take(text: str) -> Layout:
        height = retyped_length(text, make.session.units, mate.from_masthead_mm)
        return change(make.session.layout, mate.id, from_masthead_mm=round(height, 2))

    label = _("Port one at") if mate.side == "port" else _("Starboard one at")
    tip = _("From the masthead. Typed here it moves alone; level with each other, both move together.")
    step = _("Move {name}").format(name=mate.name)
    yield make.typed("mate", label, make.written(mate.from_masthead_mm), take, step, tip)


def _role() -> Asked:
    roles = (("spreader", _("spreader")), ("strut", _("jumper or diamond strut")))
    return Asked("role", _("Sort"), "choice", may_lack=False, choices=roles)


def side() -> Asked:
    """Return what is asked of the side."""
    sides = (("port", _("port")), ("starboard", _("starboard")), ("centre", _("centreline")))
    return Asked("side", _("Side"), "choice", may_lack=False, choices=sides)


def _bar() -> tuple[Asked, ...]:
    names = (
        ("chord_root_mm", _("Chord, root")), ("thickness_root_mm", _("Thickness, root")),
        ("chord_tip_mm", _("Chord, tip")), ("thickness_tip_mm", _("Thickness, tip")),
    )  # fmt: skip
    return tuple(Asked(key, label, "size", above_low=True, may_lack=False) for key, label in names)


def _new() -> Asked:
    return Asked("new", _("New"), "truth")


def properties_of_stay(session: Session, item: Stay) -> Iterator[Property]:
    """Yield a stay's name, wire, ends and the tips it passes, its fittings and its note."""
    make = Making(session, item.id, item.name)
    wire, length = measure_of(Stay, "wire_mm"), measure_of(Stay, "length_mm")
    yield name_of_it(make)
    yield make.size("wire_mm", _("Wire"), item.wire_mm, measure=wire, above_0=True)
    yield from _upper_end(make, item)
    yield _tips(make, item)
    yield lower_end(make, item)
    yield (
        _lower_end(make, item.lower)
        if item.ends_on_mast
        else on_deck(make, "deck", _("Deck end"), item.deck, measure_of(Stay, "deck"))
    )
    yield make.length("length_mm", _("Length, measured"), item.length_mm, measure=length, above_0=True)
    yield from values(make, item, (_sort(), side(), Asked("sag_mm", _("Sag"))))
    yield from values(make, item, (Asked("removable", _("Removable"), "truth"), _stowed()))
    yield on_deck(make, "stowed_at", _("Stowed, its end"), item.stowed_at, measure_of(Stay, "stowed_at"))
    yield from values(make, item, (*_furler(), _new()))
    yield _terminals(make, item)
    yield make.words("note", _("Note"), item.note)


def _sort() -> Asked:
    roles = (
        ("forestay", _("forestay")), ("inner", _("inner forestay")), ("backstay", _("backstay")),
        ("cap", _("cap shroud")), ("intermediate", _("intermediate shroud")), ("lower", _("lower shroud")),
        ("runner", _("runner")), ("diamond", _("diamond")), ("jumper", _("jumper")), ("luff", _("free luff")),
    )  # fmt: skip
    return Asked("role", _("Sort"), "choice", may_lack=False, choices=roles)


def _furler() -> tuple[Asked, ...]:
    tip = _("Angle of the halyard to the stay at the furler’s swivel, as its manual says")
    names = (("swivel_least_deg", _("Furler, least angle")), ("swivel_most_deg", _("Furler, most angle")))
    return tuple(Asked(key, label, "angle", high=90.0, tip=tip) for key, label in names)


def _stowed() -> Asked:
    return Asked("stowed", _("Stowed"), "words", tip=_("Where it is made fast while it is not set"))


def _upper_end(make: Making, item: Stay) -> Iterator[Property]:
    def take(key: str, known: object) -> Layout:
        return change(make.session.layout, make.of, upper=item.upper.but(**{key: known}))

    around = Asked("girth", _("Upper pin, round"), "around", may_lack=False, tip=around_tip())
    off = Asked("stand_off_mm", _("Upper pin, off skin"), "size", low=None, may_lack=False)
    yield value(make, around, item.upper.girth, take=lambda known: take("girth", known))
    yield value(make, off, item.upper.stand_off_mm, take=lambda known: take("stand_off_mm", known))


def _tips(make: Making, item: Stay) -> Property:
    """Make the table of the spreaders whose tips a stay passes."""
    bars = tuple((bar.id, bar.name) for bar in make.session.layout.spreaders)
    names = dict(bars)
    column = Asked("name", _("Spreader or strut"), "choice", may_lack=False, choices=bars)

    def taken(rows: Rows) -> Layout:
        return change(make.session.layout, make.of, via=tuple(row["name"] for row in rows))

    how = _("The spreaders or struts whose tips it passes, from its upper end down.")
    asked = Table(
        _("{name}: tips it passes").format(name=make.name), how, (column,),
        [{"name": name} for name in item.via], taken, make.change,
    )  # fmt: skip
    return table(
        make, asked, "via", _("Over the tips of"), counted=", ".join(names.get(n, n) for n in item.via)
    )


def _terminals(make: Making, item: Stay) -> Property:
    kinds = (
        ("terminal", _("terminal")), ("turnbuckle", _("turnbuckle")), ("cover", _("cover")),
        ("toggle", _("toggle")), ("drum", _("furling drum")), ("swivel", _("swivel")),
        ("roll", _("rolled sail")),
    )  # fmt: skip
    ends = (("upper", _("upper")), ("lower", _("lower")))
    columns = (
        Asked("kind", _("What"), "choice", may_lack=False, choices=kinds),
        Asked("end", _("At its end"), "choice", may_lack=False, choices=ends),
        Asked("from_end_mm", _("From the end"), may_lack=False),
        Asked("length_mm", _("Length"), above_low=True, may_lack=False),
        Asked("diameter_mm", _("Diameter"), "size", above_low=True, may_lack=False),
    )  # fmt: skip

    how = _("What is thicker than the wire: terminals, turnbuckles, drum and swivel, rolled sail.")
    title = _("{name}: terminals").format(name=make.name)
    return items_table(
        make, Listed("terminals", Terminal, title, how, columns), _("Terminals"), item.terminals
    )


def _lower_end(make: Making, lower: MastEnd | None) -> Property:
    """Make one field of the readings of a lower pin on the mast; emptied, it is not known."""
    how = _("From the masthead; where round the mast: with “;” between them.")

    def take(text: str) -> Layout:
        return change(make.session.layout, make.of, lower=_read_lower(make, text, how, lower))

    text = (
        f"{make.written(lower.from_masthead_mm, READINGS)}; {around_words(lower.girth, make.session.units)}"
        if lower
        else ""
    )
    tip = f"{how} {make.tip(measure_of(Stay, 'lower'))}"
    return make.typed("lower", _("Lower pin"), text, take, make.change, tip)


def _read_lower(make: Making, text: str, how: str, before: MastEnd | None) -> MastEnd | None:
    if not text.strip():
        return None
    parts = text.split(";")
    if len(parts) != 2:
        raise EditError(how)
    units = make.session.units
    high = retyped_length(parts[0], units, before.from_masthead_mm if before else None, READINGS)
    stands = before is not None and parts[1].strip() == around_words(before.girth, units)
    girth = before.girth if before is not None and stands else typed_around(parts[1], units)
    stand_off = before.stand_off_mm if before else 0.0
    return MastEnd(from_masthead_mm=round(high, 2), girth=girth, stand_off_mm=stand_off)


def properties_of_hole(session: Session, item: OldHole) -> Iterator[Property]:
    """Yield an old hole's name, diameter, where round the mast it is, its state and its note."""
    make = Making(session, item.id, item.name)
    across = measure_of(OldHole, "diameter_mm")
    states = (
        ("open", _("open")), ("filled", _("filled")), ("riveted", _("riveted")), ("tapped", _("tapped")),
        ("drain", _("drain")),
    )  # fmt: skip
    yield name_of_it(make)
    yield make.size("diameter_mm", _("Diameter"), item.diameter_mm, measure=across, above_0=True)
    yield from values(
        make, item,
        (
            Asked("girth", _("Girth"), "around", may_lack=False, tip=around_tip()),
            Asked("state", _("State"), "choice", may_lack=False, choices=states),
        ),
    )  # fmt: skip
    yield make.words("note", _("Note"), item.note)

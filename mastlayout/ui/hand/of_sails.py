"""The properties of sails, by the measures of the Equipment Rules of Sailing, and of poles."""

from collections.abc import Iterator

from mastlayout.errors import EditError
from mastlayout.model.edits import change
from mastlayout.model.layout import Layout
from mastlayout.model.measure import measure_of
from mastlayout.model.sails import Pole, Reef, Sail
from mastlayout.model.value import MOST_MM
from mastlayout.ui.forms.asked import Asked, Choices
from mastlayout.ui.forms.table import Rows, Table
from mastlayout.ui.hand.asking import items_of, name_of_it, rows_of, table, values
from mastlayout.ui.hand.deck import on_deck
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.property import Property
from mastlayout.ui.session import Session
from mastlayout.ui.typed import retyped_size, written_size
from mastlayout.words import _


def properties_of_sail(session: Session, item: Sail) -> Iterator[Property]:
    """Yield a sail's name and sort, what it hangs on, and the measures of its sort."""
    make, layout = Making(session, item.id, item.name), session.layout
    stays = tuple((stay.id, stay.name) for stay in layout.stays)
    lines = tuple((line.id, line.name) for line in layout.halyards)
    yield name_of_it(make)
    yield from values(make, item, (_sort(),))
    if item.role != "main":
        yield from values(make, item, (Asked("stay", _("On the stay"), "choice", choices=stays),))
    yield from values(make, item, (Asked("halyard", _("Halyard"), "choice", choices=lines),))
    yield from values(make, item, _of_main() if item.role == "main" else _of_headsail())
    if item.role == "main":
        yield _receptacle(make, item)
    if item.role in ("headsail", "staysail"):
        lead = measure_of(Sail, "sheet_lead")
        yield on_deck(make, "sheet_lead", _("Lead of its sheets"), item.sheet_lead, lead)
    yield _reefs(make, item)
    yield make.words("note", _("Note"), item.note)


def _sort() -> Asked:
    roles = (
        ("main", _("mainsail")), ("headsail", _("headsail")), ("staysail", _("staysail")),
        ("code sail", _("code sail")), ("spinnaker", _("spinnaker")),
    )  # fmt: skip
    return Asked("role", _("Sort"), "choice", may_lack=False, choices=roles)


def _size(key: str, label: str, tip: str = "") -> Asked:
    return Asked(key, label, above_low=True, tip=tip)


def _reading(key: str, label: str) -> Asked:
    return Asked(key, label, low=None, tip=_("From the masthead; minus is above it"))


def _of_headsail() -> tuple[Asked, ...]:
    return (
        _size("lp_mm", _("LP")), _size("luff_mm", _("Luff")), _size("foot_mm", _("Foot")),
        _reading("tack_mm", _("Tack, from masthead")), _reading("clew_mm", _("Clew, from masthead")),
        _reading("head_mm", _("Head, from masthead")),
        *_widths(),
        _size("furled_mm", _("Furled, diameter")),
        Asked("clew_hardware", _("At the clew"), "words"),
        Asked("clew_reach_mm", _("Clew fitting reaches")),
    )  # fmt: skip


def _of_main() -> tuple[Asked, ...]:
    return (
        _size("p_mm", _("P")), _size("e_mm", _("E")),
        Asked("upper_mark_mm", _("Upper mark, from masthead")),
        Asked("lower_mark_mm", _("Lower mark, from masthead")),
        *_widths(),
        Asked("headboard_ahead_mm", _("Headboard ahead of luff")),
        Asked("battens_short", _("Short battens"), "count", high=20, may_lack=False),
        Asked("battens_full", _("Full battens"), "count", high=20, may_lack=False),
        Asked("boom_limit_deg", _("Boom out at most"), "angle", high=180.0),
        Asked("twist_deg", _("Twist"), "angle", high=90.0),
        _size("stack_mm", _("Stacked, height")),
        Asked("cars", _("Cars or slides"), "count", high=60),
        Asked("car_across_mm", _("Car, across"), "size", above_low=True),
        Asked("car_high_mm", _("Car, height"), "size", above_low=True),
        Asked("headboard_high_mm", _("Headboard, height"), "size"),
    )  # fmt: skip


def _receptacle(make: Making, item: Sail) -> Property:
    """Make one field of the two lengths of a batten's receptacle; emptied, it is not known."""
    how = _("How far the batten's receptacle at the luff reaches aft, and its height: two lengths with “;” "
            "between them")  # fmt: skip
    known = item.receptacle or ()

    def take(text: str) -> Layout:
        units, parts = make.session.units, text.split(";")
        if not text.strip():
            return change(make.session.layout, make.of, receptacle=None)
        if len(parts) != 2:
            raise EditError(how)
        before = known or (None, None)
        sizes = [retyped_size(part, units, own) for part, own in zip(parts, before, strict=True)]
        if not all(0.0 < size <= MOST_MM for size in sizes):
            raise EditError(_("{typed} is too little: more than 0 is allowed").format(typed=text.strip()))
        return change(make.session.layout, make.of, receptacle=tuple(round(size, 2) for size in sizes))

    text = "; ".join(written_size(size, make.session.units) for size in known)
    return make.typed("receptacle", _("Luff receptacle"), text, take, make.change, how)


def _widths() -> tuple[Asked, ...]:
    return (
        _size("quarter_width_mm", _("Quarter width")), _size("half_width_mm", _("Half width")),
        _size("three_quarter_width_mm", _("Three-quarter width")),
        _size("seven_eighths_width_mm", _("Seven-eighths width")),
        Asked("head_width_mm", _("Top width")),
    )  # fmt: skip


def _reefs(make: Making, item: Sail) -> Property:
    columns = (
        Asked("name", _("Name"), "words"), _size("lp_mm", _("LP")), _reading("clew_mm", _("Clew")),
        _reading("head_mm", _("Head")), _size("rolled_mm", _("Rolled, diameter")),
    )  # fmt: skip

    def taken(rows: Rows) -> Layout:
        named = [{**row, "name": row["name"] or _("Reef {n}").format(n=n + 1)} for n, row in enumerate(rows)]
        return change(make.session.layout, make.of, reefs=items_of(Reef, named))

    how = _("What differs from the full sail, reefed or part furled; heights from the masthead.")
    title = _("{name}: reefs").format(name=make.name)
    return table(
        make,
        Table(title, how, columns, rows_of(item.reefs, columns), taken, make.change),
        "reefs",
        _("Reefs"),
    )


def properties_of_pole(session: Session, item: Pole) -> Iterator[Property]:
    """Yield a pole's name, length, the run of its ring and where it is stowed."""
    make = Making(session, item.id, item.name)
    yield name_of_it(make)
    asked = (
        Asked("length_mm", _("Length"), above_low=True, may_lack=False),
        Asked("diameter_mm", _("Diameter"), "size", above_low=True),
        Asked("ring_from_mm", _("Ring, highest"), may_lack=False, tip=_("From the masthead")),
        Asked("ring_to_mm", _("Ring, lowest"), may_lack=False, tip=_("From the masthead")),
        Asked("ring_ahead_mm", _("Ring ahead of the mast")),
        Asked("tilt_deg", _("Tilts up and down"), "angle", high=80.0, empty=_("as the limit says")),
        Asked("squared_deg", _("Squared back from ahead"), "angle", high=120.0, empty=_("as the limit says")),
        Asked("stowed_on", _("Stowed"), "choice", choices=_stowages()),
        *_stowage(item),
    )
    yield from values(make, item, asked)
    if item.stowed_on == "deck":
        chock = measure_of(Pole, "chock_fore")
        yield on_deck(make, "chock_fore", _("Forward end on deck"), item.chock_fore, chock)
        yield on_deck(make, "chock_aft", _("After end on deck"), item.chock_aft, chock)
    yield make.words("stowed", _("Stowed, in words"), item.stowed)


def _stowages() -> Choices:
    return (("mast", _("along the mast")), ("track", _("on its track")), ("deck", _("on deck")))


def _stowage(item: Pole) -> tuple[Asked, ...]:
    top = Asked("stowed_top_mm", _("Stowed, upper end"), tip=_("From the masthead"))
    ahead = Asked("stowed_ahead_mm", _("Stowed, ahead of the mast"))
    return {"mast": (top, ahead), "track": (ahead,)}.get(item.stowed_on or "", ())

"""The properties of what runs along the mast: halyards, cables and conduits."""

from collections.abc import Iterator
from typing import get_args

from mastlayout.geometry.frames import height_mm
from mastlayout.model.fitting import Cable, Coaxial
from mastlayout.model.layout import Layout
from mastlayout.model.mast import Conduit, Run, Slot
from mastlayout.model.measure import measure_of
from mastlayout.model.references import LOOSE
from mastlayout.model.rig import DeckEnd
from mastlayout.model.sails import Halyard, LinePoint
from mastlayout.ui.forms.asked import Asked, Choices, around_tip
from mastlayout.ui.hand.asking import Listed, items_table, name_of_it, values
from mastlayout.ui.hand.deck import on_deck
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.property import Property
from mastlayout.ui.session import Session
from mastlayout.ui.typed import around_words
from mastlayout.words import _


def properties_of_halyard(session: Session, item: Halyard) -> Iterator[Property]:
    """Yield a halyard's name, rope, way and its note."""
    make = Making(session, item.id, item.name)
    ways = (("straight", _("straight from sheave to exit")), ("outside", _("outside the mast")))
    asked = (
        Asked("rope_mm", _("Rope"), "size", above_low=True, may_lack=False),
        Asked("purchase", _("Purchase"), "choice", may_lack=False, choices=(("1:1", "1:1"), ("2:1", "2:1"))),
        Asked("inside", _("Inside the mast"), "choice", choices=ways),
    )
    yield name_of_it(make)
    yield from values(make, item, asked)
    yield _points(make, item)
    yield from values(make, item, (Asked("swivel_angle_deg", _("Angle at the swivel"), "angle", high=90.0),))
    hoisted = Asked("hoisted", _("Hoisted"), "words", tip=_("Where it leads while its sail is set"))
    yield from values(make, item, (hoisted,))
    yield _made_fast(make, "hoisted_at", _("Hoisted, its end"), item.hoisted_at)
    tied_off = Asked("tied_off", _("Tied off"), "words", tip=_("Where it is made fast in harbour"))
    yield from values(make, item, (tied_off,))
    yield _made_fast(make, "tied_at", _("Tied off, its end"), item.tied_at)
    slack = Asked("slack_mm", _("Left slack by"), tip=_("How much longer than its way it is left when slack"))
    yield from values(make, item, (slack,))
    yield make.words("note", _("Note"), item.note)


def _made_fast(make: Making, key: str, label: str, end: DeckEnd | None) -> Property:
    return on_deck(make, key, label, end, measure_of(Halyard, key))


def _points(make: Making, item: Halyard) -> Property:
    at = (
        ("sheave", _("sheave")), ("inside", _("inside")), ("outside", _("outside")), ("exit", _("exit")),
        ("block", _("block")), ("restrainer", _("restrainer")), ("winch", _("winch")), ("cleat", _("cleat")),
        ("end", _("end")),
    )  # fmt: skip
    columns = (
        Asked("at", _("Passes"), "choice", may_lack=False, choices=at),
        Asked("fitting", _("Fitting"), "choice", choices=_fittings(make.session.layout), empty=_("none")),
        Asked(
            "sheave",
            _("Sheave, from port"),
            "count",
            low=1.0,
            high=8.0,
            follows="fitting",
            followed=_sheaves(make),
        ),
        Asked(
            "from_masthead_mm", _("From the masthead"), low=None, follows="fitting", followed=_heights(make)
        ),
        Asked("girth", _("Round"), "around", tip=around_tip(), follows="fitting", followed=_girths(make)),
        Asked("ahead_mm", _("Ahead of the axis"), low=None, follows="fitting", followed=_own(make)),
        Asked("port_mm", _("To port of the axis"), low=None, follows="fitting", followed=_own(make)),
    )

    how = _("Its way from aloft down: name the fitting it passes, or the place where there is none.")
    title = _("{name}: its way").format(name=make.name)
    return items_table(make, Listed("points", LinePoint, title, how, columns), _("Way"), item.points)


def _own(make: Making) -> dict[str, str]:
    """Return by fitting that a line's place there is the fitting's own."""
    return {fitting.id: _("as its fitting") for fitting in make.session.layout.fittings}


def _sheaves(make: Making) -> dict[str, str]:
    """Return by fitting that a line there runs over no sheave, or over its only one."""
    placed = make.session.desk.scene.placed
    known = {fitting.id: _("none") for fitting in make.session.layout.fittings}
    for name, one in placed.items():
        if (count := one.body.parts.count("sheave")) == 1:
            known[name] = _("its only one")
        elif count:
            del known[name]
    return known


def _heights(make: Making) -> dict[str, str]:
    """Return by fitting how far from the masthead a line passes there."""
    scene = make.session.desk.scene
    length = scene.skin.length_mm
    placed = scene.placed.items()
    return _own(make) | {name: make.written(height_mm(length, one.z_mm)) for name, one in placed}


def _girths(make: Making) -> dict[str, str]:
    """Return by fitting where round the skin a line passes there."""
    units, on_skin = make.session.units, [one for one in make.session.layout.fittings if one.girth]
    return _own(make) | {one.id: around_words(one.girth, units) for one in on_skin if one.girth}


def _fittings(layout: Layout) -> Choices:
    return tuple((fitting.id, fitting.name) for fitting in layout.fittings)


def properties_of_cable(session: Session, item: Cable) -> Iterator[Property]:
    """Yield a cable's name, its fitting, size, plug and way, and its note."""
    make, layout = Making(session, item.id, item.name), session.layout
    pipes = tuple((pipe.id, pipe.name) for pipe in layout.mast.conduits or ())
    holes = tuple((hole.id, hole.name) for hole in layout.holes)
    coaxes = tuple((name, name) for name in get_args(Coaxial))
    none = _("Widest part that must pass; 0 where the plug goes on after the pull")
    yield name_of_it(make)
    yield from values(make, item, (Asked("fitting", _("Of"), "choice", choices=_fittings(layout)),))
    yield from values(
        make, item,
        (
            Asked("outside_mm", _("Outside"), "size", above_low=True),
            Asked("plug_mm", _("Plug"), "size", tip=none),
            Asked("conduit", _("Conduit"), "choice", choices=((LOOSE, _("loose in the mast")), *pipes)),
            Asked("exit", _("Leaves at"), "choice", choices=(*_fittings(layout), *holes)),
            Asked("exit_from_masthead_mm", _("Leaves, from masthead"), low=None),
            Asked("coax", _("Coaxial cable"), "choice", choices=coaxes),
            Asked("to_set_mm", _("Mast to its set")),
            Asked("connectors", _("Connectors"), "count", high=20),
            Asked("current_a", _("Current, A"), "number", low=0.0, high=100.0),
            Asked("copper_mm2", _("Copper, mm²"), "number", low=0.0, high=100.0, tip=_("Of one conductor")),
            Asked("new", _("New"), "truth"),
        ),
    )  # fmt: skip
    yield make.words("note", _("Note"), item.note)


def properties_of_conduit(session: Session, item: Conduit) -> Iterator[Property]:
    """Yield a conduit's name, bore and outside, where it lies and where it opens."""
    make = Making(session, item.id, item.name)
    yield name_of_it(make)
    yield from values(
        make, item,
        (
            Asked("bore_mm", _("Bore"), "size", above_low=True),
            Asked("outside_mm", _("Outside"), "size", above_low=True),
        ),
    )  # fmt: skip
    yield _runs(make, item)
    yield _slots(make, item)


def _runs(make: Making, item: Conduit) -> Property:
    columns = (
        Asked("from_masthead_mm", _("From the masthead"), may_lack=False),
        Asked("to_mm", _("To"), may_lack=False),
        Asked("bearing_deg", _("Bearing"), "angle", high=360.0, tip=_("Clockwise from ahead, from above")),
    )

    how = _(
        "Where it lies, from the masthead down. Without a bearing nobody knows, and no hole is clear of it."
    )
    placed = bool(item.runs) and all(run.bearing_deg is not None for run in item.runs)
    said = "" if placed or not item.runs else _("bearing not known")
    listed = Listed("runs", Run, _("{name}: where it lies").format(name=make.name), how, columns)
    return items_table(make, listed, _("Lies"), item.runs, unknown=True, counted=said)


def _slots(make: Making, item: Conduit) -> Property:
    columns = (
        Asked("from_masthead_mm", _("Middle, from masthead"), may_lack=False),
        Asked("length_mm", _("Length"), above_low=True, may_lack=False),
        Asked("new", _("To be cut"), "truth"),
    )

    how = _("Openings where a cable may leave. Looked and found none? Take an empty table.")
    listed = Listed("slots", Slot, _("{name}: slots").format(name=make.name), how, columns)
    return items_table(make, listed, _("Slots"), item.slots, unknown=item.slots is None)

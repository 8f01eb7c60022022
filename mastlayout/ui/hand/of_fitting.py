"""The properties of a fitting, in the order in which they are asked for."""

from collections import Counter
from collections.abc import Iterator

from PySide6.QtWidgets import QWidget

from mastlayout.checks.cable import fill_percent
from mastlayout.documents.schedule.made import made_words
from mastlayout.errors import EditError
from mastlayout.fastening.at_hole import choices
from mastlayout.fastening.choice import Choice
from mastlayout.fastening.drill import drill_of
from mastlayout.fastening.words import bought_as, holds_by, not_chosen_words
from mastlayout.geometry.frames import bearing_of, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.wall import thickness_mm
from mastlayout.model.around import Around
from mastlayout.model.edits import change, refuse_as_built
from mastlayout.model.fitting import MAST, Cable, Fitting
from mastlayout.model.hosting import hung, offers, suits
from mastlayout.model.kind import Hole, Kind
from mastlayout.model.layout import Layout
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of
from mastlayout.ranges.lights import light_sectors
from mastlayout.ranges.own_radar import is_radar
from mastlayout.ranges.reflector import is_reflector
from mastlayout.ui.forms.asked import Asked, around_tip
from mastlayout.ui.hand.asking import name_of_it, values
from mastlayout.ui.hand.built import BuiltDialog
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.property import Property
from mastlayout.ui.hosts import offer_words, place_on, seats_words
from mastlayout.ui.session import Session
from mastlayout.ui.typed import around_phrase, typed_girth, written_size
from mastlayout.units import Units, read_angle, read_mass, write_drill
from mastlayout.words import _


def properties_of_fitting(session: Session, placed: Placed) -> Iterator[Property]:
    """Yield what there is to know of a fitting, and what can be typed."""
    make = Making(session, placed.id, placed.fitting.name)
    on_mast = placed.fitting.on == MAST
    yield from _around(make, placed, placed.skin) if placed.skin and on_mast else _along(make, placed)
    yield make.read("foot", _("Foot"), foot_text(make, placed))
    yield make.read("holes", _("Holes"), _holes(placed, session.units))
    yield make.read("fasteners", _("Fasteners"), _fasteners(placed, session.units))
    yield make.read("seat", _("Seat"), _seat(make, placed))
    yield _wall(make, placed)
    yield make.read("cable", _("Cable"), _cables(make, placed))
    yield _mass(make, placed)
    yield from _of_light(make, placed)
    yield from _of_radar(make, placed)
    old = Asked("replaces_kg", _("Old parts taken off"), "mass", empty=_("none"))
    yield from values(make, placed.fitting, (old,))
    yield from _of_sound(make, placed)
    yield make.size("stand_off_mm", _("Stand-off"), placed.fitting.stand_off_mm)
    yield make.angle("turn_deg", _("Turn"), placed.fitting.turn_deg, -360.0, 360.0)
    yield mounted_on(make, placed.kind, placed.z_mm)
    yield name_of_it(make)
    yield from values(make, placed.fitting, _when_fitted())
    if placed.skin and on_mast:
        yield _as_built(make, placed)
    yield make.words("note", _("Note"), placed.fitting.note)


def properties_of_unplaced(session: Session, fitting: Fitting) -> Iterator[Property]:
    """Yield what can be typed of a fitting whose host nobody has measured."""
    make = Making(session, fitting.id, fitting.name)
    kind = next(kind for kind in session.layout.kinds if kind.id == fitting.kind)
    yield name_of_it(make)
    yield mounted_on(make, kind, session.z_mm)
    if fitting.along_mm is not None:
        yield make.length("along_mm", _("Along"), fitting.along_mm, make.move)
        yield make.angle("round_deg", _("Round"), fitting.round_deg, -360.0, 360.0, make.move)
    yield from values(make, fitting, _when_fitted())
    yield make.words("note", _("Note"), fitting.note)


def mounted_on(make: Making, kind: Kind, z_mm: float) -> Property:
    """Make the choice of what a fitting hangs on; near ``z_mm`` where the host reaches there."""
    session, fitting = make.session, make.fitting
    layout = session.layout
    offered = {_host_key(one.on, one.mount): one for one in offers(layout) if one.on != make.of}
    here = _host_key(fitting.on, fitting.mount)

    def take(key: str) -> Layout:
        place = place_on(session.desk.scene, offered[key], z_mm, kind, fitting.girth)
        return hung(layout, make.of, place)

    may = [key for key, one in offered.items() if key == here or suits(kind, one)]
    tip = _("It is made to sit on {hosts}.").format(hosts=seats_words(kind)) if kind.sits_on else ""
    choices = tuple((key, offer_words(layout, offered[key])) for key in may)
    label = _("Mounted on")
    return Property(make.of, "on", label, label, here, tip, make.move, take=take, choices=choices)


def _host_key(on: str, mount: str | None) -> str:
    return f"{on}/{mount}" if mount else on


def _when_fitted() -> tuple[Asked, ...]:
    when = (
        ("before stepping", _("before stepping")), ("after stepping", _("after stepping")),
        ("at the dock", _("at the dock")),
    )  # fmt: skip
    return Asked("new", _("New"), "truth"), Asked("fitted", _("To be fitted"), "choice", choices=when)


def _as_built(make: Making, placed: Placed) -> Property:
    """Make the form of where a fitting on the mast was found to be."""
    built = placed.fitting.as_built
    text = (
        _("{by}, {day}").format(by=built.by, day=built.day) if built else made_words(placed) or _("not yet")
    )
    about = _("What was found is what is checked, drawn and printed.")

    def opens(parent: QWidget) -> BuiltDialog:
        return BuiltDialog(make.session, placed, parent)

    label = _("As built")
    return Property(make.of, "as_built", label, label, text, about, make.change, opens=opens)


# -- where round the mast, or where on its host


def _around(make: Making, placed: Placed, skin: Skin) -> Iterator[Property]:
    girth, z = float(placed.places.around[0]), placed.z_mm
    point, _normal = skin.at(placed.seats.origin[0, 2], placed.places.around[0])
    bearing = bearing_of(float(point[0]), float(point[1]))

    def take_bearing(text: str) -> Layout:
        degrees = read_angle(text)
        if not 0.0 <= degrees <= 360.0:
            words = _("{typed} is no bearing: 0 to 360 is allowed, clockwise from ahead seen from above")
            raise EditError(words.format(typed=text.strip()))
        return _turned_to(make, Around(origin="bearing", offset=round(degrees % 360.0, 2)))

    def take_girth(text: str) -> Layout:
        return _turned_to(make, typed_girth(text, make.session.units, skin.ring(z).half_girth_mm))

    yield make.typed("bearing", _("Bearing"), f"{_degrees(bearing)}°", take_bearing, make.move)
    half = skin.ring(z).half_girth_mm
    phrase = around_phrase(placed.fitting.girth, girth, half, make.session.units)
    yield make.typed("girth", _("Girth"), phrase, take_girth, make.move, around_tip())


def _turned_to(make: Making, around: Around) -> Layout:
    refuse_as_built(make.fitting, "girth")
    return change(make.session.layout, make.of, girth=around)


def _degrees(bearing_deg: float) -> str:
    rounded = round(bearing_deg, 1) % 360.0
    return f"{rounded:03.0f}" if rounded == round(rounded) else f"{rounded:05.1f}"


def _along(make: Making, placed: Placed) -> Iterator[Property]:
    fitting = placed.fitting
    if fitting.mount is not None:
        yield make.read("mount", _("Mount"), fitting.mount)
        return
    yield make.length("along_mm", _("Along"), fitting.along_mm or 0.0, make.move)
    yield make.angle("round_deg", _("Round"), fitting.round_deg, -360.0, 360.0, make.move)


# -- foot, holes, wall


def foot_text(make: Making, placed: Placed) -> str:
    """Return the foot's size and how well it is known; "" where there is none."""
    foot = placed.foot
    if foot is None:
        return _("none")
    size = f"{make.written(foot.across_mm, 1)} × {make.written(foot.along_mm, 1)}"
    if placed.foot_known:
        return _("{size}, confirmed").format(size=size)
    words = _("{size}, typical") if placed.fitting.new else _("{size}, not measured")
    return words.format(size=size)


def _seat(make: Making, placed: Placed) -> str:
    """Say how the foot lies on the mast, and what lies between."""
    if placed.foot is None:
        return _("none")
    lies = {
        "flat": _("flat foot"),
        "radiused": _("foot with a radius"),
        "shaped": _("foot shaped to the skin"),
    }[placed.foot.seat]
    foot, units = placed.foot, make.session.units
    if foot.liner_mm:
        lies = _("{lies}, liner {liner}").format(lies=lies, liner=written_size(foot.liner_mm, units))
    if foot.backing_mm:
        lies = _("{lies}, backing bar {bar}").format(lies=lies, bar=written_size(foot.backing_mm, units))
    return lies


def _of_light(make: Making, placed: Placed) -> Iterator[Property]:
    """Yield what is asked of a navigation light alone."""
    if light_sectors(placed):
        seen = Asked("visible_nm", _("Range on its plate, NM"), "count", low=1, high=12)
        yield from values(make, placed.fitting, (seen,))
        yield make.angle("shim_deg", _("Wedge, leans forward"), placed.fitting.shim_deg, -20.0, 20.0)


def _of_radar(make: Making, placed: Placed) -> Iterator[Property]:
    """Yield what is asked of a radar reflector's papers, or of the yacht's own radar."""
    asked: tuple[Asked, ...] = ()
    if is_reflector(placed):
        asked = (
            Asked("echo_x_m2", _("Echo in X band, m²"), "number", low=0.0, high=10_000.0),
            Asked("echo_s_m2", _("Echo in S band, m²"), "number", low=0.0, high=10_000.0),
            Asked("echo_arc_deg", _("Kept over, in all"), "angle", low=0.0, high=360.0),
            Asked("echo_null_deg", _("Widest null"), "angle", low=0.0, high=360.0),
            Asked("echo_apart_deg", _("Between nulls, at least"), "angle", low=0.0, high=360.0),
            Asked("echo_heel_deg", _("Stated to a heel of"), "angle", low=0.0, high=60.0),
        )
    elif is_radar(placed):
        asked = (
            Asked("beam_tall_deg", _("Beam, top to bottom"), "angle", low=1.0, high=90.0),
            Asked("beam_wide_deg", _("Beam, side to side"), "angle", low=0.1, high=90.0),
            Asked("mean_power_w", _("Mean power, W"), "number", low=0.0, high=1_000.0),
        )
    yield from values(make, placed.fitting, asked)


def _of_sound(make: Making, placed: Placed) -> Iterator[Property]:
    """Yield what the plate of a horn or hailer says, and of a radar how far it stays from a compass."""
    if placed.kind.group == "sound":
        level = Asked("level_db", _("Level at 1 m, dB"), "count", low=60, high=170)
        yield from values(
            make, placed.fitting, (level, Asked("tone_hz", _("Tone, Hz"), "count", low=50, high=5000))
        )
    if placed.kind.group in ("sound", "radar"):
        yield from values(make, placed.fitting, (Asked("compass_safe_mm", _("Compass safe distance")),))


def _holes(placed: Placed, units: Units) -> str:
    foot = placed.foot
    if foot is None or not foot.holes:
        return _("none")
    counts: dict[str, list[Hole]] = {}
    for hole in foot.holes:
        counts.setdefault(hole.fastener.size, []).append(hole)
    return "; ".join(_pattern(words, holes, units) for words, holes in counts.items())


def _fasteners(placed: Placed, units: Units) -> str:
    """Say what is chosen for its holes, and how that holds; without the wall nothing is chosen."""
    if placed.foot is None or not any(hole.fastener.is_one for hole in placed.foot.holes):
        return _("none")
    if placed.skin is None:
        return _("not on the mast")
    if placed.skin.mast.material != "aluminium":
        return _("its builder decides")
    if not placed.fitting.new:
        return _("there already")
    chosen = [choice for _opening, choice in choices(placed) if choice]
    words = Counter(_chosen(choice, units) for choice in chosen)
    said = [f"{count} × {each}" for each, count in words.items()]
    lost = sum(hole.fastener.is_one for hole in placed.foot.holes) - len(chosen)
    return "; ".join([*said, *([not_chosen_words(placed)] if lost else [])])


def _chosen(choice: Choice, units: Units) -> str:
    """Say what is bought, of what, and how it holds: M6 × 12, 4.2 threads, 3.3 inside, stainless."""
    metal = choice.fastener.metal
    own = [_(metal)] if metal else []
    return ", ".join((bought_as(choice).removesuffix(" tapped"), *holds_by(choice, units), *own))


def _pattern(fastener: str, holes: list[Hole], units: Units) -> str:
    """Return holes of one fastener: 4 × M6 tapped, drill 5.0."""
    first = holes[0]
    drill = first.diameter_mm if first.diameter_mm is not None else drill_of(first.fastener)
    many = f"{len(holes)} × {fastener}"
    if drill is None:
        return many
    words = _("{many}, tap drill {drill}") if first.fastener.how == "tapped" else _("{many}, drill {drill}")
    return words.format(many=many.removesuffix(" tapped"), drill=write_drill(drill, units))


def _wall(make: Making, placed: Placed) -> Property:
    mast = make.session.layout.mast
    from_masthead = height_mm(mast.length_mm, placed.z_mm)
    wall = thickness_mm(mast, from_masthead) if placed.skin else None
    if wall is None and placed.skin is None:
        return make.read("wall", _("Wall here"), _("not on the mast"))
    if wall is None:
        return make.unknown("wall", _("Wall here"), measure_of(Mast, "walls"))
    return make.read(
        "wall", _("Wall here"), _("{wall}, measured").format(wall=written_size(wall, make.session.units))
    )


# -- cable and mass


def _cables(make: Making, placed: Placed) -> str:
    own = [cable for cable in make.session.layout.cables if cable.fitting == placed.id]
    return "; ".join(_cable(make, cable) for cable in own) or _("none")


def _cable(make: Making, cable: Cable) -> str:
    size = (
        _("⌀ not known")
        if cable.outside_mm is None
        else f"⌀ {written_size(cable.outside_mm, make.session.units)}"
    )
    if cable.conduit is None:
        return _("{size}, way not known").format(size=size)
    pipes = {pipe.id: pipe for pipe in make.session.layout.mast.conduits or ()}
    pipe = pipes.get(cable.conduit)
    if pipe is None:
        return _("{size}, loose").format(size=size)
    if pipe.bore_mm is None:
        return f"{size}, {pipe.name}"
    together = [other for other in make.session.layout.cables if other.conduit == pipe.id]
    full = fill_percent(together, pipe.bore_mm)
    return _("{size}, {pipe} ({full:.0f} % full)").format(size=size, pipe=pipe.name, full=full)


def _mass(make: Making, placed: Placed) -> Property:
    mass, kind = placed.fitting.mass_kg, placed.kind
    own = mass if mass is not None else kind.mass_kg

    def take(text: str) -> Layout:
        kg = read_mass(text) if text.strip() else None
        if kg is not None and kg < 0.0:
            raise EditError(_("{typed} is no mass: 0 or more is allowed").format(typed=text.strip()))
        return change(make.session.layout, make.of, mass_kg=kg)

    tip = make.tip(measure_of(Kind, "mass_kg")) if own is None else ""
    if mass is None and own is not None:
        tip = _("Typical of its kind until you type what the scale says.")
    return make.typed("mass_kg", _("Mass"), "" if own is None else f"{own:g} kg", take, make.change, tip)

"""The properties of a fitting, in the order in which they are asked for."""

import math
from collections.abc import Iterator

from pydantic import ValidationError

from mastlayout.checks.cable import fill_percent
from mastlayout.checks.sentence import names_of
from mastlayout.errors import EditError, UnitError
from mastlayout.fastening.drill import drill_of
from mastlayout.geometry.frames import bearing_of, height_mm
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.skin import Skin
from mastlayout.geometry.wall import thickness_mm
from mastlayout.model.around import Around, read_around
from mastlayout.model.edits import change, refuse_as_built
from mastlayout.model.fitting import MAST, Cable
from mastlayout.model.kind import Hole, Kind
from mastlayout.model.layout import Layout
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of
from mastlayout.ui.hand.making import Making
from mastlayout.ui.hand.property import Property
from mastlayout.ui.hand.typed import typed_length
from mastlayout.ui.session import Session
from mastlayout.units import read_angle, read_mass
from mastlayout.words import _


def properties_of_fitting(session: Session, placed: Placed) -> Iterator[Property]:
    """Yield what there is to know of a fitting, and what can be typed."""
    make = Making(session, placed.id, placed.fitting.name)
    on_mast = placed.fitting.on == MAST
    yield from _around(make, placed, placed.skin) if placed.skin and on_mast else _along(make, placed)
    yield make.read("foot", _("Foot"), foot_text(make, placed))
    yield make.read("holes", _("Holes"), _holes(placed))
    yield _wall(make, placed)
    yield make.read("on", _("Mounted on"), names_of(session.layout).get(placed.fitting.on, placed.fitting.on))
    yield make.read("cable", _("Cable"), _cables(make, placed))
    yield _mass(make, placed)
    yield make.size("stand_off_mm", _("Stand-off"), placed.fitting.stand_off_mm)
    yield make.angle("turn_deg", _("Turn"), placed.fitting.turn_deg, -360.0, 360.0)
    yield make.words("note", _("Note"), placed.fitting.note)


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
        half = skin.ring(z).half_girth_mm
        around = _read_girth(make, text)
        if around is None or (around.origin != "bearing" and abs(around.offset) > half):
            words = _("{typed} is more than half way round: at most {half} to either side is allowed")
            raise EditError(words.format(typed=text.strip(), half=make.written(math.floor(half))))
        return _turned_to(make, around)

    yield make.typed("bearing", _("Bearing"), f"{_degrees(bearing)}°", take_bearing, make.move)
    tip = _("“ahead”, “aft”, “bearing 285”, “44 to port of ahead”, “30 to starboard of aft”")
    phrase = _phrase(make, placed.fitting.girth, girth, skin.ring(z).half_girth_mm)
    yield make.typed("girth", _("Girth"), phrase, take_girth, make.move, tip)


def _turned_to(make: Making, around: Around) -> Layout:
    refuse_as_built(make.fitting, "girth")
    return change(make.session.layout, make.of, girth=around)


def _read_girth(make: Making, text: str) -> Around | None:
    """Read a phrase, or a bare length: the girth from the middle of the track, starboard positive.

    None where it is farther round than any mast is.
    """
    try:
        length = typed_length(text, make.session.units)
    except UnitError:
        length = None
    try:
        around: Around = read_around(text if length is None else length)
    except ValidationError:
        return None
    return around


def _phrase(make: Making, said: Around | None, girth_mm: float, half_girth_mm: float) -> str:
    """Return the girth from the nearer centreline as it is typed."""
    if said is not None and said.origin != "bearing" and not said.offset:
        return said.origin
    aft = said.origin == "aft" if said and said.origin != "bearing" else abs(girth_mm) < half_girth_mm / 2
    off = abs(girth_mm) if aft else height_mm(half_girth_mm, abs(girth_mm))
    origin = "aft" if aft else "ahead"
    if off < 0.05:
        return origin
    side = "starboard" if girth_mm > 0 else "port"
    return f"{make.written(off, 1)} to {side} of {origin}"


def _degrees(bearing_deg: float) -> str:
    rounded = round(bearing_deg, 1) % 360.0
    return f"{rounded:03.0f}" if rounded == round(rounded) else f"{rounded:05.1f}"


def _along(make: Making, placed: Placed) -> Iterator[Property]:
    fitting = placed.fitting
    if fitting.mount is not None:
        yield make.read("mount", _("Mount"), fitting.mount)
        return
    yield make.size("along_mm", _("Along"), fitting.along_mm or 0.0, make.move)
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


def _holes(placed: Placed) -> str:
    foot = placed.foot
    if foot is None or not foot.holes:
        return _("none")
    counts: dict[str, list[Hole]] = {}
    for hole in foot.holes:
        counts.setdefault(str(hole.fastener), []).append(hole)
    return "; ".join(_pattern(words, holes) for words, holes in counts.items())


def _pattern(fastener: str, holes: list[Hole]) -> str:
    """Return holes of one fastener: 4 × M6 tapped, drill 5.0."""
    first = holes[0]
    drill = first.diameter_mm if first.diameter_mm is not None else drill_of(first.fastener)
    many = f"{len(holes)} × {fastener}"
    if drill is None:
        return many
    words = (
        _("{many}, tap drill {drill:.1f}")
        if first.fastener.how == "tapped"
        else _("{many}, drill {drill:.1f}")
    )
    return words.format(many=many.removesuffix(" tapped"), drill=drill)


def _wall(make: Making, placed: Placed) -> Property:
    mast = make.session.layout.mast
    from_masthead = height_mm(mast.length_mm, placed.z_mm)
    wall = thickness_mm(mast, from_masthead) if placed.skin else None
    if wall is None and placed.skin is None:
        return make.read("wall", _("Wall here"), _("not on the mast"))
    if wall is None:
        return make.unknown("wall", _("Wall here"), measure_of(Mast, "walls"))
    return make.read("wall", _("Wall here"), _("{wall}, measured").format(wall=make.written(wall, 1)))


# -- cable and mass


def _cables(make: Making, placed: Placed) -> str:
    own = [cable for cable in make.session.layout.cables if cable.fitting == placed.id]
    return "; ".join(_cable(make, cable) for cable in own) or _("none")


def _cable(make: Making, cable: Cable) -> str:
    size = _("⌀ not known") if cable.outside_mm is None else f"⌀ {make.written(cable.outside_mm, 1)}"
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

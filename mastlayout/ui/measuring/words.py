"""What the tape is held to and what it reads, in words."""

from collections.abc import Iterator, Sequence

from mastlayout.checks.sentence import gap_text, hole_tag, names_of
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import height_mm, reading, round_reading
from mastlayout.geometry.spot import OnSkin, OnThing, Spot
from mastlayout.geometry.tape import Round, Taped
from mastlayout.ui.session import Session
from mastlayout.ui.tapewords import figure, grouped
from mastlayout.ui.typed import around_phrase, written
from mastlayout.units import Units
from mastlayout.words import _

# Shorter than this a straight distance is shown to a tenth of a millimetre.
_FINE_BELOW_MM = 100.0


@dataclass(frozen=True)
class Figure:
    """One figure: its label, its value, what follows it, or why it is not known (then no value)."""

    key: str
    label: str
    value: str
    more: str = ""
    why: str = ""


def part_words(session: Session, spot: OnThing) -> str:
    """Return what of a thing the tape is held to."""
    scene = session.desk.scene
    if spot.part == "hole" and spot.id in scene.placed:
        words = _("Hole {tag}").format(tag=hole_tag(scene, f"{spot.id}/h{spot.number}"))
        return words if scene.placed[spot.id].foot_known else _("{hole}, typical").format(hole=words)
    if spot.part == "hole":
        return _("Its middle")
    if spot.part == "seat":
        return _("Root") if spot.id in scene.spreaders else _("Seat")
    return _("Wire") if spot.id in scene.stays else _("Body")


def name_words(session: Session, spot: Spot) -> str:
    """Return what the tape is held to, by name."""
    if isinstance(spot, OnThing):
        return names_of(session.layout).get(spot.id, spot.id)
    return _("Point on the skin") if isinstance(spot, OnSkin) else _("Point off the skin")


def held_words(session: Session, spot: Spot) -> str:
    """Return what an end is held to, in one phrase."""
    name = name_words(session, spot)
    if isinstance(spot, OnThing):
        part = part_words(session, spot)
        return _("{name}, {part}").format(name=name, part=part[:1].lower() + part[1:])
    place = figure(session, spot.z_mm)
    if isinstance(spot, OnSkin):
        around = skin_phrase(session, spot)
        return _("{name} at {place}, {around}").format(name=name, place=place, around=around)
    words = _("{name} at {place}, {ahead} ahead, {port} to port of the mast's axis")
    ahead, port = (written(value, session.units) for value in (spot.ahead_mm, spot.port_mm))
    return words.format(name=name, place=place, ahead=ahead, port=port)


def skin_phrase(session: Session, spot: OnSkin) -> str:
    """Return how far round a place on the skin is, as it is typed."""
    half = session.desk.scene.skin.ring(spot.z_mm).half_girth_mm
    return around_phrase(None, spot.girth_mm, half, session.units)


def figures(session: Session, taped: Taped) -> Iterator[Figure]:
    """Yield the figures in the order in which they are shown."""
    units = session.units
    yield Figure("along", _("Along the mast"), *_along(session, taped))
    if taped.around is None:
        yield Figure("round", _("Round the skin"), "", why=_why(taped.off_skin))
    else:
        yield Figure("round", _("Round the skin"), round_text(taped.around, units), _way(taped.around))
    yield Figure("straight", _("Straight"), straight_text(taped.straight_mm, units))
    if taped.bodies is not None:
        yield _bodies(taped.bodies.distance_mm, units)


def along_text(session: Session, taped: Taped) -> str:
    """Return the distance along the mast: the difference of the two readings that the tape shows."""
    length = session.desk.scene.skin.length_mm
    first, second = (reading(height_mm(length, float(z)), length, session.units) for z in taped.points[:, 2])
    number = abs(first.masthead - second.masthead)
    return first.text(number) if session.units == "inches" else written(number, "metric")


def _along(session: Session, taped: Taped) -> tuple[str, str]:
    text = along_text(session, taped)
    if text == "0":
        return text, _("level")
    return text, _("up") if taped.along_mm > 0 else _("down")


def round_text(around: Round, units: Units) -> str:
    """Return a length round the skin, to half a millimetre or 1/32 of an inch."""
    read = round_reading(0.0, around.length_mm, 0.0, units)
    return read.text(read.forward).removesuffix(".0")


def straight_text(length_mm: float, units: Units) -> str:
    """Return a straight distance."""
    return written(length_mm, units, 1 if length_mm < _FINE_BELOW_MM else 0)


def least_text(gap_mm: float, units: Units) -> str:
    """Return the least distance of two bodies, rounded towards less room."""
    text = gap_text(gap_mm, units)
    if units == "inches":
        return text
    whole, _point, tenths = text.partition(".")
    return f"{grouped(int(whole))}.{tenths}"


def _way(around: Round) -> str:
    """Return on which side the tape lies, and which centreline it crosses."""
    sides = {"port": _("port"), "starboard": _("starboard"), None: ""}
    if around.length_mm < 0.25:
        return _("in line")
    if around.either:
        return _("either way round")
    over = {"forward": _("over the forward line"), "aft": _("over the track"), None: ""}[around.over]
    if over:
        words = _("{start} to {end}, {over}")
        return words.format(start=sides[around.start], end=sides[around.end], over=over)
    side = around.start or around.end
    return _("on the {side} side").format(side=sides[side])


def _why(off_skin: Sequence[str]) -> str:
    return _("not on the skin: {what}").format(what="; ".join(dict.fromkeys(off_skin)))


def _bodies(distance_mm: float, units: Units) -> Figure:
    label = _("Body to body")
    if distance_mm < 0:
        return Figure("bodies", label, least_text(-distance_mm, units), _("into each other"))
    return Figure("bodies", label, least_text(distance_mm, units), _("at the least"))


def next_words(held: Sequence[str]) -> str:
    """Return what to do next."""
    if not held:
        return _("Tape in hand: click where it begins, or Enter on a row of the list. Escape puts it away.")
    return _("Tape held to {end}: click where it ends, or Enter on a row of the list.").format(end=held[0])


def status_words(session: Session, taped: Taped) -> str:
    """Return the lengths in one line; the ways, and why there is none, are left to the card."""
    known = [f"{figure.label.lower()} {figure.value}" for figure in figures(session, taped) if not figure.why]
    return _("Tape: {figures}").format(figures=",   ".join(known))


def copied(session: Session, ends: Sequence[Spot], taped: Taped) -> str:
    """Return the figures as lines of text that stand by themselves elsewhere."""
    unit = _("millimetres") if session.units == "metric" else _("feet and inches")
    head = _("{yacht}, tape measure, {unit}").format(yacht=session.layout.boat.name, unit=unit)
    lines = [head, *(f"{i}  {held_words(session, spot)}" for i, spot in enumerate(ends, 1))]
    lines += [
        "\t".join((figure.label, figure.value or figure.why, figure.more)).rstrip()
        for figure in figures(session, taped)
    ]
    return "\n".join(lines)

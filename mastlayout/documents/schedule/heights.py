"""The rows of the sheet of heights: where each new fitting might go, what that gives, which and why."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.report import Report
from mastlayout.checks.sentence import brief, names_of
from mastlayout.documents.rows import EchoLane, Heights, PlaceRow, Placing
from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.geometry.frames import reading
from mastlayout.geometry.placed import Placed
from mastlayout.geometry.scene import masthead_first as fittings_masthead_first
from mastlayout.model.measure import instructions
from mastlayout.places.candidates import BESIDE_MM, Candidate, candidates, masthead_first
from mastlayout.places.reasons import LETTERS, place_words, reasons, value_words
from mastlayout.places.survey import ROUND_STEP_MM, STEP_MM
from mastlayout.places.words import round_words
from mastlayout.ranges.asks import Ask
from mastlayout.ranges.echo_words import Lane, antenna_words, lane_of
from mastlayout.ranges.given import JOBS, Job, job_of, longest_fade
from mastlayout.ranges.horizon import LIGHTS, RADIO
from mastlayout.ranges.two_ray import SHIPS_M, faded
from mastlayout.units import M_PER_FT, Units, write_height, write_length
from mastlayout.words import _, ngettext

# The lanes of the chart are drawn with every so many of their distances: finer than print shows.
_EVERY = 3
# The ends of inputs' names, and the unit each stands for.
_UNITS: Mapping[str, str] = {
    "m": "m", "mm": "mm", "deg": "°", "nm": "NM", "kg": "kg", "kgm": "kg m", "db": "dB", "m2": "m²", "w": "W"
}  # fmt: skip


@dataclass(frozen=True)
class _Column:
    """A column of figures: its two lines of heading, and how a place fills it."""

    heads: tuple[str, str]
    figures: tuple[str, ...]


def heights_of(report: Report, units: Units) -> Heights | None:
    """Return what each height gives every new fitting that height matters to; None where there is none."""
    new = [one for one in fittings_masthead_first(report.scene) if one.fitting.new and job_of(one)]
    new.sort(key=lambda one: JOBS.index(job_of(one) or "sound"))
    if not new:
        return None
    every = {one.id: masthead_first(candidates(report, one.id, survey=job_of(one) == "echo")) for one in new}
    placings = tuple(_placing(one, every[one.id], units) for one in new)
    worked = tuple(_worked(every.values(), units))
    curves = [(_("eye"), LIGHTS.factor_nm, 0.0)]
    curves += [(antenna_words(ship, units).split(" ")[0], RADIO.factor_nm, ship) for ship in SHIPS_M]
    tops = [one.given.air.value for found in every.values() for one in found]
    top = max((top for top in tops if top is not None), default=None)
    unit, unit_m = ("m", 1.0) if units == "metric" else (_("ft"), M_PER_FT)
    return Heights(placings, worked, tuple(curves), top, unit, unit_m)


def _placing(placed: Placed, found: Sequence[Candidate], units: Units) -> Placing:
    job = job_of(placed) or "sound"
    drawn = _drawn(found) if job == "echo" else ()
    places = tuple(_row(LETTERS[count], one, units, lanes=one in drawn) for count, one in enumerate(found))
    own = next(one for one in found if one.where == "own")
    asked = own.given.reflector.asked if own.given.reflector else ()
    return Placing(
        "" if placed.fitting.tag is None else str(placed.fitting.tag),
        placed.fitting.name,
        tuple(_heads(job, units)),
        places,
        reasons(found, units),
        tuple(_asked(ask) for ask in asked),
    )


def _drawn(found: Sequence[Candidate]) -> tuple[Candidate, ...]:
    """Return the places whose echo is drawn side by side: the highest free, as planned, the lowest."""
    free = [one for one in found if one.free] or found
    own = [one for one in found if one.where == "own"]
    return tuple(dict.fromkeys((free[0], *own, found[-1])))


def _heads(job: Job, units: Units) -> Iterator[tuple[str, str]]:
    water = "m" if units == "metric" else "ft"
    yield _("WATER"), water
    if job == "echo":
        ships = " / ".join(antenna_words(ship, units).split(" ")[0] for ship in SHIPS_M)
        for words in (_("horizon NM"), _("seen, est. NM"), _("fades by NM")):
            yield words, ships
    yield from {
        "echo": (),
        "radar": ((_("horizon NM"), _("to a 4 m target")), (_("nearest sea"), _("lee / windward"))),
        "radio": ((_("in sight NM"), _("of one at 15 m")),),
        "light": ((_("in sight NM"), _("to an eye at 2.5 m")),),
        "sound": ((_("helm"), "dB"), (_("foredeck"), "dB")),
    }[job]
    if job != "sound":
        yield (_("hidden °"), _("all / part")) if job == "echo" else (_("before it"), "°")
    yield _("moment"), "kg m"
    yield _("air draught"), water


def _row(letter: str, one: Candidate, units: Units, *, lanes: bool) -> PlaceRow:
    length = one.report.scene.skin.length_mm
    read = reading(length - one.height_mm, length, units)
    above = one.height_mm > length
    water = one.given.water.value
    return PlaceRow(
        letter,
        place_words(one),
        round_words(one.girth, units) if one.girth else "",
        _("top") if above else read.text(read.masthead),
        tuple(_cells(one, units)),
        _said(one),
        one.free,
        water,
        tuple(_lanes(one, units)) if lanes and water is not None else (),
    )


def _cells(one: Candidate, units: Units) -> Iterator[str]:
    given = one.given
    yield _metres(given.water, units)
    if given.job == "echo":
        for figures in (
            [ship.horizon for ship in given.ships],
            [ship.first_seen for ship in given.ships],
            [longest_fade(ship) for ship in given.ships],
        ):
            yield " / ".join(_plain(figure) for figure in figures)
    elif given.job == "radar":
        horizon, *seas = given.reach.values()
        yield _plain(horizon)
        yield " / ".join(_sea(figure, units) for figure in seas)
    else:
        digits = 0 if given.job == "sound" else 1
        yield from (_plain(figure, digits) for figure in given.reach.values())
    if given.before is not None:
        part = _plain(given.before, 0)
        whole = [given.reflector.figures["hidden_deg"]] if given.reflector else []
        yield " / ".join([*(_plain(figure, 0) for figure in whole), part])
    yield _plain(given.moment)
    yield _metres(given.air, units)


def _plain(figure: Figure, digits: int = 1) -> str:
    return "?" if figure.value is None else f"{figure.value:.{digits}f}"


def _sea(figure: Figure, units: Units) -> str:
    """Write the nearest sea; where the beam passes over it there is none."""
    none = figure.value is None and figure.missing is None
    return _("none") if none else value_words(figure, units)


def _metres(figure: Figure, units: Units) -> str:
    return "?" if figure.value is None else write_height(figure.value, units).split(" ")[0]


def _said(one: Candidate) -> str:
    """Say what is found there: the faults by name, the rest counted."""
    names = names_of(one.report.scene.layout)
    faults = [_clause(one, fault, names) for fault in one.of("fault")]
    parts = [_("At fault: {what}.").format(what="; ".join(dict.fromkeys(faults)))] if faults else []
    cautions = list(dict.fromkeys(_clause(one, own, names) for own in one.of("caution")))
    if cautions and not faults:
        more = len(cautions) - 2
        named = "; ".join(cautions[:2]) + (_(" and {n} more").format(n=more) if more > 0 else "")
        parts.append(_("Cautions: {what}.").format(what=named))
    elif cautions:
        parts.append(ngettext("{n} caution.", "{n} cautions.", len(cautions)).format(n=len(cautions)))
    unknown = len({own.measure for own in one.of("not checked")})
    if unknown:
        parts.append(ngettext("{n} measure missing.", "{n} measures missing.", unknown).format(n=unknown))
    return " ".join(parts) or _("Clear.")


def _clause(one: Candidate, finding: Finding, names: Mapping[str, str]) -> str:
    """Say one thing briefly; what it says of another fitting with that one's name before it."""
    words = brief(one.report.scene, finding, names)
    if finding.things[0] in one.moved:
        return words
    return f"{names.get(finding.things[0], finding.things[0])} {words}"


def _lanes(one: Candidate, units: Units) -> Iterator[EchoLane]:
    water, row = one.given.water.value, one.given.reflector
    echo = row.figures["echo_x_m2"].value if row else None
    for ship in SHIPS_M if water else ():
        yield _lane(lane_of(water or 0.0, ship, echo, units))


def _lane(lane: Lane) -> EchoLane:
    decibels = 10 * np.log10(np.maximum(lane.share, 1e-9))
    curve = tuple(zip(lane.nm[::_EVERY].tolist(), decibels[::_EVERY].tolist(), strict=True))
    fades = tuple((fade.from_nm, fade.to_nm) for fade in faded(lane.nm, lane.share))
    return EchoLane(lane.title, lane.parts, curve, fades, lane.horizon_nm, lane.first_nm)


def _asked(ask: Ask) -> tuple[str, ...]:
    """Return a row of what a rule asks: the answer, what, how much, what is found, and why not known."""
    bound = _("at most") if ask.most else _("at least")
    found = "?" if ask.figure.value is None else f"{ask.figure.value:.1f} {ask.figure.unit}"
    why = instructions()[ask.figure.missing].title if ask.figure.missing else ask.figure.source
    answer = {"yes": _("yes"), "no": _("no"), "unknown": _("unknown")}[ask.answer]
    wanted = f"{bound} {ask.required:g} {ask.figure.unit}".replace(" °", "°")
    return answer, ask.words, wanted, found.replace(" °", "°"), why


# -- how each figure is found


def _worked(every: Iterable[Sequence[Candidate]], units: Units) -> Iterator[tuple[str, str, str, str]]:
    """Yield each kind of figure once, with the inputs of the place as planned."""
    yield (
        _("places looked at"),
        _("as planned; masthead; {off} off each spreader; else free of faults").format(
            off=write_length(BESIDE_MM, units)
        ),
        _("a reflector: along its line every {step}, if none is free every {further} and 30° round").format(
            step=write_length(STEP_MM, units), further=write_length(ROUND_STEP_MM, units)
        ),
        _("common practice, no source; each checked whole, as the layout would be"),
    )
    told: set[tuple[str, str]] = set()
    for found in every:
        own = next(one for one in found if one.where == "own")
        for figure in _figures(own):
            if (figure.name, figure.formula) not in told:
                told.add((figure.name, figure.formula))
                inputs = ", ".join(_input(key, value) for key, value in figure.inputs.items())
                yield figure.name, _formula(figure, units), inputs, figure.source


def _formula(figure: Figure, units: Units) -> str:
    """Write a figure's formula with its result, or with what is to be measured before there is one."""
    formula = figure.formula.replace(" x ", " × ")
    if figure.value is not None:
        return f"{formula} = {_result(figure, units)}"
    if figure.missing is None:
        return formula
    title = instructions()[figure.missing].title
    return _("{formula}; measure first: {title}").format(formula=formula, title=title)


def _result(figure: Figure, units: Units) -> str:
    if figure.unit == "m" and figure.value is not None:
        return write_height(figure.value, units)
    return value_words(figure, units).replace(" °", "°")


def _figures(one: Candidate) -> Iterator[Figure]:
    given = one.given
    yield given.water
    yield from given.reach.values()
    for ship in given.ships[:1]:
        yield from (ship.horizon, ship.first_seen, longest_fade(ship))
    if given.reflector:
        yield from given.reflector.figures.values()
    if given.before is not None:
        yield given.before
    yield given.moment
    yield given.air


def _input(key: str, value: float) -> str:
    if key == "nm_per_root_m":
        return _("{factor:.4g} NM to the root of a metre").format(factor=value)
    name, _mark, unit = key.rpartition("_")
    if unit not in _UNITS:
        name, unit = key, ""
    # Four digits, but all of those before the point: heights along a mast have five.
    written = (f"{value:.0f}" if abs(value) >= 1000 else f"{value:.4g}").replace("-", "\u2212")
    return f"{name.replace('_', ' ')} {written} {_UNITS.get(unit, '')}".strip().replace(" °", "°")

"""Which of some places a fitting should go to, and why: said from the figures alone.

Nobody's judgement is put in: two figures that pull apart are told side by side, and where one is not
known it is said what to measure.
"""

import string
from collections.abc import Callable, Iterator, Mapping, Sequence

from mastlayout.checks.sentence import brief, names_of
from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.model.measure import instructions
from mastlayout.model.pairs import sideless_name
from mastlayout.places.candidates import Candidate
from mastlayout.places.words import height_words, round_words
from mastlayout.ranges.echo import X_BAND
from mastlayout.ranges.given import Job, longest_fade
from mastlayout.ranges.reflector import ASKED_M2
from mastlayout.units import M_PER_FT, Units
from mastlayout.words import _

# Fades that differ by less, NM, are as long: the chart has no finer steps that mean something.
_AS_LONG_NM = 0.05
# A lower place is told to be seen farther from this on.
_FARTHER_NM = 0.2
LETTERS = string.ascii_uppercase
# So many titles of what is to be measured are named.
_MOST_NAMED = 3


@dataclass(frozen=True)
class _Aim:
    """What one may want of a place: its figure, whether more is better, and how the best is told."""

    figure: Callable[[Candidate], Figure]
    more: bool
    words: str


def _reach(key: str) -> Callable[[Candidate], Figure]:
    return lambda one: one.given.reach[key]


_AIMS: Mapping[Job, tuple[_Aim, ...]] = {
    "radar": (
        _Aim(_reach("radar_horizon_nm"), more=True, words=_("Sees farthest: {place}, {value}.")),
        _Aim(_reach("nearest_sea_leeward_m"), more=False, words=_("Sees the sea nearest: {place}, {value}.")),
    ),
    "radio": (
        _Aim(_reach("radio_line_of_sight_nm"), more=True, words=_("Reaches farthest: {place}, {value}.")),
    ),
    "light": (
        _Aim(_reach("geographic_range_nm"), more=True, words=_("Shows farthest: {place}, {value}.")),
    ),
    "sound": (
        _Aim(_reach("foredeck_at"), more=True, words=_("Loudest on the foredeck: {place}, {value}.")),
        _Aim(_reach("helm_at"), more=False, words=_("Least loud at the helm: {place}, {value}.")),
    ),
}  # fmt: skip


def place_words(one: Candidate) -> str:
    """Return what a place is called: above upper spreader."""
    bar = sideless_name(names_of(one.report.scene.layout).get(one.beside, ""))
    return {
        "own": _("as planned") if one.placed.fitting.new else _("where it stands"),
        "highest": _("highest free place"),
        "higher": _("next free place up"),
        "lower": _("next free place down"),
        "masthead": _("at the masthead"),
        "above": _("above {bar}"),
        "below": _("below {bar}"),
    }[one.where].format(bar=bar[:1].lower() + bar[1:])


@dataclass(frozen=True)
class _Told:
    """The places of one fitting, from the masthead down, with the words for one of them."""

    every: Sequence[Candidate]
    units: Units

    def words(self, one: Candidate) -> str:
        """Return a place's letter, what it is called and where it is."""
        length, scene = one.report.scene.skin.length_mm, one.report.scene
        parts = [_("above the masthead")]
        if one.height_mm <= length:
            high = height_words(scene, length - one.height_mm, self.units)
            parts = [_("{height} from the masthead").format(height=high)]
        if "girth" in one.fields:
            parts.append(round_words(one.girth, self.units))
        words = _("{letter}, {place} ({where})")
        letter = LETTERS[list(self.every).index(one)]
        return words.format(letter=letter, place=place_words(one), where=", ".join(parts))


def reasons(found: Sequence[Candidate], units: Units = "metric") -> tuple[str, ...]:
    """Return which place and why, a sentence each, the answer first; found are the places of one fitting.

    They are named by their letters, in their order.
    """
    own = next((one for one in found if one.where == "own"), None)
    if own is None:
        return ()
    told, free = _Told(found, units), [one for one in found if one.free]
    best = tuple(_best(told, own, free)) or tuple(_free(told, own, free))
    return (*best, *_as_planned(own, free), *_echo(own), *_open(own, free))


def first_seen_nm(one: Candidate) -> float | None:
    """Return the distance at which the ship that sees an echo last has it, NM; None where not known."""
    nm = [ship.first_seen.value for ship in one.given.ships]
    known = [value for value in nm if value is not None]
    return min(known) if known and len(known) == len(nm) else None


def worst_fade_nm(one: Candidate) -> float | None:
    """Return the longest fade of all ships, NM; None where the height is not known."""
    nm = [longest_fade(ship).value for ship in one.given.ships]
    known = [value for value in nm if value is not None]
    return max(known) if known and len(known) == len(nm) else None


def _as_planned(own: Candidate, free: Sequence[Candidate]) -> Iterator[str]:
    faults = own.of("fault")
    if not faults:
        yield _("As planned nothing is at fault.") if own.placed.fitting.new else _("Nothing is at fault.")
        return
    names = names_of(own.report.scene.layout)
    what = "; ".join(dict.fromkeys(brief(own.report.scene, fault, names) for fault in faults))
    yield _("As planned at fault: {what}.").format(what=what)
    if not free:
        yield _("No place looked at along the mast is free of faults.")


def _best(told: _Told, own: Candidate, free: Sequence[Candidate]) -> Iterator[str]:
    """Tell the best of the free places by each aim; of heights over water that nobody knows, nothing."""
    if own.given.water.missing is not None:
        title = instructions()[own.given.water.missing].title
        yield _("What a height gives is not known: measure first: {title}.").format(title=title)
        return
    if len(free) < 2 and own in free:
        return
    if own.given.job == "echo":
        yield from _seen(told, own, free)
    for aim in _AIMS.get(own.given.job, ()):
        known = [(value, one) for one in free if (value := aim.figure(one).value) is not None]
        if known:
            best = (max if aim.more else min)(known, key=lambda pair: pair[0])
            words = value_words(aim.figure(best[1]), told.units)
            yield aim.words.format(place=told.words(best[1]), value=words)


def _free(told: _Told, own: Candidate, free: Sequence[Candidate]) -> Iterator[str]:
    """Tell the free places by themselves, where no figure tells which is best."""
    if free and own not in free:
        yield _("Free of faults: {places}.").format(places="; ".join(map(told.words, free)))


def _seen(told: _Told, own: Candidate, free: Sequence[Candidate]) -> Iterator[str]:
    """Tell, of an echo, the place seen farthest and the one that fades least, and what the first costs."""
    if not free:
        return
    by_echo = all(first_seen_nm(one) is not None for one in free)
    far = max(free, key=lambda one: (_far_nm(one, by_echo=by_echo), one.height_mm))
    words = _("Farthest, free of faults: {place}: every ship has it from {nm:.1f} NM, an estimate.")
    if not by_echo:
        words = _("Farthest by its horizon alone, free of faults: {place}: {nm:.1f} NM.")
    nm = _far_nm(far, by_echo=by_echo)
    if not nm:
        yield _("At none of them need the least of ships' radars see it at all: an estimate.")
        return
    yield words.format(place=told.words(far), nm=nm)
    if len(free) > 1:
        yield _fading(told, far, free)
    yield from _not_farther(told, far, by_echo=by_echo)
    cost, planned = far.given.moment.value, own.given.moment.value
    if far is not own and cost is not None and planned is not None:
        words = _("Its moment about the water there is {cost:.0f} kg m, as planned {planned:.0f}.")
        yield words.format(cost=cost, planned=planned)


def _fading(told: _Told, far: Candidate, free: Sequence[Candidate]) -> str:
    least = min(free, key=lambda one: (worst_fade_nm(one) or 0.0, -one.height_mm))
    shortest, own = worst_fade_nm(least) or 0.0, worst_fade_nm(far) or 0.0
    if own - shortest < _AS_LONG_NM:
        return _("Its longest fade, {nm:.1f} NM, is no longer than elsewhere.").format(nm=own)
    words = _("Fades least: {place}: {least:.1f} NM at most, not {nm:.1f}. Farther or steadier: you choose.")
    return words.format(place=told.words(least), least=shortest, nm=own)


def _not_farther(told: _Told, far: Candidate, *, by_echo: bool) -> Iterator[str]:
    """Tell of a lower place, at fault or not, that is seen farther: the sea's bounce decides."""
    lower = [one for one in told.every if one.height_mm < far.height_mm]
    best = max(lower, key=lambda one: _far_nm(one, by_echo=by_echo), default=far)
    if by_echo and _far_nm(best, by_echo=True) - _far_nm(far, by_echo=True) > _FARTHER_NM:
        words = _("Higher is not farther here: {place} would have {nm:.1f} NM: the bounce off a smooth sea.")
        yield words.format(place=told.words(best), nm=_far_nm(best, by_echo=True))


def _far_nm(one: Candidate, *, by_echo: bool) -> float:
    if by_echo:
        return first_seen_nm(one) or 0.0
    return min((ship.horizon.value or 0.0 for ship in one.given.ships), default=0.0)


def _echo(own: Candidate) -> Iterator[str]:
    """Tell what no height mends: an echo under what is asked, by its corners or as its papers say."""
    row = own.given.reflector
    if row is None:
        return
    echo = row.figures[f"echo_{X_BAND.key}_m2"]
    if echo.value is None:
        yield _("Its echo is not known: ask for its papers before a height is chosen for it.")
    elif echo.value < ASKED_M2[X_BAND.key]:
        words = _("No height mends the echo: {has:.1f} m² at most, {asked:g} m² asked.")
        yield words.format(has=echo.value, asked=ASKED_M2[X_BAND.key])


def _open(own: Candidate, free: Sequence[Candidate]) -> Iterator[str]:
    """Tell what has to be measured before any of the free places is settled."""
    told = [
        finding.measure for one in (free or [own]) for finding in one.of("not checked") if finding.measure
    ]
    titles = [instructions()[key].title for key in dict.fromkeys(told)]
    if not titles:
        return
    named = "; ".join(titles[:_MOST_NAMED])
    if len(titles) > _MOST_NAMED:
        named = _("{named}; and {n} more").format(named=named, n=len(titles) - _MOST_NAMED)
    yield _("Not settled before it is measured: {titles}.").format(titles=named)


def value_words(figure: Figure, units: Units) -> str:
    """Write a figure for a sentence or a narrow cell; a question mark stands for what is not known."""
    if figure.value is None:
        return "?"
    if figure.unit == "m":
        metric = units == "metric"
        return f"{figure.value:.0f} m" if metric else f"{figure.value / M_PER_FT:.0f} ft"
    digits = {"NM": 1, "dB": 0}.get(figure.unit, 1)
    return f"{figure.value:.{digits}f} {figure.unit}"

"""The columns of the view "Where it goes": what each place gives, one figure a cell, by the fitting's job."""

from collections.abc import Callable

from mastlayout.figures import Figure
from mastlayout.frozen import dataclass
from mastlayout.places.candidates import Candidate
from mastlayout.ranges.given import Given, Job, longest_fade
from mastlayout.words import _


@dataclass(frozen=True)
class Column:
    """A column: heading, width, its figure at a place.

    A narrow window does without those that are ``spared``, 1 the first; 0 never.
    """

    head: str
    wide_px: int
    figure: Callable[[Given], Figure | None]
    spared: int = 0


def columns_of(job: Job) -> tuple[Column, ...]:
    """Return the columns of a job, from the height above the water to the moment about it."""
    water = Column(_("Above water"), 92, lambda given: given.water)
    before = Column(_("Before it"), 74, lambda given: given.before, spared=1)
    moment = Column(_("Moment"), 82, lambda given: given.moment, spared=3)
    return (water, *_of_job(job), *(() if job == "sound" else (before,)), moment)


def _of_job(job: Job) -> tuple[Column, ...]:
    if job == "echo":
        return (
            Column(_("Horizon"), 80, _horizon, spared=2),
            Column(_("Seen, est."), 82, _seen),
            Column(_("Fades by"), 76, _fade),
            Column(_("Hidden"), 60, _hidden, spared=4),
        )
    return {
        "radar": (
            Column(_("Horizon"), 80, _reach("radar_horizon_nm")),
            Column(_("Sea to lee"), 80, _reach("nearest_sea_leeward_m")),
            Column(_("To windward"), 92, _reach("nearest_sea_windward_m")),
        ),
        "radio": (Column(_("In sight"), 80, _reach("radio_line_of_sight_nm")),),
        "light": (Column(_("In sight"), 80, _reach("geographic_range_nm")),),
        "sound": (
            Column(_("At the helm"), 104, _reach("helm_at")),
            Column(_("Foredeck"), 104, _reach("foredeck_at")),
        ),
    }[job]


def _reach(key: str) -> Callable[[Given], Figure | None]:
    return lambda given: given.reach.get(key)


def _horizon(given: Given) -> Figure | None:
    """Return the horizon to the lowest of the ships' antennas."""
    return given.ships[0].horizon if given.ships else None


def _seen(given: Given) -> Figure | None:
    """Return where the ship that sees it last has it first."""
    seen = [ship.first_seen for ship in given.ships]
    return min(seen, key=lambda figure: figure.value or 0.0, default=None)


def _fade(given: Given) -> Figure | None:
    """Return the longest fade for any of the ships."""
    every = [longest_fade(ship) for ship in given.ships]
    return max(every, key=lambda figure: figure.value or 0.0, default=None)


def _hidden(given: Given) -> Figure | None:
    return given.reflector.figures["hidden_deg"] if given.reflector else None


def found_words(one: Candidate) -> str:
    """Return in a word what is found at a place."""
    if not one.free:
        return _("at fault")
    return _("cautions") if one.of("caution") else _("free")

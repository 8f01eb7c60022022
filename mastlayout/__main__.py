"""The command line. A window is imported only when one is wanted."""

import os

# pydantic looks for plugins of other packages at its first import; this program has none.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
# numpy starts a thread of sums for each core, which at first waits busily; the arrays here are small.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import atexit
import gc
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from types import SimpleNamespace
from typing import TYPE_CHECKING, TextIO, cast

from mastlayout.errors import LayoutFileError, MastLayoutError
from mastlayout.words import _

if TYPE_CHECKING:
    from argparse import Namespace

    from mastlayout.checks.report import Report
    from mastlayout.documents.papers import Paper
    from mastlayout.documents.printed import Cleared
    from mastlayout.ranges.asked import Asked

CLEAN, FAULT, UNREADABLE = 0, 1, 2
_STOPPED = 130
_PATIENCE_S = 0.5


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; return 0 nothing at fault, 1 a fault or a broken check, 2 what cannot be read."""
    collects = gc.isenabled()
    gc.disable()  # one collection while the modules load costs more than all that a command leaves behind
    atexit.register(gc.freeze)  # the last collection, of all that ends with the process anyway, costs as much
    options = _options(list(sys.argv[1:] if arguments is None else arguments))
    try:
        return int(_COMMANDS[options.command](options, sys.stdout))
    except LayoutFileError as error:
        return _refuse(*(str(line) for line in str(error).splitlines()))
    except MastLayoutError as error:
        return _refuse(str(error))
    except BrokenPipeError:
        return CLEAN
    except KeyboardInterrupt:
        sys.stderr.write("\n")
        return _STOPPED
    finally:
        if collects:  # whoever called it goes on
            gc.enable()


def _options(given: list[str]) -> "Namespace":
    """Return what is asked for; a window, with a layout in it or none, waits for no grammar of commands."""
    if len(given) < 2 and not any(word.startswith("-") or word in _COMMANDS for word in given):
        window = SimpleNamespace(command="window", layout=Path(given[0]) if given else None)
        return cast("Namespace", window)
    from mastlayout.arguments import parser

    return parser().parse_args(given if given and given[0] in _COMMANDS else ["window", *given])


def _refuse(*sentences: str) -> int:
    for sentence in sentences:
        sys.stderr.write(f"{sentence}\n")
    return UNREADABLE


def _window(options: "Namespace", _out: TextIO) -> int:
    from mastlayout.ui.app import run

    return run(options.layout, sys.argv[:1])


def _check(options: "Namespace", out: TextIO) -> int:
    from mastlayout.desk import Desk
    from mastlayout.documents.printed import check_json, check_text

    report = Desk.open(options.layout).report
    clears = _cleared(report) if options.places else {}
    out.write((check_json if options.json else check_text)(report, str(options.layout), clears))
    return FAULT if report.faults or report.broken else CLEAN


def _cleared(report: "Report") -> "Cleared":
    from mastlayout.documents.suggested import clears, found_for
    from mastlayout.storage.catalogue import catalogue

    kinds = tuple(catalogue().values())
    found = found_for(report, report.open, kinds, _Progress(sys.stderr).tell)
    return {finding: clears(report, one) for finding, one in found.items()}


def _ranges(options: "Namespace", out: TextIO) -> int:
    from mastlayout.desk import Desk
    from mastlayout.documents.aloft import aloft_text
    from mastlayout.documents.heard import heard_text
    from mastlayout.documents.printed import ranges_json, ranges_text
    from mastlayout.documents.radar_text import radar_text
    from mastlayout.ranges.heights import table
    from mastlayout.ranges.own_radar import radar_table
    from mastlayout.ranges.reflector import reflector_table

    asked = _asked(options)
    scene = Desk.open(options.layout).scene
    if options.json:
        out.write(ranges_json(scene, str(options.layout), asked))
    else:
        radar = radar_text(reflector_table(scene, asked), radar_table(scene, asked))
        said = (ranges_text(table(scene, asked), asked), radar, aloft_text(scene), heard_text(scene))
        out.write("".join(said))
    return CLEAN


def _asked(options: "Namespace") -> "Asked":
    from mastlayout.ranges.asked import Asked
    from mastlayout.units import read_angle, read_length

    heights = {"eye": "eye_height_m", "antenna": "antenna_height_m", "target": "target_height_m"}
    angles = {"heel_angle": "heel_deg", "trim": "trim_deg"}
    given = vars(options)
    said = {key: read_length(given[name]) / 1000.0 for name, key in heights.items() if given[name]}
    said |= {key: read_angle(given[name]) for name, key in angles.items() if given[name]}
    return Asked(**said)


def _places(options: "Namespace", out: TextIO) -> int:
    from mastlayout.desk import Desk
    from mastlayout.documents.suggested import places_json, places_of, places_text
    from mastlayout.model.edits import fitting_called
    from mastlayout.storage.catalogue import catalogue

    report = Desk.open(options.layout).report
    name = fitting_called(report.scene.layout, options.fitting).id
    found = places_of(report, name, tuple(catalogue().values()), _Progress(sys.stderr).tell)
    as_json = options.json
    out.write(
        places_json(report, str(options.layout), name, found) if as_json else places_text(report, name, found)
    )
    return CLEAN


class _Progress:
    """How far a search is, for a person who waits longer than half a second; Ctrl-C ends it."""

    def __init__(self, screen: TextIO) -> None:
        self._screen, self._begun = screen, time.monotonic()

    def tell(self, done: int, of: int) -> None:
        """Write over the line how many of the chunks are done, once it takes long."""
        if self._screen.isatty() and time.monotonic() - self._begun > _PATIENCE_S:
            self._screen.write(_("Looking for places: {n} %").format(n=100 * done // max(of, 1)) + "\r")
            self._screen.flush()


def _papers(options: "Namespace", out: TextIO) -> int:
    from mastlayout.desk import Desk
    from mastlayout.documents.papers import papers
    from mastlayout.storage.photos import photos_gone

    day = _day(options)
    report = Desk.open(options.layout).report
    made = papers(report, units=options.units, paper=options.paper, day=day)
    # A photo that is gone holds no paper back: its name is printed all the same.
    for sentence in photos_gone(report.scene.layout, options.layout):
        sys.stderr.write(f"{sentence}\n")
    return _write(made, options.to, out)


def _measure(options: "Namespace", out: TextIO) -> int:
    from mastlayout.documents.papers import first_paper
    from mastlayout.model.first_answers import FirstAnswers
    from mastlayout.units import read_length

    answers = FirstAnswers(
        read_length(options.length) if options.length else None,
        options.section_known,
        options.stands,
        options.spreader_pairs,
        options.headsail,
        tuple(options.gear),
    )
    made = first_paper(options.yacht, answers, paper=options.paper, day=_day(options))
    return _write([made], options.to, out)


def _day(options: "Namespace") -> str:
    """Return the day to print, today where none was given."""
    import datetime as dt

    if options.date is None:
        return dt.date.today().isoformat()  # noqa: DTZ011 - the day on the wall of the shed is meant
    try:
        return dt.date.fromisoformat(options.date).isoformat()
    except ValueError:
        raise MastLayoutError(
            _("“{day}” is no day: write it as 2026-11-25").format(day=options.date[:40])
        ) from None


def _write(made: "Sequence[Paper]", folder: Path, out: TextIO) -> int:
    """Write finished papers into a folder; a file that cannot be written leaves the others alone."""
    from mastlayout.storage.writing import write_each

    written, failed = write_each(folder, ((paper.name, paper.data) for paper in made))
    for path in written:
        out.write(f"{path}\n")
    return _refuse(*map(str, failed)) if failed else CLEAN


_COMMANDS: dict[str, "Callable[[Namespace, TextIO], int]"] = {
    "window": _window,
    "check": _check,
    "ranges": _ranges,
    "places": _places,
    "papers": _papers,
    "measure": _measure,
}

if __name__ == "__main__":
    sys.exit(main())

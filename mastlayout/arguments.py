"""What the command line takes: every command, its options, and what each is for."""

import argparse
from pathlib import Path

from mastlayout.words import _


def parser() -> argparse.ArgumentParser:
    """Return the grammar of every command."""
    whole = argparse.ArgumentParser(
        prog="mastlayout",
        description=_("Lay out the refit of a yacht's mast, check it, print the sheets to drill from."),
    )
    commands = whole.add_subparsers(dest="command", required=True)
    window = commands.add_parser("window", help=_("open the window (the default)"))
    window.add_argument("layout", nargs="?", type=Path)
    check = commands.add_parser("check", help=_("print the findings"))
    check.add_argument("layout", type=Path)
    check.add_argument("--json", action="store_true")
    check.add_argument("--places", action="store_true", help=_("say where each would be clear; takes longer"))
    ranges = commands.add_parser("ranges", help=_("print what each height gives"))
    ranges.add_argument("layout", type=Path)
    ranges.add_argument("--json", action="store_true")
    _asked_arguments(ranges)
    places = commands.add_parser("places", help=_("print where a fitting would be clear"))
    places.add_argument("layout", type=Path)
    places.add_argument("fitting", help=_("its id, or its number"))
    places.add_argument("--json", action="store_true")
    papers = commands.add_parser("papers", help=_("write the sheets into a folder"))
    papers.add_argument("layout", type=Path)
    papers.add_argument("--to", type=Path, required=True, metavar="FOLDER")
    papers.add_argument("--date", metavar="DAY", help=_("the day printed on them, as 2026-11-25"))
    papers.add_argument("--paper", choices=("A4", "Letter", "A3"), default="A4")
    papers.add_argument("--units", choices=("metric", "inches"), default="metric")
    _measure_parser(
        commands.add_parser("measure", help=_("print what to measure first on a mast not entered yet"))
    )
    return whole


def _asked_arguments(ranges: argparse.ArgumentParser) -> None:
    ranges.add_argument("--eye", help=_("height of the eye that a light is seen from, as 2.5 m or 8 ft"))
    ranges.add_argument("--antenna", help=_("height of the other antenna"))
    ranges.add_argument("--target", help=_("height of the radar's target"))
    ranges.add_argument("--heel-angle", help=_("how far she heels, as 20"))
    ranges.add_argument("--trim", help=_("how far the bow is down, as 1.5"))


def _measure_parser(measure: argparse.ArgumentParser) -> None:
    measure.add_argument("--to", type=Path, required=True, metavar="FOLDER")
    measure.add_argument("--yacht", default="")
    measure.add_argument("--length", help=_("heel to masthead, as 17.3 m or 56 ft 9 in"))
    measure.add_argument("--section-known", action="store_true")
    measure.add_argument("--stands", choices=("keel", "deck"))
    measure.add_argument("--spreader-pairs", type=int, choices=range(6))
    measure.add_argument("--headsail", choices=("furled", "hanked", "none"))
    measure.add_argument("--gear", action="append", default=[], help=_("new gear, once for each"))
    measure.add_argument("--date", metavar="DAY")
    measure.add_argument("--paper", choices=("A4", "Letter", "A3"), default="A4")

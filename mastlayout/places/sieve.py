"""Which of n places of a family may be clear, asked of every rule on arrays, the dearest last."""

from collections.abc import Callable, Sequence

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import Batch, Margins, Rule, findings
from mastlayout.checks.rules import FITTING_RULES
from mastlayout.geometry.frames import Mask, Whole
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.seat import Places
from mastlayout.geometry.tack.outlines import CARRIED_MM
from mastlayout.limits import Limits
from mastlayout.places.clear import Matter
from mastlayout.places.family import Family

_Ask = Callable[[Scene, Sequence[Batch], Limits], list[Margins]]


def open_places(family: Family, places: Places, matter: Matter, limits: Limits) -> Whole:
    """Return the indices of the places that may be clear; the others surely are not."""
    rows = np.flatnonzero(~untold(family, places))
    for rule, ask in _asked(matter.rule):
        if not len(rows):
            break
        rows = rows[~_lost(family, picked(places, rows), rule, ask, matter, limits)]
    return rows


def clear_places(family: Family, places: Places, matter: Matter, limits: Limits) -> list[int]:
    """Return the indices of the places of which all rules say nothing that the matter does not allow."""
    batches = family.at(places)
    asked = [(rule, rule.margins(family.others, batches, limits)) for rule in FITTING_RULES]
    return [place for place in range(len(places)) if matter.allows(_said(batches, asked, place, limits))]


def untold(family: Family, places: Places) -> Mask:
    """Tell of each place (n,) whether the fitting stands where nobody can tell of the tack."""
    z_mm = family.others.tack.not_asked_mm
    untold = np.zeros(len(places), dtype=bool)
    if len(z_mm):
        for batch in family.at(places):
            low, high = (end.reshape(len(places), -1) for end in batch.solids.span_z())
            first = np.searchsorted(z_mm, low.min(axis=1, initial=np.inf) - CARRIED_MM)
            untold |= first < np.searchsorted(z_mm, high.max(axis=1, initial=-np.inf) + CARRIED_MM)
    return untold


def picked(places: Places, rows: Whole | slice) -> Places:
    """Return some of the places."""
    return places.some(rows)


def _asked(first: Rule) -> list[tuple[Rule, _Ask]]:
    """Return every rule with how to ask it: the one to be mended first, those dear last and quickly."""
    cheap = [rule for rule in FITTING_RULES if rule.quick is None]
    ordered = sorted(cheap, key=lambda rule: (rule is not first, rule.many is not None))
    quick = [(rule, rule.quick) for rule in FITTING_RULES if rule.quick is not None]
    return [*((rule, rule.margins) for rule in ordered), *quick]


def _lost(family: Family, places: Places, rule: Rule, ask: _Ask, matter: Matter, limits: Limits) -> Mask:
    """Tell of each place (n,) whether a rule rules it out."""
    lost = np.zeros(len(places), dtype=bool)
    batches = family.at(places)
    for batch, margins in zip(batches, ask(family.others, batches, limits), strict=True):
        mended = rule is matter.rule and batch.placed.id == matter.name
        short = margins.short if mended else margins.faults(rule.fault_below)
        if matter.accepted and not mended:
            # A fault that the owner accepted may stay: findings tell, one place at a time.
            continue
        lost |= short.any(axis=1)
    return lost


def _said(
    batches: Sequence[Batch], asked: Sequence[tuple[Rule, list[Margins]]], place: int, limits: Limits
) -> list[Finding]:
    return [
        finding
        for rule, margins in asked
        for batch, own in zip(batches, margins, strict=True)
        for finding in findings(rule, batch.placed, own.at(place), limits)
    ]

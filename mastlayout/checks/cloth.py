"""Sails as they were measured: what cannot be, what tacks on no stay, and what no cloth is worked out for."""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from mastlayout.checks.finding import Finding
from mastlayout.checks.rule import WholeRule
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.scene import Scene
from mastlayout.geometry.tack.cloth import swings
from mastlayout.limits import Limits
from mastlayout.model.fitting import MAST
from mastlayout.model.mast import Mast
from mastlayout.model.measure import measure_of
from mastlayout.model.sails import Sail

_TACKS = ("headsail", "staysail")
_FLIES = ("code sail", "spinnaker")


def cannot_be(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Name the measures of a sail that cannot all be true."""
    for sail in scene.layout.sails:
        for code, measured, needed in _against_itself(sail):
            yield Finding(code, "caution", (sail.id,), measured, needed)
        yield from _reefs(sail)
        if sail.role == "main":
            yield from _below_deck(scene, sail, "sail/boom-low", sail.lower_mark_mm)
        if sail.role in _TACKS:
            yield from _off_its_stay(scene, sail, limits["sail.stay"].value)
            for reading in (sail.clew_mm, *(reef.clew_mm for reef in sail.reefs)):
                yield from _below_deck(scene, sail, "sail/clew-low", reading)


def _against_itself(sail: Sail) -> Iterator[tuple[str, float, float]]:
    """Yield what contradicts itself: code, what was measured, and what it can be at most."""
    if sail.head_mm is not None and sail.head_mm < 0:
        yield "sail/head-high", -sail.head_mm, 0.0
    if sail.head_mm is not None and sail.clew_mm is not None and sail.head_mm >= sail.clew_mm:
        yield "sail/head-low", sail.head_mm - sail.clew_mm, 0.0
    if sail.head_mm is not None and sail.tack_mm is not None and sail.head_mm >= sail.tack_mm:
        yield "sail/head-tack", sail.head_mm - sail.tack_mm, 0.0
    if sail.lp_mm is not None and sail.luff_mm is not None and sail.lp_mm > sail.luff_mm:
        yield "sail/lp-long", sail.lp_mm, sail.luff_mm
    widths = [sail.lp_mm if sail.role != "main" else sail.e_mm]
    widths += [sail.quarter_width_mm, sail.half_width_mm, sail.three_quarter_width_mm]
    known = [
        width for width in (*widths, sail.seven_eighths_width_mm, sail.head_width_mm) if width is not None
    ]
    for below, above in pairwise(known):
        if above > below:
            yield "sail/widths-grow", above, below
            return


def _off_its_stay(scene: Scene, sail: Sail, allowed_mm: float) -> Iterator[Finding]:
    stay = scene.stays.get(sail.stay or "")
    if stay is None or stay.points is None or sail.tack_mm is None or sail.head_mm is None:
        return
    length = scene.skin.length_mm
    tack, head = height_mm(length, sail.tack_mm), height_mm(length, sail.head_mm)
    beyond = max(head - stay.points[0, 2], stay.points[-1, 2] - tack)
    who = (sail.id, stay.item.id)
    if beyond > allowed_mm:
        yield Finding("sail/off-stay", "caution", who, float(beyond), allowed_mm, limit="sail.stay")
    along = stay.points[0] - stay.points[-1]
    if along[2] <= 0:
        return
    luff = float((head - tack) / along[2] * np.linalg.norm(along))
    off = abs((sail.luff_mm if sail.luff_mm is not None else luff) - luff)
    if off > allowed_mm:
        yield Finding("sail/luff", "caution", who, off, allowed_mm, limit="sail.stay")


def _reefs(sail: Sail) -> Iterator[Finding]:
    """Yield what a reef of a sail cannot be against the full sail, and against itself."""
    for reef in sail.reefs:
        clew = reef.clew_mm if reef.clew_mm is not None else sail.clew_mm
        for code, measured, needed in (
            ("sail/reef-high", _less(sail.head_mm, reef.head_mm), 0.0),
            ("sail/reef-low", _less(reef.head_mm, clew), 0.0),
            ("sail/reef-long", reef.lp_mm or 0.0, sail.lp_mm or np.inf),
        ):
            if measured > needed:
                yield Finding(code, "caution", (sail.id,), measured, needed, state=reef.name)


def _less(reading: float | None, other: float | None) -> float:
    """Return by how much one reading is below another, 0 where one of them is not known."""
    return 0.0 if reading is None or other is None else reading - other


def _below_deck(scene: Scene, sail: Sail, code: str, reading: float | None) -> Iterator[Finding]:
    deck = scene.layout.boat.deck_above_heel_mm
    if deck is None or reading is None:
        return
    height = height_mm(scene.skin.length_mm, reading)
    if height < deck:
        yield Finding(code, "caution", (sail.id,), deck - height, 0.0)


def not_asked(scene: Scene, _limits: Limits) -> Iterator[Finding]:
    """Name the cloth no rule can follow: a free luff, a luff inside what holds it, a mast of unknown bend."""
    tacking = False
    for sail in scene.layout.sails:
        stay = scene.stays.get(sail.stay or "")
        if sail.role in _FLIES or (sail.role in _TACKS and (stay is None or stay.item.role == "luff")):
            yield Finding("sail/free-luff", "not checked", (sail.id,))
        tacking = tacking or swings(sail, scene.stays)
    if tacking and scene.layout.mast.prebend_mm is None:
        yield Finding("sail/prebend", "not checked", (MAST,), measure=measure_of(Mast, "prebend_mm").key)


CANNOT_BE = WholeRule(
    "sail/cannot-be", frozenset({"mast", "stays", "spreaders", "sails", "boat", "limits"}), cannot_be
)
NOT_ASKED = WholeRule("sail/not-asked", frozenset({"mast", "stays", "spreaders", "sails"}), not_asked)
RULES = (CANNOT_BE, NOT_ASKED)

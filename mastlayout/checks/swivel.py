"""The halyard at a furler's swivel: it must pull the upper half aside, or it winds round the foil.

What was photographed aloft goes before what sheave and swivel say as they are drawn. A furler's own
limits go before the trade's: makers' figures differ. The stay's sag turns halyard and stay alike,
within half a degree, and is left out.
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from mastlayout.checks.finding import Finding, Standing
from mastlayout.checks.rule import WholeRule
from mastlayout.geometry.rig import StayInSpace
from mastlayout.geometry.running.passing import rope_point
from mastlayout.geometry.scene import Scene
from mastlayout.limits import Limits
from mastlayout.model.measure import measure_of
from mastlayout.model.rig import Stay
from mastlayout.model.sails import Halyard, Sail

# Where a halyard leads from above its sail.
_LEADS = ("sheave", "block", "restrainer")


def swivels(scene: Scene, limits: Limits) -> Iterator[Finding]:
    """Judge the halyard of every headsail that furls on a swivel."""
    lines = {halyard.id: halyard for halyard in scene.layout.halyards}
    for sail in scene.layout.sails:
        halyard, stay = lines.get(sail.halyard or ""), scene.stays.get(sail.stay or "")
        if stay is not None and sail.furled_mm is not None:
            yield from _cannot_be(stay.item)
        if halyard is not None and sail.furled_mm is not None and sail.role == "headsail":
            yield from _of_one(scene, sail, halyard, stay, limits)


def _cannot_be(stay: Stay) -> Iterator[Finding]:
    least, most = stay.swivel_least_deg, stay.swivel_most_deg
    if least is not None and most is not None and least > most:
        yield Finding("halyard/limits", "caution", (stay.id,), least, most, "deg")


def _of_one(
    scene: Scene, sail: Sail, halyard: Halyard, stay: StayInSpace | None, limits: Limits
) -> Iterator[Finding]:
    item = stay.item if stay else None
    if halyard.swivel_angle_deg is not None:
        yield from judged(halyard.swivel_angle_deg, item, (halyard.id, sail.id), limits)
        return
    missing = measure_of(Halyard, "swivel_angle_deg").key
    yield Finding("halyard/swivel", "not checked", (halyard.id, sail.id), measure=missing)
    drawn = drawn_deg(scene, halyard, stay) if stay else None
    for found in judged(drawn, item, (halyard.id, sail.id), limits) if drawn is not None else ():
        if found.code == "halyard/swivel" and found.measure is None:
            # What is drawn may be a hand's breadth off: it is a reason to look, and no fault.
            yield replace(found, code="halyard/drawn", standing="caution")


def judged(angle_deg: float, stay: Stay | None, who: tuple[str, ...], limits: Limits) -> Iterator[Finding]:
    """Say what an angle of a halyard to its stay is, against the furler's own limits or the trade's.

    Below a few degrees it winds round any foil. Where nobody read the furler's manual, what is wide
    enough for the trade is not yet right for that furler.
    """
    least, most = (stay.swivel_least_deg, stay.swivel_most_deg) if stay else (None, None)
    key, winds = "halyard.swivel", limits["halyard.swivel_least"].value
    wanted = limits[key].value if least is None else least
    named = key if least is None else None
    if angle_deg < wanted:
        standing: Standing = "fault" if angle_deg < min(winds, wanted) else "caution"
        yield Finding("halyard/swivel", standing, who, angle_deg, wanted, "deg", named)
    elif most is not None and angle_deg > most:
        yield Finding("halyard/wide", "caution", who, angle_deg, most, "deg")
    elif stay is not None and (least is None or most is None):
        missing = measure_of(Stay, "swivel_least_deg").key
        yield Finding("halyard/swivel", "not checked", (stay.id, *who), measure=missing)


def drawn_deg(scene: Scene, halyard: Halyard, stay: StayInSpace) -> float | None:
    """Return the angle of a halyard to its stay as both are drawn, degrees; None where nobody knows.

    Negative where it leads ahead of its stay. It is taken to pull at the middle of the swivel's upper end.
    """
    swivel = next((t for t in stay.item.terminals if t.kind == "swivel" and t.end == "upper"), None)
    lead = next((point for point in halyard.points if point.at in _LEADS), None)
    if swivel is None or stay.points is None or lead is None:
        return None
    up = stay.points[0] - stay.points[1]
    up = up / np.linalg.norm(up)
    top = stay.points[0] - swivel.from_end_mm * up
    aft = np.array([-up[2], 0.0, up[0]])
    rope = rope_point(scene.skin, lead, scene.placed, top)
    if rope is None:
        return None
    way = rope - top
    angle = float(np.degrees(np.arctan2(np.linalg.norm(np.cross(way, up)), way @ up)))
    return angle if way @ aft >= 0 else -angle


SWIVEL = WholeRule(
    "halyard/swivel", frozenset({"mast", "stays", "fittings", "sails", "inside", "limits"}), swivels
)

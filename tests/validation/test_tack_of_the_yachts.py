"""The three yachts' own fittings past their sails, against the figures the yachts were closed with.

As those: sails flat and straight in the leech, no sag, no prebend, no foil. What is left is the shape of
a fitting's solids: rounded corners, feet; each figure says how much that is given.
"""

import known
import numpy as np
import pytest
from closed_rigs import JIB, WHIMBREL, at, whimbrel_chord

from mastlayout.geometry.tack.bend import Bend
from mastlayout.geometry.tack.cloth import cloths
from mastlayout.geometry.tack.holding import Rig
from mastlayout.geometry.tack.outlines import CARRIED_MM, outlines
from mastlayout.geometry.tack.passes import taut
from mastlayout.geometry.tack.tack import Tack

FAR = 400.0


@pytest.fixture(scope="module")
def yachts():
    """Each yacht's scene and its tack with everything straight."""
    found = {}
    for name, report in known.reports().items():
        scene = report.scene
        straight = Bend(scene.skin.length_mm, 0.0)
        sails = cloths(scene.layout.sails, scene.stays, straight, 0.0, 0.0)
        found[name] = scene, Tack(sails, Rig(scene.skin, scene.spreaders, scene.stays, straight))
    return found


def clearances(yachts, yacht, fitting, sail):
    """The least held and loose of a fitting against a sail, whole and sheeted."""
    scene, tack = yachts[yacht]
    solids = scene.placed[fitting].solids
    cut = outlines(solids, np.zeros(len(solids), dtype=int), tack.heights)
    found = taut(tack, cut, tack.reached(cut, FAR), len(solids), FAR)
    states = [
        i
        for i, state in enumerate(tack.cloths.states)
        if state.sail.id == sail and not (state.reef or state.hoisting or state.sagged)
    ]
    return found.held[:, states].min(), found.loose[:, states].min()


@pytest.mark.parametrize(
    ("yacht", "fitting", "sail", "mm", "given"),
    [
        ("whimbrel", "reflector-1", "genoa", -245, 1),
        ("whimbrel", "hailer-1", "genoa", -210, 1),
        ("whimbrel", "hailer-1", "jib", -210, 1),
        ("whimbrel", "radome-1", "genoa", -580, 1),
        ("whimbrel", "camera-1", "genoa", -16, 2),
        ("whimbrel", "flood-p", "genoa", -424, 3),
        ("whimbrel", "flood-s", "genoa", -424, 3),
        ("turnstone", "reflector-1", "genoa", -71, 2),
        ("sanderling", "radome-1", "genoa", -590, 1),
        ("sanderling", "reflector-1", "genoa", 10, 3),
    ],
)
def test_the_sail_bears_by_as_much_as_the_yacht_was_closed_with(yachts, yacht, fitting, sail, mm, given):
    """Held cloth: by how far it stands out, and how far Sanderling's tube is inside its line."""
    held, _loose = clearances(yachts, yacht, fitting, sail)
    assert held == pytest.approx(mm, abs=given)


def test_the_loose_leech_whips_the_tube_behind_the_jumper(yachts):
    """By 20: all of its radius of 25 but the jumper's own shade."""
    _held, loose = clearances(yachts, "sanderling", "reflector-1", "genoa")
    assert loose == pytest.approx(-20, abs=1)


def test_the_jib_reaches_the_reflector_at_its_carried_end_alone(yachts):
    """By nothing at its lower end; 100 lower and on to the grid by the cloth's own widening."""
    z_mm = np.floor((12950 - CARRIED_MM) / 20) * 20
    open_water = at(WHIMBREL["forestay"], z_mm)[0] - 103 - 245
    by_hand = open_water - whimbrel_chord(JIB, z_mm)
    held, _loose = clearances(yachts, "whimbrel", "reflector-1", "jib")
    assert held == pytest.approx(by_hand, abs=1)
    assert -10 < held < 0


def test_turnstones_jib_does_not_reach_her_reflector(yachts):
    """Clear by 65 at the tube's middle; nearer at its carried ends and feet, never touched."""
    assert min(clearances(yachts, "turnstone", "reflector-1", "jib")) > 30

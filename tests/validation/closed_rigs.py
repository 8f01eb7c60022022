"""The three yachts' wires, sections and sails as they were closed by hand: pins, straight lines, LP."""

import numpy as np
from chain import Oval, Slice
from random_rigs import disc

# Pins from the yachts' tables, mm in the mast's frame, upper first.
WHIMBREL = {
    "forestay": ((133, 0, 17080), (4652, 0, 1759)),
    "cap-upper": ((0, 1146, 12088), (0, 1364, 7049)),
    "cap": ((0, 1364, 7049), (-19, 1540, 1561)),
    "intermediate-upper": ((0, 75, 11850), (0, 1364, 7049)),
    "intermediate": ((0, 1364, 7049), (-19, 1500, 1561)),
    "forward": ((30, 75, 6900), (481, 1490, 1578)),
    "aft": ((-30, 75, 6900), (-479, 1530, 1568)),
}
RADIUS = {"cap-upper": 5, "cap": 5, "intermediate-upper": 3.5, "intermediate": 3.5, "forward": 4, "aft": 4}


def at(pins, z_mm):
    """Where a straight wire is at a height."""
    upper, lower = np.array(pins, dtype=float)
    return (lower + (upper - lower) * (z_mm - lower[2]) / (upper[2] - lower[2]))[:2]


def whimbrel_at(z_mm, *wires):
    """Whimbrel's slice at a height with some of her wires, both sides."""
    points = [(at(WHIMBREL[wire], z_mm), RADIUS[wire]) for wire in wires]
    both = [disc(x, side * y, radius) for (x, y), radius in points for side in (1, -1)]
    return Slice(at(WHIMBREL["forestay"], z_mm), Oval(np.zeros(2), np.array([103.0, 69.5])), tuple(both))


def chord_of(lp, clew, head, stay, z_mm):
    """A straight leech: LP square to the stay at the clew's height, nothing at the head."""
    upper, lower = np.array(stay, dtype=float)
    cosine = (upper - lower)[2] / np.linalg.norm(upper - lower)
    return lp / cosine * (head - z_mm) / (head - clew)


GENOA, JIB = (6370, 2950, 16350), (4190, 3400, 15800)


def whimbrel_chord(sail, z_mm):
    """The chord of one of Whimbrel's sails."""
    return chord_of(*sail, WHIMBREL["forestay"], z_mm)


TURNSTONE_STAY = ((85, 0, 9550), (3015, 0, -383))
SANDERLING_STAY = ((159, 0, 15300), (4963, 0, -961))
SANDERLING_JUMPER = ((137, 0, 13500), (549, 0, 9700))

"""Random rigs cut square to the mast, and random things on the mast, for the chain to be dragged past."""

import numpy as np
from chain import Oval, Slice, hull, plate


def disc(x, y, radius):
    """A round bar or wire."""
    return Oval(np.array([x, y]), np.array([radius, radius]))


def a_rig(dice, *, bare=False):
    """A mast with its luff ahead of it and, unless bare, shrouds, lowers, diamonds, a jumper, spreaders."""
    semi = dice.uniform([50, 35], [130, 80])
    mast = Oval(np.zeros(2), semi)
    luff = np.array([semi[0] + dice.uniform(800, 5000), 0.0])
    return Slice(luff, mast, () if bare else tuple(_holding(dice, semi, luff)))


def _holding(dice, semi, luff):
    chance = dice.random(5)
    for _pair in range(dice.integers(0, 4)):
        yield from _wires(dice, [-600, semi[1] + 20], [min(450, luff[0] - semi[0] - 300), 1600])
    if chance[0] < 0.3:
        yield from _wires(dice, [-350, semi[1] + 5], [20, 1000])
    if chance[1] < 0.5:
        ahead = semi[0] + dice.uniform(15, 430)
        yield disc(ahead, 0.0, dice.uniform(2, 6))
        if chance[2] < 0.3:
            yield plate(np.array([(ahead + semi[0]) / 2, 0.0]), (ahead - semi[0], 30.0))
    if chance[3] < 0.4:
        yield from _spreaders(dice, semi)
    if chance[4] < 0.3:
        yield disc(-dice.uniform(300, 3000), 0.0, dice.uniform(2, 5))


def _wires(dice, least, most):
    x, y = dice.uniform(least, most)
    radius = dice.uniform(2, 7)
    return disc(x, y, radius), disc(x, -y, radius)


def _spreaders(dice, semi):
    """Two spreaders, their roots in the mast's side, swept up to 25 degrees."""
    long, thick, sweep = dice.uniform([250, 22, 0.0], [1400, 95, np.radians(25)])
    for side in (1, -1):
        out = np.array([-np.sin(sweep), side * np.cos(sweep)])
        root = np.array([0.0, side * semi[1]])
        yield plate(root + out * long / 2, (thick, long), side * sweep)


def a_fitting(dice, rig):
    """A box, a disc or a polygon: on the skin at any bearing, a little off it, or about a support."""
    size = dice.uniform(15, 350, 2)
    bearing = dice.uniform(0, 2 * np.pi)
    out = np.array([np.cos(bearing), np.sin(bearing)])
    if rig.others and dice.random() < 0.25:
        beside = rig.others[dice.integers(len(rig.others))]
        middle = beside.marks(rig.luff)[0] + dice.uniform(-250, 250, 2)
    else:
        skin = out / np.hypot(*(out / rig.mast.semi))
        middle = skin + out * (dice.choice([0.0, dice.uniform(0, 250)]) + size[0] / 2)
    match dice.integers(3):
        case 0:
            return plate(middle, size, bearing)
        case 1:
            return disc(*middle, size[0] / 2)
        case _:
            return hull(middle + dice.uniform(-0.5, 0.5, (8, 2)) * size)


def a_chord(dice, rig):
    """From well short of the mast to well beyond it."""
    return float((rig.luff[0] - rig.mast.semi[0]) * dice.uniform(0.6, 1.6))


def a_case(seed, *, bare=False):
    """One rig, one fitting and one chord of a seed."""
    dice = np.random.default_rng(seed)
    rig = a_rig(dice, bare=bare)
    return rig, a_fitting(dice, rig), a_chord(dice, rig)


def a_crowded_case(seed):
    """A mast with wires close by, a small thing between them and a leech that ends about there."""
    dice = np.random.default_rng(seed)
    semi = dice.uniform([50, 35], [130, 80])
    luff = np.array([semi[0] + dice.uniform(800, 5000), 0.0])
    wires = [
        dice.uniform([-40, 0], [min(450, luff[0] - semi[0] - 300), 300]) for _ in range(dice.integers(1, 4))
    ]
    others = tuple(
        disc(x, side * y, dice.uniform(2, 7))
        for x, y in wires
        if np.hypot(*(np.array([x, y]) / semi)) > 1.1
        for side in ((1, -1) if dice.random() < 0.5 else (1,))
    )
    rig = Slice(luff, Oval(np.zeros(2), semi), others)
    bearing, size = dice.uniform(-1.6, 1.6), dice.uniform(5, 70, 2)
    out = np.array([np.cos(bearing), np.sin(bearing)])
    middle = out / np.hypot(*(out / semi)) + out * (dice.choice([0.0, dice.uniform(0, 80)]) + size[0] / 2)
    fitting = plate(middle, size, bearing) if dice.random() < 0.6 else disc(*middle, size[0] / 2)
    return rig, fitting, float((luff[0] - semi[0]) * dice.uniform(0.95, 1.4))

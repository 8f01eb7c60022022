"""What is drawn of the tack, against a chain dragged past the same rigs, figures by hand, and shapely."""

from dataclasses import dataclass, replace

import known
import numpy as np
import pytest
import shapely
from chain import Oval, Slice, hidden, nearest, plate, swept
from closed_rigs import GENOA as WHIMBREL_GENOA
from closed_rigs import WHIMBREL, at, whimbrel_chord
from random_rigs import a_rig, disc
from scipy.optimize import brentq

from mastlayout.geometry.tack.bands import bands
from mastlayout.geometry.tack.bend import Bend
from mastlayout.geometry.tack.cloth import cloths
from mastlayout.geometry.tack.directions import DIRECTIONS
from mastlayout.geometry.tack.drawn import Swept
from mastlayout.geometry.tack.holding import Rig
from mastlayout.geometry.tack.reach import boundary, sliced
from mastlayout.geometry.tack.standing import apart, stand
from mastlayout.geometry.tack.tack import Tack

MAST = Oval(np.zeros(2), np.array([105.0, 65.0]))
LUFF = np.array([1905.0, 0.0])
PLAIN = Slice(LUFF, MAST, (disc(0, 1100, 5), disc(0, -1100, 5)))
BEHIND_JUMPER = Slice(LUFF, MAST, (disc(425, 0, 4), disc(0, 1100, 5), disc(0, -1100, 5)))
# What outlines of 120 directions take for too much, mm; where a chain ends beside an edge, in area.
SLACK = 1.0


@dataclass(frozen=True)
class Even:
    """Cloth of one length at every height and angle."""

    length: float

    def longest(self, state, _z_mm, swung):
        """Its length (r,)."""
        return np.full(np.broadcast(state, swung).shape, self.length)


def drawn(rig, chord):
    """What the program draws of a slice of the test's own shapes."""
    support = np.array([[body.reach(DIRECTIONS) for body in rig.supports]])
    edge = boundary(sliced(rig.luff[None], support, np.arange(len(rig.supports))[None]))
    return Swept(Even(chord), 0, 0.0, rig.luff, edge, ())


def ground(made):
    """All that the drawing says cloth gets at."""
    outlines = [made.sailed, *made.whipped]
    return shapely.union_all([shapely.Polygon(one).buffer(0) for one in outlines])


@pytest.mark.parametrize("seed", range(120))
def test_all_that_the_chain_touches_is_drawn(seed):
    """On random rigs; nor is more drawn than that, but for corners between supports in front of the mast."""
    dice = np.random.default_rng(seed)
    rig = a_rig(dice, bare=seed % 3 == 0)
    chord = dice.uniform(0.5, 1.4) * rig.luff[0]
    by_chain = shapely.Polygon(swept(rig, chord)).buffer(0)
    by_program = ground(drawn(rig, chord))
    # The chain swings within 60 degrees, the drawing to abeam.
    within = shapely.Polygon(_wedge(rig.luff, chord))
    missed = by_chain.difference(by_program.buffer(SLACK))
    assert missed.area < 1.0
    more = by_program.intersection(within).difference(by_chain.buffer(SLACK))
    if not rig.others:
        assert more.area < 0.002 * by_chain.area
    # On a spreader cloth counts only from its outer end: a shorter one enters the corner before it.
    if all(isinstance(body, Oval) for body in rig.others):
        assert more.area < 0.02 * by_chain.area


def _wedge(luff, chord):
    angle = np.radians(np.linspace(-60, 60, 400))
    return np.concatenate([[luff], luff + 1.01 * chord * np.stack([-np.cos(angle), np.sin(angle)], axis=1)])


@pytest.mark.parametrize("chord", [1950.0, 2500.0, 3100.0])
def test_the_hailers_corner_is_the_worst_point(chord):
    """200 wide, 150 proud ahead: by its corner, 175 off the section, and the line is as long as that."""
    box = plate(np.array([180.0, 0.0]), (150.0, 200.0))
    found = stand(drawn(PLAIN, chord), box.reach(DIRECTIONS)[None])
    assert found.clear_mm == pytest.approx(-175, abs=1)
    assert found.bears
    assert np.abs(found.at) == pytest.approx([255, 100], abs=1)
    assert np.hypot(*np.subtract(found.at, found.other)) == pytest.approx(175, abs=1)
    # The other end lies on the section.
    assert nearest(np.array(found.other), MAST) == pytest.approx(0, abs=0.5)


def test_behind_a_jumper_the_cluster_bears_and_the_tube_is_whipped():
    """230 across and 50 across, 130 off the face: by 83 and more, and by 20 where only the leech gets."""
    made = drawn(BEHIND_JUMPER, 2500.0)
    cluster, tube = (stand(made, disc(235, 0, r).reach(DIRECTIONS)[None]) for r in (115, 25))
    assert cluster.bears
    assert cluster.clear_mm <= -82
    assert (tube.clear_mm, tube.bears) == (pytest.approx(-20, abs=1), False)
    round_tube = shapely.Point(235, 0).buffer(25)
    whipped = shapely.union_all([shapely.Polygon(one).buffer(0) for one in made.whipped])
    assert whipped.intersection(round_tube).area > 100
    assert shapely.Polygon(made.sailed).buffer(0).intersection(round_tube).area < 1


@pytest.mark.parametrize("seed", range(40))
def test_the_cloth_keeps_its_length_and_stays_out_of_the_shelter(seed):
    """At every place of the slider: from the luff, as long as it is, and never behind the mast."""
    dice = np.random.default_rng(seed)
    rig = a_rig(dice, bare=seed % 2 == 0)
    chord = dice.uniform(0.9, 1.5) * rig.luff[0]
    made = drawn(rig, chord)
    shelter = shapely.Polygon(hidden(Slice(rig.luff, rig.mast, ()))).buffer(-2.0)
    for part in np.linspace(-1.0, 1.0, 41):
        line = made.cloth(made.angle(float(part)))
        assert line[0] == pytest.approx(rig.luff)
        assert shapely.LineString(line).length == pytest.approx(chord, abs=0.5)
        assert shapely.LineString(line).intersection(shelter).length < 1.0
    ends = [made.cloth(made.angle(part))[-1] for part in (-1.0, 1.0)]
    assert ends[0] == pytest.approx(rig.luff + (0.0, chord), abs=0.1)
    assert ends[1] == pytest.approx(rig.luff - (0.0, chord), abs=0.1)


def test_the_live_distance_is_that_of_line_and_outline():
    """A tube of 50 to starboard of cloth that lies straight aft to port of the mast; 0 where it crosses."""
    made = drawn(PLAIN, 1500.0)
    line = made.cloth(0.0)
    assert line[-1] == pytest.approx((405.0, 0.0))
    tube = disc(600, -225, 25).reach(DIRECTIONS)[None]
    assert apart(line, tube) == pytest.approx(200.0, abs=0.1)
    assert apart(line, disc(600, -10, 25).reach(DIRECTIONS)[None]) == 0.0
    assert apart(line, tube[:0]) is None


def test_the_band_ends_where_the_chord_is_as_long_as_the_way_to_the_mast():
    """Whimbrel's genoa, all straight: the heights at which its chord by hand meets her fore face by hand."""
    scene = known.report("whimbrel").scene
    straight = Bend(scene.skin.length_mm, 0.0)
    sails = cloths(scene.layout.sails, scene.stays, straight, 0.0, 0.0)
    sails = replace(sails, luffs=replace(sails.luffs, sag_mm=np.zeros(len(sails.luffs))))
    tack = Tack(sails, Rig(scene.skin, scene.spreaders, scene.stays, straight))
    genoa = next(band for band in bands(tack) if band.sail.id == "genoa" and band.reef is None)

    def over(z_mm):
        return whimbrel_chord(WHIMBREL_GENOA, z_mm) - (at(WHIMBREL["forestay"], z_mm)[0] - 103)

    by_hand = brentq(over, 10_000, 16_300)
    assert by_hand - 20 <= genoa.high_mm <= by_hand + 1

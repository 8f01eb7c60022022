"""Rules of holes and fasteners at many places that share heights, girths and turns, and at each alone."""

from itertools import product

import numpy as np
import pytest
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast

from mastlayout.checks.rule import at_places
from mastlayout.checks.rules import FITTING_RULES
from mastlayout.geometry.scene import build
from mastlayout.geometry.seat import Places
from mastlayout.geometry.shared import shared_by
from mastlayout.limits import built_in
from mastlayout.model.fitting import OldHole
from mastlayout.model.mast import Taper, Wall

OF_HOLES = tuple(
    rule for rule in FITTING_RULES if rule.code.startswith(("hole/", "fastener/", "metals/", "seat/"))
)
# A pipe that leans: from one side of the bore to the other, over the height of the places.
PIPES = [
    {
        "id": "pipe", "name": "Pipe", "outside_mm": 30.0, "bore_mm": 25.0,
        "runs": [
            {"from_masthead_mm": 500.0, "to_mm": 8500.0, "bearing_deg": 330.0},
            {"from_masthead_mm": 8500.0, "to_mm": 16500.0},
        ],
    },
    {
        "id": "second", "name": "Second pipe", "outside_mm": 22.0, "bore_mm": 18.0,
        "runs": [{"from_masthead_mm": 500.0, "to_mm": 16500.0, "bearing_deg": 120.0}],
    },
]  # fmt: skip
STRETCHES = [
    {"kind": "sleeve", "from_masthead_mm": 8800.0, "to_mm": 9100.0},
    {"kind": "weld", "from_masthead_mm": 8200.0, "to_mm": 8210.0, "girth": "bearing 90"},
]
HOLES = [
    {"across_mm": -30.0, "along_mm": 15.0, "fastener": "M6 tapped, aluminium"},
    {"across_mm": 30.0, "along_mm": 15.0, "fastener": "rivet 6.4, stainless"},
    {"across_mm": -30.0, "along_mm": -15.0, "fastener": "M6 through, stainless"},
]
ENTRY = {"across_mm": 0.0, "along_mm": -18.0, "diameter_mm": 24.0}
SLOT = {"across_mm": 22.0, "along_mm": -14.0, "width_mm": 12.0, "length_mm": 20.0, "corner_radius_mm": 2.0}
OLD = (
    OldHole(id="old", name="Old", from_masthead_mm=8000.0, girth="ahead", diameter_mm=6.0),
    OldHole(id="plug", name="Plug", from_masthead_mm=8040.0, girth="bearing 90"),
    OldHole(id="wide", name="Wide", from_masthead_mm=8120.0, girth="bearing 270", diameter_mm=40.0),
)


def yard(seat, **mast):
    """A crowded mast: pipes, a sleeve, a weld, old holes, a fitting with a slot, and one to be moved."""
    walls = tuple(Wall(from_masthead_mm=float(z), thickness_mm=3.0) for z in range(0, 9001, 400))
    # Thicker than any rivet grips.
    foot = a_foot(seat=seat, holes=HOLES, entry=ENTRY, along_mm=80.0, thickness_mm=30.0)
    return build(
        a_layout(
            mast=a_mast(walls=walls, conduits=PIPES, stretches=STRETCHES, **mast),
            kinds=(a_kind(foot=foot), a_kind("old-box", foot=a_foot(along_mm=90.0))),
            fittings=(
                a_fitting(in_hand=foot),
                a_fitting("slot-1", from_masthead_mm=8300.0, in_hand=a_foot(cutouts=[SLOT])),
                a_fitting("old-1", kind="old-box", from_masthead_mm=7700.0, new=False, in_hand=None),
            ),
            holes=OLD,
        )
    )


SHAPED, FLAT = yard("shaped"), yard("flat")
TAPERED = yard("shaped", taper=Taper(from_masthead_mm=8500, length_mm=150, width_mm=100))


def grid(scene):
    """Heights by girths, upright, turned and off the skin, no two in the order of their heights."""
    half = scene.skin.full.half_girth_mm
    high = [7400.0, 8160.0, 8430.0, 8640.0, 8700.0, 8795.0, 8960.0, 9310.0, 16985.0]
    round_mm = (half - 30.0, 4.0 - half, -half / 2, -0.15 * half, half / 2)
    every = list(product(round_mm, high, ((0.0, 0.0), (37.0, 6.0))))
    along, around, turn, off = (
        np.array(part) for part in zip(*((z, g, t, o) for g, z, (t, o) in every), strict=True)
    )
    return Places(along, around, off, turn)


def said(margins, row):
    """What a rule says at a row, by subject: whether too little or not known, and its figures."""
    columns = np.flatnonzero(margins.short[row] | margins.missing[row]).tolist()
    return {
        margins.subjects[i]: (margins.measured[row, i], margins.required[row, i], margins.point[row, i, 2])
        for i in columns
    }


@pytest.mark.parametrize("scene", [SHAPED, FLAT, TAPERED], ids=["shaped", "flat", "tapered"])
def test_what_many_places_share_is_for_each_as_if_it_stood_alone(scene):
    """To a thousand-millionth of a millimetre: same subjects, same figures, whatever they are asked with."""
    placed, places, limits = scene.placed["box-1"], grid(scene), built_in()
    together = at_places(placed, places)
    alone = [at_places(placed, places.some(slice(i, i + 1))) for i in range(len(places))]
    spoke = set()
    for rule in OF_HOLES:
        many = rule.margins(scene, [together], limits)[0]
        for i, batch in enumerate(alone):
            one = said(rule.margins(scene, [batch], limits)[0], 0)
            here = said(many, i)
            assert here.keys() == one.keys(), rule.code
            for subject, figures in one.items():
                assert here[subject] == pytest.approx(figures, abs=1e-9, nan_ok=True), (rule.code, subject)
            spoke |= {rule.code} if one else set()
    assert spoke >= {
        "hole/inside", "hole/left", "hole/spacing", "hole/zone", "hole/wall", "hole/sleeve", "hole/there",
        "hole/mast-end", "hole/track-edge", "hole/cutout-edge", "hole/ring", "fastener/grip",
        "fastener/threads", "fastener/through",
    }  # fmt: skip


@pytest.mark.parametrize("scene", [SHAPED, FLAT, TAPERED], ids=["shaped", "flat", "tapered"])
def test_holes_of_many_places_are_those_of_each_alone(scene):
    """Where each is on the skin and how its drill goes in; the drill of one changes none of another's."""
    placed, places = scene.placed["box-1"], grid(scene)
    every = at_places(placed, places).holes
    for i in range(len(places)):
        own = at_places(placed, places.some(slice(i, i + 1))).holes
        for name in ("z_mm", "girth_mm", "point", "direction"):
            assert getattr(every, name)[i] == pytest.approx(getattr(own, name)[0], abs=1e-9, nan_ok=True)


def test_places_are_alike_where_every_value_is():
    """Each place has in its group the very values it has itself; groups are as few as the values."""
    dice = np.random.default_rng(4)
    one, other, same = dice.integers(0, 4, 60) / 3.0, dice.integers(0, 3, 60) / 7.0, np.full(60, 2.5)
    shared = shared_by(one, same, other)
    assert np.array_equal(one[shared.rows][shared.which], one)
    assert np.array_equal(other[shared.rows][shared.which], other)
    assert len(shared.rows) == len({*zip(one.tolist(), other.tolist(), strict=True)})
    assert (len(shared_by(same).rows), len(shared_by(same[:0]).rows)) == (1, 0)

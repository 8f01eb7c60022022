"""The catalogue: every kind can be read, drilled, placed and drawn, and has the sizes of the trade.

Sizes off the skin, cable diameters and hole patterns are those of the typical fittings of three
invented yachts (common practice, no source). Arcs of lights: COLREG 1972 Rule 21.
"""

import math

import pytest

from mastlayout.errors import FileError, UnknownNameError
from mastlayout.fastening.drill import drill_of
from mastlayout.model.kind import Ball, Box, Can, Tube
from mastlayout.resources import resources
from mastlayout.storage.catalogue import catalogue, kind, read_catalogue

KINDS = tuple(catalogue().values())
OUT = 2

# COLREG 1972 Rule 21, clockwise from ahead: sidelights from right ahead to 22.5 degrees abaft the
# beam (90 + 22.5 = 112.5), the sternlight 67.5 each side of right aft (180 -+ 67.5), the masthead
# light from ahead to 22.5 abaft either beam, the all-round light an unbroken 360.
RULE_21 = {
    "starboard sidelight": (0.0, 112.5),
    "port sidelight": (247.5, 360.0),
    "sternlight": (112.5, 247.5),
    "steaming light": (247.5, 112.5),
    "anchor light": (0.0, 360.0),
}

# The outside diameters of the cables wanted by the three yachts' fittings.
CABLES = {
    "radar cable": 9.0,
    "2 x 1.5": 7.0,
    "3 x 1.5": 7.4,
    "coax, low-loss, 10 mm class": 10.3,
    "coax, 6 mm class": 6.1,
    "screened": 6.0,
    "data, four screened pairs": 7.5,
}

# Their cable leaves through what they stand on: a crane plate, a bracket's platform, a spreader.
ON_A_MOUNT = {
    "ais-whip",
    "anchor-light",
    "antenna-stub",
    "cellular-dome",
    "radome-dome-470",
    "satellite-dome",
    "satnav-mushroom",
    "spreader-light",
    "tricolour",
    "tricolour-anchor",
    "tricolour-anchor-low",
    "vhf-whip",
    "vhf-whip-900",
    "wind-sensor",
    "wind-sensor-380",
    "wind-sensor-450",
}

# Two columns of four at 48 and 16 either side of the middle of a foot 120 along leave 12 to its edge,
# where a drill of 6.5 wants 13: a pattern as it is sold, which the foot check is meant to find.
NEAR_THE_EDGE = {"radome-470"}


def reach(solid, axis):
    """How far a solid reaches along one of the three axes, from the definition of its shape."""
    match solid:
        case Ball():
            return solid.centre[axis] + solid.radius_mm
        case Tube():
            return max(solid.start[axis], solid.end[axis]) + solid.radius_mm
        case Box():
            return solid.centre[axis] + solid.size[axis] / 2
        case Can():
            length = math.dist(solid.start, solid.end)
            lean = (solid.end[axis] - solid.start[axis]) / length
            square = math.sqrt(max(0.0, 1 - lean**2))
            last = solid.radius_mm if solid.end_radius_mm is None else solid.end_radius_mm
            return max(solid.start[axis] + square * solid.radius_mm, solid.end[axis] + square * last)


def bodies(one):
    """The solids of a kind without the room for a hand."""
    return [solid for solid in one.solids if solid.part != "room"]


def proud_mm(one):
    """How far a kind reaches off the skin."""
    return max(reach(solid, OUT) for solid in bodies(one))


def width_mm(one, axis):
    """The size of a kind's body and mouth along an axis; all are even about their middle."""
    return 2 * max(reach(solid, axis) for solid in bodies(one))


def edge_mm(foot, hole):
    """From a hole's centre to the nearest edge of its foot, the corners taken as square."""
    return min(
        foot.across_mm / 2 - abs(hole.across_mm - foot.centre_across_mm),
        foot.along_mm / 2 - abs(hole.along_mm - foot.centre_along_mm),
    )


def test_there_are_kinds_for_a_whole_refit():
    """At least forty kinds, each under its own id, in the file of its group."""
    tables = sum(
        path.read_text(encoding="utf-8").count("[[kinds]]")
        for path in (resources() / "catalogue").glob("*.toml")
    )
    assert len(KINDS) == tables >= 40
    assert {path.stem for path in (resources() / "catalogue").glob("*.toml")} == {k.group for k in KINDS}


def test_a_wrong_id_is_answered_with_the_nearest():
    """A misspelt id names the kind it may have been meant for."""
    assert kind("hailer").id == "hailer"
    with pytest.raises(UnknownNameError, match="hailler") as refused:
        kind("hailler")
    assert "“hailer”" in str(refused.value)


@pytest.mark.parametrize("one", [k for k in KINDS if k.foot], ids=lambda k: k.id)
def test_holes_lie_inside_their_foot(one):
    """A rivet's or a tapped screw's centre keeps two drill diameters to the foot's edge, all lie within."""
    holes = one.foot.holes
    assert all(edge_mm(one.foot, hole) > 0 for hole in holes)
    near = [
        hole
        for hole in holes
        if hole.fastener.how in ("rivet", "tapped")
        and edge_mm(one.foot, hole) < 2 * drill_of(hole.fastener) - 1e-9
    ]
    assert bool(near) is (one.id in NEAR_THE_EDGE)


@pytest.mark.parametrize("one", [k for k in KINDS if k.foot], ids=lambda k: k.id)
def test_holes_keep_three_diameters_from_each_other(one):
    """Rivets and tapped screws of one foot stand at least three drills of the larger apart."""
    holes = [h for h in one.foot.holes if h.fastener.how in ("rivet", "tapped")]
    for i, first in enumerate(holes):
        for second in holes[i + 1 :]:
            apart = math.hypot(first.across_mm - second.across_mm, first.along_mm - second.along_mm)
            assert apart >= 3 * max(drill_of(first.fastener), drill_of(second.fastener))


@pytest.mark.parametrize("one", [k for k in KINDS if k.foot and k.foot.cutouts], ids=lambda k: k.id)
def test_a_cut_out_has_round_ends(one):
    """Every slot's corner radius is half its width, so that no square corner starts a crack."""
    assert all(cutout.corner_radius_mm == cutout.width_mm / 2 for cutout in one.foot.cutouts)


@pytest.mark.parametrize(
    ("name", "proud"),
    [
        ("radome-470", 580),
        ("radome-480", 590),
        ("reflector-cluster-230", 245),
        ("reflector-tube-590", 165),
        ("reflector-tube-590-close", 72),
        ("hailer", 190),
        ("hailer-horn", 190),
        ("hailer-horn-small", 150),
        ("fog-horn", 170),
        ("steaming-deck-light", 105),
        ("steaming-deck-light-small", 95),
        ("camera-aft", 90),
        ("spinnaker-bail", 190),
        ("spinnaker-eye", 70),
        ("pad-eye-block", 220),
        ("halyard-exit", 12),
        ("halyard-exit-small", 10),
        ("pole-lift-exit", 15),
        ("exit-sheave", 40),
        ("exit-sheave-small", 25),
        ("sheave-box-masthead", 0),
        ("lazy-jack-eye", 25),
        ("lazy-jack-block", 30),
        ("tang-cap", 12),
        ("tang-inner-stay", 45),
        ("tang-runner", 18),
        ("tang-diamond-screw", 40),
        ("spreader-bracket-upper", 70),
        ("spreader-bracket-lower", 80),
        ("spreader-bracket-diamond", 90),
        ("spreader-socket", 50),
        ("vang-tang", 55),
        ("vang-eye", 35),
        ("pole-track", 28),
        ("pole-ring", 45),
        ("winch-on-pad", 190),
        ("winch-on-pad-small", 130),
        ("clutch-bank", 90),
        ("horn-cleat", 45),
        ("horn-cleat-small", 35),
        ("preventer-eye", 40),
        ("folding-step", 45),
        ("spreader-light", 150),
    ],
)
def test_a_kind_is_as_proud_as_the_trade_says(name, proud):
    """The solids reach exactly as far off the bare skin as the typical part does."""
    assert proud_mm(kind(name)) == pytest.approx(proud, abs=0.01)


@pytest.mark.parametrize(
    ("name", "across", "along"),
    [
        ("hailer", 200, 150),
        ("hailer-horn-small", 120, 110),
        ("fog-horn", 140, 130),
        ("steaming-deck-light", 104, 130),
        ("winch-on-pad", 190, 190),
        ("reflector-cluster-230", 230, 230),
    ],
)
def test_a_kind_is_as_wide_as_the_trade_says(name, across, along):
    """Mouth, body or drum have the typical part's size across and along."""
    assert (width_mm(kind(name), 0), width_mm(kind(name), 1)) == (across, along)


def test_a_pole_car_stands_on_its_track():
    """Track 28 and car 47 make the 75 off the skin of a car on its track."""
    at = next(mount.at for mount in kind("pole-track").mounts if mount.name == "car-low")
    assert at[OUT] + proud_mm(kind("pole-car")) == 75


@pytest.mark.parametrize(
    ("name", "pin"), [("gooseneck", 60), ("gooseneck-large", 70), ("gooseneck-small", 50)]
)
def test_a_gooseneck_has_its_pin_where_the_trade_says(name, pin):
    """The one upright round part of a gooseneck is its pin."""
    pins = [solid for solid in kind(name).solids if isinstance(solid, Can)]
    assert [(solid.start[OUT], solid.end[OUT]) for solid in pins] == [(pin, pin)]


@pytest.mark.parametrize(
    ("name", "centre", "across", "high"), [("radome-470", 345, 470, 215), ("radome-480", 350, 480, 230)]
)
def test_a_radome_has_its_size_and_place(name, centre, across, high):
    """The dome's cans share one upright middle line and stack to its height."""
    dome = [solid for solid in bodies(kind(name)) if solid.part == "body"]
    assert {(solid.start[OUT], solid.end[OUT]) for solid in dome} == {(centre, centre)}
    assert 2 * max(max(solid.radius_mm, solid.end_radius_mm or 0.0) for solid in dome) == across
    assert max(solid.end[1] for solid in dome) - min(solid.start[1] for solid in dome) == high


@pytest.mark.parametrize(
    ("name", "forward", "aft", "section"),
    [
        ("crane-plate", 60, 170, 206),
        ("crane-plate-sheaves", 150, 190, 238),
        ("crane-plate-small", 20, 140, 96),
    ],
)
def test_a_crane_plate_reaches_over_its_section(name, forward, aft, section):
    """Seated on the fore face, a crane reaches ahead of it, and aft over the section and beyond."""
    plates = [solid for solid in kind(name).solids if isinstance(solid, Box)]
    assert max(reach(solid, OUT) for solid in plates) == forward
    assert min(solid.centre[OUT] - solid.size[OUT] / 2 for solid in plates) == -section - aft


def test_a_crane_plate_offers_every_mount_of_the_masthead():
    """Light, two whips, wind sensor and vane find a place, all facing up."""
    mounts = kind("crane-plate").mounts
    assert {mount.name for mount in mounts} == {"light", "whip-port", "whip-starboard", "wind", "vane"}
    assert {mount.facing for mount in mounts} == {"up"}


def test_a_steaming_light_shows_over_225_degrees():
    """247.5 round by ahead to 112.5 is 225 degrees, as COLREG 1972 Rule 21 (a) has it."""
    (arc,) = kind("steaming-light").sectors
    assert (arc.to_deg - arc.from_deg) % 360 == 225


@pytest.mark.parametrize("one", [k for k in KINDS if k.group == "light"], ids=lambda k: k.id)
def test_arcs_of_lights_are_those_of_rule_21(one):
    """Every arc of a light is the one COLREG 1972 Rule 21 gives to a light of its name."""
    assert {s.what for s in one.sectors} <= {"light"}
    assert all((s.from_deg, s.to_deg) == RULE_21[s.name] for s in one.sectors)


def test_only_floods_show_no_arc():
    """What is no navigation light has no arc to keep clear, and nothing else is left without one."""
    lights = {k.id for k in KINDS if k.group == "light" and not k.sectors}
    assert lights == {"deck-flood", "spreader-light"}
    seeing = ("radar", "reflector", "antenna", "wind", "sound", "camera")
    assert all(k.sectors for k in KINDS if k.group in seeing)


@pytest.mark.parametrize("one", [k for k in KINDS if k.group in ("radar", "reflector")], ids=lambda k: k.id)
def test_radar_and_reflectors_look_all_round(one):
    """Radar and echo are wanted over the full circle."""
    (arc,) = one.sectors
    assert (arc.what, arc.from_deg, arc.to_deg) == ("radar" if one.group == "radar" else "echo", 0, 360)


@pytest.mark.parametrize("one", [k for k in KINDS if k.cable_type], ids=lambda k: k.id)
def test_a_cable_has_the_diameter_of_its_type(one):
    """One type of cable has one diameter, that of the typical cable."""
    assert one.cable_mm == CABLES[one.cable_type]


def test_no_cable_has_a_diameter_without_a_type():
    """A diameter or a plug belongs to a cable that is named."""
    assert not [k.id for k in KINDS if not k.cable_type and (k.cable_mm or k.plug_mm)]


@pytest.mark.parametrize("one", [k for k in KINDS if k.cable_type], ids=lambda k: k.id)
def test_a_cable_enters_below_what_lies_on_the_mast(one):
    """The entry's edge is below the foot and all that is within 40 of the skin, for a drip loop."""
    if one.id in ON_A_MOUNT:
        assert one.foot.entry is None
        return
    entry = one.foot.entry
    near = [solid for solid in bodies(one) if solid.part != "guard" and _nearest_out(solid) < 40]
    lowest = min([-one.foot.along_mm / 2, *(-_reach_down(solid) for solid in near)])
    assert entry.along_mm + entry.diameter_mm / 2 <= lowest
    assert entry.diameter_mm > one.cable_mm


def _mirrored(solid, axis):
    flip = [-1 if i == axis else 1 for i in range(3)]
    points = {n: getattr(solid, n) for n in ("centre", "start", "end") if hasattr(solid, n)}
    return solid.but(**{n: tuple(a * b for a, b in zip(p, flip, strict=True)) for n, p in points.items()})


def _reach_down(solid):
    return reach(_mirrored(solid, 1), 1)


def _nearest_out(solid):
    return -reach(_mirrored(solid, OUT), OUT)


@pytest.mark.parametrize("one", [k for k in KINDS if k.mounts], ids=lambda k: k.id)
def test_mounts_have_names_of_their_own(one):
    """Within one kind no two mounts share a name."""
    names = [mount.name for mount in one.mounts]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("one", KINDS, ids=lambda k: k.id)
def test_a_kind_can_be_drawn_and_says_that_it_is_typical(one):
    """Every kind has solids that are more than room, and names whose sizes they are."""
    assert bodies(one)
    assert one.source.startswith("typical")


def test_guards_are_told_from_what_they_guard():
    """A kind with a guard's tubes guards, and no other does."""
    assert {k.id for k in KINDS if k.guards} == {
        k.id for k in KINDS if any(solid.part == "guard" for solid in k.solids)
    }


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[[kinds]", "odd.toml cannot be read"),
        ('[[kinds]]\nid = "a"\nname = "A"\ngroup = "boat"', "odd.toml, kind “a”, group"),
        ('[[kinds]]\nid = "a"\nname = "A"\ngroup = "deck"\nmass_kg = 1', "odd.toml, kind “a”, mass_kg"),
        ('[[kinds]]\nid = "a"\nname = "A"\ngroup = "deck"\n' * 2, "“a” is there twice"),
    ],
)
def test_a_wrong_file_is_named_with_kind_and_field(tmp_path, text, said):
    """The sentence names the file, the kind and the field that is wrong."""
    (tmp_path / "odd.toml").write_text(text, encoding="utf-8")
    with pytest.raises(FileError) as refused:
        read_catalogue(tmp_path)
    assert said in str(refused.value)

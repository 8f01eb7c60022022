"""Cables: entry, plug, slot and fill."""

import pytest
from asking import found
from builders import a_fitting, a_foot, a_kind, a_layout, a_mast

from mastlayout.model.fitting import Cable


def pipe(**fields):
    """A conduit of bore 25 on the starboard side."""
    known = {
        "id": "pipe", "name": "Conduit", "bore_mm": 25.0, "outside_mm": 30.0, "slots": [],
        "runs": [{"from_masthead_mm": 500.0, "to_mm": 16500.0, "bearing_deg": 90.0}],
    }  # fmt: skip
    return known | fields


def a_cable(id="cable-1", **fields):  # noqa: A002 - the model's own word
    """A new cable of 7 from the box into the pipe, its plug fitted afterwards."""
    known = {
        "id": id,
        "name": id,
        "fitting": "box-1",
        "outside_mm": 7.0,
        "plug_mm": 0.0,
        "conduit": "pipe",
        "new": True,
    }
    return Cable(**(known | fields))


ENTRY = a_fitting(in_hand=a_foot(entry={"across_mm": 0.0, "along_mm": -60.0, "diameter_mm": 10.0}))


@pytest.mark.parametrize(("slot_mm", "clear"), [(8060.0, True), (8109.9, True), (8110.5, False)])
def test_an_entry_is_level_with_a_slot(slot_mm, clear):
    """An entry 8060 from the masthead lies within a slot of 100 whose middle is at most 50 away."""
    mast = a_mast(conduits=[pipe(slots=[{"from_masthead_mm": slot_mm, "length_mm": 100.0}])])
    layout = a_layout(mast=mast, fittings=(ENTRY,), cables=(a_cable(),))
    assert (not found(layout, "cable/slot")) is clear


def test_slots_nobody_looked_for_are_not_checked():
    """Unknown slots ask for an inspection; an empty list says that someone looked and found none."""
    unlooked = a_layout(mast=a_mast(conduits=[pipe(slots=None)]), fittings=(ENTRY,), cables=(a_cable(),))
    assert [f.measure for f in found(unlooked, "cable/slot")] == ["conduit.slots"]
    none = a_layout(mast=a_mast(conduits=[pipe()]), fittings=(ENTRY,), cables=(a_cable(),))
    assert [f.standing for f in found(none, "cable/slot")] == ["caution"]


NEW_SLOTS = [
    (8060.0, 20.0, ["cable/slot-new"]),
    (8065.0, 10.0, ["cable/slot-new"]),  # at its very end
    (8065.1, 10.0, ["cable/slot"]),
    (8060.0, 8.0, ["cable/slot-new"]),  # a cable of 7 and a grommet of 1
    (8060.0, 7.9, ["cable/slot-new", "cable/slot-short"]),
]


@pytest.mark.parametrize(("slot_mm", "length_mm", "codes"), NEW_SLOTS)
def test_a_new_slot_is_planned_where_the_entry_is(slot_mm, length_mm, codes):
    """The entry at 8060 is level with it: a note to cut it, and it must let the cable through."""
    slots = [
        {"from_masthead_mm": 12000.0, "length_mm": 100.0},
        {"from_masthead_mm": slot_mm, "length_mm": length_mm, "new": True},
    ]
    layout = a_layout(mast=a_mast(conduits=[pipe(slots=slots)]), fittings=(ENTRY,), cables=(a_cable(),))
    findings = [
        f for code in ("cable/slot", "cable/slot-new", "cable/slot-short") for f in found(layout, code)
    ]
    assert [f.code for f in findings] == codes
    assert all(f.standing == ("note" if f.code == "cable/slot-new" else "caution") for f in findings)


@pytest.mark.parametrize(("ends_mm", "short_mm"), [(8080.0, None), (8065.0, -5.0)])
def test_no_slot_is_planned_beyond_the_conduits_end(ends_mm, short_mm):
    """A slot of 20 about 8060 reaches to 8070: a pipe that ends at 8065 is not there for 5 of it."""
    runs = [{"from_masthead_mm": 500.0, "to_mm": ends_mm, "bearing_deg": 90.0}]
    slots = [{"from_masthead_mm": 8060.0, "length_mm": 20.0, "new": True}]
    mast = a_mast(conduits=[pipe(slots=slots, runs=runs)])
    findings = found(a_layout(mast=mast, fittings=(ENTRY,), cables=(a_cable(),)), "cable/slot-past")
    assert [(f.standing, f.measured) for f in findings] == ([] if short_mm is None else [("fault", short_mm)])


def test_a_planned_slot_says_nothing_of_those_that_are_there():
    """Off the new slot, and nobody has looked for others: not checked, never "past the nearest"."""
    slots = [{"from_masthead_mm": 9000.0, "length_mm": 20.0, "new": True}]
    layout = a_layout(mast=a_mast(conduits=[pipe(slots=slots)]), fittings=(ENTRY,), cables=(a_cable(),))
    assert [(f.standing, f.measure) for f in found(layout, "cable/slot")] == [
        ("not checked", "conduit.slots")
    ]


@pytest.mark.parametrize(("bearing_deg", "hint"), [(0.0, "slot-through"), (90.0, "slot-outside")])
def test_how_a_new_slot_is_cut_hangs_on_where_the_conduit_lies(bearing_deg, hint):
    """Ahead, behind its entry, the drill goes on into it; abeam it must be slotted before it goes in."""
    runs = [{"from_masthead_mm": 500.0, "to_mm": 16500.0, "bearing_deg": bearing_deg}]
    slots = [{"from_masthead_mm": 8060.0, "length_mm": 20.0, "new": True}]
    mast = a_mast(conduits=[pipe(slots=slots, runs=runs)])
    layout = a_layout(mast=mast, fittings=(ENTRY,), cables=(a_cable(),))
    assert [f.hint for f in found(layout, "cable/slot-new")] == [hint]


@pytest.mark.parametrize(
    ("plug_mm", "standing"), [(0.0, None), (10.0, None), (23.0, "caution"), (None, "not checked")]
)
def test_a_plug_passes_its_entry_or_goes_on_after(plug_mm, standing):
    """A plug of 23 does not pass an entry of 10: fit it after the pull."""
    layout = a_layout(mast=a_mast(conduits=[pipe()]), fittings=(ENTRY,), cables=(a_cable(plug_mm=plug_mm),))
    assert [f.standing for f in found(layout, "cable/plug")] == ([standing] if standing else [])


@pytest.mark.parametrize(
    ("diameters", "percent"),
    [([10.3], None), ([8.0, 8.0, 8.0], None), ([9.0, 7.0, 7.0, 7.4, 7.0, 7.0], 53.0), ([14.0, 3.0], 32.8)],
)
def test_fill_is_the_squares_of_diameters_against_the_bore(diameters, percent):
    """NFPA 70 Chapter 9: 53 % one cable, 31 % two, 40 % more; 331.76 / 625 is 53.08 %, 205 / 625 32.8 %."""
    cables = tuple(a_cable(f"cable-{i}", outside_mm=d) for i, d in enumerate(diameters))
    findings = found(a_layout(mast=a_mast(conduits=[pipe()]), fittings=(ENTRY,), cables=cables), "cable/fill")
    assert [f.measured for f in findings] == ([pytest.approx(percent, abs=0.1)] if percent else [])


def entering(entry_mm=10.0, along_mm=-58.0, across_mm=0.0, on="box-1", outside_mm=7.0):
    """A new cable of 7 through an entry of 10 below a foot that ends 30 below its middle."""
    entry = {"across_mm": across_mm, "along_mm": along_mm, "diameter_mm": entry_mm}
    fittings = [a_fitting(in_hand=a_foot(entry=entry))]
    if on != "box-1":
        fittings.append(
            a_fitting(on, on="box-1", mount="top", from_masthead_mm=None, girth=None, in_hand=None)
        )
    cable = Cable(id="c", name="C", fitting=on, outside_mm=outside_mm, plug_mm=0.0, conduit="loose", new=True)
    kind = a_kind(mounts=[{"name": "top", "at": (0, 0, 120)}])
    return a_layout(kinds=(kind,), fittings=tuple(fittings), cables=(cable,))


@pytest.mark.parametrize(("entry_mm", "standing"), [(8.0, None), (7.9, "caution"), (6.9, "fault")])
def test_an_entry_is_sized_by_its_cable(entry_mm, standing):
    """A cable of 7 wants 8, with a grommet; through 6.9 it does not go (common practice, no source)."""
    findings = found(entering(entry_mm), "cable/entry")
    assert [f.standing for f in findings] == ([] if standing is None else [standing])


def test_a_cable_nobody_measured_is_asked_for():
    """No size, no entry."""
    assert [f.measure for f in found(entering(outside_mm=None), "cable/entry")] == ["cable.outside"]


LOOPS = [(-45.0, 0.0, True), (-44.9, 0.0, False), (50.0, 0.0, False), (10.0, 20.0, True)]


@pytest.mark.parametrize(("along_mm", "across_mm", "clear"), LOOPS)
def test_a_cable_enters_below_its_foot_in_a_loop(along_mm, across_mm, clear):
    """15 below the edge at 30, or under the foot; above it rain runs in (common practice, no source)."""
    assert (not found(entering(along_mm=along_mm, across_mm=across_mm), "cable/drip")) is clear


def test_what_stands_on_a_bracket_enters_by_the_brackets_foot():
    """The cable of the guest goes through its host's entry: too narrow there is said there."""
    findings = found(entering(6.0, on="box-2"), "cable/entry")
    assert [f.subjects for f in findings] == [("box-1", "c")]

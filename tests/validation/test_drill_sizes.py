"""The drills of resources/fasteners.toml against the tables they were read in."""

import tomllib

import pytest

from mastlayout.fastening.drill import drill_of
from mastlayout.model.kind import read_fastener
from mastlayout.resources import resources

TABLES = tomllib.loads((resources() / "fasteners.toml").read_text(encoding="utf-8"))
# ISO 273, clearance holes, medium series (H13), mm.
ISO_273_MEDIUM = {
    "M2": 2.4, "M2.5": 2.9, "M3": 3.4, "M3.5": 3.9, "M4": 4.5, "M5": 5.5, "M6": 6.6, "M7": 7.6, "M8": 9.0,
    "M10": 11.0, "M12": 13.5, "M14": 15.5, "M16": 17.5,
}  # fmt: skip
# ISO 261 coarse pitches, mm, as read beside the tap drills in the tables of an open CAD parts library.
COARSE_PITCH = {
    "M2": 0.4, "M2.5": 0.45, "M3": 0.5, "M4": 0.7, "M5": 0.8, "M6": 1.0, "M8": 1.25, "M10": 1.5, "M12": 1.75,
}  # fmt: skip
# Unified tap drills, mm: number, letter and fraction drills of the same library's table.
UNIFIED_TAP = {
    "#4-40": 2.261, "#6-32": 2.705, "#8-32": 3.454, "#10-24": 3.797, "#10-32": 4.039, "#12-24": 4.496,
    "1/4-20": 5.105, "5/16-18": 6.528, "3/8-16": 7.938, "7/16-14": 9.347, "1/2-13": 10.716,
}  # fmt: skip
# Unified clearance, the normal fit, mm, of the same library's table.
UNIFIED_CLEARANCE = {
    "#4": 3.264, "#6": 4.305, "#8": 4.978, "#10": 5.613, "1/4": 7.144, "5/16": 8.731, "3/8": 10.319,
    "1/2": 14.287,
}  # fmt: skip


def drill(words):
    """The drill of a fastener by its phrase."""
    return drill_of(read_fastener(words))


def test_clearance_holes_are_those_of_iso_273():
    """The medium series, each size of the table and none besides."""
    metric = {size: row["drill"] for size, row in TABLES["clearance"].items() if size.startswith("M")}
    assert metric == ISO_273_MEDIUM


@pytest.mark.parametrize("how", ["through", "nut", "clearance"])
@pytest.mark.parametrize(("size", "mm"), ISO_273_MEDIUM.items())
def test_a_bolt_passes_a_clearance_hole(size, mm, how):
    """Through bolt, nut and plain clearance all want the same hole."""
    assert drill(f"{size} {how}") == mm


@pytest.mark.parametrize(("size", "pitch"), COARSE_PITCH.items())
def test_a_tap_drill_is_the_diameter_less_the_pitch(size, pitch):
    """To the nearest drill: at most 0.05 above the difference, never below it."""
    least = float(size.removeprefix("M")) - pitch
    assert least - 1e-9 <= drill(f"{size} tapped") <= least + 0.05 + 1e-9
    assert TABLES["tap_drill"][size]["pitch"] == pitch


@pytest.mark.parametrize(("size", "mm"), UNIFIED_TAP.items())
def test_unified_tap_drills(size, mm):
    """As read, to a hundredth; the pitch is an inch over the threads of its name."""
    assert drill(f"{size} tapped") == pytest.approx(mm, abs=0.006)
    assert TABLES["tap_drill"][size]["pitch"] == pytest.approx(25.4 / int(size.split("-")[1]), abs=1e-4)


@pytest.mark.parametrize("thread", UNIFIED_TAP)
def test_unified_clearance_holes(thread):
    """By the screw's size, whatever its thread; sizes that were not read have none."""
    size = thread.split("-")[0]
    assert drill(f"{thread} through") == pytest.approx(UNIFIED_CLEARANCE.get(size), abs=0.006)


def test_the_table_says_which_sizes_were_not_read():
    """Taps and clearance holes were read in a publication; rivets and rivet nuts are from memory."""
    drills = ("tap_drill", "clearance", "rivet", "rivet_nut")
    standing = {name: {row["standing"] for row in TABLES[name].values()} for name in drills}
    assert standing == {
        "tap_drill": {"read"}, "clearance": {"read"}, "rivet": {"memory"}, "rivet_nut": {"memory"},
    }  # fmt: skip


@pytest.mark.parametrize("size", TABLES["rivet"])
def test_a_rivet_hole_is_a_little_larger_than_its_rivet(size):
    """From memory, so only what must be: 0.1 to 0.2 of room, and never more than the most allowed."""
    row = TABLES["rivet"][size]
    assert float(size) + 0.05 < row["drill"] <= row["most"] <= float(size) + 0.25
    assert drill(f"rivet {size}") == row["drill"]


@pytest.mark.parametrize("size", TABLES["rivet_nut"])
def test_a_rivet_nut_wants_more_than_its_thread(size):
    """From memory, so only what must be: wider than the thread by a millimetre, less than twice it."""
    thread = float(size.removeprefix("M"))
    assert thread + 1 < drill(f"{size} rivet nut") < 2 * thread

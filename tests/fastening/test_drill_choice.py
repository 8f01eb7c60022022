"""Which drill, which pilot, how deep."""

import pytest

from mastlayout.fastening.drill import depth_stop_mm, drill_mm, drill_of, pilot_mm
from mastlayout.geometry.holes import openings
from mastlayout.model.kind import Foot, read_fastener


@pytest.mark.parametrize(
    "words", ["cable", "weld", "none", "M30 through", "M7 tapped", "rivet 5.5", "M3 rivet nut"]
)
def test_what_no_table_has_is_not_known(words):
    """A cable's own entry, a weld, and sizes that are in no table."""
    assert drill_of(read_fastener(words)) is None


def test_a_diameter_that_was_given_holds():
    """A hole of 5.3 stays one, whatever its fastener's drill is; an entry has its own diameter only."""
    foot = Foot(
        seat="flat",
        across_mm=100.0,
        along_mm=60.0,
        holes=[
            {"across_mm": 0.0, "along_mm": 0.0, "fastener": "M6 tapped", "diameter_mm": 5.3},
            {"across_mm": 30.0, "along_mm": 0.0, "fastener": "M6 tapped"},
        ],
        entry={"across_mm": 0.0, "along_mm": 20.0, "diameter_mm": 12.0},
    )
    assert [drill_mm(opening) for opening in openings(foot)] == [5.3, 5.0, 12.0]


@pytest.mark.parametrize(("drill", "pilot"), [(9.0, 4.5), (6.8, 3.0), (6.5, 3.0), (5.0, 2.5), (3.3, 2.5)])
def test_a_pilot_is_half_the_drill(drill, pilot):
    """To half a millimetre below, at least 2.5."""
    assert pilot_mm(drill) == pilot


@pytest.mark.parametrize("drill", [9.1, 13.5, 2.5, 2.05, 1.6])
def test_a_hole_without_a_pilot(drill):
    """A step drill makes its own; a drill of 2.5 and less would fall into one of 2.5."""
    assert pilot_mm(drill) is None


@pytest.mark.parametrize(
    ("drill", "wall", "stop"),
    [(5.0, 3.9, 10), (4.9, 3.0, 9), (6.8, 3.4, 10), (13.5, 4.2, 13), (10.0, 3.0, 10)],
)
def test_the_stop_lets_the_point_through_and_little_more(drill, wall, stop):
    """Wall, a point of 0.3 of the drill, 4 to break through: 3.9 + 1.5 + 4 is 9.4, so 10."""
    assert depth_stop_mm(drill, wall) == stop

"""The wall's inner face in the section, against shapely's own moving in of an outline."""

import pytest
import shapely

from mastlayout.desk import Desk
from mastlayout.resources import demo_masts
from mastlayout.ui.section import plan
from mastlayout.ui.section.plan import inner_face, outline_of


def ring_of(name):
    """The section of an example, halfway up."""
    skin = Desk.open(demo_masts() / f"{name}.toml").scene.skin
    return skin.ring(skin.length_mm / 2)


@pytest.mark.parametrize("wall_mm", [2.5, 4.0, 12.0])
@pytest.mark.parametrize("name", ["sanderling", "whimbrel"])
def test_it_is_the_outline_moved_in(name, wall_mm):
    """Shapely rounds no corner that moves inwards, so both are the very same polygon."""
    ring = ring_of(name)
    ours = shapely.Polygon(inner_face(ring, wall_mm))
    theirs = shapely.Polygon(outline_of(ring)).buffer(-wall_mm)
    assert ours.symmetric_difference(theirs).area < 1e-3


def test_a_wall_that_leaves_no_hollow_has_no_face():
    """Thicker than half the section."""
    assert not len(inner_face(ring_of("whimbrel"), 500.0))


def test_only_a_wall_that_takes_corners_away_asks_for_shapely(monkeypatch):
    """What a start draws does without it; near the middle the corners of the sharp ends are gone."""
    asked = []
    monkeypatch.setattr(plan, "_moved_in", lambda _outline, wall_mm: asked.append(wall_mm))
    ring = ring_of("whimbrel")
    for wall_mm in (3.1, 60.1):
        inner_face(ring, wall_mm)
    assert asked == [60.1]

"""Bands beside the mast: at the rows of the heights that each sail sweeps, clear of the mast, and said."""

import itertools

import pytest
import shapely
from PySide6.QtCore import QRectF
from window_builder import a_window

from mastlayout.resources import demo_masts
from mastlayout.ui.elevation.bandnames import gear_of
from mastlayout.ui.elevation.bands import band_words, bands_of
from mastlayout.ui.lines import width_px
from mastlayout.ui.look import FIGURE

HALF_PX = 0.5
DEMOS = {"sanderling": 2, "turnstone": 3, "whimbrel": 5}


@pytest.fixture(params=DEMOS)
def canvas(request, qtbot, tmp_path):
    """The elevation of a demo mast in a window of 1920 by 1080."""
    window = a_window(qtbot, tmp_path)
    window.files.open(demo_masts() / f"{request.param}.toml")
    qtbot.waitUntil(lambda: window.arrangement is not None and window.arrangement.isVisible())
    made = window.arrangement.panels.elevation.canvas
    made.expected = DEMOS[request.param]
    return made


@pytest.mark.parametrize("view", ["starboard", "port", "ahead"])
def test_bands_stand_at_their_heights_beside_the_mast(canvas, view):
    """At three scales; none over another, none behind the mast at the first."""
    session = canvas.session
    session.look_from(view)
    found = bands_of(session.desk.scene.main)
    assert len(found) == canvas.expected
    first = canvas.span
    for factor in (1.0, 0.5, 3.0):
        canvas.show_span(first.zoomed(factor, 300.0))
        span = canvas.span
        middle = span.height_px / 2
        assert [seen.band for seen in canvas.bands.seen] == list(found)
        for seen in canvas.bands.seen:
            rows = [
                middle - (z - span.centre_z_mm) * span.scale for z in (seen.band.high_mm, seen.band.low_mm)
            ]
            assert [seen.bar.top(), seen.bar.bottom()] == pytest.approx(rows, abs=HALF_PX)
        bars = [seen.bar for seen in canvas.bands.seen]
        assert all(a.right() < b.left() for a, b in itertools.pairwise(bars))
    canvas.show_span(first)
    ring = session.desk.scene.skin.full
    sides = {"starboard": (ring.x.min(), ring.x.max()), "port": (-ring.x.max(), -ring.x.min())}
    low, high = sides.get(view, (-ring.y.max(), ring.y.max()))
    for seen in canvas.bands.seen:
        assert seen.bar.right() < first.x_px(float(low)) or seen.bar.left() > first.x_px(float(high))
        assert seen.bar.left() >= 0
        assert seen.bar.right() < first.room_px


def test_bands_are_told_in_words(canvas):
    """From the masthead, as heights are read, in the description of the view."""
    length = canvas.session.desk.scene.skin.length_mm
    said = canvas.accessibleDescription()
    scene = canvas.session.desk.scene
    for band in bands_of(scene.main):
        assert f"from {length - band.high_mm:.0f} to {length - band.low_mm:.0f} from the masthead." in said
        assert f"Swept by {band.sail.name}" in said


def test_a_recut_sail_shows_at_once(canvas):
    """The bands follow an edit of a sail."""
    session = canvas.session
    before = canvas.bands.seen[0].band
    sails = list(session.layout.sails)
    place = next(i for i, sail in enumerate(sails) if sail.id == before.sail.id)
    sails[place] = sails[place].but(lp_mm=sails[place].lp_mm * 0.7)
    session.edit(session.layout.but(sails=tuple(sails)), "Recut the genoa")
    # Its widths higher up are as they were measured: it is the foot that reaches less far aft.
    assert canvas.bands.seen[0].band.low_mm > before.low_mm
    session.undo.undo()
    assert canvas.bands.seen[0].band.low_mm == before.low_mm


def test_bands_are_told_apart_without_colour(canvas):
    """No two of one mast have the same pattern, and the key below names each by it."""
    seen = canvas.bands.seen
    assert len({one.pattern for one in seen}) == len(seen)
    key = canvas.window().arrangement.panels.elevation.key
    assert [entry.pattern for entry in key.entries[1:]] == [one.pattern for one in seen]
    assert [entry.words.split(":")[0] for entry in key.entries[1:]] == [one.band.sail.name for one in seen]
    assert all(entry.box.right() <= key.width() for entry in key.entries)
    assert seen[0].band.sail.name in key.accessibleDescription()
    tall = key.height()
    canvas.session.draw_sails(drawn=False)
    assert (tall > 0, key.height()) == (True, 0)


def test_the_mains_band_shows_its_head_in_each_reef(canvas):
    """As high as the layout says: measured from the masthead."""
    scene, (main,) = canvas.session.desk.scene, [s for s in canvas.bands.seen if s.band.sail.role == "main"]
    heads = [scene.skin.length_mm - reef.head_mm for reef in main.band.sail.reefs if reef.head_mm is not None]
    assert [canvas.span.y_px(z) for z in heads] == pytest.approx(list(main.reefs_px), abs=HALF_PX)
    assert heads


@pytest.mark.parametrize("view", ["starboard", "port", "ahead"])
def test_no_gear_is_drawn_over_a_name(canvas, view):
    """Every name that is written stands clear of spreaders, fittings and stays, wherever one looks."""
    session = canvas.session
    session.look_from(view)
    written = 0
    for z_mm in range(500, round(session.desk.scene.skin.length_mm), 1500):
        session.go_to(float(z_mm))
        gear = gear_of(session.desk.scene, canvas.span, view)
        for seen in canvas.bands.seen:
            if seen.name_px is not None:
                half = width_px(band_words(seen.band), FIGURE) / 2
                box = QRectF(seen.bar.right() + 1.0, seen.name_px - half, 13.0, 2 * half)
                written += 1
                assert not any(box.intersects(other) for other in gear.boxes)
                assert not any(crosses(line, box) for line in gear.lines)
    assert written or view != "ahead"


def crosses(line, box):
    """Whether a line comes into a box, by shapely."""
    way = shapely.LineString([line.p1().toTuple(), line.p2().toTuple()])
    return way.intersects(shapely.box(box.left(), box.top(), box.right(), box.bottom()))

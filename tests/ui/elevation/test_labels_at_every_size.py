"""The labels' own rectangles, measured: none over another or cut, no body under them, no leader crossed."""

import itertools

import pytest
from builders import a_fitting, a_kind, a_layout
from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QWidget

from mastlayout.desk import Desk
from mastlayout.documents.schedule.made import made_words
from mastlayout.model.fitting import AsBuilt
from mastlayout.resources import demo_masts
from mastlayout.ui.elevation.labelling import label_box, leader, number_box, says_made, words_box, words_in
from mastlayout.ui.elevation.labels import Label, more_words, placed_labels
from mastlayout.ui.elevation.panel import ElevationPanel
from mastlayout.ui.elevation.span import GUTTER_PX
from mastlayout.ui.look import LABEL, font, load_fonts
from mastlayout.ui.session import Session

# The elevation's column in a window of 1200x700, 1280x800, 1920x1080 and 3840x2160.
COLUMNS = [(562, 618), (642, 718), (694, 998), (1692, 2078)]


def crowded():
    """300 fittings over 16 m, several at each height, with long names."""
    fittings = tuple(
        a_fitting(
            f"box-{i}",
            tag=i + 1,
            name=f"Fitting number {i}, with a long name, {'PS'[i % 2]}",
            from_masthead_mm=400.0 + 160.0 * (i // 3),
            girth=f"bearing {i * 37 % 360}",
        )
        for i in range(300)
    )
    return a_layout(kinds=(a_kind(),), fittings=fittings)


@pytest.fixture(scope="module", params=["sanderling", "whimbrel", "turnstone", "300 fittings"])
def desk(request):
    """Each example, and a mast with 300 fittings; nothing here edits it."""
    if request.param == "300 fittings":
        return Desk(crowded())
    return Desk.open(demo_masts() / f"{request.param}.toml")


@pytest.fixture
def panel(desk, theme, qtbot):
    """The elevation of a layout."""
    load_fonts()
    around = QWidget()  # a child is laid out at once when its size is set
    around.resize(1800, 2100)
    made = ElevationPanel(Session(desk), theme, around)
    qtbot.addWidget(around)
    around.show()
    yield made
    around.hide()


def everywhere(panel):
    """Go down the mast, each view in both units, one thing in hand; yield the canvas at each stop."""
    session, length = panel.session, panel.session.desk.scene.skin.length_mm
    for view, units in itertools.product(("starboard", "port", "ahead"), ("metric", "inches")):
        session.look_from(view)
        session.write_in(units)
        for part in (0.98, 0.5, 0.1):
            session.pick(
                min(session.desk.scene.placed.values(), key=lambda p: abs(p.z_mm - part * length)).id
            )
            yield panel.canvas


def test_labels_at_every_size(panel):
    """In all views, both units, four sizes, at three places along the mast."""
    for canvas in everywhere(panel):
        boxes_keep_clear(canvas)
        words_stand_whole(canvas)
        leaders_never_cross(canvas)
        no_body_runs_under_the_labels(canvas)


def boxes_keep_clear(canvas):
    """Rows neither touch nor leave the canvas."""
    boxes = [label_box(canvas.span, placed) for placed in canvas.labels]
    assert boxes
    assert all(not a.intersects(b) for a, b in itertools.pairwise(boxes))
    assert boxes[0].top() >= 0
    assert boxes[-1].bottom() <= canvas.viewport().height()


def words_stand_whole(canvas):
    """Words and reading find room in their row, the first word at least."""
    for placed in canvas.labels:
        box, label = label_box(canvas.span, placed), placed.label
        words, room = words_in(label, box), words_box(box, label.reading)
        assert QFontMetricsF(font(LABEL, bold=label.in_hand)).horizontalAdvance(words) <= room.width()
        assert room.right() < number_box(box, label.reading).left()
        assert box.contains(number_box(box, label.reading))
        assert words.split()[0].rstrip(",…") == label.words.split()[0].rstrip(",")


def leaders_never_cross(canvas):
    """Bends in the gutter meet nowhere, but for two that leave one height."""
    bends = [QLineF(*leader(canvas.span, placed)[1:]) for placed in canvas.labels]
    for a, b in itertools.pairwise(bends):
        how, at = a.intersects(b)
        assert how != QLineF.IntersectionType.BoundedIntersection or at == a.p1() == b.p1()


def no_body_runs_under_the_labels(canvas):
    """What stands on the mast ends before the gutter, at the first scale."""
    placed = canvas.session.desk.scene.placed
    gear = [item.outline for name, item in canvas._fittings.items() if placed[name].on_mast]
    reach = max(float(outline.high[0]) for outline in gear)
    assert canvas.span.x_px(reach) <= canvas.span.room_px - GUTTER_PX


def test_what_is_in_hand_stands_level_with_its_thread():
    """Others give way, above and below it, each by its pitch."""
    labels = [Label(str(i), "clear", "x", "0", 0.0, 200.0 + i, in_hand=i == 2) for i in range(5)]
    rows, left_out = placed_labels(labels, 0.0, 400.0)
    assert not left_out
    assert [row.y for row in rows] == [202.0 - 46, 202.0 - 23, 202.0, 202.0 + 23, 202.0 + 46]


@pytest.mark.parametrize(("wide_px", "said"), [(400.0, "Eye, P, 1 of 4 drilled"), (140.0, "Eye, P")])
def test_a_label_says_what_is_drilled_where_it_finds_room(qapp, wide_px, said):
    """Else the sign of a drilled hole stands for it, and the name keeps its room."""
    load_fonts()
    label = Label("eye", "clear", "Eye, P", "13 300", 0.0, 0.0, made="1 of 4 drilled")
    box = QRectF(0.0, 0.0, wide_px, 20.0)
    assert words_in(label, box) == said
    assert says_made(label, box) is (said != "Eye, P")


MADE = [
    ({}, ""),
    ({"done": ("h1 marked",)}, ""),
    ({"done": ("h1 drilled",)}, "1 of 4 drilled"),
    ({"done": tuple(f"h{n} drilled" for n in (1, 2, 3, 4))}, "drilled"),
    ({"as_built": AsBuilt(from_masthead_mm=8001.0, by="Jo", day="2026-11-26")}, "as built"),
]


@pytest.mark.parametrize(("fields", "words"), MADE)
def test_what_of_a_fitting_is_made(fields, words):
    """A mark alone makes no hole; what was found elsewhere says so first."""
    placed = Desk(a_layout(fittings=(a_fitting(**fields),))).scene.placed["box-1"]
    assert made_words(placed) == words


def test_what_finds_no_room_is_said_by_state():
    """Ten rows of 23 px in 230: the quietest of twelve go, and the lowest row says so."""
    states = ["clear"] * 9 + ["caution", "note", "fault"]
    labels = [Label(str(i), state, "x", "0", 0.0, 100.0) for i, state in enumerate(states)]
    rows, left_out = placed_labels(labels, 0.0, 207.0)
    assert len(rows) == 9
    assert {row.label.state for row in rows} == {"clear", "caution", "note", "fault"}
    assert max(row.y for row in rows) <= 207.0 - 23.0
    assert more_words(left_out) == "+3 clear"
    assert more_words([]) == ""

"""The window within one run: a drag, a pan and a zoom against the frame they have to fit in."""

import os
import statistics
import subprocess
import sys
import time

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest
from how_long import turns
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from window import FRAMES, a_big_window, many, p99_ms

from mastlayout.ranges.two_ray import DISTANCES, SHIPS_M
from mastlayout.resources import demo_masts
from mastlayout.storage.reading import open_document

pytestmark = pytest.mark.benchmark
LARGEST = demo_masts() / "whimbrel.toml"
LIMITS_MS = [(40, 16.0), (300, 33.0)]


@pytest.fixture(params=LIMITS_MS, ids=lambda limit: f"{limit[0]} fittings")
def window(request, qapp, tmp_path):
    """A window on so many fittings, with what a frame may take."""
    made = a_big_window(tmp_path, many(request.param[0]))
    made.most_ms = request.param[1]
    yield made
    made.session.undo.setClean()
    made.close()
    made.deleteLater()


def judge(what, window, found_ms):
    """Say the figure beside its limit, and hold it to it."""
    print(f"\n{what}, {len(window.session.layout.fittings)} fittings: p99 {found_ms:.1f} ms"
          f" (at most {window.most_ms:.0f})")  # fmt: skip
    assert found_ms <= window.most_ms


def moved(canvas, at):
    """One move of the mouse with the button held, as the window system sends it."""
    where = QPointF(at)
    event = QMouseEvent(
        QMouseEvent.Type.MouseMove, where, canvas.viewport().mapToGlobal(where), Qt.MouseButton.NoButton,
        Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier,
    )  # fmt: skip
    QApplication.sendEvent(canvas.viewport(), event)


def test_a_drag_with_recheck_and_repaint(window):
    """The fitting in hand follows the mouse up and down; everything in the window follows it."""
    judge("drag", window, dragged_ms(window))


@pytest.mark.parametrize("name", ["hailer-1", "camera-1", "steaming-light"])
def test_a_drag_with_the_paths_on(name, qapp, tmp_path):
    """The largest example, its sails, lines and poles asked again with every move: more than 40 fittings."""
    layout = open_document(LARGEST).layout
    assert len(layout.fittings) >= 40
    window = a_big_window(tmp_path, layout)
    window.most_ms = 16.0
    window.session.pick(name)
    qapp.processEvents()
    judge(f"drag of {name} with the paths on", window, dragged_ms(window))
    window.session.undo.setClean()
    window.close()
    window.deleteLater()


def dragged_ms(window):
    """Drag what is in hand by its label; return p99 of the frames."""
    canvas = window.arrangement.panels.elevation.canvas
    label = next(placed for placed in canvas.labels if placed.label.in_hand)
    start = canvas.label_box(label).center().toPoint()
    QTest.mousePress(canvas.viewport(), Qt.MouseButton.LeftButton, pos=start)
    before = window.session.layout

    def frame(step):
        turn = step % 120
        moved(canvas, start + QPoint(0, turn if turn < 60 else 120 - turn))

    found = p99_ms(frame)
    assert window.session.layout is not before
    QTest.mouseRelease(canvas.viewport(), Qt.MouseButton.LeftButton, pos=start)
    return found


def test_the_range_page_while_a_fitting_is_dragged(window):
    """What each height gives follows every move along the mast: chart, dots, table and working."""
    window.toggle_heights()
    heights, session = window.heights, window.session
    QApplication.processEvents()
    held = next(one for one in session.layout.fittings if one.id == session.hand)
    others = session.layout.fittings

    def frame(step):
        to = held.but(from_masthead_mm=held.from_masthead_mm + 5.0 * (1 + step % 120))
        session.desk.show(session.layout.but(fittings=tuple(to if o.id == to.id else o for o in others)))
        session.z_mm = session.desk.scene.placed[to.id].z_mm
        start = time.perf_counter()
        heights.follow()
        QApplication.processEvents()
        spent.append(1000 * (time.perf_counter() - start))

    spent = []
    p99_ms(frame)
    spent.sort()
    found = spent[int(0.99 * len(spent))]
    print(f"\nrange page, {len(others)} fittings: middle {spent[len(spent) // 2]:.1f}, p99 {found:.1f} ms"
          f" (at most 16)")  # fmt: skip
    assert found <= 16.0


def test_the_range_page_of_a_reflector_by_its_processor_time(qapp, tmp_path):
    """The largest example's reflector along the mast: three ships over 2,000 distances each."""
    layout = open_document(LARGEST).layout
    window = a_big_window(tmp_path, layout)
    window.session.pick("reflector-1")
    window.toggle_heights()
    heights, session = window.heights, window.session
    qapp.processEvents()
    held, spent = next(one for one in layout.fittings if one.id == session.hand), []
    for step in range(FRAMES):
        to = held.but(from_masthead_mm=1000.0 + 20.0 * (step % 300))
        session.desk.show(layout.but(fittings=tuple(to if o is held else o for o in layout.fittings)))
        session.z_mm = session.desk.scene.placed[to.id].z_mm
        start = time.process_time()
        heights.follow()
        qapp.processEvents()
        spent.append(1000 * (time.process_time() - start))
        assert len(heights.echo.lanes) == len(SHIPS_M)
    assert DISTANCES == 2000
    spent.sort()
    found = spent[int(0.99 * FRAMES)]
    print(f"\nrange page of a reflector: middle {spent[FRAMES // 2]:.1f}, p99 {found:.1f} ms (at most 16)")
    window.session.undo.setClean()
    window.close()
    window.deleteLater()
    assert found <= 16.0


def test_a_pan(window):
    """The picture is pushed along the mast by its empty side."""
    canvas = window.arrangement.panels.elevation.canvas
    start = QPoint(6, 400)
    assert not canvas.thing_at(QPointF(start))
    QTest.mousePress(canvas.viewport(), Qt.MouseButton.LeftButton, pos=start)

    def frame(step):
        turn = step % 400
        moved(canvas, start + QPoint(0, 3 * (turn if turn < 200 else 400 - turn)))

    found = p99_ms(frame)
    QTest.mouseRelease(canvas.viewport(), Qt.MouseButton.LeftButton, pos=start)
    judge("pan", window, found)


def test_a_zoom(window):
    """The wheel with Control, in and out again."""
    canvas = window.arrangement.panels.elevation.canvas
    middle = QPointF(200.0, 400.0)

    def frame(step):
        turn = 30 if step % 60 < 30 else -30
        event = QWheelEvent(
            middle, canvas.viewport().mapToGlobal(middle), QPoint(), QPoint(0, turn),
            Qt.MouseButton.NoButton, Qt.KeyboardModifier.ControlModifier, Qt.ScrollPhase.NoScrollPhase, False,
        )  # fmt: skip
        QApplication.sendEvent(canvas.viewport(), event)

    judge("zoom", window, p99_ms(frame))


# The program as its own command starts it; the size is that of the bare window, as a window keeps it.
OURS = """
import gc, os, sys
from mastlayout.__main__ import main
gc.disable()  # as main does before it imports the window
import mastlayout.ui.window as shown
from PySide6.QtWidgets import QApplication

def paint(app):
    app.processEvents()
    (window,) = (w for w in app.topLevelWidgets() if isinstance(w, shown.MainWindow))
    assert window.arrangement.isVisible()
    window.repaint()
    app.processEvents()
    os._exit(0)

shown.FIRST_PX = 1920, 1080
QApplication.exec = paint
main(sys.argv[1:])
"""
BARE = """
import os
import pyqtgraph
from PySide6.QtWidgets import QApplication, QMainWindow

app = QApplication([])
window, view = QMainWindow(), pyqtgraph.GraphicsView()
window.setCentralWidget(view)
window.resize(1920, 1080)
window.show()
window.repaint()
app.processEvents()
os._exit(0)
"""


def whole_s(home, code, *words):
    """How long a whole process takes, byte code kept as an installed program keeps it."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    environment |= {"XDG_CONFIG_HOME": str(home), "XDG_DATA_HOME": str(home)}
    start = time.perf_counter()
    subprocess.run(
        [sys.executable, "-c", code, *words], check=True, env=environment, stderr=subprocess.DEVNULL
    )
    return time.perf_counter() - start


def test_start_to_first_painted_window(tmp_path):
    """With the largest demo against a bare window of that size, one after the other, some times."""

    def pair():
        return whole_s(tmp_path, OURS, str(LARGEST)), whole_s(tmp_path, BARE)

    pair()
    pairs = [pair() for _turn in range(turns(7, 3))]
    ratios = sorted(ours / bare for ours, bare in pairs)
    middle = statistics.median(ratios)
    took, bare = (statistics.median(pair[i] for pair in pairs) for i in (0, 1))
    print(f"\nstart: {took:.2f} s against {bare:.2f} s,"
          f" ratios {ratios[0]:.2f} to {ratios[-1]:.2f}, middle {middle:.2f} (at most 1.5)")  # fmt: skip
    assert middle <= 1.5

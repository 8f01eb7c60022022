"""A real window for measurements: a layout of so many fittings in it, and frames that are timed."""

import gc
import statistics
import time

from builders import a_layout, a_mast, a_spreader, a_stay
from how_long import turns
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication

from mastlayout.desk import Desk
from mastlayout.model.around import read_around
from mastlayout.model.fitting import Fitting
from mastlayout.storage.catalogue import catalogue
from mastlayout.ui.app import dress
from mastlayout.ui.theme import Theme
from mastlayout.ui.window import MainWindow

FRAMES, RUNS = turns(600, 200), turns(3, 1)
FACES = ("ahead", "bearing 90", "bearing 270", "44 to port of ahead")


def many(count):
    """A layout of fittings from the whole catalogue, spread evenly along the mast and round its front.

    Forty stand on a mast of 17 m, three hundred on one of 41 m: as close as things can be fitted.
    """
    length = max(17000.0, 1000.0 + 400.0 * count / 3)
    kinds = [kind for kind in catalogue().values() if kind.foot and not kind.guards]
    used = {kind.id: kind for kind in (kinds[i % len(kinds)] for i in range(count))}
    fittings = tuple(
        Fitting(
            id=f"{kinds[i % len(kinds)].id}-{i}",
            tag=i + 1,
            name=f"{kinds[i % len(kinds)].name} {i + 1}",
            kind=kinds[i % len(kinds)].id,
            from_masthead_mm=round(200 + i * (length - 600) / count, 1),
            girth=read_around(FACES[i % 4]),
            new=True,
            in_hand=kinds[i % len(kinds)].foot if i % 2 else None,
        )
        for i in range(count)
    )
    walls = [{"from_masthead_mm": float(z), "thickness_mm": 4.0} for z in range(0, round(length), 400)]
    pipe = {
        "id": "pipe", "name": "Conduit A", "bore_mm": 25.0, "outside_mm": 30.0,
        "runs": [{"from_masthead_mm": 500.0, "to_mm": length - 500, "bearing_deg": 315.0}],
    }  # fmt: skip
    return a_layout(
        mast=a_mast(length_mm=length, walls=walls, conduits=[pipe]), kinds=tuple(used.values()),
        fittings=fittings, spreaders=(a_spreader(),), stays=(a_stay(),),
    )  # fmt: skip


def a_big_window(folder, layout):
    """A window of 1920 by 1080 on a layout, painted once, its middle fitting in hand."""
    app = QApplication.instance()
    theme = Theme("light")
    dress(app, theme)
    window = MainWindow(theme, QSettings(str(folder / "s.ini"), QSettings.Format.IniFormat), folder)
    window.resize(1920, 1080)
    window.show()
    window.show_desk(Desk(layout))
    window.session.pick(layout.fittings[len(layout.fittings) // 2].id)
    for _turn in range(5):
        app.processEvents()
    return window


def p99_ms(frame):
    """Return the slowest 1 % of FRAMES frames in ms, the middle of RUNS; what is loaded stays frozen."""
    found = []
    for _run in range(RUNS):
        gc.collect()
        gc.freeze()
        times, cpu = [], time.process_time()
        for step in range(FRAMES):
            start = time.perf_counter()
            frame(step)
            QApplication.processEvents()
            times.append(1000 * (time.perf_counter() - start))
        gc.unfreeze()
        times.sort()
        own = 1000 * (time.process_time() - cpu) / FRAMES
        found.append(times[int(0.99 * FRAMES)])
        print(
            f"   median {times[FRAMES // 2]:.1f}, p99 {found[-1]:.1f}, slowest {times[-1]:.1f} ms;"
            f" processor {own:.1f} ms a frame"
        )
    return statistics.median(found)

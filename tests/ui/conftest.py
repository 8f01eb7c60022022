"""A window's pieces, offscreen: a session on a small layout, and a theme."""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import known
import pytest
from builders import a_fitting, a_foot, a_layout, a_mast, a_spreader, a_stay
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from mastlayout.desk import Desk
from mastlayout.ui import waiting
from mastlayout.ui.look import load_fonts
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme


@pytest.fixture(autouse=True)
def patient(monkeypatch):
    """Show no progress however slow the machine is; what is about progress says so itself."""
    monkeypatch.setattr(waiting, "PATIENCE_S", 60.0)


@pytest.fixture(autouse=True)
def shared(request, monkeypatch):
    """Check each example once; a test that is about that very check is marked ``anew``."""
    if request.node.get_closest_marker("anew") is None:
        known.share(monkeypatch)


@pytest.fixture(autouse=True)
def closed(qapp):
    """Delete the windows a test closed: no event loop runs here that would, and each keeps its scene."""
    yield
    let_go()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def let_go():
    """Let go of buttons that a test left down: the next press would go to what was pressed last."""
    held = QApplication.mouseButtons()
    for button in (Qt.MouseButton.LeftButton, Qt.MouseButton.RightButton):
        if held & button:
            rest = QWidget()
            rest.show()
            QTest.mouseRelease(rest, button)
            rest.close()
            rest.deleteLater()


@pytest.fixture
def session(qapp):
    """A session on a mast with three fittings, a conduit, a spreader and a forestay."""
    load_fonts()
    pipe = {
        "id": "pipe", "name": "Conduit A", "bore_mm": 25.0, "outside_mm": 30.0,
        "runs": [{"from_masthead_mm": 500.0, "to_mm": 16500.0, "bearing_deg": 315.0}],
    }  # fmt: skip
    fittings = (
        a_fitting(tag=1),
        a_fitting("box-2", tag=2, name="Hailer", from_masthead_mm=8300.0, girth="bearing 90"),
        a_fitting("box-3", tag=3, name="Horn", from_masthead_mm=8084.0, in_hand=a_foot(across_mm=90)),
    )
    return Session(
        Desk(
            a_layout(
                mast=a_mast(conduits=[pipe]), fittings=fittings, spreaders=(a_spreader(),), stays=(a_stay(),)
            )
        )
    )


@pytest.fixture
def theme(qapp):
    """The light theme."""
    return Theme("light")

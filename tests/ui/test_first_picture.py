"""What the first picture of a layout does without: held by what is loaded and made, never by time."""

import os
import subprocess
import sys

import pytest
from window_builder import a_window, whimbrel

from mastlayout.ui.app import begin

# Prints, when the window has been painted with the layout, every module in the order it was loaded.
PAINTED = """
import enum
import gc
import sys
from mastlayout.__main__ import main
from mastlayout.ui import app, window

def paint(qapp):
    qapp.processEvents()
    (shown,) = (one for one in qapp.topLevelWidgets() if isinstance(one, window.MainWindow))
    shown.grab()
    looked = sys.modules["__feature__"].pyside_feature_dict
    named = (f"named {one.__qualname__}" for one in gc.get_objects() if isinstance(one, enum.EnumType))
    print(shown.windowTitle(), *sys.modules, *(f"looked into {one}" for one in looked), *named, sep="\\n")
    shown.close()
    return 0

app.QApplication.exec = paint
sys.exit(main(sys.argv[1:]))
"""
ROOMS = (
    "start.page", "trestles.view", "measuring.joining", "catalogue.room", "pictures.views", "papers",
    "adding", "keys", "heights.dialog", "hand.properties", "hand.datums", "hand.height", "hand.foot",
    "findings.acts", "waiting",
)  # fmt: skip
OTHERS = (
    "checks.rules", "places", "storage.saving", "storage.partly", "storage.mistakes", "storage.lines",
    "ranges.heights", "ranges.reflector", "documents.rows", "arguments",
)  # fmt: skip
LIBRARIES = (
    "shapely",
    "pyqtgraph",
    "pint",
    "reportlab",
    "xlsxwriter",
    "ezdxf",
    "PySide6.QtSvg",
    "PySide6.QtPrintSupport",
    "tomllib",  # TOML is read by its compiled form
    "concurrent.futures",
    "difflib",
    "json",
)


@pytest.fixture(scope="module")
def loaded(tmp_path_factory):
    """The modules of a process that has painted the largest example, first loaded first."""
    folder = tmp_path_factory.mktemp("first")
    homes = {"XDG_CONFIG_HOME": str(folder / "config"), "XDG_DATA_HOME": str(folder / "data")}
    done = subprocess.run(
        [sys.executable, "-c", PAINTED, str(whimbrel(folder))],
        env=os.environ | homes | {"QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    title, *modules = done.stdout.splitlines()
    assert title == "Whimbrel[*] – mastlayout"
    return modules


@pytest.mark.parametrize("room", ROOMS)
def test_a_room_that_is_not_open_is_not_loaded(loaded, room):
    """It is imported when somebody opens it."""
    assert f"mastlayout.ui.{room}" not in loaded


@pytest.mark.parametrize("room", OTHERS)
def test_what_is_asked_later_is_not_loaded(loaded, room):
    """The rules are asked when the picture shows; places are looked for and files saved when wanted."""
    assert f"mastlayout.{room}" not in loaded


@pytest.mark.parametrize("library", LIBRARIES)
def test_a_library_that_paints_nothing_is_not_loaded(loaded, library):
    """Paper, pictures and rare units wait; the elevation needs Qt alone."""
    assert library not in loaded


def test_qt_reads_no_source_of_ours(loaded):
    """PySide6 takes down each module whose source it has looked into for its `__feature__`."""
    assert [line for line in loaded if line.startswith("looked into mastlayout")] == []
    assert "__feature__" in loaded


@pytest.mark.parametrize("seldom", ["QMessageBox.StandardButton", "QWizard.WizardStyle", "QMdiArea.ViewMode"])
def test_widgets_that_do_not_show_have_no_class_yet(loaded, seldom):
    """PySide6 makes a class, and each of its lists of choices, when one is named or has to be told apart."""
    assert f"named {seldom}" not in loaded
    assert "named QListView.Movement" in loaded


def test_the_panels_are_arranged_once(qtbot, tmp_path):
    """A wide window never makes the list of a narrow one, nor the views that are not shown."""
    window = a_window(qtbot, tmp_path)
    begin(window, whimbrel(tmp_path))
    assert window.arrangement.width_kind == "wide"
    assert window.arrangement.list is None
    assert window.trestles is None
    assert window.catalogue is None
    assert window.heights is None
    assert "measuring" not in vars(window)

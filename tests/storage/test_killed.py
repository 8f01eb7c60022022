"""A process killed while it saves, over and over: the file is always one whole layout."""

import os
import random
import signal
import subprocess
import sys
import time

import pytest
from builders import a_layout

from mastlayout.storage.reading import open_document
from mastlayout.storage.saving import save

SAVER = """
import sys
from pathlib import Path
from mastlayout.model.edits import change
from mastlayout.storage.reading import open_document
from mastlayout.storage.saving import save
document = open_document(Path(sys.argv[1]))
print("ready", flush=True)
for step in range(100000):
    layout = change(document.layout, "box-1", from_masthead_mm=float(1000 + step % 9000))
    document = save(layout, document.path, document)
"""


def killed(tmp_path, times):
    """Kill a saving process at random moments; return the heights that the file was found with."""
    path = tmp_path / "layout.toml"
    save(a_layout(), path)
    dice, heights = random.Random(1), set()
    for _time in range(times):
        process = subprocess.Popen([sys.executable, "-c", SAVER, str(path)], stdout=subprocess.PIPE)
        process.stdout.readline()
        time.sleep(dice.uniform(0.005, 0.06))
        process.send_signal(signal.SIGKILL)
        process.wait()
        heights.add(open_document(path).layout.fittings[0].from_masthead_mm)
    # A killed save may leave its unfinished copy; the next save a minute later takes it away.
    for part in tmp_path.glob(".*.part"):
        os.utime(part, (0, 0))
    document = open_document(path)
    save(document.layout, path, document)
    assert [p.name for p in tmp_path.iterdir()] == ["layout.toml"]
    return heights


def test_a_killed_save_leaves_a_whole_file(tmp_path):
    """Eight kills; the saving had got under way in most."""
    assert len(killed(tmp_path, 8)) > 2


@pytest.mark.full
def test_many_killed_saves_leave_whole_files(tmp_path):
    """The long form: three hundred kills."""
    assert len(killed(tmp_path, 300)) > 5

"""All papers of the largest demo: the processor's time, the memory, and the same bytes twice."""

import os
import statistics
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.benchmark
LARGEST = Path(__file__).parents[2] / "demo_masts" / "whimbrel.toml"


def printed(folder):
    """Print all papers into a folder; return seconds of CPU time, which no other process changes, and MB."""
    command = [sys.executable, "-m", "mastlayout", "papers", str(LARGEST), "--to", str(folder)]
    with Path(os.devnull).open("wb") as nowhere:
        child = os.posix_spawn(
            sys.executable,
            [*command, "--date", "2026-11-25"],
            {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"},
            file_actions=[(os.POSIX_SPAWN_DUP2, nowhere.fileno(), 1)],
        )
        _child, status, used = os.wait4(child, 0)
    assert os.waitstatus_to_exitcode(status) == 0
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def test_all_papers_of_the_largest_demo(tmp_path):
    """At most 3 s and 400 MB, templates, labels and cards for the chair with them; twice the same bytes."""
    printed(tmp_path / "warm")
    runs = [printed(tmp_path / str(turn)) for turn in range(3)]
    seconds, megabytes = statistics.median(run[0] for run in runs), max(run[1] for run in runs)
    files = {path.name: path.read_bytes() for path in (tmp_path / "warm").iterdir()}
    for turn in range(3):
        assert {path.name: path.read_bytes() for path in (tmp_path / str(turn)).iterdir()} == files
    print(f"\n{len(files)} papers: {seconds:.2f} s of CPU time (at most 3), {megabytes:.0f} MB (at most 400)")
    assert {name.split("-", 1)[1].split(".")[0] for name in files} >= {
        "chafe", "chair", "drill", "elevation", "findings", "labels", "lights", "measure", "mount", "order",
        "templates",
    }  # fmt: skip
    assert seconds <= 3.0
    assert megabytes <= 400.0

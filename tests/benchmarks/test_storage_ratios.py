"""Ratios of storage within one run: loading against tomllib, saving an edit of a layout that was read."""

import statistics
import time
import tomllib

import pytest
from builders import a_fitting, a_layout
from how_long import turns

from mastlayout.model.edits import change
from mastlayout.storage.reading import open_document
from mastlayout.storage.saving import as_new_file, save

pytestmark = pytest.mark.benchmark
RUNS = turns(7, 3)
FACES = ("ahead", "bearing 90", "bearing 270", "44 to port of ahead")


def many(count):
    """A layout of many fittings, spread along the mast."""
    return a_layout(
        fittings=tuple(
            a_fitting(
                f"box-{i}",
                from_masthead_mm=round(100 + i * 16800 / count, 1),
                girth=FACES[i % 4],
                in_hand=None,
            )
            for i in range(count)
        )
    )


def middle(work, runs=RUNS):
    """Return the median time of a piece of work."""
    times = []
    for _run in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def test_loading_two_thousand_fittings_against_tomllib(tmp_path):
    """Guards, validation and references take at most twice what tomllib alone takes."""
    path = tmp_path / "many.toml"
    path.write_bytes(as_new_file(many(2000)))
    text = path.read_text()
    ratio = middle(lambda: open_document(path)) / middle(lambda: tomllib.loads(text))
    print(f"\nload 2,000 fittings / tomllib: {ratio:.2f} (at most 3)")
    assert ratio <= 3.0


@pytest.mark.parametrize(("count", "most_s"), [(40, 0.1), (300, 0.5)])
def test_saving_one_edit(tmp_path, count, most_s):
    """One moved fitting among many, into the text that was read."""
    path = tmp_path / "many.toml"
    path.write_bytes(as_new_file(many(count)))
    document = open_document(path)
    edited = change(document.layout, "box-7", from_masthead_mm=1234.5)
    taken = middle(lambda: save(edited, path, document), turns(5, 3))
    print(f"\nsave one edit among {count}: {taken * 1000:.0f} ms (at most {most_s * 1000:.0f})")
    assert taken <= most_s

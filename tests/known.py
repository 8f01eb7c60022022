"""The example masts, read, built and checked once in a process: a test that looks at one is given those.

Layouts, scenes and reports are frozen, so no test can change what the next is given; ``unchanged``
holds all that was given against what is worked out anew, at the end of a run.
"""

from functools import cache
from pathlib import Path

from agreement import assert_same_report, assert_same_scene

from mastlayout import desk
from mastlayout.checks.report import Between, Report, check
from mastlayout.desk import Desk, first_report
from mastlayout.geometry.scene import Scene, build
from mastlayout.model.layout import Layout
from mastlayout.resources import demo_masts
from mastlayout.storage import reading
from mastlayout.storage.reading import Document, Reading, Stamp, read_data

_NAMES = {path.read_bytes(): path.stem for path in sorted(demo_masts().glob("*.toml"))}
_given: set[str] = set()


@cache
def document(name: str) -> Document:
    """The document of an example."""
    return _anew(name)


@cache
def report(name: str) -> Report:
    """The report of an example as its file has it, with its scene."""
    _given.add(name)
    return check(build(document(name).layout))


def reports() -> dict[str, Report]:
    """The report of each example."""
    return {name: report(name) for name in _NAMES.values()}


def a_desk(name: str) -> Desk:
    """A desk of one's own on an example, as ``Desk.open`` makes it."""
    made = Desk(document(name).layout, document(name), asked=False)
    made.scene, made.report = report(name).scene, report(name)
    return made


def share(monkeypatch) -> None:
    """Let each desk that opens an example, or a copy of its file, have what is known of it."""
    monkeypatch.setattr(reading, "read_data", _read)
    monkeypatch.setattr(desk, "build", _built)
    monkeypatch.setattr(desk, "first_report", _reported)


def unchanged() -> None:
    """Hold all that was given against what is worked out anew."""
    for name in _given:
        fresh = check(build(_anew(name).layout))
        assert report(name).scene.layout == fresh.scene.layout
        assert_same_scene(report(name).scene, fresh.scene)
        assert_same_report(report(name), fresh)


def _anew(name: str) -> Document:
    path = demo_masts() / f"{name}.toml"
    found = read_data(path.read_bytes(), path)
    assert found.document is not None
    assert not found.mistakes
    return found.document


def _read(data: bytes, path: Path, stamp: Stamp | None = None) -> Reading:
    name = _NAMES.get(data)
    if name is None:
        return read_data(data, path, stamp)
    return Reading(Document(path, data, document(name).layout, stamp))


def _built(layout: Layout, previous: Scene | None = None) -> Scene:
    name = _name_of(layout) if previous is None else None
    return report(name).scene if name else build(layout, previous)


def _reported(scene: Scene, between: Between | None = None) -> Report:
    name = _name_of(scene.layout)
    return report(name) if name and report(name).scene is scene else first_report(scene, between)


def _name_of(layout: Layout) -> str | None:
    return next((name for name in _NAMES.values() if document(name).layout is layout), None)

"""Recovery copies: what was on the desk a few seconds ago, kept apart from the owner's own file."""

from pathlib import Path

from mastlayout.errors import FileError
from mastlayout.frozen import dataclass
from mastlayout.model.layout import Layout
from mastlayout.storage.reading import read_layout

MOST_COPIES = 20
_ENDING = ".recovery.toml"
_MARK = "# recovery copy of "


@dataclass(frozen=True)
class Copy:
    """One recovery copy: the file it was made of, "" for a layout never saved, and the copy's own path."""

    original: str
    path: Path

    @property
    def writer(self) -> str:
        """The window that wrote it."""
        return self.path.name.removesuffix(_ENDING)


def write_copy(folder: Path, layout: Layout, original: Path | None, writer: str) -> Path:
    """Write a copy of a layout, in place of the writer's last; FileError if it fails."""
    import json  # noqa: PLC0415 - a start only looks for copies, and seldom finds one

    from mastlayout.storage.saving import as_new_file  # noqa: PLC0415 - as above
    from mastlayout.storage.writing import write_whole  # noqa: PLC0415 - as above

    folder.mkdir(parents=True, exist_ok=True)
    of = str(original.resolve()) if original else ""
    path = folder / f"{writer}{_ENDING}"
    head = f"{_MARK}{json.dumps(of)}\n".encode()
    write_whole(path, head + as_new_file(layout))
    for old in _copies(folder)[MOST_COPIES:]:
        old.unlink(missing_ok=True)
    return path


def find_copies(folder: Path) -> tuple[Copy, ...]:
    """Return the copies that can be read, newest first."""
    found = []
    for path in _copies(folder):
        try:
            original = _original(path)
            if read_layout(path).document is not None:
                found.append(Copy(original, path))
        except (FileError, OSError, ValueError):
            continue
    return tuple(found)


def discard(copy: Copy) -> None:
    """Take a copy away."""
    copy.path.unlink(missing_ok=True)


def _copies(folder: Path) -> list[Path]:
    if not folder.is_dir():
        return []
    return sorted(folder.glob(f"*{_ENDING}"), key=lambda path: -path.stat().st_mtime_ns)


def _original(path: Path) -> str:
    import json  # noqa: PLC0415 - as above

    with path.open(encoding="utf-8") as file:
        first = file.readline(5000)
    return str(json.loads(first.removeprefix(_MARK))) if first.startswith(_MARK) else ""

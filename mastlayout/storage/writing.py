"""Files written whole or not at all."""

import contextlib
import errno
import glob
import os
import secrets
import time
from collections.abc import Iterable
from pathlib import Path

from mastlayout.errors import FileError
from mastlayout.words import _

_PART = ".part"
# Another program's save may be under way: only what is older than this is litter.
_ABANDONED_S = 60.0
_WHY = {
    errno.ENOSPC: _("the disk is full: make room, or save elsewhere"),
    errno.EDQUOT: _("your share of the disk is full: make room, or save elsewhere"),
    errno.EACCES: _("its folder may not be written to: save elsewhere"),
    errno.EPERM: _("its folder may not be written to: save elsewhere"),
    errno.EROFS: _("its disk may only be read: save elsewhere"),
    errno.ENOENT: _("its folder is not there: make it, or save elsewhere"),
    errno.ENAMETOOLONG: _("its name is too long: take a shorter one"),
}


def write_whole(path: Path, data: bytes) -> None:
    """Put ``data`` in the place of the file at ``path``; where that fails the old file stays.

    A temporary file in the same folder is written, counted, flushed to the disk and renamed over
    the old one. A link stays a link: the file it leads to is written. Raises FileError.
    """
    try:
        target = path.resolve()
        if target.is_dir():
            raise FileError(_("{path} is a folder: name a file").format(path=path))
        _replace(target, data)
    except (OSError, RuntimeError, ValueError) as error:
        why = _WHY.get(getattr(error, "errno", None) or 0, str(error))
        raise FileError(
            _("{path} was not saved: {why} (what was there is unchanged)").format(path=path, why=why)
        ) from error


def write_each(folder: Path, files: Iterable[tuple[str, bytes]]) -> tuple[list[Path], list[FileError]]:
    """Write files into a folder, made where it is not there, each whole or not at all.

    One that cannot be written leaves the others alone: what was written, and why the rest was not.
    """
    make_folder(folder)
    written: list[Path] = []
    failed: list[FileError] = []
    for name, data in files:
        try:
            write_whole(folder / name, data)
            written.append(folder / name)
        except FileError as error:
            failed.append(error)
    return written, failed


def make_folder(folder: Path) -> None:
    """Make a folder where it is not there yet; FileError says why it cannot be."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(
            _("{folder} cannot be made a folder: {why}").format(
                folder=folder, why=error.strerror or str(error)
            )
        ) from error


def _replace(target: Path, data: bytes) -> None:
    temporary = target.parent / f"{_stem(target)}{secrets.token_hex(6)}{_PART}"
    try:
        _write(temporary, data)
        if target.exists():
            temporary.chmod(target.stat().st_mode & 0o7777)
        os.replace(temporary, target)  # noqa: PTH105 - the one call of this module that tests take over
    except BaseException:
        with contextlib.suppress(OSError):
            temporary.unlink(missing_ok=True)
        raise
    _flush_folder(target.parent)
    _clear_away(target)


def _stem(target: Path) -> str:
    """Return what the names of a file's unfinished copies begin with, short enough for any disk."""
    return f".{target.name[:60]}."


def _clear_away(target: Path) -> None:
    """Take away what a save that was killed a while ago left unfinished beside the file."""
    for part in target.parent.glob(f"{glob.escape(_stem(target))}*{_PART}"):
        with contextlib.suppress(OSError):
            if time.time() - part.stat().st_mtime > _ABANDONED_S:
                part.unlink()


def _write(path: Path, data: bytes) -> None:
    """Write a new file and flush it; a disk that takes less than it was given is an error."""
    with path.open("xb", buffering=0) as file:
        left = memoryview(data)
        while left:
            count = file.write(left)
            if not count:
                raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
            left = left[count:]
        os.fsync(file.fileno())
        if os.fstat(file.fileno()).st_size != len(data):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def _flush_folder(folder: Path) -> None:
    """Flush the new name to the disk, where the system lets a folder be opened at all."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)

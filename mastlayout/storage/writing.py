"""Files written whole or not at all."""

import contextlib
import glob
import os
import tempfile
import time
from pathlib import Path

from mastlayout.errors import FileError
from mastlayout.words import _

# Another program's save may be under way: only what is older than this is litter.
_ABANDONED_S = 60.0


def write_whole(path: Path, data: bytes) -> None:
    """Put ``data`` in the place of a file; where that fails the old file stays and FileError says why.

    A temporary file beside it is written, counted, flushed to disk and renamed over the old one.
    """
    path = Path(os.path.realpath(path))  # a link is kept, what it points to is written
    if path.is_dir():
        raise FileError(_("{path} is a folder: a file name is wanted").format(path=path))
    temporary = ""
    try:
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
        with os.fdopen(handle, "wb") as file:
            if file.write(data) != len(data):
                raise OSError(_("the disk took only a part"))  # noqa: TRY301 - it is cleaned up after like any other
            file.flush()
            os.fsync(file.fileno())
        os.chmod(temporary, path.stat().st_mode & 0o7777 if path.exists() else 0o644)  # noqa: PTH101 - a str path
        os.replace(temporary, path)  # noqa: PTH105 - the same
        _flush_folder(path.parent)
        _clear_away(path)
    except OSError as error:
        if temporary:
            with contextlib.suppress(OSError):
                Path(temporary).unlink(missing_ok=True)
        why = error.strerror or str(error)
        raise FileError(
            _("{path} could not be written: {why}; what was there before is unchanged").format(
                path=path, why=why
            )
        ) from None


def _clear_away(path: Path) -> None:
    """Take away what a save that was killed a while ago left unfinished beside the file."""
    for part in path.parent.glob(f".{glob.escape(path.name)}.*.part"):
        with contextlib.suppress(OSError):
            if time.time() - part.stat().st_mtime > _ABANDONED_S:
                part.unlink()


def _flush_folder(folder: Path) -> None:
    with contextlib.suppress(OSError):  # not every system lets a folder be flushed
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def make_folder(folder: Path) -> None:
    """Make a folder where it is not there yet; FileError says why it cannot be."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(
            _("{folder} cannot be made a folder: {why}").format(
                folder=folder, why=error.strerror or str(error)
            )
        ) from None

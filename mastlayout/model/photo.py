"""The name of a photo that lies beside the layout: a path inside the layout's own folder."""

from pathlib import PurePosixPath, PureWindowsPath
from typing import Annotated, Any

from pydantic import BeforeValidator

from mastlayout.errors import UnitError
from mastlayout.words import _

_KINDS = (".jpg", ".jpeg", ".png", ".webp", ".heic", ".gif")
_LONGEST = 240


def read_photo(typed: Any) -> Any:
    """Return a photo's name as it is kept, with forward strokes; UnitError where it is none.

    It names a file beside the layout or in a folder there: no path from the root, no drive, no way up.
    """
    if not isinstance(typed, str):
        return typed
    name = typed.strip().replace("\\", "/")
    path = PurePosixPath(name)
    outside = path.is_absolute() or PureWindowsPath(typed).drive or ".." in path.parts
    if not name or outside or len(name) > _LONGEST or not name.isprintable():
        words = _(
            "{typed} is no photo beside the layout: a file in the layout's own folder is allowed, "
            "such as “photos/13-2.jpg”, at most {most} letters"
        )
        raise UnitError(words.format(typed=repr(typed)[:60], most=_LONGEST))
    if path.suffix.lower() not in _KINDS:
        words = _("{typed} is no photo: its name must end in {kinds}")
        raise UnitError(words.format(typed=repr(typed)[:60], kinds=", ".join(_KINDS)))
    return str(path)


Photo = Annotated[str, BeforeValidator(read_photo)]

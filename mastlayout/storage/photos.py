"""Photos beside a layout: where they are, and what is said of one that cannot be shown."""

from collections.abc import Iterator
from pathlib import Path

from mastlayout.errors import FileError
from mastlayout.model.layout import Layout
from mastlayout.words import _

MOST_BYTES = 40_000_000


def photo_path(layout: Path | None, name: str) -> Path:
    """Return the file of a photo by its name in the layout; FileError says why it cannot be shown.

    Nothing outside the layout's own folder is opened, not through a link either.
    """
    if layout is None:
        raise FileError(_("The layout was never saved: a photo lies beside its file. Save it first."))
    folder = layout.parent.resolve()
    path = (folder / name).resolve()
    if not path.is_relative_to(folder):
        raise FileError(
            _("The photo {name} lies outside the layout's folder: copy it there.").format(name=name)
        )
    if not path.is_file():
        words = _("The photo {name} is gone: it is not in {folder}. Put it back, or name another.")
        raise FileError(words.format(name=name, folder=folder))
    if path.stat().st_size > MOST_BYTES:
        words = _("The photo {name} is larger than {most} MB: make it smaller.")
        raise FileError(words.format(name=name, most=MOST_BYTES // 1_000_000))
    return path


def photos_gone(layout: Layout, path: Path) -> Iterator[str]:
    """Yield one sentence for each photo of a layout's file that cannot be shown."""
    for fitting in layout.fittings:
        for built in (fitting.as_built, *fitting.holes_built):
            if built is not None and built.photo:
                try:
                    photo_path(path, built.photo)
                except FileError as error:
                    yield f"{fitting.name}: {error}"


def photo_name(layout: Path | None, chosen: Path) -> str:
    """Return the name a layout keeps of a photo; FileError where it does not lie beside the layout."""
    if layout is None:
        raise FileError(_("The layout was never saved: a photo lies beside its file. Save it first."))
    folder, path = layout.parent.resolve(), chosen.resolve()
    if not path.is_relative_to(folder):
        words = _("{name} does not lie in the layout's folder {folder}: copy it there first.")
        raise FileError(words.format(name=chosen.name, folder=folder))
    return path.relative_to(folder).as_posix()

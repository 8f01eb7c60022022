"""What stands under the picture of a view, and where it goes."""

import datetime as dt
from pathlib import Path

from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from mastlayout.errors import MastLayoutError
from mastlayout.frozen import dataclass
from mastlayout.storage.writing import write_whole
from mastlayout.ui.asks import Asks
from mastlayout.ui.panels import Panels
from mastlayout.ui.pictures.picture import image, picture
from mastlayout.ui.pictures.titles import title
from mastlayout.ui.session import Session
from mastlayout.ui.strip.things import from_masthead
from mastlayout.ui.theme import Theme
from mastlayout.words import _


@dataclass(frozen=True, eq=False)
class Shown:
    """A view as it shows now: its widget and its caption."""

    widget: QWidget
    name: str
    caption: str


def shown(session: Session, panels: Panels, view: str) -> Shown:
    """Return a view with its caption: the yacht, the view, the height in hand and the day."""
    widget = {
        "elevation": panels.elevation,
        "rig": panels.strip.rig,
        "section": panels.section.canvas,  # without the sails' picker and slider
        "skin": panels.skin,
    }[view]
    name = title(view)
    if view in ("elevation", "rig"):
        side = {"starboard": _("from starboard"), "port": _("from port"), "ahead": _("from ahead")}
        name = f"{name} {side[session.view]}"
    day = dt.date.today().isoformat()  # noqa: DTZ011 - the day on the wall of the shed is meant
    unit = _("mm") if session.units == "metric" else _("feet and inches")
    parts = (session.layout.boat.name, name, from_masthead(session, session.z_mm), unit, day)
    return Shown(widget, name, " · ".join(parts))


def save_picture(session: Session, panels: Panels, view: str, theme: Theme, asks: Asks, folder: Path) -> str:
    """Ask for a name and save a view; return the sentence that says what became of it."""
    taken = shown(session, panels, view)
    path = asks.file_to_save(folder / f"{taken.name.lower()}.png", _("Pictures (*.png *.svg)"))
    if path is None:
        return ""
    try:
        write_whole(path, picture(taken.widget, taken.caption, theme.colours, path.suffix.lower()))
    except MastLayoutError as error:
        asks.say(str(error))
        return ""
    return _("Saved as {path}").format(path=path)


def copy_picture(session: Session, panels: Panels, view: str, theme: Theme) -> str:
    """Put a view on the clipboard; return the sentence that says so."""
    taken = shown(session, panels, view)
    # An image and no data of our own: what Python made, Qt may still hold when Python has ended.
    QGuiApplication.clipboard().setImage(image(taken.widget, taken.caption, theme.colours))
    return _("{view} is on the clipboard").format(view=taken.name)

"""The panels of the window, made in one place."""

from dataclasses import dataclass
from importlib import import_module
from importlib.util import find_spec
from typing import cast

from mastlayout.ui.panel import Panel
from mastlayout.ui.session import Session
from mastlayout.ui.theme import Theme
from mastlayout.words import _


@dataclass(frozen=True)
class Panels:
    """One of each panel, in the order of the Tab key."""

    strip: Panel
    elevation: Panel
    hand: Panel
    section: Panel
    skin: Panel
    findings: Panel


def panels(session: Session, theme: Theme) -> Panels:
    """Make the panels of a session."""

    def made(module: str, name: str, title: str) -> Panel:
        if find_spec(f"mastlayout.ui.{module}") and find_spec(f"mastlayout.ui.{module}.panel"):
            return cast(
                "Panel", getattr(import_module(f"mastlayout.ui.{module}.panel"), name)(session, theme)
            )
        return Panel(session, theme, title)

    return Panels(
        made("strip", "StripPanel", _("On the mast")),
        made("elevation", "ElevationPanel", _("Elevation")),
        made("hand", "HandPanel", _("In hand")),
        made("section", "SectionPanel", _("Section from above")),
        made("skin", "SkinPanel", _("Skin unrolled")),
        made("findings", "FindingsPanel", _("Findings")),
    )

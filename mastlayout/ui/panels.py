"""The panels of the window, made in one place."""

from dataclasses import replace
from typing import TYPE_CHECKING

from mastlayout.frozen import dataclass
from mastlayout.ui.elevation.panel import ElevationPanel
from mastlayout.ui.elevation.span import Span
from mastlayout.ui.findings.panel import FindingsPanel
from mastlayout.ui.hand.panel import HandPanel
from mastlayout.ui.section.panel import SectionPanel
from mastlayout.ui.session import Session
from mastlayout.ui.skin.panel import SkinPanel
from mastlayout.ui.strip.panel import StripPanel
from mastlayout.ui.theme import Theme

if TYPE_CHECKING:
    from mastlayout.ui.catalogue.room import CatalogueRoom


@dataclass(frozen=True)
class Panels:
    """One of each panel, in the order of the Tab key."""

    strip: StripPanel
    elevation: ElevationPanel
    hand: HandPanel
    section: SectionPanel
    skin: SkinPanel
    findings: FindingsPanel


def panels(session: Session, theme: Theme) -> Panels:
    """Make the panels of a session."""
    strip, elevation = StripPanel(session, theme), ElevationPanel(session, theme)
    _join(strip, elevation)
    hand = HandPanel(session, theme)
    session.typing_wanted.connect(hand.begin_typing)
    hand.left.connect(elevation.canvas.setFocus)
    return Panels(
        strip,
        elevation,
        hand,
        SectionPanel(session, theme),
        SkinPanel(session, theme),
        FindingsPanel(session, theme),
    )


def catalogue_room(session: Session, theme: Theme, shown: Panels) -> "CatalogueRoom":
    """Make the catalogue of a session; what is dragged out of it is dropped on the views."""
    # Opened late or never: the first picture does not wait for it.
    from mastlayout.ui.catalogue.room import CatalogueRoom
    from mastlayout.ui.catalogue.targets import on_elevation, on_section, on_skin

    targets = (
        on_elevation(shown.elevation.canvas), on_section(shown.section.canvas), on_skin(shown.skin.canvas),
    )  # fmt: skip
    return CatalogueRoom(session, theme, targets)


def _join(strip: StripPanel, elevation: ElevationPanel) -> None:
    """Frame on the strip what the elevation shows, and let the strip move it."""
    canvas = elevation.canvas

    def frame(span: Span) -> None:
        strip.rig.set_span(span.low_z_mm, span.high_z_mm)

    def move(centre_z_mm: float) -> None:
        canvas.show_span(replace(canvas.span, centre_z_mm=centre_z_mm))

    canvas.span_changed.connect(frame)
    strip.rig.span_wanted.connect(move)
    frame(canvas.span)

"""The look: colours by role in light and dark, type sizes, spacing. One place for each number."""

from functools import cache
from typing import Literal

from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette

from mastlayout.frozen import dataclass
from mastlayout.resources import resources

Theme = Literal["light", "dark"]
FAMILY = "DejaVu Sans Condensed"

UNIT = 4
GAP = 2 * UNIT
MARGIN = 3 * UNIT
ROW, NARROW_ROW = 24, 22
LABEL_PITCH = 23
CORNER = 3


@dataclass(frozen=True)
class Colours:
    """Colours by role, as hex text; every word's colour is at least 4.5 : 1 on its ground."""

    ground: str
    window: str
    field: str
    ink: str
    second: str
    edge: str
    hair: str
    accent: str
    on_accent: str
    chosen: str
    mast: str
    shade: str
    foot: str
    body: str
    cloth_edge: str
    cloth: str
    cable: str
    tape: str
    tape_ink: str
    fault: str
    caution: str
    unknown: str
    note: str
    clear: str
    port: str
    starboard: str
    hole: str

    def __getitem__(self, role: str) -> QColor:
        return QColor(_colour(getattr(self, role)))  # a copy: some callers thin theirs


LIGHT = Colours(
    ground="FCFCFA",
    window="E9ECE8",
    field="FFFFFF",
    ink="182125",
    second="4B585D",
    edge="79868A",
    hair="DDE2DE",
    accent="005F6B",
    on_accent="FFFFFF",
    chosen="D2E6E6",
    mast="E4E9E9",
    shade="CBD3D4",
    foot="B9C6C8",
    body="FFFFFF",
    cloth_edge="658396",
    cloth="EAF0F3",
    cable="1567A3",
    tape="F5F2E2",
    tape_ink="2A2C24",
    fault="AD173E",
    caution="855000",
    unknown="5243A3",
    note="4B585D",
    clear="1F6A5C",
    port="AD173E",
    starboard="1F6A5C",
    hole="182125",
)
DARK = Colours(
    ground="14191C",
    window="1D2427",
    field="171D20",
    ink="E5EAE7",
    second="A6B2B5",
    edge="76858A",
    hair="293135",
    accent="62C6C9",
    on_accent="0B1315",
    chosen="1A4347",
    mast="2C363A",
    shade="3C484D",
    foot="4A5A5F",
    body="14191C",
    cloth_edge="6E8A9B",
    cloth="1B2429",
    cable="74B8EC",
    tape="25261F",
    tape_ink="DCD8C2",
    fault="FF9084",
    caution="EFB65A",
    unknown="B6AAFF",
    note="A6B2B5",
    clear="7BC79D",
    port="FF9084",
    starboard="7BC79D",
    hole="07090A",
)
THEMES: dict[Theme, Colours] = {"light": LIGHT, "dark": DARK}

# Pixel sizes: the hole's tag and reading on trestles, the height in hand, a name, then down to tape figures.
TRESTLE_TAG, TRESTLE_READING, HEIGHT, NAME, VALUE, BODY, LABEL, FIGURE = 92, 66, 34, 21, 15, 13, 12, 11
# Feet, inches and sixteenths take half as much room again as millimetres.
HEIGHT_INCHES = 24
# Line widths in pixels.
THICK, THIN, THREAD, IN_HAND, TYPICAL, STAY_LEAST, CABLE = 2.0, 1.0, 1.4, 2.4, 1.6, 1.2, 2.4
CLOTH_EDGE, CLOTH_PITCH = 2.4, 11.0


def load_fonts() -> None:
    """Make the family that paper and window share known to Qt."""
    for name in ("DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf"):
        QFontDatabase.addApplicationFont(str(resources() / "fonts" / name))


@cache
def _colour(digits: str) -> QColor:
    return QColor(f"#{digits}")


def font(size: int, *, bold: bool = False) -> QFont:
    """Return the family at a pixel size."""
    return QFont(_font(size, bold))


@cache
def _font(size: int, bold: bool) -> QFont:  # noqa: FBT001 - a cache takes what it is given
    made = QFont(FAMILY)
    made.setStretch(QFont.Stretch.SemiCondensed)
    made.setPixelSize(size)
    made.setBold(bold)
    return made


def qt_palette(colours: Colours) -> QPalette:
    """Return the palette of Qt's own controls."""
    palette = QPalette()
    roles = {
        QPalette.ColorRole.Window: "window",
        QPalette.ColorRole.WindowText: "ink",
        QPalette.ColorRole.Base: "field",
        QPalette.ColorRole.AlternateBase: "window",
        QPalette.ColorRole.Text: "ink",
        QPalette.ColorRole.Button: "field",
        QPalette.ColorRole.ButtonText: "ink",
        QPalette.ColorRole.Highlight: "chosen",
        QPalette.ColorRole.HighlightedText: "ink",
        QPalette.ColorRole.ToolTipBase: "field",
        QPalette.ColorRole.ToolTipText: "ink",
        QPalette.ColorRole.PlaceholderText: "second",
        QPalette.ColorRole.Link: "accent",
        QPalette.ColorRole.Mid: "edge",
        QPalette.ColorRole.Dark: "edge",
        QPalette.ColorRole.Light: "field",
        QPalette.ColorRole.Midlight: "hair",
        QPalette.ColorRole.Shadow: "edge",
    }
    for role, name in roles.items():
        palette.setColor(role, colours[name])
    for role in (QPalette.ColorRole.Text, QPalette.ColorRole.ButtonText, QPalette.ColorRole.WindowText):
        palette.setColor(QPalette.ColorGroup.Disabled, role, colours["edge"])
    return palette


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two hex colours (WCAG 2.1, relative luminance)."""
    high, low = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def _luminance(colour: str) -> float:
    channels = [int(colour[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

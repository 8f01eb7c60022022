"""The palettes' contrast, computed: relative luminance as the guidelines (WCAG 2.2) define it.

The least ratios are those of the guidelines: 4.5 for text (success criterion 1.4.3), 3 for what tells a
control or a state apart (1.4.11). Each pair is one that the program paints.
"""

import re

import pytest
from PySide6.QtGui import QColor

from mastlayout.ui.look import DARK, LIGHT, contrast, qt_palette
from mastlayout.ui.sheet import style_sheet
from mastlayout.ui.theme import Theme

TEXT, GRAPHIC = 4.5, 3.0
_STATES = ("fault", "caution", "unknown", "note", "clear")
# What is written or drawn, on which grounds, and how much at the least.
PAIRS = (
    (("ink", "second"), ("ground", "window", "field", "chosen", "mast", "cloth"), TEXT),
    (("accent",), ("ground", "window", "field", "chosen"), TEXT),
    (("on_accent",), ("accent",), TEXT),
    (_STATES, ("ground", "chosen", "field"), TEXT),
    (("cable",), ("ground", "mast"), TEXT),
    (("tape_ink",), ("tape",), TEXT),
    (("tape",), ("tape_ink",), TEXT),
    (("ink", "second", "fault"), ("tape",), TEXT),
    (("edge",), ("ground", "window", "field", "tape"), GRAPHIC),
    (("cloth_edge",), ("ground", "cloth"), GRAPHIC),
    (("ink",), ("shade", "foot", "body"), TEXT),
)


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_every_pair_that_is_painted_is_seen(colours):
    """Words, lines and states on each ground they stand on."""
    faint = [
        f"{over} on {ground}: {ratio:.2f}, least {least}"
        for overs, grounds, least in PAIRS
        for over in overs
        for ground in grounds
        if (ratio := contrast(getattr(colours, over), getattr(colours, ground))) < least
    ]
    assert faint == []


def test_the_ratio_is_that_of_the_guidelines():
    """Black on white is 21 : 1; #767676 is the lightest grey at 4.5 : 1 on white, as the guidelines say."""
    assert contrast("000000", "FFFFFF") == pytest.approx(21.0)
    assert contrast("767676", "FFFFFF") >= TEXT > contrast("777777", "FFFFFF")


@pytest.mark.parametrize("name", ["light", "dark"])
def test_words_of_the_style_sheet_are_seen_on_their_ground(qapp, name):
    """Each rule that sets both colours; what cannot be used now is exempt, as in the guideline."""
    sheet, faint = style_sheet(Theme(name)), []
    for selector, body in re.findall(r"([^{}]+)\{([^}]*)\}", sheet):
        ink = re.search(r"(?<![-\w])color: #(\w{6})", body)
        ground = re.search(r"background: #(\w{6})", body)
        if ink and ground and "disabled" not in selector and contrast(ink[1], ground[1]) < TEXT:
            faint.append(selector)
    assert faint == []


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_words_of_qts_own_controls_are_seen(qapp, colours):
    """The palette's pairs of text and ground."""
    palette = qt_palette(colours)
    role = palette.ColorRole
    pairs = (
        (role.WindowText, role.Window), (role.Text, role.Base), (role.ButtonText, role.Button),
        (role.HighlightedText, role.Highlight), (role.ToolTipText, role.ToolTipBase),
        (role.PlaceholderText, role.Base), (role.Link, role.Base), (role.Text, role.AlternateBase),
    )  # fmt: skip
    ratios = [contrast(*(QColor(palette.color(one)).name()[1:] for one in pair)) for pair in pairs]
    assert min(ratios) >= TEXT


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_the_ring_of_the_keys_is_seen_on_every_ground(colours):
    """Focus is told by the ring alone."""
    assert (
        min(contrast(colours.accent, getattr(colours, g)) for g in ("ground", "window", "field")) >= GRAPHIC
    )

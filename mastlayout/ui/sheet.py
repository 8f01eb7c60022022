"""The style sheet of the whole program: plain words, ticks and rings seen in the dark, dialogs, tooltips."""

from pathlib import Path

from mastlayout.ui.look import CORNER, GAP, MARGIN, UNIT, Colours
from mastlayout.ui.plainwords import NO_MARKUP
from mastlayout.ui.theme import Theme

_ICONS = Path(__file__).parent / "icons"


def style_sheet(theme: Theme) -> str:
    """Return the style sheet in the colours in force."""
    return NO_MARKUP + _indicators(theme) + _dialogs(theme) + _tooltips(theme.colours)


def scroll_bars(c: Colours) -> str:
    """Style scroll bars: a thin handle on the panel's ground, no arrows."""
    return (
        f"QScrollBar:vertical {{ background: #{c.ground}; width: 10px; margin: 0; border: none; }}"
        f"QScrollBar::handle:vertical {{ background: #{c.edge}; min-height: 24px;"
        f" border-radius: {CORNER}px; margin: 0 2px; }}"
        "QScrollBar::add-line, QScrollBar::sub-line { height: 0; }"
        "QScrollBar::add-page, QScrollBar::sub-page { background: none; }"
    )


def _indicators(theme: Theme) -> str:
    """Style ticks and rings: the style's own outline is darker than the ground, unseen in the dark."""
    c, shade = theme.colours, "dark" if theme.dark else "light"
    tick, dot = ((_ICONS / f"{name}-{shade}.svg").as_posix() for name in ("tick", "dot"))
    both = "QCheckBox::indicator{state}, QRadioButton::indicator{state}"
    return (
        both.format(state="")
        + f" {{ width: 14px; height: 14px; border: 1px solid #{c.edge}; background: #{c.field}; }}"
        + both.format(state=":checked")
        + f" {{ background: #{c.accent}; border-color: #{c.accent}; }}"
        + both.format(state=":focus")
        + f" {{ border: 2px solid #{c.accent}; width: 12px; height: 12px; }}"
        + f"QCheckBox::indicator {{ border-radius: {CORNER}px; }}"
        + "QRadioButton::indicator { border-radius: 8px; }"
        + f'QCheckBox::indicator:checked {{ image: url("{tick}"); }}'
        + f'QRadioButton::indicator:checked {{ image: url("{dot}"); }}'
        + "QCheckBox, QRadioButton { spacing: 8px; }"
    )


def _tooltips(c: Colours) -> str:
    return (
        f"QToolTip {{ background: #{c.field}; color: #{c.ink}; border: 1px solid #{c.edge};"
        f" padding: {UNIT // 2}px {UNIT}px; }}"
    )


def _dialogs(theme: Theme) -> str:
    c = theme.colours
    return (
        f"QDialog QPushButton {{ background: #{c.field}; color: #{c.ink}; border: 1px solid #{c.edge};"
        f" border-radius: {CORNER}px; padding: {UNIT + 2}px {MARGIN}px; }}"
        f"QDialog QPushButton:hover, QDialog QPushButton:focus {{ border-color: #{c.accent}; }}"
        f"QDialog QPushButton:default {{ background: #{c.accent}; color: #{c.on_accent}; }}"
        f"QDialog QPushButton:disabled {{ background: #{c.field}; color: #{c.edge}; }}"
        f"QDialog QLineEdit, QDialog QListWidget, QDialog QTableWidget {{ background: #{c.field};"
        f" border: 1px solid #{c.edge}; border-radius: {CORNER}px; }}"
        f"QDialog QLineEdit {{ padding: {UNIT}px {GAP}px; }}"
        f"QDialog QLineEdit:focus, QDialog QListWidget:focus {{ border-color: #{c.accent}; }}"
    )

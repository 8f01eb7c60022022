"""The look of the hand panel's fields: loud readings, quiet properties."""

from mastlayout.ui.look import CORNER, UNIT, Colours
from mastlayout.ui.sheet import scroll_bars


def sheet(c: Colours) -> str:
    """Return the style sheet in the colours in force."""
    return (
        f"QScrollArea, #inside {{ background: #{c.ground}; border: none; }}"
        f"QLabel {{ color: #{c.ink}; background: transparent; }}"
        f'QLabel[kind="label"], QLabel[kind="heel"], QLabel[kind="deck"], QLabel[kind="water"],'
        f' QLabel[kind="gooseneck"] {{ color: #{c.second}; }}'
        f'QLabel[kind="masthead"] {{ color: #{c.accent}; }}'
        f'QLabel[kind="unknown"] {{ color: #{c.unknown}; }}'
        f"QLabel#said {{ color: #{c.fault}; }}"
        f"QLineEdit {{ background: #{c.field}; color: #{c.ink}; border: 1px solid #{c.edge};"
        f" border-radius: {CORNER}px; padding: 0 {UNIT + 2}px; selection-background-color: #{c.chosen};"
        f" selection-color: #{c.ink}; }}"
        f'QLineEdit[kind="reading masthead"] {{ color: #{c.accent}; border: 2px solid #{c.accent}; }}'
        f'QLineEdit[kind="quiet"] {{ border: 1px solid #{c.hair}; padding: 0 {UNIT}px; }}'
        f"QLineEdit:hover {{ border-color: #{c.edge}; }}"
        f'QLineEdit:focus, QLineEdit[kind="quiet"]:focus {{ border: 2px solid #{c.accent}; }}'
        f'QLineEdit[kind="quiet"]:focus {{ padding: 0 {UNIT - 1}px; }}'
        f'QLineEdit[wrong="true"], QLineEdit[wrong="true"]:focus {{ border: 2px solid #{c.fault}; }}'
        f"QLineEdit:read-only {{ background: transparent; }}"
        f"QPushButton {{ background: #{c.field}; color: #{c.ink}; border: 1px solid #{c.edge};"
        f" border-radius: {CORNER}px; padding: 1px {2 * UNIT}px; }}"
        f"Opener {{ border-color: #{c.hair}; }}"
        f"QPushButton:hover, QPushButton:focus {{ border-color: #{c.accent}; }}"
        f"QPushButton:focus {{ border-width: 2px; padding: 0 {2 * UNIT - 1}px; }}" + scroll_bars(c)
    )

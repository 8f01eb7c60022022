"""The look of the findings: a quiet table, buttons that show whether they are in."""

from mastlayout.ui.look import CORNER, UNIT, Colours
from mastlayout.ui.sheet import scroll_bars


def sheet(c: Colours) -> str:
    """Return the style sheet in the colours in force."""
    return (
        f"QTableView {{ background: #{c.ground}; border: none; }}"
        f"QHeaderView {{ background: #{c.ground}; }}"
        f"QHeaderView::section {{ background: #{c.ground}; color: #{c.second}; border: none;"
        f" border-bottom: 1px solid #{c.edge}; padding: 2px {2 * UNIT}px 2px {UNIT}px; }}"
        f"QLabel {{ color: #{c.ink}; background: transparent; }}"
        f'QLabel[kind="label"] {{ color: #{c.second}; }}'
        f"QCheckBox {{ color: #{c.ink}; }}"
        f"QPushButton {{ background: #{c.field}; color: #{c.ink}; border: 1px solid #{c.edge};"
        f" border-radius: {CORNER}px; padding: 2px {2 * UNIT}px; }}"
        f'QPushButton[checkable="true"] {{ background: transparent; border-color: #{c.hair};'
        f" padding: 1px {UNIT}px; }}"
        f'QPushButton[checkable="true"]:checked {{ background: #{c.chosen}; }}'
        f"QPushButton:disabled {{ color: #{c.edge}; border-color: #{c.hair}; }}"
        f"QPushButton:hover, QPushButton:focus {{ border-color: #{c.accent}; }}" + scroll_bars(c)
    )

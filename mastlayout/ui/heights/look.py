"""The look of the window: quiet fields and a quiet table on the panels' ground."""

from mastlayout.ui.look import CORNER, UNIT, Colours


def sheet(c: Colours) -> str:
    """Return the style sheet in the colours in force."""
    return (
        f"QLabel {{ color: #{c.ink}; background: transparent; }}"
        f'QLabel[kind="label"] {{ color: #{c.second}; }}'
        f"QLabel#said {{ color: #{c.fault}; }}"
        f"QDialog QLineEdit {{ background: #{c.field}; color: #{c.ink}; border: 1px solid #{c.edge};"
        f" border-radius: {CORNER}px; padding: 0 {UNIT + 2}px; selection-background-color: #{c.chosen};"
        f" selection-color: #{c.ink}; }}"
        f"QDialog QLineEdit:focus {{ border: 2px solid #{c.accent}; }}"
        f'QDialog QLineEdit[wrong="true"] {{ border: 2px solid #{c.fault}; }}'
        f"QListWidget {{ background: #{c.ground}; border: none; color: #{c.ink}; }}"
        f"QListWidget::item:selected {{ background: #{c.chosen}; color: #{c.ink}; }}"
        f"QTabBar::tab {{ color: #{c.second}; background: transparent; padding: {UNIT}px {3 * UNIT}px;"
        f" min-width: {16 * UNIT}px; border: none; border-bottom: 2px solid transparent; }}"
        f"QTabBar::tab:selected {{ color: #{c.ink}; border-bottom: 2px solid #{c.accent}; }}"
        f"QTableView {{ background: #{c.ground}; border: none; }}"
        f"QTableView::item {{ padding: 0 {2 * UNIT}px; }}"
        f"QTableView::item:selected {{ background: #{c.chosen};"
        f" border: 1px solid #{c.accent}; }}"
        f"QHeaderView {{ background: #{c.ground}; }}"
        f"QHeaderView::section {{ background: #{c.ground}; color: #{c.second}; border: none;"
        f" border-bottom: 1px solid #{c.edge}; padding: 2px {2 * UNIT}px; }}"
    )

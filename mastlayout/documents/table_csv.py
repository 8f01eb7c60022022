"""A table as comma separated text."""

import csv
import io

from mastlayout.documents.tables import Cell, Table

# A spreadsheet program would run text that begins with one of these.
_RUNS = ("=", "+", "-", "@", "\t", "\r")


def table_csv(table: Table) -> str:
    """Return the table as lines ending in CR LF; text that a spreadsheet would run is put after a '."""
    store = io.StringIO()
    writer = csv.writer(store)
    writer.writerow(table.heads)
    writer.writerows([_safe(cell) for cell in row] for row in table.rows)
    return store.getvalue()


def _safe(cell: Cell) -> Cell:
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(_RUNS) else cell

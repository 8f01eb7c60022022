"""The rows as a spreadsheet: a sheet a table, nothing that a cell could run, the same bytes each time."""

import datetime as dt
import io
from collections.abc import Sequence

import xlsxwriter

from mastlayout.documents.tables import Cell, Table, widths

# A workbook carries a day of making; a fixed one keeps two printings of one plan identical.
_DAY = dt.datetime(2000, 1, 1, tzinfo=dt.UTC)


def spreadsheet(tables: Sequence[Table], title: str) -> bytes:
    """Return the tables as one workbook; text is text, whatever it begins with."""
    store = io.BytesIO()
    options = {
        "in_memory": True,
        "strings_to_formulas": False,
        "strings_to_urls": False,
        "strings_to_numbers": False,
    }
    with xlsxwriter.Workbook(store, options) as book:
        book.set_properties({"title": title, "author": "mastlayout", "created": _DAY.replace(tzinfo=None)})
        bold = book.add_format({"bold": True, "text_wrap": True, "valign": "top", "bottom": 1})
        plain = book.add_format({"text_wrap": True, "valign": "top"})
        for table in tables:
            sheet = book.add_worksheet(table.name)
            for column, width in enumerate(widths(table)):
                sheet.set_column(column, column, width)
            for row, cells in enumerate((table.heads, *table.rows)):
                for column, cell in enumerate(cells):
                    _write(sheet, row, column, cell, plain if row else bold)
            sheet.freeze_panes(1, 1)
            sheet.set_landscape()
            sheet.fit_to_pages(1, 0)
            sheet.repeat_rows(0)
            sheet.set_footer("&L&A&R&P / &N")
    return store.getvalue()


def _write(
    sheet: xlsxwriter.worksheet.Worksheet, row: int, column: int, cell: Cell, style: xlsxwriter.format.Format
) -> None:
    if cell is None:
        sheet.write_blank(row, column, None, style)
    elif isinstance(cell, str):
        sheet.write_string(row, column, cell, style)
    else:
        sheet.write_number(row, column, cell, style)

"""Spreadsheet and comma separated files: the rows, nothing that runs."""

import csv
import io
import re
import time
import zipfile
from dataclasses import replace

import openpyxl
import pytest
from sample_lists import PLAN
from sample_plan import HEAD, hailer

from mastlayout.documents.spreadsheet import spreadsheet
from mastlayout.documents.table_csv import table_csv
from mastlayout.documents.tables import Table, fittings_table, holes_table, tables
from mastlayout.geometry.frames import reading


def opened(of):
    """Read a workbook back."""
    return openpyxl.load_workbook(io.BytesIO(spreadsheet(of, "Test")))


def test_the_workbook_holds_the_four_tables_as_they_are():
    """Names, heads and every cell, empty ones empty."""
    book = opened(tables(PLAN))
    assert book.sheetnames == ["Drill", "Mount", "Findings", "Measure"]
    for table in tables(PLAN):
        head, *rows = book[table.name].iter_rows(values_only=True)
        assert head == table.heads
        assert [tuple(cell or None for cell in row) for row in rows] == [
            tuple(cell or None for cell in row) for row in table.rows
        ]


def test_a_hole_row_reads_as_it_is_printed():
    """13.4: 9703 from the masthead, 7597 from the heel, 17300; 44.0 to port, 227.0, 271.0."""
    heads, rows = holes_table(PLAN).heads, holes_table(PLAN).rows
    row = dict(zip(heads, next(row for row in rows if row[0] == "13.4"), strict=True))
    assert (row["from masthead, mm"], row["from heel, mm"], row["sum, mm"]) == (9703, 7597, 17300)
    assert row["round from forward centreline, mm"] + row["from track edge, mm"] == 271.0
    assert (row["side"], row["drill, mm"], row["drill, in"]) == ("port", 5.0, 0.197)
    assert "hole rules not checked: do not drill" in row["held because"]
    assert "conduit A" in row["held because"]
    assert row["drilled"] is None


def test_a_typical_foot_is_one_row_that_is_held():
    """Its centre, and why there is no more."""
    row = next(row for row in holes_table(PLAN).rows if row[0] == "12 centre")
    assert "offer up the part" in row[-1]


def test_inches_are_words_and_mm_are_numbers():
    """31-8 9/16 is no date and no fraction."""
    plan = replace(PLAN, head=replace(HEAD, units="inches", total=reading(0, 17300, "inches")))
    row = holes_table(replace(plan, drill=(hailer("inches"),))).rows[0]
    assert row[3:6] == ("31-8 9/16", "25-0 9/16", "56-9 1/8")
    assert "from masthead, ft-in" in holes_table(plan).heads


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@sum", "https://example.org", "007", "<b>&"])
def test_text_stays_text_in_a_cell(text):
    """No formula, no link, no number."""
    (cell,) = next(opened([Table("T", ("head",), ((text,),))])["T"].iter_rows(min_row=2))
    assert cell.value == text
    assert cell.data_type == "s"
    assert cell.hyperlink is None


@pytest.mark.parametrize("first", ["=", "+", "-", "@", "\t", "\r"])
def test_text_that_a_spreadsheet_would_run_is_quoted_in_csv(first):
    """A ' stands before it; numbers below nothing stay numbers."""
    (_head, row) = csv.reader(
        io.StringIO(table_csv(Table("T", ("a", "b"), ((f"{first}x", -1.5),))), newline="")
    )
    assert row == [f"'{first}x", "-1.5"]


def test_csv_holds_the_rows():
    """Read back, a line a hole and a line a fitting."""
    holes = list(csv.reader(io.StringIO(table_csv(holes_table(PLAN)), newline="")))
    assert len(holes) == 1 + 9 + 2
    fittings = list(csv.reader(io.StringIO(table_csv(fittings_table(PLAN)), newline="")))
    assert [row[2] for row in fittings[1:]] == [row.name for row in PLAN.mount]


def test_two_printings_are_the_same_bytes():
    """Seconds apart."""
    first = spreadsheet(tables(PLAN), "Test")
    time.sleep(1.1)
    assert spreadsheet(tables(PLAN), "Test") == first


def test_no_cell_is_a_formula():
    """The file holds no formula element at all."""
    with zipfile.ZipFile(io.BytesIO(spreadsheet(tables(PLAN), "Test"))) as book:
        sheets = [book.read(name).decode() for name in book.namelist() if name.startswith("xl/worksheets/")]
    assert len(sheets) == 4
    assert not any(re.search(r"<f[ >]", sheet) for sheet in sheets)

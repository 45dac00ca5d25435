"""Titles in a table of times are no formulas, break no row, and are read back as the titles that they are."""

import csv
import io

import pytest

from foldproof.recording.rows import read_rows, write_rows


@pytest.mark.parametrize("title", [
    "=1+1", "+2", "-3", "@x", "  =1", "\t=1", "a\n=1+1, b", '"=1"', "#x", "\uff1d1", "Plain",
])
def test_a_title_is_no_formula(title: str) -> None:
    text = write_rows(iter([("cut", "0:10", title, "")]))
    _, cells = csv.reader(io.StringIO(text, newline=""), skipinitialspace=True)
    assert not any(cell.lstrip().startswith(("=", "+", "-", "@", "\uff1d")) for cell in cells)
    (row,), findings = read_rows(text, "t.csv")
    assert findings == ()
    assert row.title.removeprefix("'") == " ".join(title.split())

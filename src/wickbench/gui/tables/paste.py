"""Cells copied from a spreadsheet: text with tabs between columns and line ends between rows."""

from __future__ import annotations

import csv
import io
from typing import Final

MOST_ROWS: Final = 500
MOST_COLUMNS: Final = 60


def cells_of(text: str) -> list[list[str]]:
    """Rows of cells; empty rows at the end are left out, quoted cells are taken apart.

    Args:
        text: as it stands on the clipboard.

    Returns:
        at most `MOST_ROWS` rows of at most `MOST_COLUMNS` cells.
    """
    lines = text.replace("\r\n", "\n").replace("\r", "\n").replace("\0", "")
    reader = csv.reader(io.StringIO(lines), delimiter="\t")
    try:
        rows = [row[:MOST_COLUMNS] for row, _ in zip(reader, range(MOST_ROWS), strict=False)]
    except csv.Error:
        rows = [line.split("\t")[:MOST_COLUMNS] for line in lines.split("\n")[:MOST_ROWS]]
    rows = [[cell.strip() for cell in row] for row in rows]
    while rows and not any(rows[-1]):
        rows.pop()
    return rows


def text_of(rows: list[list[str]]) -> str:
    """Text for the clipboard that a spreadsheet takes apart again."""
    out = io.StringIO()
    csv.writer(out, delimiter="\t", lineterminator="\n").writerows(rows)
    return out.getvalue()

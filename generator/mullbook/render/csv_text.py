"""Tables as CSV by RFC 4180, with text that a spreadsheet would run as a formula made plain."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from mullbook.render.tables import Cell, Table

# A spreadsheet reads a cell with such a beginning as a formula, or skips over the beginning to one.
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def defused(cell: str) -> str:
    """Text that no spreadsheet runs: an apostrophe is put before what looks like a formula.

    Apostrophes that already stand before one get another, so that `plain_again` is exact.

    >>> defused("=1+1"), defused("raw umber"), defused("'=1+1")
    ("'=1+1", 'raw umber', "''=1+1")
    """
    return f"'{cell}" if cell.lstrip("'").startswith(FORMULA_STARTS) else cell


def plain_again(cell: str) -> str:
    """The text before it was defused.

    >>> plain_again("'=1+1"), plain_again("'tis")
    ('=1+1', "'tis")
    """
    return cell[1:] if cell.startswith("'") and cell.lstrip("'").startswith(FORMULA_STARTS) else cell


def csv_text(table: Table, rows: Iterable[tuple[Cell, ...]]) -> str:
    """A table as CSV: a header with the units in it, CRLF line ends, an empty cell where nothing is known.

    Parameters: `table`, for the header; `rows`, cells in the order of its columns.
    Source: RFC 4180, section 2.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([each.name for each in table.columns])
    writer.writerows([defused(cell) if isinstance(cell, str) else cell for cell in row] for row in rows)
    return out.getvalue()

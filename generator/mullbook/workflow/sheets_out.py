"""Tables of a studio written into files: CSV, YAML or a spreadsheet, whole or not at all."""

from __future__ import annotations

import csv
import io
import json
import os
import re
import tempfile
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from mullbook.model.register import NUMBERS, Table
from mullbook.render.csv_text import defused
from mullbook.workflow.sheets import NUMBER

SWAPPED = str.maketrans(".,", ",.")
BOM = "\ufeff"
LOOKS_ESCAPED = re.compile("_(?=x[0-9A-Fa-f]{4}_)")


def _defused_cell(cell: str) -> str:
    """Text that no spreadsheet runs; a number with a sign is none."""
    return cell if NUMBER.fullmatch(cell.lstrip("'")) else defused(cell)


def swapped(table: Table) -> Table:
    """The table with points for commas and commas for points in its numbers. Twice is nothing."""
    places = {place for name, place in table.places.items() if name in NUMBERS}
    rows = tuple(
        tuple(
            cell.translate(SWAPPED) if place in places and NUMBER.fullmatch(cell) else cell
            for place, cell in enumerate(row)
        )
        for row in table.rows
    )
    return Table(table.header, rows)


def csv_bytes(table: Table, *, semicolon: bool = False) -> bytes:
    """A table as CSV by RFC 4180, with the mark that makes spreadsheets read it as UTF-8."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=";" if semicolon else ",", lineterminator="\r\n")
    writer.writerow([_defused_cell(each) for each in table.header])
    writer.writerows([_defused_cell(each) for each in row] for row in table.rows)
    return f"{BOM}{out.getvalue()}".encode()


def yaml_bytes(table: Table) -> bytes:
    """A table as YAML, every cell in quotes so that none turns into something else."""
    table = table.even
    lines = [f"columns: [{', '.join(map(_quoted, table.header))}]", "jars:"]
    for row in table.rows:
        held = [(name, cell) for name, cell in zip(table.header, row, strict=False) if cell]
        lines.append("  - {" + ", ".join(f"{_quoted(name)}: {_quoted(cell)}" for name, cell in held) + "}")
    if not table.rows:
        lines[1] = "jars: []"
    return ("\n".join(lines) + "\n").encode()


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def spreadsheet_bytes(sheets: Iterable[tuple[str, Table]]) -> bytes:
    """Tables as the sheets of one spreadsheet; text stays text, whatever it begins with.

    Raises `ModuleNotFoundError` where openpyxl is not installed.
    """
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font

    book = Workbook(write_only=True)
    for title, table in ((title, table.even) for title, table in sheets):
        sheet = book.create_sheet(title)
        sheet.freeze_panes = "A2"
        numbers = {place for name, place in table.places.items() if name in NUMBERS}

        def made(cell: str, number: bool, head: bool = False, sheet: Any = sheet) -> Any:
            form = _number_format(cell) if number else None
            made = WriteOnlyCell(sheet, value=float(cell) if form else _escaped(cell))
            if form:
                made.number_format = form
            else:
                made.data_type = "s"
            if head:
                made.font = Font(bold=True)
            return made

        sheet.append([made(each, False, True) for each in table.header])
        for row in table.rows:
            sheet.append([made(cell, place in numbers) if cell else None for place, cell in enumerate(row)])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _escaped(text: str) -> str:
    """Text whose carriage returns, and what looks like an escape of the format, come back as they were."""
    return LOOKS_ESCAPED.sub("_x005F_", text).replace("\r", "_x000D_")


def _number_format(cell: str) -> str | None:
    """The format under which a number comes back as it was written, or None where it would not."""
    whole = re.fullmatch(r"(?:0|[1-9]\d{0,9})(?:\.(\d{1,6}))?", cell)
    if whole is None:
        return None
    return f"0.{'0' * len(whole[1])}" if whole[1] else "0"


def write_whole(path: Path, content: bytes) -> None:
    """Write a file beside its place, then put it there: never half a file. Raises `OSError`."""
    handle, name = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
    new = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        new.chmod(path.stat().st_mode & 0o777 if path.exists() else 0o644)
        new.replace(path)
    except BaseException:
        new.unlink(missing_ok=True)
        raise

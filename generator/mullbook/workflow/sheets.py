"""Tables of a studio read from files: CSV, YAML or a spreadsheet, with the place of every cell."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any
from zipfile import BadZipFile

from mullbook.checks.schema import Schemas, check_shape
from mullbook.checks.studio import NO_SHEET
from mullbook.model.register import Table
from mullbook.render.csv_text import plain_again
from mullbook.text.cells import LONGEST, read_cells
from mullbook.text.problem import Place, Problem, mistake
from mullbook.text.screening import UNSEEN, decoded
from mullbook.text.yaml_text import Document, read_text

ENDINGS = (".csv", ".yaml", ".xlsx")
LARGEST = 50_000_000
NUMBER = re.compile(r"[+-]?\d+(?:[.,]\d+)?")
TRAILING = re.compile(r"0\.(0+)")
ESCAPED = re.compile("_x([0-9A-Fa-f]{4})_")
"""A character that the format of spreadsheets cannot hold as itself. Source: ECMA-376, ST_Xstring."""


@dataclass(frozen=True)
class Sheet:
    """A table as read from a file: where each cell stands, and what was wrong with the file."""

    table: Table
    place: Callable[[int, int | None], Place]
    """Place of a cell by row, the header being row 0, and column; of the whole row where that is None."""
    text: str = ""
    problems: tuple[Problem, ...] = ()


def read_sheet(path: Path, schemas: Schemas, shown: str | None = None) -> Sheet:
    """Read a table by the ending of its file. Problems, never an exception; no row is dropped.

    Parameters: `path`; `schemas`, for the form of a YAML file; `shown`, the path to report.
    """
    name = shown or str(path)
    ending = path.suffix.lower()
    if ending not in ENDINGS:
        hint = f"tables are read from files that end in {', '.join(ENDINGS)}"
        return _nothing(
            mistake(NO_SHEET, f"a table is not read from a file such as {path.name}", Place(name), hint)
        )
    try:
        if path.stat().st_size > LARGEST:
            return _nothing(mistake("MB102", "the file is too large for a table of jars", Place(name)))
        raw = path.read_bytes()
    except OSError as error:
        return _nothing(mistake("MB101", f"this file cannot be opened: {error.strerror}", Place(name)))
    if ending == ".xlsx":
        return _from_spreadsheet(raw, name)
    text = decoded(raw, name)
    if isinstance(text, Problem):
        return _nothing(text)
    return _from_csv(text, name) if ending == ".csv" else _from_yaml(text, name, schemas)


def _nothing(*problems: Problem) -> Sheet:
    place = problems[0].place
    return Sheet(Table((), ()), lambda _row, _column: place, problems=problems)


def _from_csv(text: str, name: str) -> Sheet:
    cells = read_cells(text, name)
    rows = [tuple(_plain_cell(each) for each in row.cells) for row in cells.rows]
    table = Table(rows[0], padded(rows[0], rows[1:])) if rows else Table((), ())
    return Sheet(table, cells.place, cells.text, cells.problems)


def padded(header: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> tuple[tuple[str, ...], ...]:
    """Rows made as long as the header; longer ones keep what they have."""
    return tuple((*row, *[""] * (len(header) - len(row))) for row in rows)


def _from_yaml(text: str, name: str, schemas: Schemas) -> Sheet:
    document = read_text(text, name)
    problems = (*document.problems, *check_shape(document, "register", schemas))
    if document.data is None or any(each.severity == "error" for each in problems):
        return Sheet(Table((), ()), lambda _row, _column: Place(name), document.text, problems)
    jars: list[dict[str, Any]] = document.data["jars"]
    named = [*document.data.get("columns", ()), *(key for jar in jars for key in jar)]
    header = tuple(dict.fromkeys(named))
    rows = tuple(tuple(_yaml_text(jar.get(column)) for column in header) for jar in jars)
    nested = tuple(
        mistake("MB203", f"`{key}` must be plain text", document.place(("jars", index, key)))
        for index, jar in enumerate(jars)
        for key, value in jar.items()
        if isinstance(value, dict | list)
    )
    return Sheet(Table(header, rows), _yaml_place(document, header), document.text, (*problems, *nested))


def _yaml_text(value: Any) -> str:
    if value is None:
        return ""
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


def _yaml_place(document: Document, header: tuple[str, ...]) -> Callable[[int, int | None], Place]:
    def place(row: int, column: int | None) -> Place:
        if row == 0:
            return document.place(("columns",), key=True)
        within = () if column is None or column >= len(header) else (header[column],)
        return document.place(("jars", row - 1, *within))

    return place


def _from_spreadsheet(raw: bytes, name: str) -> Sheet:
    try:
        from openpyxl import load_workbook
    except ImportError:
        hint = "install openpyxl, or save the table as CSV"
        return _nothing(
            mistake(NO_SHEET, "spreadsheets are read with a library that is missing", Place(name), hint)
        )
    try:
        book = load_workbook(io.BytesIO(raw), read_only=True, data_only=True)
        read = [tuple(_cell_text(each) for each in row) for row in book.worksheets[0].iter_rows()]
    except (BadZipFile, KeyError, ValueError, OSError, EOFError, IndexError, TypeError) as error:
        hint = "open it in the spreadsheet program and save it again as .xlsx"
        message = f"this spreadsheet cannot be read ({type(error).__name__})"
        return _nothing(mistake(NO_SHEET, message, Place(name), hint))
    wide = max((len(_trimmed(row)) for row in read), default=0)
    rows = [row[:wide] for row in read]
    numbers = [number for number, row in enumerate(rows, 1) if any(row)]
    held = [row for row in rows if any(row)]
    problems = tuple(_unfit(name, numbers, held))
    table = Table(held[0], padded(held[0], held[1:])) if held else Table((), ())
    return Sheet(table, lambda row, column: _sheet_place(name, numbers, row, column), problems=problems)


def _trimmed(row: tuple[str, ...]) -> tuple[str, ...]:
    while row and not row[-1]:
        row = row[:-1]
    return row


def _sheet_place(name: str, numbers: list[int], row: int, column: int | None) -> Place:
    """A spreadsheet has no lines: its row and column letters stand behind the name of the file."""
    letters = "" if column is None else _letters(column)
    number = numbers[row] if row < len(numbers) else 1
    return Place(f"{name}!{letters}{number}" if letters else f"{name}!{number}:{number}")


def _letters(column: int) -> str:
    """Letters of a spreadsheet's column, counted from 0.

    >>> _letters(0), _letters(26)
    ('A', 'AA')
    """
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def _unfit(name: str, numbers: list[int], rows: list[tuple[str, ...]]) -> Iterable[Problem]:
    for index, row in enumerate(rows):
        for column, cell in enumerate(row):
            unseen, long = UNSEEN.search(cell), len(cell) > LONGEST
            place = _sheet_place(name, numbers, index, column) if unseen or long else Place(name)
            if unseen:
                yield mistake("MB104", "this cell holds a character that cannot be seen", place, "retype it")
            if long:
                yield mistake("MB119", f"this cell holds more than {LONGEST} signs", place)


def _cell_text(cell: Any) -> str:
    """A spreadsheet's cell as the text a keeper would have written."""
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == datetime.min.time() else value.isoformat(" ")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, float):
        shown = TRAILING.fullmatch(str(cell.number_format))
        plain = f"{value:.0f}" if value.is_integer() else repr(value)
        longer = f"{value:.{len(shown[1])}f}" if shown else plain
        return longer if float(longer) == value else plain
    if isinstance(value, int) and not isinstance(value, bool):
        shown = TRAILING.fullmatch(str(cell.number_format))
        return f"{value:.{len(shown[1])}f}" if shown else str(value)
    return ESCAPED.sub(lambda each: chr(int(each[1], 16)), str(value))


def _plain_cell(cell: str) -> str:
    return cell if NUMBER.fullmatch(cell.lstrip("'")) else plain_again(cell)

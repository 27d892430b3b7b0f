"""The published tables as an SQLite database."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping
from typing import Any

from mullbook.render.tables import Cell, Column, Table

SQL_TYPES = {"number": "REAL", "integer": "INTEGER", "year": "INTEGER"}
PAGE_SIZE = 4096
ABOUT = "about"
COLUMNS = "columns"

Rows = Mapping[Table, list[tuple[Cell, ...]]]


def database(about: Mapping[str, Any], rows: Rows) -> bytes:
    """A database file with one table for each published table.

    Beside them stand `about` (version, edition, date checked) and `columns` (meaning and unit of each
    column). The bytes depend on the rows and on the SQLite library, on nothing else.

    Parameters: `about`, the head of the published catalogue; `rows` by table. Returns the file's content.
    """
    connection = sqlite3.connect(":memory:")
    try:
        connection.execute(f"PRAGMA page_size = {PAGE_SIZE}")
        with connection:
            for table, held in rows.items():
                connection.execute(_create(table))
                marks = ", ".join("?" * len(table.columns))
                connection.executemany(f"INSERT INTO {quoted(table.name)} VALUES ({marks})", held)
            connection.execute(f"CREATE TABLE {ABOUT} (name TEXT PRIMARY KEY, value TEXT NOT NULL)")
            connection.executemany(f"INSERT INTO {ABOUT} VALUES (?, ?)", _about(about))
            connection.execute(
                f'CREATE TABLE {COLUMNS} ("table" TEXT, "column" TEXT, unit TEXT, means TEXT NOT NULL,'
                ' PRIMARY KEY ("table", "column"))'
            )
            connection.executemany(f"INSERT INTO {COLUMNS} VALUES (?, ?, ?, ?)", _meanings(rows))
        return connection.serialize()
    finally:
        connection.close()


def quoted(name: str) -> str:
    """A name as an SQL identifier."""
    return '"' + name.replace('"', '""') + '"'


def _create(table: Table) -> str:
    lines = [_column(each) for each in table.columns]
    if table.key:
        lines.append(f"PRIMARY KEY ({', '.join(quoted(each) for each in table.key)})")
    lines += [
        f"FOREIGN KEY ({quoted(column)}) REFERENCES {quoted(other)} (id)" for column, other in table.refers
    ]
    # Without row numbers of its own a table needs no second tree for its key.
    return f"CREATE TABLE {quoted(table.name)} ({', '.join(lines)}){' WITHOUT ROWID' if table.key else ''}"


def _column(column: Column) -> str:
    return f"{quoted(column.name)} {SQL_TYPES.get(column.type, 'TEXT')}"


def _about(about: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    for name, value in about.items():
        if not isinstance(value, Mapping):
            yield name, str(value)


def _meanings(rows: Rows) -> Iterator[tuple[str, str, str | None, str]]:
    for table in rows:
        for column in table.columns:
            yield table.name, column.name, column.unit, column.means

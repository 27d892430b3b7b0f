"""The published tables as an SQLite database."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping
from typing import Any

from mullbook.render.tables import Cell, Column, Table

SQL_TYPES = {"number": "REAL", "integer": "INTEGER", "year": "INTEGER"}
PAGE_SIZE = 4096
ABOUT = "about"
WORDS = "words"
WORTH = 2000
"""Bytes of repeated text from which a column keeps places in `words` instead."""
COLUMNS = "columns"

Rows = Mapping[Table, list[tuple[Cell, ...]]]


def database(about: Mapping[str, Any], rows: Rows) -> bytes:
    """A database file with one table or view for each published table.

    Beside them stand `about` (version, edition, date checked) and `columns` (meaning and unit of each
    column). Text that a table says again and again stands once, in `words`: the table is then a view, its
    rows in a table of the same name with `_rows` behind it. One that others refer to stays a table. The bytes
    depend on the rows and on the SQLite library, on nothing else.

    Parameters: `about`, the head of the published catalogue; `rows` by table. Returns the file's content.
    """
    connection = sqlite3.connect(":memory:")
    try:
        connection.execute(f"PRAGMA page_size = {PAGE_SIZE}")
        with connection:
            words: dict[Cell, int] = {}
            referred = {other for table in rows for _, other in table.refers}
            for table, held in rows.items():
                often = set() if table.name in referred else _often(table, held)
                connection.execute(_create(table, often))
                marks = ", ".join("?" * len(table.columns))
                placed = (_placed(row, often, words) for row in held)
                connection.executemany(
                    f"INSERT INTO {quoted(_stored(table, often))} VALUES ({marks})", placed
                )
                if often:
                    connection.execute(_view(table, often))
            connection.execute(f"CREATE TABLE {WORDS} (id INTEGER PRIMARY KEY, text TEXT NOT NULL)")
            connection.executemany(f"INSERT INTO {WORDS} (text, id) VALUES (?, ?)", words.items())
            connection.execute(f"CREATE TABLE {ABOUT} (name TEXT PRIMARY KEY, value TEXT NOT NULL)")
            connection.executemany(f"INSERT INTO {ABOUT} VALUES (?, ?)", _about(about))
            connection.execute(
                f'CREATE TABLE {COLUMNS} ("table" TEXT, "column" TEXT, unit TEXT, means TEXT NOT NULL,'
                ' PRIMARY KEY ("table", "column"))'
            )
            connection.executemany(f"INSERT INTO {COLUMNS} VALUES (?, ?, ?, ?)", _meanings(rows))
        connection.execute("VACUUM")  # the rows of a key do not come in its order and leave pages half full
        return connection.serialize()
    finally:
        connection.close()


def quoted(name: str) -> str:
    """A name as an SQL identifier."""
    return '"' + name.replace('"', '""') + '"'


def _often(table: Table, held: list[tuple[Cell, ...]]) -> set[int]:
    """Places of the columns whose text repeats itself so much that it is better kept once."""
    kept_whole = {*table.key, *(column for column, _ in table.refers)}
    often = set()
    for place, column in enumerate(table.columns):
        if column.name in kept_whole or column.type in SQL_TYPES:
            continue
        texts = [len(str(row[place])) for row in held if row[place] is not None]
        once = {row[place] for row in held if row[place] is not None}
        if sum(texts) - 2 * len(texts) - sum(len(str(each)) for each in once) > WORTH:
            often.add(place)
    return often


def _placed(row: tuple[Cell, ...], often: set[int], words: dict[Cell, int]) -> tuple[Cell, ...]:
    return tuple(
        words.setdefault(cell, len(words) + 1) if place in often and cell is not None else cell
        for place, cell in enumerate(row)
    )


def _stored(table: Table, often: set[int]) -> str:
    return f"{table.name}_rows" if often else table.name


def _view(table: Table, often: set[int]) -> str:
    shown = (
        f"(SELECT text FROM {WORDS} WHERE id = {name}) AS {name}" if place in often else name
        for place, name in enumerate(quoted(each.name) for each in table.columns)
    )
    return (
        f"CREATE VIEW {quoted(table.name)} AS SELECT {', '.join(shown)} FROM {quoted(_stored(table, often))}"
    )


def _create(table: Table, often: set[int]) -> str:
    lines = [
        f"{quoted(each.name)} INTEGER REFERENCES {WORDS} (id)" if place in often else _column(each)
        for place, each in enumerate(table.columns)
    ]
    if table.key:
        lines.append(f"PRIMARY KEY ({', '.join(quoted(each) for each in table.key)})")
    lines += [
        f"FOREIGN KEY ({quoted(column)}) REFERENCES {quoted(other)} (id)" for column, other in table.refers
    ]
    # Without row numbers of its own a table needs no second tree for its key.
    rowless = " WITHOUT ROWID" if table.key else ""
    return f"CREATE TABLE {quoted(_stored(table, often))} ({', '.join(lines)}){rowless}"


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

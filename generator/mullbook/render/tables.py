"""The published catalogue as flat tables: what the CSV files, the database and the data package share."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

Cell = str | int | float | None
Record = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its name with the unit in it, and where its value stands in a record."""

    name: str
    path: tuple[str, ...]
    means: str
    type: str = "string"
    """`string`, `number`, `integer`, `year` or `date`, as a data package names them."""
    unit: str | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """One table: its columns, and where its records stand in the published catalogue."""

    name: str
    title: str
    kind: str
    columns: tuple[Column, ...]
    inside: tuple[str, ...] = ()
    """Path to the list inside each record of the kind; empty where the records themselves are the rows."""
    parent: str | None = None
    """Column that names the record a row of such a list belongs to."""
    key: tuple[str, ...] = ("id",)
    refers: tuple[tuple[str, str], ...] = ()
    """Columns that hold the id of a row of another table."""


def text(name: str, means: str, *path: str) -> Column:
    """A column of words; a list becomes one cell, its items joined by semicolons."""
    return Column(name, path or (name,), means)


def number(name: str, means: str, unit: str, *path: str) -> Column:
    """A column of numbers in one unit."""
    return Column(name, path, means, "number", unit)


def ends(name: str, suffix: str, means: str, unit: str, *path: str) -> tuple[Column, Column]:
    """Two columns, for the low and the high end of a range."""
    where = path or (name,)
    return (
        number(f"{name}_low{suffix}", f"{means}, low end", unit, *where, "low"),
        number(f"{name}_high{suffix}", f"{means}, high end; empty where it is open", unit, *where, "high"),
    )


def measured(name: str, suffix: str, means: str, unit: str) -> tuple[Column, ...]:
    """Four columns, for a quantity with its source and how well it is known."""
    return (
        *ends(name, suffix, means, unit),
        text(f"{name}_source", f"{means}: id of the source", name, "source"),
        text(f"{name}_basis", f"{means}: how well it is known", name, "basis"),
    )


ID = text("id", "Id of the entry; it never changes meaning")
NAME = text("name", "Usual name")
STATUS = text("hazard_status", "classified, searched-none-found or not-known; not-known: treat as hazardous")
STATEMENTS = text("hazard_statements", "Codes of the hazard statements")


def rows(table: Table, catalogue: Record) -> Iterator[tuple[Cell, ...]]:
    """The rows of a table.

    Parameters: `table`; `catalogue`, lists of records by kind. Yields one tuple of cells for each row, in
    the order of the columns.
    """
    for record in _records(table, catalogue):
        yield tuple(_cell(record, column) for column in table.columns)


def _records(table: Table, catalogue: Record) -> Iterator[Record]:
    for record in catalogue[table.kind]:
        if table.parent is None:
            yield record
        else:
            yield from ({**each, table.parent: record["id"]} for each in _at(record, table.inside))


def _at(value: Any, path: Iterable[str]) -> Any:
    """What stands at a path of keys; None as soon as nothing is there."""
    for key in path:
        if value is None:
            return None
        value = value[int(key)] if isinstance(value, list) else value[key]
    return value


def _cell(record: Record, column: Column) -> Cell:
    found = _at(record, column.path)
    if isinstance(found, list):
        return "; ".join(str(each) for each in found)
    checked: Cell = found
    return checked

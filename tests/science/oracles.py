"""Reads the tables of published values that the science is tested against."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from pathlib import Path

import pytest

FOLDER = Path(__file__).parent.parent / "oracles"
KNOWN = {"printed", "computed", "from-memory", "volume printed, density computed"}


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of one table; each must say what its value is and where it comes from."""
    with (FOLDER / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        read = list(csv.DictReader(file))
    for row in read:
        assert row["value_is"] in KNOWN, row
        assert row["source"], row
    return read


def cases(name: str) -> list[object]:
    """Return the rows as test cases, each called by its first column."""
    return [pytest.param(row, id=next(iter(row.values()))) for row in rows(name)]


def number(row: Mapping[str, str], column: str) -> float:
    """Return one cell as a number."""
    return float(row[column])

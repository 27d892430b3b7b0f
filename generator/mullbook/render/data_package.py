"""The description of the published files that data tools read (a Frictionless data package)."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from typing import Any

from mullbook.render.tables import Column, Table

Record = dict[str, Any]

LICENCE = {
    "name": "CC-BY-4.0",
    "title": "Creative Commons Attribution 4.0 International",
    "path": "https://creativecommons.org/licenses/by/4.0/",
}
ABOUT = (
    "Pigments, what they consist of, what is known of their hazards, and where to start with them in a "
    "binder. Every number is a range with its source and how well it is known. Hazard classes and control "
    "levels are worked out by rule: a draft, not a regulatory classification. What is not known is to be "
    "treated as hazardous. In the CSV files a text that a spreadsheet would take for a formula has an "
    "apostrophe put before it, and the items of a list are joined by semicolons."
)


def data_package(about: Mapping[str, Any], tables: Mapping[Table, bytes]) -> Record:
    """The data package of the published files.

    Parameters: `about`, the head of the published catalogue; `tables`, the CSV file of each table.
    Returns the descriptor. Source: Frictionless Data Package, version 1 (profile `tabular-data-package`
    for the tables).
    """
    return {
        "profile": "data-package",
        "name": "mullbook",
        "title": "Mullbook",
        "description": ABOUT,
        "version": about["version"],
        "checked": about["checked"],
        "edition": about["edition"],
        "licenses": [LICENCE],
        "resources": [
            *(_tabular(table, content) for table, content in tables.items()),
            {
                "profile": "data-resource",
                "name": "catalogue",
                "title": "The whole catalogue",
                "path": "catalogue.json",
                "format": "json",
                "mediatype": "application/json",
                "encoding": "utf-8",
                "jsonSchema": "schema/published.schema.json",
            },
            # No digest: its bytes depend on the SQLite library of the machine that built it.
            {
                "profile": "data-resource",
                "name": "database",
                "title": "The same tables as an SQLite database",
                "path": "mullbook.sqlite",
                "format": "sqlite",
                "mediatype": "application/vnd.sqlite3",
            },
        ],
    }


def resource(table: str) -> str:
    """The name of a table in a data package, which knows no underscores.

    >>> resource("first_aid")
    'first-aid'
    """
    return table.replace("_", "-")


def _tabular(table: Table, content: bytes) -> Record:
    schema: Record = {"fields": [_field(each) for each in table.columns], "missingValues": [""]}
    if table.key:
        schema["primaryKey"] = list(table.key)
    if table.refers:
        schema["foreignKeys"] = [
            {"fields": column, "reference": {"resource": resource(other), "fields": "id"}}
            for column, other in table.refers
        ]
    return {
        "profile": "tabular-data-resource",
        "name": resource(table.name),
        "title": table.title,
        "path": f"{table.name}.csv",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "dialect": {
            "delimiter": ",",
            "lineTerminator": "\r\n",
            "quoteChar": '"',
            "doubleQuote": True,
            "header": True,
        },
        "bytes": len(content),
        "hash": f"sha256:{hashlib.sha256(content).hexdigest()}",
        "schema": schema,
    }


def _field(column: Column) -> Record:
    field: Record = {"name": column.name, "type": column.type, "description": column.means}
    return field if column.unit is None else {**field, "unit": column.unit}

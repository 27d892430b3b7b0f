"""Every published data file, ready to be written: the same entries always give the same bytes."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from mullbook.derive.results import Derived
from mullbook.derive.stone_results import StoneTable
from mullbook.model.catalogue import Catalogue
from mullbook.render.bench_data import bench_data
from mullbook.render.compatibility import compatibility_data
from mullbook.render.csv_text import csv_text
from mullbook.render.data_package import data_package
from mullbook.render.database import database
from mullbook.render.find_data import find_rows, packed
from mullbook.render.published import published
from mullbook.render.published_hazards import hazard_records
from mullbook.render.published_practice import cause_records, statement_records, studio_test_records
from mullbook.render.stone_data import stone_data
from mullbook.render.table_list import (
    FAULTS,
    HAZARDS,
    PRACTICE,
    STUDIO_TESTS,
    TABLES,
)
from mullbook.render.table_shared import FIRST_AID, MIXTURE_RULES
from mullbook.render.tables import rows
from mullbook.render.tools import yours_names
from mullbook.render.wash_data import wash_data

FOLDER = "data"
SUMS = f"{FOLDER}/SHA256SUMS"
OWN_WORDS = frozenset({"x-message", "x-hint", "x-example"})


def data_files(
    catalogue: Catalogue, derived: Derived, schema_folder: Path, stone: StoneTable | None = None
) -> dict[str, str | bytes]:
    """The published data by path relative to the root of the site.

    Parameters: `catalogue` and what was `derived` from it; `schema_folder`, where VERSION and the JSON
    schemas stand; `stone`, the table of the stone check. Returns JSON with its script twin, the rows of the
    Find box, the figures of the tools, CSV, SQLite, schemas, the data package and the checksums; all as
    bytes, so that no platform's line ends can change what the checksums say.
    Raises `OSError` where the schemas cannot be read.
    """
    version = (schema_folder / "VERSION").read_text(encoding="utf-8").strip()
    whole = published(catalogue, derived, version)
    flat = flat_records(catalogue, derived, whole)
    held = {table: list(rows(table, flat)) for table in TABLES}
    tables = {table: csv_text(table, found).encode() for table, found in held.items()}
    text = catalogue_text(whole)
    package = data_package(whole["catalogue"], tables)
    files = {
        "catalogue.json": text.encode(),
        "catalogue.js": script("MULLBOOK_CATALOGUE", text.rstrip("\n")),
        "bench.js": script("MULLBOOK_BENCH", compact(bench_data(catalogue, derived))),
        "earths.js": script("MULLBOOK_EARTHS", compact(wash_data(catalogue))),
        "compatibility.js": script("MULLBOOK_COMPATIBILITY", compact(compatibility_data(catalogue, derived))),
        **({"stone.js": script("MULLBOOK_STONE", compact(stone_data(stone)))} if stone else {}),
        "yours.js": script("MULLBOOK_YOURS", compact(yours_names(catalogue, derived))),
        "find.js": script("MULLBOOK_FIND", compact(packed(find_rows(catalogue, derived)))),
        **{f"{table.name}.csv": content for table, content in tables.items()},
        "mullbook.sqlite": database(whole["catalogue"], held),
        **{f"schema/{path.name}": lean(path) for path in sorted(schema_folder.glob("*.schema.json"))},
        "datapackage.json": f"{compact(package)}\n".encode(),
    }
    placed = {f"{FOLDER}/{name}": content for name, content in files.items()}
    return {**placed, SUMS: checksums(files)}


def flat_records(catalogue: Catalogue, derived: Derived, whole: Mapping[str, Any]) -> dict[str, Any]:
    """All records that the tables are made of: those of the catalogue, and what only the tables hold.

    Parameters: `catalogue` and what was `derived` from it; `whole`, the published catalogue.
    """
    only_here = {
        **with_rules(hazard_records(catalogue, derived)),
        STUDIO_TESTS.kind: studio_test_records(catalogue),
        FAULTS.kind: cause_records(catalogue),
        PRACTICE.kind: statement_records(catalogue),
    }
    return with_first_aid({**whole, **only_here})


def with_first_aid(flat: Mapping[str, Any]) -> dict[str, Any]:
    """The records with the lines of first aid in a table of their own: few sets serve hundreds of jars."""
    numbers: dict[tuple[str, ...], int] = {}

    def numbered(pigment: dict[str, Any]) -> dict[str, Any]:
        lines = tuple(pigment["derived"]["first_aid"])
        number = numbers.setdefault(lines, len(numbers) + 1) if lines else None
        return {**pigment, "derived": {**pigment["derived"], "first_aid": number}}

    pigments = [numbered(each) for each in flat["pigments"]]
    sets = [{"id": number, "lines": list(lines)} for lines, number in numbers.items()]
    return {**flat, "pigments": pigments, FIRST_AID.kind: sets}


def with_rules(hazards: Iterable[Mapping[str, Any]]) -> dict[str, list[dict[str, Any]]]:
    """Hazard classes with the rules that gave them in a table of their own: few rules give hundreds."""
    numbers: dict[str, int] = {}
    rows = [
        {**each, "rule": numbers.setdefault(each["rule"], len(numbers) + 1) if each["rule"] else None}
        for each in hazards
    ]
    rules = [{"id": number, "rule": rule} for rule, number in numbers.items()]
    return {HAZARDS.kind: rows, MIXTURE_RULES.kind: rules}


def lean(schema: Path) -> bytes:
    """A schema without what is for those who edit it and for `mullbook check`: spaces, and its own words for
    each mistake, which no other program reads. Raises `OSError`, `ValueError`."""
    return f"{compact(_published(json.loads(schema.read_text(encoding='utf-8'))))}\n".encode()


def _published(node: Any) -> Any:
    if isinstance(node, list):
        return [_published(each) for each in node]
    if not isinstance(node, dict):
        return node
    return {key: _published(value) for key, value in node.items() if key not in OWN_WORDS}


def compact(value: object) -> str:
    """A value as JSON without spaces. Raises `ValueError` for what JSON has no number for."""
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def catalogue_text(whole: Mapping[str, Any]) -> str:
    """The catalogue as JSON with one record a line, so that two editions can be compared line by line."""
    parts = []
    for key, value in whole.items():
        lines = ",\n".join(compact(each) for each in value) if isinstance(value, list) else ""
        parts.append(f"{compact(key)}:" + (f"[\n{lines}\n]" if lines else compact(value)))
    return "{" + ",\n".join(parts) + "}\n"


def script(name: str, text: str) -> bytes:
    """JSON as a script that sets a global: a page opened from disk may load scripts but not data."""
    return f"window.{name} = {text};\n".encode()


def checksums(files: Mapping[str, bytes]) -> bytes:
    """Digests as `sha256sum` writes and checks them, run from the folder of the files."""
    lines = (f"{hashlib.sha256(content).hexdigest()}  {name}\n" for name, content in sorted(files.items()))
    return "".join(lines).encode()

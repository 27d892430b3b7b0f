"""The data files: one catalogue in many forms that agree, byte for byte the same each time."""

from __future__ import annotations

import csv
import hashlib
import io
import json
import sqlite3
from contextlib import closing
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.derive.results import Derived
from mullbook.model.catalogue import Catalogue
from mullbook.render.csv_text import FORMULA_STARTS, csv_text, defused, plain_again
from mullbook.render.data_files import catalogue_text, data_files, flat_records, script
from mullbook.render.database import WORTH, database
from mullbook.render.find_data import OFTEN, find_rows, packed
from mullbook.render.published import published
from mullbook.render.published_practice import cause_records, statement_records, studio_test_records
from mullbook.render.table_list import TABLES
from mullbook.render.tables import Table, rows, text
from mullbook.render.tools import yours_names
from tests.conftest import ROOT
from tests.render.small import small

SCHEMA = ROOT / "schema"
ASKED_FOR = [
    "catalogue.json",
    "catalogue.js",
    "find.js",
    "pigments.csv",
    "substances.csv",
    "limits.csv",
    "constituents.csv",
    "binders.csv",
    "additives.csv",
    "sources.csv",
    "practice.csv",
    "faults.csv",
    "studio_tests.csv",
    "binder_starts.csv",
    "mullbook.sqlite",
    "datapackage.json",
    "SHA256SUMS",
]
NO_FORMULA = st.text(st.characters(codec="utf-8", exclude_characters="\0"))


@pytest.fixture(scope="module")
def files() -> dict[str, bytes]:
    made = data_files(*small(), SCHEMA)
    return {path: content.encode() if isinstance(content, str) else content for path, content in made.items()}


@pytest.fixture(scope="module")
def whole() -> dict[str, Any]:
    return flat_records(*small(), published(*small(), "9.9.9"))


def read(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(content.decode(), newline="")))


def test_every_file_is_there(files: dict[str, bytes]) -> None:
    assert {f"data/{name}" for name in ASKED_FOR} <= set(files)
    schemas = {f"data/schema/{path.name}" for path in SCHEMA.glob("*.schema.json")}
    assert schemas
    assert schemas <= set(files)


def test_two_calls_give_the_same_bytes(files: dict[str, bytes]) -> None:
    assert data_files(*small(), SCHEMA) == files


def test_the_checksums_are_those_of_every_other_file(files: dict[str, bytes]) -> None:
    listed = dict(line.split("  ")[::-1] for line in files["data/SHA256SUMS"].decode().splitlines())
    assert listed == {
        path.removeprefix("data/"): hashlib.sha256(content).hexdigest()
        for path, content in files.items()
        if path != "data/SHA256SUMS"
    }


def test_the_scripts_hold_the_same_data(files: dict[str, bytes]) -> None:
    begin, end = b"window.MULLBOOK_CATALOGUE = ", b";\n"
    twin = files["data/catalogue.js"]
    assert twin.startswith(begin)
    assert json.loads(twin.removeprefix(begin).removesuffix(end)) == json.loads(files["data/catalogue.json"])


def test_a_script_never_writes_what_is_not_a_number() -> None:
    with pytest.raises(ValueError, match="JSON"):
        catalogue_text({"pigments": [{"density": float("nan")}]})
    assert script("X", "{}") == b"window.X = {};\n"


@pytest.mark.parametrize("table", TABLES, ids=lambda table: str(table.name))
def test_a_csv_file_reads_back(table: Table, files: dict[str, bytes], whole: dict[str, Any]) -> None:
    names = [column.name for column in table.columns]
    wanted = [
        dict(zip(names, ("" if cell is None else str(cell) for cell in row), strict=True))
        for row in rows(table, whole)
    ]
    found = [
        {key: plain_again(cell) for key, cell in row.items()} for row in read(files[f"data/{table.name}.csv"])
    ]
    assert found == wanted


def test_csv_text_is_kept_and_cannot_run(files: dict[str, bytes]) -> None:
    pigment = read(files["data/pigments.csv"])[0]
    assert pigment["aliases"] == "test-umber; PBr7; Umbra grünlich; -terre\nd'ombre"
    assert read(files["data/substances.csv"])[0]["name"] == "'=Clay"
    assert read(files["data/sources.csv"])[0]["title"] == 'A book, and "more"'


def test_columns_name_their_units() -> None:
    nameless = {"index", "pH", "1"}
    for table in TABLES:
        assert len({each.name for each in table.columns}) == len(table.columns)
        for column in table.columns:
            if column.unit and column.unit not in nameless:
                ending = "_" + column.unit.replace("/", "_per_")
                assert column.name.endswith((ending, "_fraction", "_percent")), column.name


def test_each_hazard_class_names_its_place(files: dict[str, bytes]) -> None:
    found = [
        (row["entry"], row["statement"], row["place"], row["standing"], row["basis"])
        for row in read(files["data/hazards.csv"])
    ]
    assert found == [
        ("test-umber", "H373", "EU", "worked-out", "calculated"),
        ("a-thickener", "H317", "EU", "supplier-consensus", "published"),
        ("umberite", "H372", "EU", "harmonised", "published"),
        ("umberite-compounds", "H372", "EU", "harmonised", "published"),
    ]


@given(NO_FORMULA)
def test_defusing_can_be_undone_and_stops_every_formula(cell: str) -> None:
    assert plain_again(defused(cell)) == cell
    assert not defused(cell).startswith(FORMULA_STARTS)


@given(st.lists(st.tuples(NO_FORMULA, st.none() | st.floats(allow_nan=False, allow_infinity=False))))
def test_any_text_survives_a_csv_file(cells: list[tuple[str, float | None]]) -> None:
    table = Table("t", "T", "t", (text("words", "words"), text("figure", "figure")))
    back = list(csv.reader(io.StringIO(csv_text(table, cells), newline="")))
    assert back[0] == ["words", "figure"]
    assert [(plain_again(words), figure) for words, figure in back[1:]] == [
        (words, "" if figure is None else repr(figure)) for words, figure in cells
    ]


def test_the_database_holds_as_many_rows_as_the_catalogue(
    files: dict[str, bytes], whole: dict[str, Any]
) -> None:
    with closing(sqlite3.connect(":memory:")) as connection:
        connection.deserialize(files["data/mullbook.sqlite"])
        count = {
            table.name: connection.execute(f'SELECT count(*) FROM "{table.name}"').fetchone()[0]
            for table in TABLES
        }
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
        name = connection.execute("SELECT name FROM substances WHERE id = 'clay'").fetchone()
    assert {kind: count[kind] for kind in whole["catalogue"]["counts"]} == whole["catalogue"]["counts"]
    assert count["constituents"] == sum(len(each["constituents"]) for each in whole["pigments"])
    assert count["binder_starts"] == sum(len(each["derived"]["binders"]) for each in whole["pigments"])
    assert count["limits"] == sum(len(each["limits"]) for each in whole["substances"])
    assert count["hazards"] == len(whole["hazards"])
    assert count["doses"] == sum(len(each["doses"]) for each in whole["additives"])
    assert name == ("=Clay",)


def test_the_data_package_describes_the_files(files: dict[str, bytes]) -> None:
    package = json.loads(files["data/datapackage.json"])
    for resource in package["resources"]:
        content = files[f"data/{resource['path']}"]
        if "schema" not in resource:
            continue
        assert resource["bytes"] == len(content)
        assert resource["hash"] == f"sha256:{hashlib.sha256(content).hexdigest()}"
        header = next(csv.reader(io.StringIO(content.decode(), newline="")))
        assert [field["name"] for field in resource["schema"]["fields"]] == header
        assert all(field["description"] for field in resource["schema"]["fields"])
        others = {each["reference"]["resource"] for each in resource["schema"].get("foreignKeys", ())}
        assert others <= {each["name"] for each in package["resources"]}


def test_practice_is_published_with_its_evidence(catalogue: Catalogue) -> None:
    """Each sentence, cause and test of the pages, so that anyone can count them anew."""
    said = statement_records(catalogue)
    pages = (*catalogue.guides, *catalogue.questions)
    assert {(each["kind"], each["entry"]) for each in said} == {(each.kind_name, each.id) for each in pages}
    assert all(each["source"] or each["basis"] == "common-practice" for each in said)
    assert all("{" not in each["say"] and "[" not in each["say"] for each in said)
    causes = cause_records(catalogue)
    assert len(causes) == sum(len(each.causes) for each in catalogue.faults)
    tests = {each["id"] for each in studio_test_records(catalogue)}
    assert tests == set(catalogue.studio_test)
    assert {each["test"] for each in causes if each["test"]} <= tests


def found_row(entry_id: str) -> dict[str, Any]:
    return next(row for row in find_rows(*small()) if row["id"] == entry_id)


def test_a_find_row_of_a_pigment() -> None:
    assert found_row("test-umber") == {
        "id": "test-umber",
        "url": "pigments/test-umber.html",
        "name": "Test umber",
        "kind": "pigment",
        "ci": ["PBr 7", "C.I. 77492"],
        "words": ["Umbra grünlich", "-terre\nd'ombre"],
        "cas": ["1313-13-9"],
        "formula": ["MnO2"],
        "hue": "brown",
        "family": "natural-earth",
        "level": "enclosed",
        "level_words": "Enclosed",
        "hex": "#3a2a1f",
        "binders": ["an-oil"],
        "elements": ["Mn"],
        "not_for": ["age-12-and-under"],
    }


def test_find_leads_a_cas_number_to_the_pigment_that_carries_it() -> None:
    assert found_row("umberite") == {
        "id": "umberite",
        "url": "substances/umberite.html",
        "name": "Umberite",
        "kind": "substance",
        "formula": "MnO2",
    }


def test_find_rows_leave_out_what_is_empty() -> None:
    assert all(value for row in find_rows(*small()) for value in row.values())


def test_find_rows_come_out_of_the_file_as_they_went_in() -> None:
    found = packed(find_rows(*small()))
    whole = [
        {
            "url": f"{row['kind']}s/{row['id']}.html",
            **({"level_words": found["levels"][row["level"]]} if "level" in row else {}),
            **row,
            **{key: [found[key][place] for place in row[key]] for key in OFTEN if key in row},
        }
        for row in found["rows"]
    ]
    assert whole == find_rows(*small())


def test_text_that_is_said_again_and_again_stands_once_in_the_database() -> None:
    table = Table("t", "T", "t", (text("said", "words"), text("once", "words")), key=())
    held = [("x" * WORTH if each % 2 else None, f"once {each}") for each in range(9)]
    with closing(sqlite3.connect(":memory:")) as connection:
        connection.deserialize(content := database({}, {table: held}))
        assert connection.execute('SELECT * FROM "t"').fetchall() == held
        assert connection.execute("SELECT text FROM words").fetchall() == [("x" * WORTH,)]
    assert content.count(b"x" * WORTH) == 1


def test_the_starts_of_a_page_follow_the_names_beside_them(catalogue: Catalogue, derived: Derived) -> None:
    """A pigment's page has grams alone, binder by binder; the names stand in a file of their own."""
    named = [each for each, _ in yours_names(catalogue, derived)["binders"]]
    assert named
    for found in derived.pigments.values():
        assert [each.binder for each in found.paint.binders] == named

"""A register goes out to a file and comes back with nothing lost, and a broken row is told, not dropped."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mullbook.checks.schema import Schemas, load_schemas
from mullbook.model.catalogue import Catalogue
from mullbook.model.register import COLUMNS, Table
from mullbook.model.studio import Room, Studio, Units
from mullbook.text.cells import read_cells
from mullbook.text.screening import UNSEEN
from mullbook.workflow.checking import catalogue_of, check_entries
from mullbook.workflow.registers import Register, register_of
from mullbook.workflow.sheets import Sheet, padded, read_sheet
from mullbook.workflow.sheets_out import csv_bytes, spreadsheet_bytes, swapped, yaml_bytes
from tests.conftest import ROOT

GOOD = ROOT / "tests" / "corpus" / "good"
STUDIO = Studio(name="Invented", rooms=(Room(id="store", name="Store", volume=20),))
FEW = settings(max_examples=60, deadline=None)


@cache
def schemas() -> Schemas:
    return load_schemas(ROOT / "schema")


@cache
def catalogue() -> Catalogue:
    return catalogue_of(check_entries(GOOD, schemas()))


# Characters nobody sees are refused when a table is read, so none is ever written.
SEEN = st.characters(exclude_categories=["Cs", "Cc", "Cn"]).filter(lambda sign: not UNSEEN.search(sign))
SIGNS = st.one_of(SEEN, st.sampled_from('\n\r\t",;=+-@\'"_x0D'))
CELLS = st.one_of(
    st.text(SIGNS, max_size=12),
    st.sampled_from(
        ["12,5", "1.250", "-3", "+44 1", "=1+1", "'=1", "''", "007", "_x000D_", "1e5", "", " a "]
    ),
)
NAMES = st.text(SEEN, min_size=1, max_size=8).filter(lambda name: name.strip() == name)


@st.composite
def tables(draw: st.DrawFn) -> Table:
    known = draw(st.lists(st.sampled_from(COLUMNS), unique=True, max_size=5))
    own = draw(st.lists(NAMES, unique=True, max_size=3))
    header = draw(st.permutations(["jar", *(each for each in known if each != "jar"), *own]))
    header = list(dict.fromkeys(header))
    rows = draw(st.lists(st.tuples(*([CELLS] * len(header))), max_size=5))
    # A row in which nothing stands is no row.
    return Table(tuple(header), tuple(row for row in rows if any(cell.strip() for cell in row)))


def back(content: bytes, ending: str, folder: Path) -> Sheet:
    path = folder / f"register{ending}"
    path.write_bytes(content)
    return read_sheet(path, schemas())


@given(table=tables(), semicolon=st.booleans())
@FEW
def test_csv_comes_back_as_it_went(
    table: Table, semicolon: bool, tmp_path_factory: pytest.TempPathFactory
) -> None:
    content = csv_bytes(table, semicolon=semicolon)
    read = back(content, ".csv", tmp_path_factory.mktemp("csv"))
    if len(table.header) > 1:  # of one column no delimiter can be told
        assert read.table == table
        assert read.problems == ()


@given(table=tables())
@FEW
def test_a_spreadsheet_comes_back_as_it_went(table: Table, tmp_path_factory: pytest.TempPathFactory) -> None:
    read = back(spreadsheet_bytes([("Register", table)]), ".xlsx", tmp_path_factory.mktemp("xlsx"))
    assert read.table == table
    assert read.problems == ()


@given(table=tables())
@FEW
def test_yaml_comes_back_as_it_went(table: Table, tmp_path_factory: pytest.TempPathFactory) -> None:
    read = back(yaml_bytes(table), ".yaml", tmp_path_factory.mktemp("yaml"))
    assert read.table == table
    assert read.problems == ()


@given(table=tables())
def test_a_decimal_mark_changed_twice_is_not_changed(table: Table) -> None:
    assert swapped(swapped(table)) == table


def test_a_decimal_comma_file_says_the_same() -> None:
    table = Table(("jar", "quantity", "price", "lot"), (("A", "12.5", "3.20", "1.5"),))
    assert swapped(table).rows == (("A", "12,5", "3,20", "1.5"),)


def test_no_spreadsheet_runs_what_stands_in_a_cell() -> None:
    content = csv_bytes(Table(("jar", "note"), (("=1+1", "@SUM(A1)"),))).decode()
    assert "\r\n'=1+1,'@SUM(A1)\r\n" in content


def register(text: str, decimal: str = "point") -> Register:
    cells = read_cells(text, "register.csv")
    rows = tuple(row.cells for row in cells.rows)
    sheet = Sheet(Table(rows[0], padded(rows[0], rows[1:])), cells.place, cells.text, cells.problems)
    studio = Studio(name="Invented", rooms=STUDIO.rooms, units=Units(decimal=decimal))
    return register_of(sheet, "register.csv", studio, catalogue(), schemas(), decimal=decimal)


@given(text=st.text(st.one_of(SEEN, st.sampled_from('\n\n,,,;"""\rjarpigment')), max_size=200))
@FEW
def test_whatever_is_written_into_a_register_no_row_is_dropped_and_nothing_breaks(text: str) -> None:
    found = register("jar,pigment,quantity,unit,note\n" + text)
    assert len(found.jars) == len(found.table.rows)
    told = {problem.place.span.line for problem in found.problems if problem.place.span}
    broken = [each for each in found.jars if not each.is_whole]
    assert not broken or told


def test_a_mistake_is_told_by_line_and_column() -> None:
    found = register(
        'note,jar,pigment,opened\n"two\nlines",A,invented-ochre,2026-01-01\n,B,Chalk,01.02.2026\n'
    )
    dated, named = sorted(found.problems, key=lambda each: each.code)
    assert (str(dated.place), dated.code) == ("register.csv:4:10", "MB207")
    assert (str(named.place), named.code) == ("register.csv:4:4", "MB841")
    assert [each.is_whole for each in found.jars] == [True, False]


@pytest.mark.parametrize(
    ("cell", "decimal", "value"),
    [
        ("12.5", "point", 12.5),
        ("12,5", "point", 12.5),
        ("12,5", "comma", 12.5),
        ("1.250", "point", 1.25),
        ("1,250", "comma", 1.25),
        ("1,250", "point", None),  # a thousand, or a comma before decimals?
        ("1.250", "comma", None),
        ("0,5", "point", 0.5),
        ("12.5 g", "point", None),
        ("-3", "point", None),
    ],
)
def test_a_number_is_read_or_told_never_guessed(cell: str, decimal: str, value: float | None) -> None:
    found = register(f'jar,pigment,quantity,unit\nA,invented-ochre,"{cell}",g\n', decimal)
    assert found.jars[0].jar.quantity == value
    assert bool(found.problems) == (value is None)


def test_columns_of_the_keepers_own_are_kept_in_place() -> None:
    found = register("shelf life,Jar,last seen,Pigment\ntwo years,A,monday,invented-ochre\n")
    assert found.problems == ()
    assert dict(found.jars[0].cells) == {
        "shelf life": "two years",
        "jar": "A",
        "last seen": "monday",
        "pigment": "invented-ochre",
    }


def test_five_thousand_rows_are_read() -> None:
    row = 'N-{0},Invented ochre,bag,Store,B2,"12.5",g,2025-01-01,2025-01-01,2026-01-01,p,c,RA,1,"a ""b"" c"\n'
    text = ",".join(COLUMNS) + "\n" + "".join(row.format(number) for number in range(5000))
    found = register(text)
    assert len(found.jars) == 5000 and found.problems == ()

"""A studio's register: read, each jar led to its entry and its room, every mistake told by its line."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from mullbook import load
from mullbook.checks.days import day_of
from mullbook.checks.schema import Schemas, check_shape
from mullbook.checks.studio import COLUMN, NOT_OF_THE_STUDIO, ROW_LENGTH, SAME_JAR, SLIP, WHICH_PIGMENT
from mullbook.model.catalogue import Catalogue
from mullbook.model.register import COLUMNS, REQUIRED, Jar, Listed, Table, known_column
from mullbook.model.studio import Studio
from mullbook.text.problem import Place, Problem, mistake, quoted
from mullbook.text.suggest import fold, nearest
from mullbook.text.yaml_text import Document, Pointer
from mullbook.workflow.questions import find
from mullbook.workflow.sheets import Sheet, read_sheet

UNKNOWN = "unlabelled-jar"
NOBODY_KNOWS = ("?", "unknown", "not known", "unlabelled", "no label", "unlabelled jar")
"""What a keeper writes where nobody knows what is in a jar."""
DATES = ("data_sheet_date", "opened", "review_due")
NUMBER = re.compile(r"\d+(?:([.,])(\d+))?")
THOUSAND = 3
"""Digits behind a mark that may as well stand between thousands."""


@dataclass(frozen=True)
class Register:
    """A register as read: its table as written, its jars, its problems."""

    path: str
    table: Table = field(default_factory=lambda: Table((), ()))
    jars: tuple[Listed, ...] = ()
    problems: tuple[Problem, ...] = ()
    text: str = ""


@dataclass(frozen=True)
class _Row(Document):
    """One row as a document, so that the rules for its cells come from a schema like all others."""

    sheet: Sheet | None = None
    row: int = 0
    places: Mapping[str, int] = field(default_factory=dict)

    def place(self, pointer: Pointer, key: bool = False) -> Place:
        """The cell of a column, or the whole row."""
        assert self.sheet is not None
        column = self.places.get(str(pointer[0])) if pointer else None
        return self.sheet.place(self.row, column)


def read_register(
    path: Path, studio: Studio, catalogue: Catalogue, schemas: Schemas, *, decimal: str | None = None
) -> Register:
    """Read a register and lead each jar to its entry and room. Problems, never an exception.

    Parameters: `path` of a .csv, .yaml or .xlsx file; `studio`, for its rooms; `catalogue`, for the names of
    what may be in a jar; `decimal`, the mark before decimals where the file's is not the studio's own.
    """
    sheet = read_sheet(path, schemas)
    return register_of(sheet, str(path), studio, catalogue, schemas, decimal=decimal or studio.units.decimal)


def register_of(
    sheet: Sheet, path: str, studio: Studio, catalogue: Catalogue, schemas: Schemas, *, decimal: str
) -> Register:
    """The register that a table makes."""
    reader = _Reader(sheet, studio, catalogue, schemas, decimal)
    problems = [*sheet.problems, *reader.header_problems()]
    jars = tuple(reader.listed(number, problems) for number in range(1, len(sheet.table.rows) + 1))
    problems += _twice(sheet, jars)
    return Register(path, sheet.table, jars, tuple(problems), sheet.text)


class _Reader:
    def __init__(
        self, sheet: Sheet, studio: Studio, catalogue: Catalogue, schemas: Schemas, decimal: str
    ) -> None:
        self.sheet, self.catalogue, self.schemas = sheet, catalogue, schemas
        self.mark = "," if decimal == "comma" else "."
        self.places = sheet.table.places
        self.rooms = {fold(name): each.id for each in studio.rooms for name in (each.name, each.id)}
        self.room_names = [each.name for each in studio.rooms]
        self.found: dict[str, tuple[str, str] | Problem | None] = {}

    def header_problems(self) -> Iterator[Problem]:
        """What is wrong with the columns as such."""
        header = self.sheet.table.header
        if not header:
            return
        for column in REQUIRED:
            if column not in self.places:
                message = f"there is no column `{column}`"
                hint = "the first line names the columns; the order does not matter"
                yield mistake(COLUMN, message, self.sheet.place(0, None), hint, example=",".join(COLUMNS))
        for place, name in enumerate(header):
            known = known_column(name)
            if known is not None and self.places[known] != place:
                message = f"the column `{known}` stands here a second time"
                yield mistake(COLUMN, message, self.sheet.place(0, place), "give it another name")
            elif known is None and name.strip():
                yield from self._slip(place, name)

    def _slip(self, place: int, name: str) -> Iterator[Problem]:
        missing = [each for each in COLUMNS if each not in self.places]
        close = nearest(name, missing, 1)
        if close:
            message = f"The column {quoted(name)} is none that the program knows; it is kept as it is."
            where = self.sheet.place(0, place)
            yield Problem(SLIP, "warning", message, where, f"Did you mean `{close[0]}`?")

    def listed(self, row: int, problems: list[Problem]) -> Listed:
        """One row, whole or not; what is wrong with it goes to `problems`."""
        cells = self.sheet.table.rows[row - 1]
        found = [*self._length(row, cells)]
        written = {column: cells[place].strip() for column, place in self.places.items()}
        data: dict[str, Any] = {column: text for column, text in written.items() if text}
        if "quantity" in data:
            data["quantity"] = self._number(data["quantity"])
        found += self._shape(row, data)
        found += self._days(row, data)
        if ("quantity" in data) != ("unit" in data) and not found:
            lone = "quantity" if "quantity" in data else "unit"
            other = "unit" if lone == "quantity" else "quantity"
            message = f"`{lone}` stands here without `{other}`"
            found.append(mistake(COLUMN, message, self._at(row, lone), "write both, or neither"))
        room = self._room(row, data, found)
        kind, entry = self._entry(row, data, found)
        problems += found
        jar = load.build(Jar, data)
        named = dict(self.sheet.table.by_column(cells))
        whole = not any(each.severity == "error" for each in found)
        return Listed(jar=jar, cells=named, row=row, kind=kind, entry=entry, room=room, is_whole=whole)

    def _at(self, row: int, column: str) -> Place:
        return self.sheet.place(row, self.places[column])

    def _length(self, row: int, cells: tuple[str, ...]) -> Iterator[Problem]:
        header = self.sheet.table.header
        for place, cell in enumerate(cells):
            if cell.strip() and (place >= len(header) or not header[place].strip()):
                message = f"this row has {len(cells)} cells, where the header names {_named(header)} columns"
                hint = "a cell that holds the delimiter stands between quotation marks"
                yield mistake(ROW_LENGTH, message, self.sheet.place(row, place), hint)
                return

    def _number(self, text: str) -> float | str:
        """A number with a point or a comma; a text that may mean a thousand stays a text, and a mistake."""
        read = NUMBER.fullmatch(text)
        if read is None:
            return text
        mark, behind = read[1], read[2]
        if mark and mark != self.mark and len(behind) == THOUSAND and len(text) <= 2 * THOUSAND + 1:
            return text
        return float(text.replace(",", "."))

    def _shape(self, row: int, data: dict[str, Any]) -> list[Problem]:
        """Mistakes of single cells; what cannot be read is taken out of `data`."""
        if self.schemas.accepts("jar", data):
            return []
        document = _Row(path="", text="", data=dict(data), sheet=self.sheet, row=row, places=self.places)
        problems = check_shape(document, "jar", self.schemas)
        for column in list(data):
            if not self.schemas.accepts("jar", {"jar": "A", "pigment": "a", column: data[column]}):
                del data[column]
        return problems

    def _days(self, row: int, data: dict[str, Any]) -> Iterator[Problem]:
        for column in DATES:
            if column in data and day_of(data[column]) is None:
                day = data.pop(column)
                message = f"there is no day {day} in the calendar"
                yield mistake("MB707", message, self._at(row, column), "look at the day and the month")

    def _room(self, row: int, data: dict[str, Any], problems: list[Problem]) -> str | None:
        words = data.get("room")
        if words is None:
            return None
        room = self.rooms.get(fold(words))
        if room is None:
            close = nearest(words, self.room_names)
            hint = f"Did you mean {' or '.join(close)}?" if close else "rooms are named in studio.yaml"
            message = f"there is no room {quoted(words)} in this studio"
            problems.append(mistake(NOT_OF_THE_STUDIO, message, self._at(row, "room"), hint))
        return room

    def _entry(
        self, row: int, data: dict[str, Any], problems: list[Problem]
    ) -> tuple[str | None, str | None]:
        words = data.get("pigment")
        if words is None:
            return None, None
        if words not in self.found:
            self.found[words] = led_to(self.catalogue, words)
        found = self.found[words]
        if isinstance(found, Problem):
            told = Problem(found.code, found.severity, found.message, self._at(row, "pigment"), found.hint)
            problems.append(told)
            return None, None
        return found or (None, None)


def _named(header: Iterable[str]) -> int:
    return sum(1 for each in header if each.strip())


def led_to(catalogue: Catalogue, words: str) -> tuple[str, str] | Problem | None:
    """Kind and id of the one thing in a jar that goes under these words.

    Returns None where the words say that nobody knows and the book has no entry for that; a warning where
    they lead to nothing or to several things.
    """
    if words.casefold() in NOBODY_KNOWS:
        return ("pigment", UNKNOWN) if UNKNOWN in catalogue.pigment else None
    exact = [each for each in catalogue.jars if each.id == words]
    found = find(catalogue, words)
    held = {each.id for each in catalogue.jars}
    fitting = exact or ([each for each in found if each.id in held] if isinstance(found, list) else [])
    if len(fitting) == 1 or len({each.id for each in fitting}) == 1:
        return fitting[0].kind_name, fitting[0].id
    until = "It counts as a jar that nobody knows until the row names one."
    if fitting:
        names = ", ".join(each.id for each in fitting[:4])
        return _which(f"{quoted(words)} may be any of {names}. {until}", "Write the id of the one it is.")
    hint = found.hint if isinstance(found, Problem) else "Name a pigment, a binder or an additive."
    return _which(f"Nothing that comes in a jar goes under the name {quoted(words)}. {until}", hint)


def _which(message: str, hint: str | None) -> Problem:
    return Problem(WHICH_PIGMENT, "warning", message, Place(""), hint)


def _twice(sheet: Sheet, jars: Iterable[Listed]) -> Iterator[Problem]:
    seen: dict[str, int] = {}
    place = sheet.table.places.get("jar")
    for each in jars:
        name = each.jar.jar
        first = seen.setdefault(name, each.row)
        if name and first != each.row:
            message = f"the jar {quoted(name)} stands here a second time"
            related = (sheet.place(first, place),)
            yield mistake(
                SAME_JAR,
                message,
                sheet.place(each.row, place),
                "give one of the jars another number",
                related=related,
            )

"""Tables of cells as comma or semicolon separated text: every cell kept, with its place in the file."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

from mullbook.text.problem import Place, Problem, Span, mistake
from mullbook.text.screening import LINE_BREAK, UNSEEN

DELIMITERS = (",", ";", "\t")
NAMES = {",": "commas", ";": "semicolons", "\t": "tabs"}
QUOTED = re.compile(r'"([^"]*(?:""[^"]*)*)"')
LONGEST = 2000
"""Most signs of a cell: a spreadsheet holds more, a line on a card does not."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its cells, and where in the text each starts and ends, quotes included."""

    cells: tuple[str, ...]
    ends: tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Cells:
    """A table as read. No row is dropped: what is wrong with one stands in `problems`."""

    path: str
    text: str
    delimiter: str
    rows: tuple[Row, ...] = ()
    problems: tuple[Problem, ...] = ()
    line_starts: tuple[int, ...] = field(default=(0,), repr=False)

    def place(self, row: int, column: int | None = None) -> Place:
        """The place of a cell, or of its whole row."""
        ends = self.rows[row].ends
        start, end = (ends[0][0], ends[-1][1]) if column is None else ends[min(column, len(ends) - 1)]
        return self.at(start, end)

    def at(self, start: int, end: int) -> Place:
        """The place of a stretch of the text."""
        (line, column), (end_line, end_column) = self._position(start), self._position(end)
        return Place(self.path, Span(line, column, end_line, end_column))

    def _position(self, index: int) -> tuple[int, int]:
        line = bisect_right(self.line_starts, index)
        return line, index - self.line_starts[line - 1] + 1

    @cached_property
    def width(self) -> int:
        """How many cells the first row has."""
        return len(self.rows[0].cells) if self.rows else 0


def read_cells(text: str, path: str, delimiter: str | None = None) -> Cells:
    r"""Read a table by RFC 4180, with whatever delimiter its first line shows.

    Parameters: `text`, a byte order mark in front counts for nothing; `path` to report; `delimiter`, where it
    is known. Returns every row but blank ones; a quote that never closes, and text behind a closing quote,
    are problems, and the cell keeps its text.
    Source: RFC 4180, section 2.

    >>> read_cells('jar;note\r\nA;"two\nlines; ""so"" said"\r\n', "register.csv").rows[1].cells
    ('A', 'two\nlines; "so" said')
    """
    text = text.removeprefix("\ufeff")
    delimiter = delimiter or _delimiter(text)
    starts = (0, *(each.end() for each in LINE_BREAK.finditer(text)))
    empty = Cells(path, text, delimiter, line_starts=starts)
    problems: list[Problem] = []
    rows = tuple(_rows(text, delimiter, empty, problems))
    problems += [_unseen(each, empty) for each in UNSEEN.finditer(text)]
    return Cells(path, text, delimiter, rows, tuple(problems), starts)


def _delimiter(text: str) -> str:
    """The delimiter that stands most often in the first line, outside quotes."""
    first = QUOTED.sub("", text).lstrip("\r\n")
    line = LINE_BREAK.split(first, maxsplit=1)[0]
    return max(DELIMITERS, key=lambda each: (line.count(each), -DELIMITERS.index(each)))


def _rows(text: str, delimiter: str, here: Cells, problems: list[Problem]) -> Iterator[Row]:
    plain = re.compile(rf"[^{re.escape(delimiter)}\r\n]*")
    position, cells, ends = 0, list[str](), list[tuple[int, int]]()
    while True:
        start = position
        cell, position = _cell(text, position, plain, here, problems)
        cells.append(cell)
        ends.append((start, position))
        if len(cell) > LONGEST:
            problems.append(_too_long(cell, here.at(start, start + 1)))
        if position < len(text) and text[position] == delimiter:
            position += 1
            continue
        if any(each.strip() for each in cells) or any(end > start for start, end in ends):
            yield Row(tuple(cells), tuple(ends))
        cells, ends = [], []
        if position >= len(text):
            return
        position += 2 if text.startswith("\r\n", position) else 1


def _cell(
    text: str, start: int, plain: re.Pattern[str], here: Cells, problems: list[Problem]
) -> tuple[str, int]:
    """The cell that starts here and the place where it ends."""
    rest = plain.match(text, start)
    assert rest is not None
    if not text.startswith('"', start):
        return rest[0], rest.end()
    quoted = QUOTED.match(text, start)
    if quoted is None:
        problems.append(_unclosed(here.at(start, start + 1)))
        return rest[0], rest.end()
    behind = plain.match(text, quoted.end())
    assert behind is not None
    inside = quoted[1].replace('""', '"')
    if not behind[0]:
        return inside, quoted.end()
    if "\n" in quoted[1] or "\r" in quoted[1]:  # a later row's quote closed it: keep the rows apart
        problems.append(_unclosed(here.at(start, start + 1)))
        return rest[0], rest.end()
    problems.append(_behind(here.at(quoted.end(), behind.end())))
    return inside + behind[0], behind.end()


def _unclosed(place: Place) -> Problem:
    hint = 'close the cell with ", and write a quotation mark inside it twice'
    return mistake("MB119", "a quotation mark opens here and never closes", place, hint)


def _behind(place: Place) -> Problem:
    hint = 'write a quotation mark inside a cell twice: "said ""so"""'
    return mistake("MB119", "text stands behind the quotation mark that closes this cell", place, hint)


def _too_long(cell: str, place: Place) -> Problem:
    message = f"this cell holds {len(cell)} signs, where {LONGEST} are the most"
    return mistake("MB119", message, place, "a quotation mark may be missing; else keep long texts elsewhere")


def _unseen(match: re.Match[str], here: Cells) -> Problem:
    message = f"a character that cannot be seen stands here (U+{ord(match[0]):04X})"
    hint = "delete it; it often comes along when text is pasted"
    return mistake("MB104", message, here.at(match.start(), match.end()), hint)

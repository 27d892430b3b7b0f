"""Strict YAML: plain data, the span of every key and value, and all problems of a file at once."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from mullbook.text.events import EventReader, Pointer, Spans
from mullbook.text.problem import Place, Problem
from mullbook.text.quick import quick_data
from mullbook.text.screening import decoded, file_bytes, screen

__all__ = ["Document", "Pointer", "Spans", "read_file", "read_text", "walk"]


@dataclass(frozen=True)
class Document:
    """One file as read. `data` is None when no sense could be made of the file; then there are problems.

    With problems beside `data`, shape can still be checked: a doubled key keeps its first value, a refused
    value is null.
    """

    path: str
    text: str
    data: dict[str, Any] | None
    known_spans: Mapping[Pointer, Spans] | None = None
    problems: tuple[Problem, ...] = ()

    @cached_property
    def spans(self) -> Mapping[Pointer, Spans]:
        """Where each key and value stands; a sound file is read a second time when it is first asked."""
        if self.known_spans is not None:
            return self.known_spans
        reader = EventReader(self.text, self.path, [])
        reader.read()
        return reader.spans

    @cached_property
    def values(self) -> list[tuple[Pointer, Any]]:
        """Every value with its pointer, parents first, walked once for all rules."""
        return walk(self.data)

    def place(self, pointer: Pointer, key: bool = False) -> Place:
        r"""The place of a value, or of its key; of the nearest parent that exists when it does not.

        >>> str(read_text("hue: red\n", "caput.yaml").place(("hue", "name")))
        'caput.yaml:1:6'
        """
        pointer = tuple(pointer)
        for length in range(len(pointer), -1, -1):
            spans = self.spans.get(pointer[:length])
            if spans is not None:
                return Place(self.path, spans.key if key and spans.key else spans.value)
        return Place(self.path)


def walk(data: Any) -> list[tuple[Pointer, Any]]:
    """Every value of plain data with its pointer, parents first.

    >>> walk({"lab": [1]})
    [((), {'lab': [1]}), (('lab',), [1]), (('lab', 0), 1)]
    """
    found: list[tuple[Pointer, Any]] = []

    def gather(pointer: Pointer, value: Any) -> None:
        found.append((pointer, value))
        if type(value) is dict:
            inside: Iterable[tuple[str | int, Any]] = value.items()
        elif type(value) is list:
            inside = enumerate(value)
        else:
            return
        for step, each in inside:
            if type(each) is dict or type(each) is list:
                gather((*pointer, step), each)
            else:
                found.append(((*pointer, step), each))

    gather((), data)
    return found


def read_file(path: str | Path, root: Path | None = None) -> Document:
    """Read a file strictly. Whatever stands in the way becomes a problem, never an exception.

    Parameters: path; root, the folder no link may lead out of (default: the file's own folder).
    """
    name = os.fspath(path)
    raw = file_bytes(name, root)
    text = raw if isinstance(raw, Problem) else decoded(raw, name)
    if isinstance(text, Problem):
        return Document(name, "", None, {}, (text,))
    return read_text(text, name)


def read_text(text: str, path: str) -> Document:
    r"""Read YAML text strictly; problems, never an exception.

    Parameters: text; path, the name to report. A byte order mark is dropped and counts for no column.

    >>> read_text("numbers: [15850:1, '77491']\n", "caput.yaml").data
    {'numbers': ['15850:1', '77491']}
    """
    text = text.removeprefix("\ufeff")
    screened = screen(text, path)
    if screened.text is None:
        return Document(path, text, None, {}, tuple(screened.problems))
    if not screened.problems and (data := quick_data(screened.text)) is not None:
        return Document(path, text, data)
    reader = EventReader(screened.text, path, screened.problems)
    data = reader.read()
    return Document(path, text, data, reader.spans, tuple(reader.problems))

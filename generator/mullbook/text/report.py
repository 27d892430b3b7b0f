"""Problems as text with the source line, as JSON, and as annotations for a code-hosting site."""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Iterable, Mapping
from itertools import accumulate
from typing import Any

from mullbook.text.problem import Place, Problem, Span, one_line
from mullbook.text.screening import LINE_BREAK

WIDEST = 100
TAB = "    "
ELLIPSIS = "\N{HORIZONTAL ELLIPSIS}"
RED, YELLOW, BOLD, DIM, PLAIN = "\x1b[31m", "\x1b[33m", "\x1b[1m", "\x1b[2m", "\x1b[0m"


def by_place(problems: Iterable[Problem]) -> list[Problem]:
    """The problems in the order of their places; a problem said twice counts once."""
    return sorted(set(problems), key=_order)


def as_text(problems: Iterable[Problem], texts: Mapping[str, str], colour: bool = False) -> str:
    """Problems for people: place, code, sentence, the source line with a mark under it, and what to do.

    Parameters: problems; texts, path to the text of the file, for the source lines; colour, for terminals.
    Returns one block for each problem, sorted by place, and a line with the count.
    """
    found = by_place(problems)
    lines: dict[str, list[str]] = {}
    blocks = []
    for problem in found:
        path = problem.place.path
        if texts.get(path) and path not in lines:
            lines[path] = LINE_BREAK.split(texts[path].removeprefix("\ufeff"))
        blocks.append(_block(problem, lines.get(path, []), colour))
    return "\n".join([*blocks, summary(found)]) + "\n"


def summary(problems: Iterable[Problem]) -> str:
    """How many problems of which severity, in how many files.

    >>> summary([])
    'no problems'
    """
    found = list(problems)
    if not found:
        return "no problems"
    errors = sum(problem.severity == "error" for problem in found)
    kinds = [_count(errors, "error"), _count(len(found) - errors, "warning")]
    said = ", ".join(kind for kind in kinds if not kind.startswith("0 "))
    files = _count(len({problem.place.path for problem in found}), "file")
    return f"{_count(len(found), 'problem')} ({said}) in {files}"


def as_json(problems: Iterable[Problem]) -> str:
    """Problems for programs: a list of objects, sorted by place, every key always present."""
    records = [_record(problem) for problem in by_place(problems)]
    return json.dumps(records, ensure_ascii=False, indent=2) + "\n"


def as_annotations(problems: Iterable[Problem]) -> str:
    """Problems as workflow commands: `::error file=...,line=...,col=...::message`, one a line."""
    return "".join(_annotation(problem) + "\n" for problem in by_place(problems))


def _order(problem: Problem) -> tuple[Any, ...]:
    span = problem.place.span or Span(0, 0, 0, 0)
    related = tuple((place.path, place.span or Span(0, 0, 0, 0)) for place in problem.related)
    return (
        problem.place.path,
        span,
        problem.code,
        problem.message,
        problem.severity,
        problem.hint or "",
        problem.example or "",
        related,
    )


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def _block(problem: Problem, lines: list[str], colour: bool) -> str:
    tint = RED if problem.severity == "error" else YELLOW
    place = _paint(one_line(str(problem.place)), BOLD, colour)
    label = _paint(f"{problem.severity} {problem.code}", tint, colour)
    block = [f"{place}: {label}: {one_line(problem.message)}"]
    span = problem.place.span
    if span and span.line <= len(lines):
        block += _source(lines[span.line - 1], span, tint, colour)
    if problem.hint:
        block.append(_paint("  hint: ", DIM, colour) + one_line(problem.hint))
    if problem.example:
        examples = problem.example.strip("\n").splitlines()
        block.append(_paint("  example: ", DIM, colour) + one_line(examples[0] if examples else ""))
        block += [f"           {one_line(line)}" for line in examples[1:]]
    block += [_paint("  see also: ", DIM, colour) + one_line(str(place)) for place in problem.related]
    return "\n".join(block) + "\n"


def _paint(text: str, tint: str, colour: bool) -> str:
    return f"{tint}{text}{PLAIN}" if colour else text


def _source(line: str, span: Span, tint: str, colour: bool) -> list[str]:
    """The source line and the marks under it, cut to about `WIDEST` columns around the place."""
    start = min(span.column - 1, len(line))
    end = span.end_column - 1 if span.end_line == span.line else len(line)
    left = _leftmost(line, start)
    cells = [_cell(c) for c in line[left : left + WIDEST]]
    shown = [cell for cell, reach in zip(cells, _reach(cells), strict=True) if reach <= WIDEST]
    before = ELLIPSIS if left else ""
    after = ELLIPSIS if left + len(shown) < len(line) else ""
    pad = _wide("".join(shown[: start - left])) + len(before)
    marks = max(_wide("".join(shown[start - left : end - left])), 1)
    margin = f"  {span.line} | "
    under = " " * (len(margin) - 2) + "| " + " " * pad
    return [margin + before + "".join(shown) + after, under + _paint("^" * marks, tint, colour)]


def _leftmost(line: str, start: int) -> int:
    """The first character to show: of a line too wide, about two thirds of the width before the place."""
    if len(line) <= WIDEST and _wide("".join(map(_cell, line))) <= WIDEST:
        return 0
    left, room = start, WIDEST * 2 // 3
    while left > 0 and (room := room - _wide(_cell(line[left - 1]))) >= 0:
        left -= 1
    return left


def _reach(cells: list[str]) -> list[int]:
    return list(accumulate(_wide(cell) for cell in cells))


def _cell(character: str) -> str:
    return TAB if character == "\t" else one_line(character)


def _wide(text: str) -> int:
    """Columns a terminal gives to a text: none for combining marks, two for East Asian wide characters."""
    return sum(
        0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text
    )


def _record(problem: Problem) -> dict[str, Any]:
    return {
        "code": problem.code,
        "severity": problem.severity,
        "message": problem.message,
        **_where(problem.place),
        "hint": problem.hint,
        "example": problem.example,
        "related": [_where(place) for place in problem.related],
    }


def _where(place: Place) -> dict[str, Any]:
    names = ("line", "column", "end_line", "end_column")
    return {"path": place.path, **dict(zip(names, place.span or (None,) * 4, strict=True))}


def _annotation(problem: Problem) -> str:
    fields: dict[str, object] = {"file": problem.place.path}
    span = problem.place.span
    if span:
        fields |= {"line": span.line, "endLine": span.end_line, "col": span.column}
        if span.end_line == span.line:  # over several lines a column means nothing to the reader of these
            fields["endColumn"] = max(span.end_column - 1, span.column)
    fields["title"] = problem.code
    told = ",".join(f"{key}={_escaped(str(value), field=True)}" for key, value in fields.items())
    message = problem.message + (f" {problem.hint}" if problem.hint else "")
    return f"::{problem.severity} {told}::{_escaped(message)}"


def _escaped(text: str, field: bool = False) -> str:
    """Text escaped as workflow commands want it: % and line ends everywhere, : and , in fields too."""
    signs = [("%", "%25"), ("\r", "%0D"), ("\n", "%0A")] + ([(":", "%3A"), (",", "%2C")] if field else [])
    for sign, code in signs:
        text = text.replace(sign, code)
    return text

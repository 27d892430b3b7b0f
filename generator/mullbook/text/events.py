"""One pass over a YAML event stream: plain data, spans, and problems.

Nothing is composed: a nesting bomb stops at the depth limit, an alias is reported and never followed,
and nothing recurses deeper than that limit.
"""

from __future__ import annotations

from functools import cache
from typing import Any, NamedTuple

import yaml

from mullbook.text.problem import Place, Problem, Span
from mullbook.text.refusals import refusal
from mullbook.text.scalars import NotFiniteError, Scalar, TooLargeError, plain_value
from mullbook.text.screening import LINE_BREAK, MOST_PROBLEMS
from mullbook.text.syntax import syntax_problem

Pointer = tuple[str | int, ...]
End = tuple[int, int]

MOST_DEPTH = 20
LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Spans(NamedTuple):
    """Where a key stands (None for list items and the whole file) and where its value stands."""

    key: Span | None
    value: Span


class StopReadingError(Exception):
    """Nothing further in this file can be read with profit."""


class EventReader:
    """Reads the text of one file; afterwards `spans` and `problems` are filled."""

    def __init__(self, text: str, path: str, problems: list[Problem]) -> None:
        self.text = text
        self.path = path
        self.problems = problems
        self.spans: dict[Pointer, Spans] = {}
        self.depth = 0

    def read(self) -> dict[str, Any] | None:
        """The top-level mapping, or None with at least one problem."""
        loader = None
        try:
            loader = LOADER(self.text)
            self.next: Any = loader.get_event
            return self._file()
        except yaml.YAMLError as error:
            self._stumble(error)
        except StopReadingError:
            pass
        finally:
            if loader is not None:
                loader.dispose()
        return None

    def _stumble(self, error: yaml.YAMLError) -> None:
        mark = getattr(error, "problem_mark", None)
        if mark and "nesting depth" in str(error):
            line, column = _mark(mark)
            self.problems.append(refusal("too-deep", self.path, Span(line, column, line, column), MOST_DEPTH))
        else:
            self.problems.append(syntax_problem(error, self.text, self.path))

    def _file(self) -> dict[str, Any] | None:
        self.next()  # the start of the stream
        event = self.next()
        if isinstance(event, yaml.StreamEndEvent):
            self._refuse("empty", Span(1, 1, 1, 1))
            return None
        if event.version or event.tags:
            self._refuse("directive", _short(event, 1))
        first = self.next()
        data = self._value(first, (), None)
        self.next()  # the end of the document
        event = self.next()
        if not isinstance(event, yaml.StreamEndEvent):
            self._refuse("second", _short(event, 3))
            return None
        if isinstance(data, dict):
            return data
        if isinstance(first, yaml.ScalarEvent) and not first.value:
            self._refuse("empty", Span(1, 1, 1, 1))
        elif not isinstance(first, yaml.AliasEvent):
            self._refuse("no-mapping", _short(first, 1))
        return None

    def _value(self, event: Any, pointer: Pointer, key: Span | None) -> Any:
        if isinstance(event, yaml.AliasEvent):
            self.spans[pointer] = Spans(key, _span(event))
            self._refuse("alias", _span(event), f"*{event.anchor}")
            return None
        self._refuse_extras(event)
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event, pointer, key)
        self.depth += 1
        if self.depth > MOST_DEPTH:
            self._refuse("too-deep", _short(event, 1), MOST_DEPTH)
            raise StopReadingError
        start = event.start_mark.line + 1, event.start_mark.column + 1
        self.spans[pointer] = Spans(key, Span(*start, *start))  # parents stand before their children
        read = self._mapping if isinstance(event, yaml.MappingStartEvent) else self._sequence
        data, end = read(pointer, event.flow_style)
        self.spans[pointer] = Spans(key, Span(*start, *end))
        self.depth -= 1
        return data

    def _scalar(self, event: Any, pointer: Pointer, key: Span | None) -> Scalar:
        span = _span(event)
        if event.style in {"|", ">"}:
            span = self._without_blank_end(event)
        elif key is not None and not event.style and not event.value:
            # A parser places a missing value where the next word stands; readers look beside the key.
            span = Span(key.end_line, key.end_column + 1, key.end_line, key.end_column + 1)
        self.spans[pointer] = Spans(key, span)
        text: str = event.value
        if event.style:
            return text
        try:
            return plain_value(text)
        except NotFiniteError:
            self._refuse("not-finite", span, text)
        except TooLargeError:
            self._refuse("too-large", span, text)
        return None

    def _without_blank_end(self, event: Any) -> Span:
        """A block scalar's span up to its last written character (its own end is the next key's line)."""
        written = self.text[event.start_mark.index : event.end_mark.index].rstrip()
        breaks = list(LINE_BREAK.finditer(written))
        line, column = event.start_mark.line + 1, event.start_mark.column + 1
        end = len(written) - breaks[-1].end() + 1 if breaks else column + len(written)
        return Span(line, column, line + len(breaks), end)

    def _sequence(self, pointer: Pointer, flow: bool) -> tuple[list[Any], End]:
        items: list[Any] = []
        end: End = (0, 0)
        while not isinstance(event := self.next(), yaml.SequenceEndEvent):
            here = (*pointer, len(items))
            items.append(self._value(event, here, None))
            end = self.spans[here].value[2:]
        return items, _mark(event.end_mark) if flow else end

    def _mapping(self, pointer: Pointer, flow: bool) -> tuple[dict[str, Any], End]:
        data: dict[str, Any] = {}
        end: End = (0, 0)
        while not isinstance(event := self.next(), yaml.MappingEndEvent):
            key = self._key(event)
            if key is None:
                end = self._skip(self.next())
                continue
            span, here = _span(event), (*pointer, key)
            if key in data:
                first = self.spans[here].key
                related = (Place(self.path, first),) if first else ()
                self._refuse("twice", span, key, related)
                end = self._skip(self.next(), span)
                continue
            data[key] = self._value(self.next(), here, span)
            end = self.spans[here].value[2:]
        return data, _mark(event.end_mark) if flow else end

    def _key(self, event: Any) -> str | None:
        """The key's text; None if it is a list, a group or a reference, which is read past."""
        if not isinstance(event, yaml.ScalarEvent):
            self._refuse("key-group", _short(event, 1))
            self._skip(event)
            return None
        self._refuse_extras(event)
        text: str = event.value
        if event.style:
            return text
        if text == "<<":
            self._refuse("merge", _span(event))
        elif not text:
            self._refuse("key-empty", _short(event, 1))
        elif not _is_word(text):
            self._refuse("key-typed", _span(event), text)
        return text

    def _skip(self, event: Any, key: Span | None = None) -> End:
        """Read a value for its problems only; returns where it ends."""
        kept, self.spans = self.spans, {}
        self._value(event, (), key)
        end = self.spans[()].value[2:]
        self.spans = kept
        return end

    def _refuse_extras(self, event: Any) -> None:
        if event.anchor is not None:
            self._refuse("anchor", _short(event, 1), f"&{event.anchor}")
        if event.tag is not None:
            self._refuse("tag", _short(event, 1))

    def _refuse(self, name: str, span: Span, found: object = "", related: tuple[Place, ...] = ()) -> None:
        self.problems.append(refusal(name, self.path, span, found, related))
        if len(self.problems) >= MOST_PROBLEMS:
            self.problems.append(refusal("too-many", self.path, span, MOST_PROBLEMS))
            raise StopReadingError


@cache  # a few dozen keys make up thousands of lines
def _is_word(key: str) -> bool:
    try:
        return isinstance(plain_value(key), str)
    except ValueError:
        return False


def _mark(mark: Any) -> End:
    return mark.line + 1, mark.column + 1


def _span(event: Any) -> Span:
    start, end = event.start_mark, event.end_mark
    return Span(start.line + 1, start.column + 1, end.line + 1, end.column + 1)


def _short(event: Any, length: int) -> Span:
    """The first characters of something that may run over many lines."""
    line, column = _mark(event.start_mark)
    return Span(line, column, line, column + length)

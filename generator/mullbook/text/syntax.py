"""Words for what a YAML parser stumbles over: what to look at, and what to write instead."""

from __future__ import annotations

from typing import NamedTuple

import yaml

from mullbook.text.problem import Place, Problem, Span, mistake


class Words(NamedTuple):
    """What to say when the parser's own words contain one of `when`."""

    when: tuple[str, ...]
    message: str
    hint: str
    at_start: bool = False  # the parser notices late: the mistake is where the construct began


QUOTE_IT = "text that begins like this goes into quotes"
ALL_WORDS = (
    Words(
        ("scanning a quoted scalar+end of stream", "scanning a quoted scalar+document"),
        "the quote opened here is never closed",
        "close it with the same mark; inside single quotes write '' for an apostrophe",
        at_start=True,
    ),
    Words(
        ("unknown escape", "hexdecimal", "hexadecimal", "escape character code", "escape sequence"),
        "a backslash inside double quotes begins a special sign, and this one is unknown",
        "use single quotes, in which a backslash is only a backslash",
    ),
    Words(
        ("scanning an anchor", "scanning an alias"),
        "plain text cannot begin with & or *",
        QUOTE_IT,
    ),
    Words(
        ("scanning a tag", "parsing a tag", "undefined tag", "non-specific tag"),
        "plain text cannot begin with an exclamation mark",
        QUOTE_IT,
    ),
    Words(
        ("scanning a block scalar",),
        "after > or | the text begins on the next line, indented further than its key",
        "write >- alone at the end of the line, and the text below it",
    ),
    Words(
        ("directive", "incompatible YAML"),
        "a line cannot begin with %",
        QUOTE_IT,
    ),
    Words(
        ("scanning a simple key",),
        "this line has no colon, so it is neither a key nor part of the text above",
        "write `key: value`, or indent the line further if it continues a text",
        at_start=True,
    ),
    Words(
        ("mapping values are not allowed",),
        "a colon cannot stand here",
        "text that contains a colon and a space goes into quotes; or the line is indented too far",
    ),
    Words(
        ("sequence entries are not allowed",),
        "a list item cannot begin here",
        "the items of a list stand below their key, each on a line of its own beginning with '- '",
    ),
    Words(
        ("mapping keys are not allowed",),
        "plain text cannot begin with a question mark and a space",
        QUOTE_IT,
    ),
    Words(
        ("cannot start any token", "violates indentation", "tab character"),
        "plain text cannot begin with this character",
        QUOTE_IT,
    ),
    Words(
        ("',' or ']'", "parsing a flow sequence"),
        "the list opened with [ is not closed, or a comma is missing",
        "separate the items with commas and close with ]; quote text that holds commas or brackets",
        at_start=True,
    ),
    Words(
        ("',' or '}'", "parsing a flow mapping", "unexpected ':'"),
        "the group opened with { is not closed, or a comma is missing",
        "separate the keys with commas and close with }; quote text that holds commas or braces",
        at_start=True,
    ),
    Words(
        ("expected key", "parsing a block mapping"),
        "this line does not line up with the keys above it, or the text before it ends too soon",
        "keys that belong together begin in the same column; after a closing quote nothing may follow",
    ),
    Words(
        ("'-' indicator", "parsing a block collection", "parsing a block sequence"),
        "this line does not line up with the list items above it",
        "each item of a list begins with '- ' in the same column",
    ),
    Words(("node content",), "a value is missing or begins with a sign that means something else", QUOTE_IT),
    Words(
        ("document start",),
        "this does not belong to what stands above it",
        "a file is a list of lines `key: value`; look at the indentation and the quotes just above",
    ),
)
OTHERWISE = Words(
    (),
    "the file cannot be read beyond this place",
    "look at the indentation, the quotes and the colons here and in the line above",
)


AFTER_A_VALUE = Words(
    (),
    "something follows here, where the value before it has ended",
    "after a closing quote or bracket nothing may follow; put the whole text into one pair of quotes",
)


def syntax_problem(error: yaml.YAMLError, text: str, path: str) -> Problem:
    """The problem behind a parser's error, in words a keeper of entries can act on."""
    if not isinstance(error, yaml.MarkedYAMLError):
        return mistake("MB106", OTHERWISE.message, Place(path), OTHERWISE.hint)
    words = _words(error)
    if "parsing a block mapping" in words.when and _within_line(text, error.problem_mark):
        words = AFTER_A_VALUE
    mark = error.context_mark if words.at_start and error.context_mark else error.problem_mark
    related: tuple[Place, ...] = ()
    if words.at_start and error.context_mark and error.problem_mark:
        stopped = _place(error.problem_mark, path)
        related = (stopped,) if stopped != _place(error.context_mark, path) else ()
    place = _place(mark, path) if mark else Place(path)
    return mistake("MB106", words.message, place, words.hint, related=related)


def _within_line(text: str, mark: yaml.Mark | None) -> bool:
    """Whether something other than blanks and list dashes stands before the mark on its line."""
    if mark is None:
        return False
    return bool(text[mark.index - mark.column : mark.index].strip(" -"))


def _words(error: yaml.MarkedYAMLError) -> Words:
    said = f"{error.context or ''} {error.problem or ''}"
    for words in ALL_WORDS:
        if any(all(part in said for part in when.split("+")) for when in words.when):
            return words
    return OTHERWISE


def _place(mark: yaml.Mark, path: str) -> Place:
    line, column = mark.line + 1, mark.column + 1
    return Place(path, Span(line, column, line, column + 1))

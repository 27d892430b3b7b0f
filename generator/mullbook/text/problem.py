"""What is wrong, where, and what to write instead: the one type every check ends in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

Severity = Literal["error", "warning"]


class Span(NamedTuple):
    """A stretch of text. Lines and columns count from 1, columns in characters.

    `end_column` is the column just after the last character, so an empty span ends where it starts.

    >>> Span(3, 6, 3, 12).column
    6
    """

    line: int
    column: int
    end_line: int
    end_column: int


@dataclass(frozen=True, slots=True)
class Place:
    """A place in a file; without a span it means the whole file.

    >>> str(Place("entries/pigments/caput.yaml", Span(3, 6, 3, 12)))
    'entries/pigments/caput.yaml:3:6'
    """

    path: str
    span: Span | None = None

    def __str__(self) -> str:
        """Path, line and column as terminals and editors link them."""
        if self.span is None:
            return self.path
        return f"{self.path}:{self.span.line}:{self.span.column}"


@dataclass(frozen=True, slots=True)
class Problem:
    """One mistake: a stable code, a sentence, its place, and how to put it right.

    >>> Problem("MB107", "error", "`hue` stands twice", Place("caput.yaml")).severity
    'error'
    """

    code: str
    severity: Severity
    message: str
    place: Place
    hint: str | None = None
    example: str | None = None
    related: tuple[Place, ...] = ()


def mistake(
    code: str,
    message: str,
    place: Place,
    hint: str | None = None,
    *,
    example: str | None = None,
    related: tuple[Place, ...] = (),
) -> Problem:
    """A problem of severity error, its message and hint made whole sentences.

    >>> mistake("MB114", "the file is empty", Place("caput.yaml")).message
    'The file is empty.'
    """
    return Problem(code, "error", sentence(message), place, hint and sentence(hint), example, related)


def sentence(text: str) -> str:
    """Text with a capital letter at the beginning and a full stop at the end.

    >>> sentence("did you mean `hue`?")
    'Did you mean `hue`?'
    """
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "!", "?")) else ".")


def quoted(value: object, most: int = 60) -> str:
    """Text from a file made fit for a message: on one line, shortened, nothing a terminal would obey.

    Parameters: value (any), most: longest length in characters. Returns the text in double quotes.

    >>> quoted("ornage")
    '"ornage"'
    """
    text = one_line(str(value))
    if len(text) > most:
        text = text[: most - 1] + "\N{HORIZONTAL ELLIPSIS}"
    return f'"{text}"'


def one_line(text: str) -> str:
    r"""The text on one line; characters that cannot be shown become U+FFFD.

    >>> one_line("a\nb\x1bc")
    'a b\ufffdc'
    """
    spaced = text.replace("\r\n", " ").replace("\n", " ").replace("\r", " ").replace("\t", " ")
    return "".join(c if c.isprintable() or c == "\u200d" else "\ufffd" for c in spaced)

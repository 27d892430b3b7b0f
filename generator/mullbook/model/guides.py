"""Guides that tell a piece of work from end to end, and questions as they are asked at the bench."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import ClassVar

from mullbook.model.entities import Entity
from mullbook.model.practice import Statement
from mullbook.model.values import Evidence


@dataclass(frozen=True, slots=True, kw_only=True)
class PageLink:
    """A page of the site, from its root, and the words that lead there."""

    page: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A number that is worked out when the page is made: a formula of the registry and its inputs.

    An input is written as on the command line. It may also lead to another figure of the same page
    (`figure:batch`) or to a number of an entry (`pigment:yellow-ochre:density`).
    """

    id: str
    words: str
    """What the number is, in a few words."""
    formula: str
    inputs: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallTable(Evidence):
    """A table of words that stands in a part of a page."""

    caption: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One headed part of a guide or of an answer."""

    id: str
    heading: str
    statements: tuple[Statement, ...] = ()
    steps: tuple[Statement, ...] = ()
    """What is done, in this order."""
    table: SmallTable | None = None
    figures: tuple[Figure, ...] = ()
    links: tuple[PageLink, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Guide(Entity):
    """A piece of work told from end to end."""

    kind_name: ClassVar[str] = "guide"
    number: int
    """Its place in the list: in the order of the work."""
    in_short: tuple[str, ...] = ()
    """The whole of it in a few lines, for someone who has no time."""
    warns: tuple[Statement, ...] = ()
    parts: tuple[Part, ...] = ()
    see: tuple[PageLink, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Question(Entity):
    """A question in the words people use, with all that a right answer holds."""

    kind_name: ClassVar[str] = "question"
    number: int
    asks: str
    group: str
    answer: tuple[Statement, ...] = ()
    """The answer in short."""
    warns: tuple[Statement, ...] = ()
    parts: tuple[Part, ...] = ()
    tries: tuple[PageLink, ...] = ()
    """Pages on which one can try it with one's own numbers."""


def figures_of(thing: Guide | Question) -> Iterator[Figure]:
    """The figures of one entry, in the order in which they stand there."""
    for part in thing.parts:
        yield from part.figures

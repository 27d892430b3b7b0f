"""What a rule sees, and what it says when something is wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any, NamedTuple

from mullbook.checks.codes import Rule
from mullbook.model.catalogue import Catalogue
from mullbook.text.problem import Place, Problem
from mullbook.text.yaml_text import Document, Pointer


@dataclass(frozen=True)
class EntryContext:
    """One entry whose text and shape are sound."""

    kind: str
    document: Document
    entity: Any
    file: Path

    @property
    def data(self) -> dict[str, Any]:
        """The plain data."""
        return self.document.data or {}

    @property
    def values(self) -> list[tuple[Pointer, Any]]:
        """Every value with its pointer."""
        return self.document.values

    @cached_property
    def groups(self) -> tuple[tuple[Pointer, dict[str, Any]], ...]:
        """Every group of keys with its pointer."""
        return tuple((pointer, value) for pointer, value in self.values if isinstance(value, dict))

    @cached_property
    def groups_by_key(self) -> dict[str, list[tuple[Pointer, dict[str, Any]]]]:
        """The same groups under each of their keys."""
        found: dict[str, list[tuple[Pointer, dict[str, Any]]]] = {}
        for each in self.groups:
            for key in each[1]:
                found.setdefault(key, []).append(each)
        return found


class Word(NamedTuple):
    """One text of a file."""

    document: Document
    pointer: Pointer
    text: str

    @property
    def place(self) -> Place:
        """Where it stands."""
        return self.document.place(self.pointer)

    @property
    def key(self) -> str:
        """The key that it, or the list it stands in, belongs to."""
        for step in reversed(self.pointer):  # nearly always the last one
            if isinstance(step, str):
                return step
        return ""


@dataclass(frozen=True)
class CatalogueContext:
    """All entries together.

    `catalogue` holds those of sound shape; `documents` holds every file by kind and id, sound or not, so
    that one broken entry does not make others look as if they led nowhere. `unsound` names the broken ones.
    """

    catalogue: Catalogue
    documents: Mapping[tuple[str, str], Document] = field(default_factory=dict)
    unsound: frozenset[tuple[str, str]] = frozenset()
    folder: str = "entries"

    def place(self, kind: str, entry: str, *pointer: str | int) -> Place:
        """Where something stands in an entry."""
        return self.documents[kind, entry].place(pointer)

    @cached_property
    def ids(self) -> Mapping[str, frozenset[str]]:
        """The ids of each kind, those of broken entries too."""
        found: dict[str, set[str]] = {}
        for (kind, name), document in self.documents.items():
            given = (document.data or {}).get("id")
            found.setdefault(kind, set()).update({name, given} if isinstance(given, str) else {name})
        return {kind: frozenset(names) for kind, names in found.items()}

    @cached_property
    def words(self) -> tuple[Word, ...]:
        """Every text of every file."""
        return tuple(
            Word(document, pointer, value)
            for document in self.documents.values()
            for pointer, value in document.values
            if isinstance(value, str)
        )

    @cached_property
    def words_by_key(self) -> Mapping[str, list[Word]]:
        """The same texts by the key that they, or the list they stand in, belong to."""
        found: dict[str, list[Word]] = {}
        for word in self.words:
            found.setdefault(word.key, []).append(word)
        return found

    def is_whole(self, kind: str) -> bool:
        """Whether every entry of a kind is of sound shape, so that what is missing is really missing."""
        return not any(each == kind for each, _ in self.unsound)


@dataclass(frozen=True, slots=True)
class Finding:
    """What a rule found; code and severity are the rule's."""

    message: str
    place: Place
    hint: str | None = None
    example: str | None = None
    related: tuple[Place, ...] = ()


@dataclass(frozen=True, slots=True)
class Check:
    """A rule with the function that looks for breaches of it."""

    rule: Rule
    find: Callable[[Any], Iterable[Finding]]

    @property
    def code(self) -> str:
        """The rule's code."""
        return self.rule.code

    def check(self, context: Any) -> Iterator[Problem]:
        """The breaches in a context, as problems."""
        for each in self.find(context):
            yield Problem(
                code=self.rule.code,
                severity=self.rule.severity,
                message=each.message,
                place=each.place,
                hint=each.hint,
                example=each.example,
                related=each.related,
            )


def records(context: EntryContext, *needed: str) -> Iterator[tuple[Pointer, dict[str, Any]]]:
    """Every mapping of an entry that has all of the keys."""
    first, *others = needed
    for pointer, group in context.groups_by_key.get(first, ()):
        if all(key in group for key in others):
            yield pointer, group

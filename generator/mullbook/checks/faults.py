"""A validator's error with its places, and what there is to say about it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from jsonschema import ValidationError

from mullbook.checks.schemas import Schemas, Spot
from mullbook.text.problem import quoted
from mullbook.text.yaml_text import Pointer


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeFinding:
    """One error in words, with what is needed to tell causes from consequences.

    Of the findings with the same `path` and `group`, the one with the lowest `rank` stands for all.
    """

    code: str
    path: Pointer
    message: str
    group: str
    rank: int = 0
    at_key: bool = False
    hint: str | None = None
    example: str | None = None
    missing: str | None = None  # the key that is missing
    meant: str | None = None  # the key that an unknown key is a slip for
    forbids: bool = False  # the value must not be here at all: what is wrong inside it does not matter
    related: Pointer | None = None


@dataclass(frozen=True, slots=True)
class Fault:
    """A validator's error with its place in the entry and in the schema."""

    error: ValidationError
    path: Pointer
    spot: Spot
    schemas: Schemas

    @property
    def wanted(self) -> Any:
        """What the keyword that failed asks for."""
        return self.error.validator_value

    @property
    def found(self) -> Any:
        """What stands in the entry."""
        return self.error.instance

    def word(self, name: str) -> str | None:
        """An annotation of the schema that speaks of the failed keyword."""
        said = self.spot.nearest("x-" + name)
        return str(said).strip() if said else None

    @property
    def schema(self) -> Mapping[str, Any]:
        """The schema in which the failed keyword stands (empty for one that is just true or false)."""
        return self.error.schema if isinstance(self.error.schema, Mapping) else {}

    @property
    def example(self) -> str | None:
        """The example closest to the field."""
        said = self.spot.outermost("x-example")
        return str(said) if said else None

    def value(self, code: str, rank: int, message: str, hint: str | None, **more: Any) -> ShapeFinding:
        """A finding about the value itself."""
        return ShapeFinding(
            code=code,
            path=self.path,
            message=message,
            group="value",
            rank=rank,
            hint=hint,
            example=self.example,
            **more,
        )


def name(path: Pointer) -> str:
    """What to call a place in an entry.

    >>> name(("constituents", 1))
    'item 2 of `constituents`'
    """
    if not path:
        return "the entry"
    if isinstance(path[-1], str):
        return f"`{bare(path[-1])}`"
    return f"item {path[-1] + 1} of {name(path[:-1])}"


def bare(key: str) -> str:
    """A key as it may stand in a message, without quotes."""
    return quoted(key)[1:-1]


def listed(words: list[str], last: str) -> str:
    """Words in a row.

    >>> listed(["low", "high", "unit"], "and")
    'low, high and unit'
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {last} {words[-1]}"

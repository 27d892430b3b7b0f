"""How a number was worked out, and the card that describes a formula."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.model.values.quantity import Range


@dataclass(frozen=True, slots=True)
class Input:
    """One number or word that went into a formula, with where it came from."""

    name: str
    unit: str
    value: Range | str | tuple[float | Range, ...] | None
    source: str | None = None
    basis: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Working:
    """A result with everything that led to it.

    Either `result` holds the range reached, or `not_derivable` says in words why there is none.
    """

    formula: str
    title: str
    statement: str
    inputs: tuple[Input, ...]
    unit: str
    source: str
    steps: str = ""
    result: Range | None = None
    not_derivable: str | None = None
    assumptions: tuple[str, ...] = ()
    reading: str = ""
    """What the number means, in words, where the formula has words for it."""


@dataclass(frozen=True, slots=True)
class ParameterCard:
    """One parameter of a formula as the methods page and the command line show it."""

    name: str
    unit: str
    meaning: str
    default: float | str | None = None
    low: float | None = None
    high: float | None = None
    optional: bool = False
    shape: str = "number"
    """`number`, `list` (numbers separated by commas) or `text`."""
    choices: tuple[str, ...] = ()
    """The only words a `text` parameter takes, if it is closed."""


@dataclass(frozen=True, slots=True)
class FormulaCard:
    """What a formula says, takes and gives; everything but the function itself."""

    id: str
    title: str
    statement: str
    parameters: tuple[ParameterCard, ...]
    unit: str
    source: str
    validity: str
    example: tuple[tuple[str, str], ...]
    """Named inputs of a worked example, written as on the command line."""
    caution: str = ""

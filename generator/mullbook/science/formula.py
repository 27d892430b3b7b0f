"""What a formula of the registry is made of, and what can be wrong with a question to it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from mullbook.model.values import FormulaCard, Input, ParameterCard, Range

Given = float | Range | str | tuple[float | Range, ...] | Input | None
"""What may be handed to a formula for one parameter."""

Plain = float | str | tuple[float, ...] | None
"""What a formula's own function receives for one parameter."""

Inputs = Mapping[str, Range | str | tuple[float | Range, ...] | None]
"""All parameters of one question, defaults filled in."""

Turn = Callable[[Mapping[str, Any]], float]
"""Where a result turns round in one parameter, the others being held; not a number if nowhere."""


class BadInput(ValueError):
    """A wrong name or value was given; `candidates` are the names that would have been right."""

    def __init__(
        self, message: str, name: str = "", candidates: Iterable[str] = (), example: str = ""
    ) -> None:
        super().__init__(message)
        self.message = message
        self.name = name
        self.candidates = tuple(candidates)
        self.example = example


class UnknownFormula(BadInput, KeyError):
    """No formula has this name."""

    def __init__(self, name: str, candidates: Iterable[str]) -> None:
        super().__init__(f"There is no formula called {name!r}.", name, candidates)

    def __str__(self) -> str:
        return self.message


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula: its card, its function and how its working is told.

    The result must rise or fall throughout in each parameter taken alone; then the extremes over a box
    of ranges lie at its corners. Where it turns round in a parameter, `turns` says at which value.
    `errors` names, for a measured parameter, the parameter that holds its error of measurement: the value
    is then taken that much wider on either side.
    `steps` is a text with the parameter names in braces, or a function that makes it from plain values.
    """

    card: FormulaCard
    function: Callable[..., float]
    steps: str | Callable[[Mapping[str, Plain]], str]
    turns: Mapping[str, Turn] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)
    reading: Callable[[Range, Inputs], str] | None = None
    assumptions: Callable[[Inputs], tuple[str, ...]] | tuple[str, ...] = ()

    def parameter(self, name: str) -> ParameterCard:
        """Return the card of one parameter; raises `BadInput` with the right names for a wrong one."""
        for parameter in self.card.parameters:
            if parameter.name == name:
                return parameter
        names = [parameter.name for parameter in self.card.parameters]
        raise BadInput(f"{self.card.id} has no parameter called {name!r}.", name, names)


def said(name: str) -> str:
    """Return a parameter's name as it is said.

    >>> said("oil_absorption")
    'oil absorption'
    """
    return name.replace("_", " ")


@lru_cache(maxsize=4096)
def number_text(number: float, figures: int = 4) -> str:
    """Return a number rounded to a few significant figures, without exponent where one can do without.

    >>> number_text(0.32748), number_text(2200.0), number_text(0.935), number_text(1234567.0)
    ('0.3275', '2200', '0.935', '1235000')
    """
    if number == 0:
        return "0"
    rounded = float(f"{number:.{figures}g}")
    if 1e-4 <= abs(rounded) < 1e9:
        text = f"{rounded:.12f}".rstrip("0").rstrip(".")
        return text.replace("-", "\u2212")
    return f"{rounded:.{figures}g}".replace("-", "\u2212")


def range_words(found: Range, figures: int = 3) -> str:
    """Return a range in words, one number where its ends read alike.

    >>> range_words(Range(2.0, 2.0)), range_words(Range(24, 26.5))
    ('2', '24 to 26.5')
    """
    low, high = number_text(found.low, figures), number_text(found.high, figures)
    return low if low == high else f"{low} to {high}"


def over_range(words: Callable[[float], str], found: Range) -> str:
    """Return the words for both ends of a range, once where they are the same.

    >>> over_range(lambda number: "low" if number < 1 else "high", Range(0, 2))
    'low to high'
    """
    low, high = words(found.low), words(found.high)
    return low if low == high else f"{low} to {high}"


def plain_text(value: Plain) -> str:
    """Return any plain value as it stands in a working.

    >>> plain_text((1.0, 2.5)), plain_text("PbCO3")
    ('1, 2.5', 'PbCO3')
    """
    if value is None:
        return "not given"
    if isinstance(value, str):
        return value
    if isinstance(value, tuple):
        return ", ".join(number_text(number) for number in value)
    return number_text(value)


def numbers(point: Mapping[str, Plain], name: str) -> tuple[float, ...]:
    """Return the list of numbers that a parameter holds at a point."""
    value = point[name]
    assert isinstance(value, tuple)
    return value


def pairs_text(first: Sequence[float], sign: str, second: Sequence[float]) -> str:
    """Write two lists out as a sum of pairs.

    >>> pairs_text([1, 2], " × ", [0.5, 3])
    '1 × 0.5 + 2 × 3'
    """
    return " + ".join(
        f"{number_text(one)}{sign}{number_text(other)}" for one, other in zip(first, second, strict=True)
    )

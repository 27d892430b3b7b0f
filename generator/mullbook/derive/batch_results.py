"""What a batch comes to: lines to weigh, figures, warnings, corrections."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from mullbook.model.recipes import Recipe
from mullbook.model.values import Input, Range


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One thing to weigh."""

    id: str
    name: str
    kind: str
    stage: str
    grams: float
    range: Range
    millilitres: float
    drops: int | None
    steps: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One thing the batch comes to: the point at which it was solved, its range, or why there is none."""

    id: str
    name: str
    unit: str
    value: float | None = None
    range: Range | None = None
    words: str = ""
    steps: str = ""
    not_derivable: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Warned:
    """One warning: a stable id, what is the matter, and the figure or reason behind it."""

    id: str
    words: str
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A batch worked out. `missing` says in words why it could not be, field by field."""

    recipe: Recipe
    pigment_mass: float = 0.0
    lines: tuple[Line, ...] = ()
    figures: tuple[Figure, ...] = ()
    inputs: tuple[Input, ...] = ()
    warnings: tuple[Warned, ...] = ()
    tubes: int | None = None
    left_over: float | None = None
    cost: float | None = None
    currency: str | None = None
    missing: tuple[str, ...] = ()
    field_name: str | None = None
    nearest: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """One thing to do about one symptom: grams to add by item, the words, and where it leads."""

    symptom: str
    words: str
    add: Mapping[str, float]
    because: str = ""
    pvc: float | None = None
    reduced: float | None = None
    discard: bool = False

"""Ranges, evidence and quantities."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

BASES = ("published", "dataset", "calculated", "common-practice", "from-memory")
"""How well a value is known, best first."""
MEASURED = "measured"
"""Basis of a figure the maker measured on their own lot; never of one in the book."""


@dataclass(frozen=True, slots=True, order=True)
class Range:
    """A closed range of plain numbers, `low <= high`, in whatever unit its owner states."""

    low: float
    high: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.low) and math.isfinite(self.high)):
            raise ValueError("a range needs finite ends")
        if self.low > self.high:
            raise ValueError(f"a range must not run backwards: {self.low} to {self.high}")

    @classmethod
    def of(cls, value: float | Range) -> Range:
        """Return `value` itself if it is a range, else the range that holds only it.

        >>> Range.of(3.2)
        Range(low=3.2, high=3.2)
        """
        return value if isinstance(value, Range) else cls(float(value), float(value))

    @property
    def is_point(self) -> bool:
        """Whether both ends are the same number."""
        return self.low == self.high

    @property
    def middle(self) -> float:
        """The number half-way between the ends."""
        return (self.low + self.high) / 2

    def times(self, factor: float) -> Range:
        """Scale both ends by a factor >= 0.

        >>> Range(1, 2).times(10)
        Range(low=10, high=20)
        """
        return Range(self.low * factor, self.high * factor)


@dataclass(frozen=True, slots=True)
class Evidence:
    """Where a fact stands: source id, place in the source, how well known."""

    basis: str
    source: str | None = None
    at: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number or range with its unit and evidence, as an entry states it.

    Exactly one form is present: `value`, `low` with `high`, `min` alone or `max` alone.
    `also` holds further published values that disagree; none is thrown away.
    """

    unit: str
    basis: str
    value: float | None = None
    low: float | None = None
    high: float | None = None
    min: float | None = None
    max: float | None = None
    source: str | None = None
    at: str | None = None
    note: str | None = None
    method: str | None = None
    as_printed: str | None = None
    also: tuple[Quantity, ...] = ()

    @property
    def range(self) -> Range | None:
        """The closed range this quantity spans, or None when one end is open.

        >>> Quantity(unit="g/cm3", basis="published", value=3.2).range
        Range(low=3.2, high=3.2)
        >>> Quantity(unit="fraction", basis="published", max=0.1).range is None
        True
        """
        if self.value is not None:
            return Range.of(self.value)
        if self.low is not None and self.high is not None:
            return Range(self.low, self.high)
        return None

    @property
    def ends(self) -> tuple[float | None, float | None]:
        """Lowest and highest value stated; None where that end is open."""
        if self.value is not None:
            return self.value, self.value
        return (
            self.low if self.low is not None else self.min,
            self.high if self.high is not None else self.max,
        )

    @property
    def evidence(self) -> Evidence:
        """The evidence keys on their own."""
        return Evidence(basis=self.basis, source=self.source, at=self.at, note=self.note)

    @property
    def all_values(self) -> tuple[Quantity, ...]:
        """This value first, then those that disagree with it."""
        return (replace(self, also=()), *self.also)

    @property
    def span(self) -> Range | None:
        """From the least to the greatest of all values stated; None where none is closed.

        >>> other = Quantity(unit="Mohs", basis="published", value=1)
        >>> Quantity(unit="Mohs", basis="published", low=5, high=6, also=(other,)).span
        Range(low=1.0, high=6)
        """
        held = [each.range for each in self.all_values if each.range is not None]
        if not held:
            return None
        return Range(min(each.low for each in held), max(each.high for each in held))

"""The uncertain figures of a batch, each under a name, and the things that rest on them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from mullbook.derive.paint import given
from mullbook.model.values import Input, Quantity, Range
from mullbook.science.batch import Material

WATER_DENSITY = Range.of(1.0)


@dataclass
class Knobs:
    """Every figure a batch rests on, as a range with its source; and what is missing, in words."""

    ranges: dict[str, Input] = field(default_factory=dict)
    missing: list[str] = field(default_factory=list)

    def take(self, name: str, quantity: Quantity | None, words: str, needed: bool = True) -> str | None:
        """Note a figure under a name; say so where it is needed and not known."""
        found = given(words, quantity)
        if found is None or not isinstance(found.value, Range):
            if needed:
                self.missing.append(f"the {words} is not known")
            return None
        self.ranges[name] = found
        return name

    def put(self, name: str, words: str, unit: str, value: Range, note: str | None = None) -> str:
        """Note a figure that the recipe states, or that common practice takes."""
        self.ranges[name] = Input(words, unit, value, note=note)
        return name

    @property
    def middles(self) -> dict[str, float]:
        """Every figure at the middle of its range."""
        return {
            name: each.value.middle for name, each in self.ranges.items() if isinstance(each.value, Range)
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One thing of the batch with the names of its figures; None where a default stands."""

    id: str
    role: str
    density: str | None
    stays: str | None = None
    stays_density: str | None = None
    bulk: str | None = None
    active: str | None = None
    oil_absorption: str | None = None
    glycol: str | None = None
    volatile: bool = False

    def at(self, values: Mapping[str, float]) -> Material:
        """The material with its figures at given values."""
        stays = values[self.stays] if self.stays else (0.0 if self.volatile else 1.0)
        return Material(
            id=self.id,
            role=self.role,
            density=values[self.density] if self.density else WATER_DENSITY.low,
            stays=stays,
            stays_density=values[self.stays_density] if self.stays_density else None,
            bulk=values[self.bulk] if self.bulk else None,
            active=values[self.active] if self.active else 1.0,
            oil_absorption=values[self.oil_absorption] if self.oil_absorption else None,
            glycol=values[self.glycol] if self.glycol else 0.0,
        )

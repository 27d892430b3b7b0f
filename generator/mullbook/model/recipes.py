"""Paint systems, and the recipe of one batch."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from mullbook.model.entities import Entity
from mullbook.model.facts import Fact, NotFor, Target
from mullbook.model.values import Evidence, Quantity, Range

GLYCOLS = ("propylene-glycol", "ethylene-glycol", "dipropylene-glycol")
"""Substances that count as glycol in a vehicle."""
CURDLES_FROM = 0.01
"""Share of a salt or reactive white from which an acrylic dispersion is at risk; common practice."""
CURDLERS = ("gypsum", "zinc-oxide", "jarosite", "calcium-hydroxide", "magnesium-hydroxide")


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """An amount somebody chose: a number or a range with its unit, no fact and without evidence."""

    unit: str
    value: float | None = None
    low: float | None = None
    high: float | None = None
    note: str | None = None

    @property
    def range(self) -> Range:
        """The closed range chosen. Raises `ValueError` where no number stands."""
        if self.value is not None:
            return Range.of(self.value)
        if self.low is None or self.high is None:
            raise ValueError("an amount needs a value, or low with high")
        return Range(self.low, self.high)

    @property
    def middle(self) -> float:
        """The number half-way through the range chosen."""
        return self.range.middle


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage(Evidence):
    """One step of making a paint, and how to tell that it is done."""

    name: str
    do: str
    stop_test: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault(Evidence):
    """Something that goes wrong, how to check, and what to do."""

    symptom: str
    check: str
    remedy: str
    general: str | None = None
    """Id of the fault that tells of it in every way of painting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """How much of one thing goes in, as recipes print it; those that disagree stand together."""

    name: str
    of: str
    amount: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class System(Entity):
    """A way of making paint: acrylic dispersion, watercolour, oil, distemper and the rest."""

    kind_name: ClassVar[str] = "system"
    kind: str
    binders: tuple[str, ...] = ()
    stages: tuple[Stage, ...] = ()
    targets: tuple[Target, ...] = ()
    ph: Quantity | None = None
    order_of_addition: tuple[str, ...] = ()
    amounts: tuple[Amount, ...] = ()
    pigment_on_binder: Quantity | None = None
    """Pigment as a percentage of the binder by weight, where a pigment volume means nothing."""
    shelf_life: Fact | None = None
    not_for: tuple[NotFor, ...] = ()
    faults: tuple[Fault, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipePigment:
    """One pigment of a batch: its share by mass, or parts."""

    pigment: str
    part: float | None = None
    share: Quantity | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixed:
    """What a batch holds fast: pigment mass, paint volume, or a number of full tubes."""

    kind: str
    mass: Measure | None = None
    volume: Measure | None = None
    count: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Vehicle:
    """The liquid of the paste: by volume to the loose or tapped powder, or by weight of pigment."""

    additive: str
    by: str
    amount: Measure
    packing: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Dosed:
    """An additive with its dose and what the percentage is of."""

    additive: str
    dose: Measure
    of: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Addition(Dosed):
    """An additive of the finishing, with the stage at which it goes in."""

    stage: str = "end"
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Paste:
    """Vehicle and dispersant of the paste."""

    vehicle: Vehicle | None = None
    dispersant: Dosed | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ratio:
    """Parts of binder to parts of paste."""

    binder: float
    paste: float
    measured_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LetDown:
    """How much binder: by finish, PVC or lambda, or by a ratio to the paste."""

    binder: str
    by: str
    finish: str | None = None
    target: Measure | None = None
    ratio: Ratio | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tube:
    """A tube's volume and how full it is filled."""

    volume: Measure
    fill: Measure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """What one item costs, per kilogram or litre."""

    item: str
    price: float
    per: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """Prices of a recipe."""

    currency: str
    items: tuple[Price, ...]
    checked: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """One batch."""

    kind_name: ClassVar[str] = "recipe"
    id: str
    name: str
    summary: str | None = None
    invented: bool = False
    system: str
    pigments: tuple[RecipePigment, ...]
    fixed: Fixed
    paste: Paste = Paste()
    let_down: LetDown | None = None
    additions: tuple[Addition, ...] = ()
    loss: Measure | None = None
    tube: Tube | None = None
    prices: Prices | None = None
    source: str | None = None
    at: str | None = None
    notes: tuple[str, ...] = ()
    checked: str | None = None

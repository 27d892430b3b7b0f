"""The studio policy: how a dust limit, a class or an element becomes a way of working."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """One of the five control levels."""

    id: str
    name: str
    means: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """A column of the level table."""

    id: str
    words: str
    most: float | None = None
    """Grams up to which it counts; None for the last column."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnlistedDust:
    """The dust threshold used where searched lists hold no limit, in mg/m3."""

    inhalable: float
    respirable: float
    source: str
    at: str

    def of(self, fraction: str) -> float:
        """The threshold for a fraction, mg/m3; total dust counts as inhalable."""
        return self.respirable if fraction == "respirable" else self.inhalable


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelRow:
    """Levels by amount, the same for each row of the table."""

    bench: str
    batch: str
    drum: str

    def level(self, amount: str) -> str:
        """Level id for an amount id (`bench`, `batch` or `drum`)."""
        return {"bench": self.bench, "batch": self.batch, "drum": self.drum}[amount]


@dataclass(frozen=True, slots=True, kw_only=True)
class Band(LevelRow):
    """Levels for a dust limit of at least `at_least` mg/m3 on the inhalable scale."""

    at_least: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """A level that a trait, an element, a group, a family or a class asks for at least.

    `share` is a fraction of the powder; for `element` it is the share as that element.
    `elsewhere` is the level when the class is found only outside the studio's own place.
    """

    id: str
    level: str
    because: str
    elsewhere: str | None = None
    trait: str | None = None
    element: str | None = None
    group: str | None = None
    family: str | None = None
    entry: str | None = None
    """Id of the one entry the floor is for."""
    hazards: tuple[str, ...] = ()
    categories: tuple[str, ...] = ()
    share: float = 0.0
    every_state: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassAndCategory:
    """One class with its category."""

    hazard: str
    category: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WetPaint:
    """The stated paint on which the wet level is judged, and its levels."""

    pvc: float
    binder_density: float
    not_classified: str
    classified: str
    not_known: str
    strict: str
    strict_hazards: tuple[str, ...]
    strict_categories: tuple[str, ...]
    strict_also: tuple[ClassAndCategory, ...]
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A name with its meaning."""

    name: str
    means: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WasteRule:
    """When a waste route applies; the first rule that fits wins."""

    route: str
    levels: tuple[str, ...] = ()
    elements: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    share: float = 0.0
    unknown: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ActionRule:
    """When an action is taken for heating, sanding or spraying; the strictest wins."""

    action: str
    because: str = ""
    levels: tuple[str, ...] = ()
    wet_levels: tuple[str, ...] = ()
    elements: tuple[str, ...] = ()
    share: float = 0.0
    unknown: bool = False
    level: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Someone a powder or paint may not be for, and what triggers it."""

    id: str
    name: str
    because: str
    every_powder: bool = False
    every_classified: bool = False
    from_level: str | None = None
    statements: tuple[str, ...] = ()
    elements: tuple[str, ...] = ()
    share: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class StepsFor:
    """Steps before opening that take the place of those of the level, for some hazard classes."""

    hazards: tuple[str, ...]
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StudioPolicy:
    """The whole policy as its entry states it."""

    id: str
    name: str
    edition: str
    basis: str
    checked: str
    why: str
    assumptions: tuple[str, ...]
    levels: tuple[Level, ...]
    amounts: tuple[Amount, ...]
    unlisted_dust: UnlistedDust
    bands: tuple[Band, ...]
    no_limit_found: LevelRow
    not_searched: LevelRow
    unknown_share: float
    at_least: tuple[Floor, ...]
    wet_paint: WetPaint
    waste: dict[str, Words]
    waste_rules: tuple[WasteRule, ...]
    actions: dict[str, Words]
    heating: tuple[ActionRule, ...]
    sanding: tuple[ActionRule, ...]
    spraying: tuple[ActionRule, ...]
    persons: tuple[Person, ...]
    before_opening: dict[str, tuple[str, ...]]
    before_opening_product: tuple[str, ...]
    before_opening_for: tuple[StepsFor, ...] = ()
    forbidden_words: tuple[str, ...]

    def amount(self, grams: float) -> Amount:
        """The column of the level table that a mass, g, falls into."""
        return next(each for each in self.amounts if each.most is None or grams <= each.most)

    def steps(self, level: str, hazards: Collection[str]) -> tuple[str, ...]:
        """What to do before a jar of powder is opened, by its level; some classes have steps of their own.

        What stays shut is not opened, whatever its classes.
        """
        if level != self.levels[-1].id:
            for each in self.before_opening_for:
                if not set(each.hazards).isdisjoint(hazards):
                    return each.steps
        return self.before_opening[level]

    def rank(self, level: str) -> int:
        """Position of a level id, mildest 0."""
        return [each.id for each in self.levels].index(level)

    def strictest(self, *levels: str) -> str:
        """The strictest of the level ids given."""
        return max(levels, key=self.rank)

    def words(self, level: str) -> Level:
        """The level with this id."""
        return self.levels[self.rank(level)]

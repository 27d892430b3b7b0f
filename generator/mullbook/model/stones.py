"""The stone check as its entry states it: what is asked, how far it is believed, which hazards are listed."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.model.facts import FieldTests
from mullbook.model.values import Evidence


@dataclass(frozen=True, slots=True, kw_only=True)
class StoneLine(Evidence):
    """One sentence with its evidence."""

    say: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StoneValue:
    """One answer that a test may give."""

    id: str
    name: str
    also: tuple[str, ...] = ()
    near: tuple[str, ...] = ()
    """Answers it is most easily mistaken for."""
    at_least: float | None = None
    below: float | None = None
    """The numbers that are read as this answer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StoneTest:
    """One thing asked of a stone. Its id is the field of the field tests that it is held against."""

    id: str
    name: str
    kind: str
    """`words`, `steps` of a scale, or `number`."""
    ask: str
    how: str
    cannot: str
    error: float
    """Part of the readings that are taken to go wrong."""
    also: tuple[str, ...] = ()
    spread: float = 0.0
    """Error of a reading on the scale of `steps`; of a `number`, as a part of it."""
    measured_in: str | None = None
    lowest: float = 0.0
    highest: float = 0.0
    step: float = 0.0
    values: tuple[StoneValue, ...] = ()

    @property
    def ids(self) -> tuple[str, ...]:
        """The answers by id."""
        return tuple(each.id for each in self.values)


@dataclass(frozen=True, slots=True, kw_only=True)
class StoneFlag:
    """An answer that points to a hazard by itself."""

    test: str
    say: str
    any_of: tuple[str, ...] = ()
    above: float | None = None
    unless: str | None = None
    unless_any: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StoneHazard:
    """A hazard that is listed for every stone, with what carries it."""

    id: str
    name: str
    do: str
    elements: tuple[str, ...] = ()
    traits: tuple[str, ...] = ()
    substances: tuple[str, ...] = ()
    always: bool = False
    flags: tuple[StoneFlag, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MayHold(Evidence):
    """A hazard that often hides in something harmless by name."""

    found_in: tuple[str, ...]
    hides: str
    """Id of the hazard."""
    say: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Stone(Evidence):
    """A rock or an earth: no mineral, but what a found stone mostly is."""

    id: str
    name: str
    summary: str
    holds: tuple[str, ...]
    field_tests: FieldTests


@dataclass(frozen=True, slots=True, kw_only=True)
class StoneCheck:
    """The whole check."""

    id: str
    name: str
    edition: str
    basis: str
    checked: str
    review_by: str
    why: str
    assumptions: tuple[str, ...]
    near_share: float
    """Part of the wrong readings that go to neighbouring answers."""
    points_from: float
    """Share of the fit from which the answers point to a hazard."""
    less_likely_below: float
    """Part of the share beforehand below which a hazard is called less likely."""
    never: tuple[StoneLine, ...]
    handling: tuple[StoneLine, ...]
    tests: tuple[StoneTest, ...]
    hazards: tuple[StoneHazard, ...]
    may_hold: tuple[MayHold, ...]
    stones: tuple[Stone, ...]

    def test(self, test_id: str) -> StoneTest:
        """The test of an id. Raises `StopIteration` for none."""
        return next(each for each in self.tests if each.id == test_id)

"""Practice at the bench: what goes wrong with a paint, and the tests a studio can make."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, ClassVar

from mullbook.model.entities import Entity
from mullbook.model.values import Evidence, Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement(Evidence):
    """One sentence of practice with its evidence."""

    say: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """A number that is worked out, never typed in: a formula of the registry and its inputs."""

    formula: str
    inputs: dict[str, Any] = field(default_factory=dict)
    words: str
    """What the number is, in a few words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A check that measures: what, how, and the reading that says yes."""

    what: str
    how: str
    yes: str
    test: str | None = None
    """Id of the studio test that tells it in full."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause(Evidence):
    """One cause of a fault, the check that tells, and what is done about it."""

    cause: str
    check: Measured
    remedy: str
    outcome: str
    correction: str | None = None
    """Id of the symptom for which the batch solver works out what to add."""
    work: Work | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenIn:
    """Where a fault shows: at which stages, in which kinds of system."""

    stages: tuple[str, ...]
    systems: tuple[str, ...] = ()
    """Kinds of system; in all of them where none is named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GeneralFault(Entity):
    """A fault by what is seen, with its causes, the likeliest first."""

    kind_name: ClassVar[str] = "fault"
    seen_in: SeenIn
    causes: tuple[Cause, ...] = ()
    warns: tuple[str, ...] = ()
    see: tuple[str, ...] = ()
    """Ids of faults that look alike."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Accept(Evidence):
    """What a test should read, for the kinds of system it is said of."""

    systems: tuple[str, ...] = ()
    reading: str
    range: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetField:
    """One box of a result sheet."""

    name: str
    unit: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ResultSheet:
    """The table on which the results of a test are written down."""

    once: tuple[SheetField, ...] = ()
    """Boxes above the table, filled once."""
    columns: tuple[SheetField, ...] = ()
    rows: int = 6
    given: tuple[str, ...] = ()
    """Words of the first column, one a row, where the rows are known beforehand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StudioTest(Entity):
    """A test that a studio can make with simple things, and what it can and cannot tell."""

    kind_name: ClassVar[str] = "studio-test"
    tells: str
    """What it is for: powder, paste, paint, film or pair."""
    needs: tuple[str, ...] = ()
    takes: str | None = None
    steps: tuple[Statement, ...] = ()
    accept: tuple[Accept, ...] = ()
    standard: tuple[Statement, ...] = ()
    can_claim: tuple[Statement, ...] = ()
    cannot_claim: tuple[Statement, ...] = ()
    work: tuple[Work, ...] = ()
    sheet: ResultSheet
    warns: tuple[str, ...] = ()

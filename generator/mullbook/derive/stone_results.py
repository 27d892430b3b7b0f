"""What a stone check found: hazards first, then what fits, then the test that would tell most."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from mullbook.model.stones import StoneCheck
from mullbook.model.values import Range

POINTS, NOT_RULED_OUT = "points", "not-ruled-out"
"""The only two things that are ever said of a hazard."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hides:
    """A hazard that a candidate may hold besides what it is made of, and why."""

    hazard: str
    say: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A mineral or a rock that a stone may be."""

    id: str
    name: str
    kind: str
    """`substance`, which has a page, or `stone`."""
    summary: str
    shown: Mapping[str, tuple[str, ...]]
    """Test id to the answers it may give; a test is missing where nothing is known."""
    hardness: Range | None = None
    density: Range | None = None
    hazards: tuple[str, ...] = ()
    """What it is or is made of."""
    hides: tuple[Hides, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StoneTable:
    """Every candidate with its scores: what the command and the page both sum."""

    check: StoneCheck
    candidates: tuple[Candidate, ...]
    chances: Mapping[str, tuple[tuple[float, ...], ...]]
    """Test id to a row a candidate: the chance of each answer; of a number, of each point of its grid."""
    known: Mapping[str, Mapping[str, int]] = field(default_factory=dict)
    """Test id to how many readings of the candidates are known how well, best first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Density:
    """A density with its standard uncertainty, g/cm3."""

    value: float
    uncertainty: float
    told: str = ""
    """How it was come by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Observations:
    """What was observed of one stone."""

    answers: Mapping[str, str] = field(default_factory=dict)
    """Test id to the id of the answer."""
    density: Density | None = None
    notes: tuple[str, ...] = ()
    """What is to be said of how they were read."""

    @property
    def made(self) -> frozenset[str]:
        """Ids of the tests that were made."""
        return frozenset((*self.answers, *(["density"] if self.density else [])))


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """A candidate behind a hazard."""

    id: str
    name: str
    kind: str
    share: float
    say: str = ""
    """Why it may hold the hazard, where it is not made of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardFound:
    """One hazard: pointed to, or not ruled out. There is no third."""

    id: str
    name: str
    status: str
    less_likely: bool
    always: bool
    """Whether it is taken to be there whatever was seen."""
    share: float
    """Part of the fit of all candidates that carry it."""
    before: float
    """The same before anything was observed."""
    because: tuple[str, ...]
    do: str
    behind: tuple[Behind, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """How one observation counted for one candidate."""

    test: str
    bits: float
    """Twice as likely as by chance is 1, half as likely is -1; nought where nothing is known."""
    known: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """One candidate with its share of the fit."""

    candidate: Candidate
    share: float
    counted: tuple[Counted, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NextTest:
    """A test not made yet, with what it is expected to tell."""

    test: str
    bits: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StoneResult:
    """The whole answer, in the order in which it is told."""

    observations: Observations
    hazards: tuple[HazardFound, ...]
    fits: tuple[Fit, ...]
    """All candidates, best first."""
    unknown: float
    """What is not known yet of which candidate it is, bits."""
    next: tuple[NextTest, ...]

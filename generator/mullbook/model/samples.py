"""A found stone or earth in the studio's log."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from mullbook.model.recipes import Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Permission:
    """Who allowed it, for what, and when."""

    who: str | None
    what_for: str
    on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Where and when it was picked up. Private unless the entry says otherwise."""

    place: str | None = None
    private: bool = True
    date: str
    geology: str | None = None
    country_of: str | None = None
    permission: Permission


@dataclass(frozen=True, slots=True, kw_only=True)
class Tested:
    """One test, what it showed, and what it cannot tell."""

    test: str
    result: str
    limit: str
    on: str | None = None
    by: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading as an answer of the stone check."""

    test: str
    answer: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LabReport:
    """A report of a laboratory, with what it cannot tell."""

    number: str
    method: str
    says: str
    limit: str
    on: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Shaken:
    """Layers of a shaken jar, in parts."""

    sand: float
    silt: float
    clay: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OnSieve:
    """What lay on one sieve."""

    opening: Measure
    mass: Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Sieved:
    """A wet-sieved part of the sample, dried and weighed."""

    charged: Measure
    on: tuple[OnSieve, ...]
    pan: Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Processing:
    """How it was washed, and what came of it."""

    cuts: tuple[float, ...]
    depth: Measure | None = None
    left: Measure | None = None
    volume: Measure | None = None
    temperature: Measure | None = None
    charge: Measure | None = None
    rounds: int | None = None
    conductivity_before: Measure | None = None
    wash_water: Measure | None = None
    washes: int | None = None
    conductivity: Measure | None = None
    ph: Measure | None = None
    kept: str
    yields: Measure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """Figures of the fraction that was kept."""

    density: Measure | None = None
    bulk_density_loose: Measure | None = None
    bulk_density_tapped: Measure | None = None
    oil_absorption: Measure | None = None
    slurry_ph: Measure | None = None
    colour: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """A found stone or earth: provenance, permission, tests with their limits, washing, allowed uses."""

    kind_name: ClassVar[str] = "sample"
    id: str
    name: str
    invented: bool = False
    summary: str | None = None
    found: Found
    mass: Measure
    tests: tuple[Tested, ...]
    observed: tuple[Reading, ...] = ()
    lab_reports: tuple[LabReport, ...] = ()
    shaken: Shaken | None = None
    sieved: Sieved | None = None
    processing: Processing | None = None
    measured: Measured = Measured()
    allowed_uses: tuple[str, ...]
    becomes: str | None = None
    recipe: str | None = None
    notes: tuple[str, ...] = ()
    checked: str
    review_by: str | None = None

    @property
    def aliases(self) -> tuple[str, ...]:
        """None: a sample goes by its number."""
        return ()

    @property
    def public(self) -> Sample:
        """The sample as it may leave the studio: while private, without place and without who allowed it."""
        if not self.found.private:
            return self
        permission = replace(self.found.permission, who=None)
        return replace(self, found=replace(self.found, place=None, permission=permission))

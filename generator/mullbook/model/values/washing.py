"""What is asked of a washing and what comes of it: grains, minerals, jars, waits, pours; and sieves."""

from __future__ import annotations

import math
from dataclasses import dataclass

from mullbook.model.values.working import Working

STEPS_OF_A_CLASS = 16
"""Sizes that stand for one class of grains, evenly in the logarithm."""


@dataclass(frozen=True, slots=True)
class Grains:
    """Sizes of the grains of an earth: mass evenly in the logarithm of size between neighbouring edges."""

    edges: tuple[float, ...] = (0.2, 2.0, 63.0, 500.0)
    """Sizes (um), rising."""
    shares: tuple[float, ...] = (0.3, 0.5, 0.2)
    """Parts by mass between the edges; as they stand a guess: clay, silt, sand."""

    def __post_init__(self) -> None:
        if len(self.edges) != len(self.shares) + 1 or any(
            one >= other for one, other in zip(self.edges, self.edges[1:], strict=False)
        ):
            raise ValueError("sizes of grains rise, with one share between each two")
        if self.edges[0] <= 0 or min(self.shares) < 0 or not math.isfinite(sum(self.shares)):
            raise ValueError("a size and a share of grains must not be below 0")
        if sum(self.shares) <= 0:
            raise ValueError("the shares of the grains add up to nothing")

    @property
    def points(self) -> tuple[tuple[float, float], ...]:
        """Sizes that stand for all, each with its part of the mass; the parts add up to 1."""
        whole, found = sum(self.shares), []
        for low, high, share in zip(self.edges, self.edges[1:], self.shares, strict=False):
            for step in range(STEPS_OF_A_CLASS):
                size = low * (high / low) ** ((step + 0.5) / STEPS_OF_A_CLASS)
                found.append((size, share / whole / STEPS_OF_A_CLASS))
        return tuple(found)

    def above(self, size: float) -> float:
        """Part by mass of the grains that are larger than a size (um).

        >>> Grains().above(63.0), round(Grains().above(2.0), 6), Grains().above(0.1)
        (0.2, 0.7, 1.0)
        """
        above = 0.0
        for low, high, share in zip(self.edges, self.edges[1:], self.shares, strict=False):
            if size <= low:
                above += share
            elif size < high:
                above += share * math.log(high / size) / math.log(high / low)
        return above / sum(self.shares)


GUESS = Grains()
"""What is taken for the grains where nothing is known of them."""


@dataclass(frozen=True, slots=True)
class Mineral:
    """One mineral of the earth: its density (g/cm3), and its part by mass where that is known."""

    name: str
    density: float
    share: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Washing:
    """What is asked of a washing."""

    density: float
    """Density (g/cm3) of the grains that the waits are for."""
    cuts: tuple[float, ...]
    """Sizes (um): larger grains stay behind at that pour."""
    depth: float = 10.0
    kept: float = 2.5
    """Heights (cm): poured off, and left standing below the spout."""
    volume: float = 1.0
    """Litres in one jar, filled to the mark."""
    temperature: float = 20.0
    solids: float = 0.02
    """Part by volume of the earth in the first jar, at the first stirring."""
    minerals: tuple[Mineral, ...] = ()
    grains: Grains = GUESS
    rounds: int = 3
    conductivity: float | None = None
    wash_water: float = 0.3
    target: float | None = None
    settle: float = 1.0
    """Size (um) down to which the finest part is let sink before the water is siphoned off."""


@dataclass(frozen=True, slots=True)
class Cut:
    """One pour: its wait, and what it means for each mineral."""

    size: float
    minutes: float
    thin: float
    """Minutes in water with hardly any solids."""
    stokes: float
    """Minutes by Stokes' law alone, for the same solids."""
    sizes: tuple[float, ...]
    """Size at which each mineral is cut, in their order."""
    half: float
    """Part of the grains of half this size that have gone over after all rounds."""


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the list: fill a jar, stir, wait, pour into the next; after the last, the bucket."""

    round: int
    jar: int
    litres_in: float
    minutes: float
    litres_out: float
    into: int
    size: float


@dataclass(frozen=True, slots=True)
class Fraction:
    """What ends in one jar: grams, and for each mineral its grams and the sizes it lies between."""

    jar: int
    grams: float
    share: float
    minerals: tuple[tuple[float, float, float | None], ...]
    """Grams, least size, largest size (None: no upper end) of each mineral, in their order."""


@dataclass(frozen=True, slots=True)
class Plan:
    """A washing worked out."""

    grams: float
    retained: float
    cuts: tuple[Cut, ...]
    steps: tuple[Step, ...]
    fractions: tuple[Fraction, ...]
    settle_minutes: float
    washes: float | None
    readings: tuple[float, ...]
    """Conductivity (mS/cm) at the start and after each wash."""
    target: float | None
    litres: float
    minutes: float
    limits: tuple[str, ...]
    """Which limits of the reckoning this plan touches: drag, hand, still, crowded, brownian."""


@dataclass(frozen=True, slots=True)
class SieveRow:
    """One sieve, or the pan at the end (opening None)."""

    opening: float | None
    mass: float
    share: float
    """Part of all that was recovered that lies on this sieve."""
    above: float
    """Part that lies on this sieve and those above."""
    passing: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WashSheet:
    """A plan with the workings behind it, and what of the earth matters in the water."""

    name: str
    pigment: str | None
    timed_by: str
    """What the density that the waits are for belongs to."""
    asked: Washing
    plan: Plan
    waits: tuple[Working, ...]
    """One a cut, over the range of the density where that is known as a range."""
    salts: Working | None = None
    level: str | None = None
    """Level of the dry powder, as words."""
    minds: tuple[str, ...] = ()

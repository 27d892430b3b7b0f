"""What a batch asks for when it grows from the slab to the drum."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.model.values import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Blade:
    """A disperser for one charge: pot, blade, how high, how fast, each with its working."""

    vessel: Working
    blade: Working
    clearance: Working
    speed: Working
    fill: Working
    drill: Working
    """Tip speed that a hand drill would give the same blade."""
    too_fast: bool
    """Whether few machines turn a blade so small so fast."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way of grinding the paste: how many charges of what size, and what on."""

    id: str
    """`slab`, `jar` or `drum`."""
    charges: int
    pigment: float
    """Grams of pigment in one charge."""
    volume: float
    """Millilitres of paste in one charge."""
    minutes: float | None = None
    """Least time under the blade for all charges together."""
    blade: Blade | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """A batch at one size. `not_applicable` says why nothing is ground, where nothing is."""

    recipe: str
    pigment_mass: float
    paste_volume: float = 0.0
    beyond_slab: bool = False
    ways: tuple[Way, ...] = ()
    keep: str = ""
    """What stays the same however large the batch."""
    heat: str = ""
    notes: tuple[str, ...] = ()
    not_applicable: str = ""

    @property
    def way(self) -> Way | None:
        """The way with the fewest charges."""
        return min(self.ways, key=lambda each: each.charges, default=None)

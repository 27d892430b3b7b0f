"""Tables for the bench: a pigment in every binder, its washing times, oil figures, a lot measured."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from mullbook.derive.batch_results import Sheet
from mullbook.derive.earth_results import Earths
from mullbook.derive.results import Paint
from mullbook.derive.scale_results import Scale
from mullbook.derive.stone_results import StoneTable
from mullbook.model.benches import Lot
from mullbook.model.values import Quantity, Range, Working


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintRow:
    """One pigment in one binder, brought to one finish."""

    binder: str
    finish: str
    verdict: str | None
    pvc: Range
    critical: Range | None
    """Critical PVC in this binder; where only a grind quantity is known, its low end is a lower bound."""
    reduced: Range | None = None
    words: str = ""
    grams: Range | None = None
    """Binder as supplied, g per 100 g of pigment."""
    start: float | None = None
    """The same with every figure at the middle of its range."""
    loose: Range | None = None
    """Parts of binder as supplied to one of loose powder, both by volume."""
    tapped: Range | None = None

    @property
    def by_weight(self) -> Range | None:
        """Parts of binder as supplied to one of pigment, by weight."""
        return self.grams.times(0.01) if self.grams else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Washing:
    """Minutes in which grains of each size have sunk a depth at each temperature, few solids in the water."""

    depth: float
    sizes: tuple[float, ...]
    temperatures: tuple[float, ...]
    minutes: tuple[tuple[Range, ...], ...]
    """One row a size, one column a temperature."""
    working: Working
    """One of the cells in full."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tables:
    """The tables of one pigment."""

    rows: tuple[PaintRow, ...] = ()
    bound: bool = False
    """Whether the critical PVC is only known to be at least so much."""
    washing: Washing | None = None
    not_derivable: str = ""
    """Why there is nothing where there is nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OilRow:
    """A pigment whose oil was both rubbed out and ground."""

    pigment: str
    name: str
    rub_out: Quantity
    grind: Quantity
    critical: Working
    paste: Working
    """PVC of the working paste, which is only a lower bound of the critical one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PasteRow:
    """A figure printed as per cent of the paste, turned into grams per 100 g of pigment."""

    pigment: str
    name: str
    printed: Quantity
    percent: float
    working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class OilFigures:
    """Examples of the three kinds of oil figure."""

    both: tuple[OilRow, ...] = ()
    pastes: tuple[PasteRow, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LotShown:
    """A lot as measured, with the numbers of its pigment before and after."""

    lot: Lot
    name: str
    binder: str
    book: Paint
    yours: Paint


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """All that the pages for the bench are made of."""

    tables: Mapping[str, Tables] = field(default_factory=dict)
    sheets: Mapping[str, Sheet] = field(default_factory=dict)
    scales: Mapping[str, tuple[Scale, ...]] = field(default_factory=dict)
    """Each recipe scaled from the slab up."""
    film: Mapping[str, Range] = field(default_factory=dict)
    """Binder id to the part of its volume that stays as dry film, where it follows from the entry."""
    oil: OilFigures = OilFigures()
    lot: LotShown | None = None
    earths: Earths = field(default_factory=Earths)
    stone: StoneTable | None = None
    """What a found stone is held against."""

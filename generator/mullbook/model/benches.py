"""What a maker brings to a batch: amounts as weighed, and figures measured on their own lot."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.model.recipes import Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedIn:
    """One thing in a batch with the grams that went in."""

    item: str
    mass: Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Have:
    """A batch as actually weighed, and what is wrong with it.

    `recipe` names the recipe it was meant to be; `wrong` holds symptoms; `let_down` says whether the binder
    is in already; `volume` is what is wanted where it is short.
    """

    recipe: str
    weighed: tuple[WeighedIn, ...]
    wrong: tuple[str, ...] = ()
    let_down: bool = True
    volume: Measure | None = None
    note: str | None = None

    @property
    def grams(self) -> dict[str, float]:
        """Grams by item; an item weighed in twice is added up."""
        found: dict[str, float] = {}
        for each in self.weighed:
            found[each.item] = found.get(each.item, 0.0) + each.mass.middle
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """Figures measured by the maker on one lot of a pigment; they stand in place of the book's."""

    pigment: str
    lot: str
    measured: str
    by: str | None = None
    oil_absorption: Measure | None = None
    bulk_density_loose: Measure | None = None
    bulk_density_tapped: Measure | None = None
    density: Measure | None = None
    slurry_ph: Measure | None = None
    conductivity: Measure | None = None
    water_wetting: str | None = None
    note: str | None = None

"""The minerals of an earth as a washing meets them."""

from __future__ import annotations

from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment, Substance
from mullbook.model.values.washing import Mineral

MOST_MINERALS = 12
WATER = 1.0
"""Density (g/cm3) that a grain must pass to sink."""


def mineral(substance: Substance, share: float | None = None) -> Mineral | None:
    """A substance as grains that sink, at the middle of its density; None where it has none or floats."""
    density = substance.density.range if substance.density else None
    if density is None or density.low <= WATER:
        return None
    return Mineral(substance.name.lower(), density.middle, share)


def minerals_of(catalogue: Catalogue, pigment: Pigment) -> tuple[Mineral, ...]:
    """Constituents whose density is known, each with its share at the middle of its range, largest first."""
    found = []
    for each in pigment.constituents:
        low, high = each.share.ends
        most = 1.0 if high is None else high
        substance = catalogue.substance.get(each.substance)
        grains = mineral(substance, ((low or 0.0) + most) / 2) if substance and most > 0 else None
        if grains is not None:
            found.append((-most, each.substance, grains))
    return tuple(grains for *_, grains in sorted(found, key=lambda row: row[:2]))[:MOST_MINERALS]

"""Figures measured by the maker in place of the book's."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from mullbook.model.benches import Lot
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from mullbook.model.facts import Fact
from mullbook.model.recipes import Measure
from mullbook.model.values import MEASURED, Quantity

FIELDS = ("oil_absorption", "bulk_density_loose", "bulk_density_tapped", "density", "slurry_ph")


def with_lots(catalogue: Catalogue, lots: Iterable[Lot]) -> Catalogue:
    """The catalogue with measured figures put in; the book's own stay behind them as further values.

    Parameters: `catalogue`; `lots`, of which a later one of the same pigment counts over an earlier one.
    Returns a new catalogue; pigments without a lot are the same.
    """
    by_pigment = {each.pigment: each for each in lots}
    if not by_pigment:
        return catalogue
    return replace(
        catalogue,
        pigments=tuple(
            _measured(each, by_pigment[each.id]) if each.id in by_pigment else each
            for each in catalogue.pigments
        ),
    )


def _measured(pigment: Pigment, lot: Lot) -> Pigment:
    given: dict[str, Any] = {
        name: _quantity(measure, lot, getattr(pigment.physical, name))
        for name in FIELDS
        if (measure := getattr(lot, name)) is not None
    }
    if lot.water_wetting is not None:
        given["water_wetting"] = Fact(value=lot.water_wetting, basis=MEASURED, note=_said(lot))
    return replace(pigment, physical=replace(pigment.physical, **given))


def _quantity(measure: Measure, lot: Lot, book: Quantity | None) -> Quantity:
    return Quantity(
        unit=measure.unit,
        basis=MEASURED,
        value=measure.value,
        low=measure.low,
        high=measure.high,
        note=_said(lot),
        also=book.all_values if book else (),
    )


def _said(lot: Lot) -> str:
    return f"measured by you, lot {lot.lot}, {lot.measured}"

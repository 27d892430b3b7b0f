"""Everything the pages for the bench show, worked out only when pages are made."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from mullbook.derive.batch import batch
from mullbook.derive.batch_results import Sheet
from mullbook.derive.composition import parts
from mullbook.derive.earths import earths_of
from mullbook.derive.lots import with_lots
from mullbook.derive.oil_figures import oil_figures
from mullbook.derive.paint import paint_of
from mullbook.derive.results import Derived
from mullbook.derive.scale_results import Scale
from mullbook.derive.scale_up import scale_up
from mullbook.derive.stone_table import stone_table
from mullbook.derive.table_results import Bench, LotShown, Tables
from mullbook.derive.tables import aims, tables_of
from mullbook.model.benches import Lot
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Binder
from mullbook.model.values import Range

SIZES = (100.0, 1000.0, 25_000.0)
"""Grams of pigment at which a recipe is shown scaled: one slab, a pot, a drum."""
LOT_BINDER = "acrylic-dispersion"
"""Binder in which the example of a measured lot is shown."""


def bench_of(
    catalogue: Catalogue, derived: Derived, lot: Lot | None = None, only: Collection[str] | None = None
) -> Bench:
    """Tables, sheets and examples.

    Parameters: the catalogue and what was derived; `lot`, the lot shown as an example; `only`, the pigments
    whose tables are wanted. Never raises on bad data: what cannot be worked out says why.
    """
    sheets = {each.id: batch(catalogue, each) for each in catalogue.recipes}
    return Bench(
        tables=all_tables(catalogue, derived, only),
        sheets=sheets,
        scales={name: tuple(_scales(catalogue, sheet)) for name, sheet in sheets.items()},
        film={each.id: film for each in catalogue.binders if (film := film_share(each)) is not None},
        oil=oil_figures(catalogue, derived),
        lot=_lot_shown(catalogue, derived, lot) if lot else None,
        earths=earths_of(catalogue, derived),
        stone=stone_table(catalogue),
    )


def all_tables(
    catalogue: Catalogue, derived: Derived, only: Collection[str] | None = None
) -> dict[str, Tables]:
    """The tables of every pigment, or of a few, by its id."""
    binders, aimed = {each.id: each for each in catalogue.binders}, aims(catalogue)
    return {
        each.id: tables_of(each, derived.pigments[each.id].paint, binders, aimed)
        for each in catalogue.pigments
        if only is None or each.id in only
    }


def _scales(catalogue: Catalogue, sheet: Sheet) -> Iterator[Scale]:
    yield scale_up(catalogue, sheet)
    if not sheet.missing:
        yield from (scale_up(catalogue, sheet, mass) for mass in SIZES)


def film_share(binder: Binder) -> Range | None:
    """Part of a binder's volume as supplied that stays as dry film: `solids x wet density/dry density`."""
    known = [each.range if each else None for each in (binder.solids, binder.density_wet, binder.density_dry)]
    solids, wet, dry = known
    if solids is None or wet is None or dry is None or dry.low <= 0:
        return None
    if solids.low == 1:
        return Range.of(1)  # where all of it stays the two densities are one figure
    return Range(min(1.0, solids.low * wet.low / dry.high), min(1.0, solids.high * wet.high / dry.low))


def _lot_shown(catalogue: Catalogue, derived: Derived, lot: Lot) -> LotShown | None:
    if lot.pigment not in catalogue.pigment or LOT_BINDER not in catalogue.binder:
        return None
    measured = with_lots(catalogue, [lot])
    pigment = measured.pigment[lot.pigment]
    return LotShown(
        lot=lot,
        name=pigment.name,
        binder=LOT_BINDER,
        book=derived.pigments[lot.pigment].paint,
        yours=paint_of(measured, pigment, parts(measured, pigment.constituents)),
    )

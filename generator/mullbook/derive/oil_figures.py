"""Examples of the three kinds of oil figure, taken from the entries."""

from __future__ import annotations

import re
from collections.abc import Iterator

from mullbook.derive.paint import RUB_OUT, given
from mullbook.derive.results import Derived
from mullbook.derive.table_results import OilFigures, OilRow, PasteRow
from mullbook.model.catalogue import Catalogue
from mullbook.science.registry import evaluate

PER_CENT_OF_PASTE = re.compile(r"([\d.]+) % of the paste")
MOST = 12
"""Examples of one kind: the page must not grow with the catalogue."""


def oil_figures(catalogue: Catalogue, derived: Derived) -> OilFigures:
    """Pigments of which both figures are known, those furthest apart first; and printed per cents turned."""
    both = sorted(_both(catalogue, derived), key=lambda row: (-_apart(row), row.pigment))
    pastes = sorted(_pastes(catalogue), key=lambda row: (-row.percent, row.pigment))
    return OilFigures(both=tuple(both[:MOST]), pastes=tuple(pastes[:MOST]))


def _both(catalogue: Catalogue, derived: Derived) -> Iterator[OilRow]:
    for pigment in catalogue.pigments:
        physical, paint = pigment.physical, derived.pigments[pigment.id].paint
        if physical.oil_absorption is None or physical.oil_to_grind is None:
            continue
        paste = evaluate(
            "pvc_of_grind",
            {
                "oil_to_grind": given("oil_to_grind", physical.oil_to_grind),
                "density": given("density", paint.density),
            },
        )
        if paint.critical_from == RUB_OUT and paste.result is not None:
            yield OilRow(
                pigment=pigment.id,
                name=pigment.name,
                rub_out=physical.oil_absorption,
                grind=physical.oil_to_grind,
                critical=paint.critical,
                paste=paste,
            )


def _apart(row: OilRow) -> float:
    """How many times more oil the grinding took than the rub-out."""
    rubbed, ground = row.rub_out.range, row.grind.range
    return ground.middle / rubbed.middle if rubbed and ground else 0.0


def _pastes(catalogue: Catalogue) -> Iterator[PasteRow]:
    """One printed per cent of paste a pigment, the first there is."""
    for pigment in catalogue.pigments:
        quantity = pigment.physical.oil_to_grind
        for each in quantity.all_values if quantity else ():
            printed = PER_CENT_OF_PASTE.fullmatch(each.as_printed or "")
            if printed:
                percent = float(printed[1])
                yield PasteRow(
                    pigment=pigment.id,
                    name=pigment.name,
                    printed=each,
                    percent=percent,
                    working=evaluate("per_100", {"percent_of_paste": percent}),
                )
                break

"""CAS numbers, IARC groups and limits against an independent package; each disagreement has a reason."""

from __future__ import annotations

import re
from collections.abc import Iterator

from chemicals import MW, check_CAS
from chemicals.safety import TWA, Carcinogen, TWA_methods

from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Substance
from tests.science.oracles import rows

IARC = "International Agency for Research on Cancer"
ARGUED = {(row["substance"], row["what"]) for row in rows("chemicals_disagree")}
MOLAR_VOLUME = 24.45
"""Litres to a mole of vapour at 25 °C, to turn the package's ppm back into mg/m3."""


def package_group(cas: str) -> str | None:
    found = re.search(r"\((\w+)\)$", str(Carcinogen(cas).get(IARC, "")))
    return found[1] if found else None


def package_limit(cas: str) -> float | None:
    """The package's workplace limit in mg/m3; None where it has none, or knows no molar mass."""
    try:
        methods = TWA_methods(cas)
        value, unit = TWA(cas, method="Ontario Limits") if "Ontario Limits" in methods else (None, None)
        if value is None:
            return None
        return float(value if unit == "mg/m^3" else value * MW(cas) / MOLAR_VOLUME)
    except ValueError:
        return None


def disagreements(catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    for substance in catalogue.substances:
        for each in substance.cas:
            yield from _of(catalogue, substance, each.number)


def _of(catalogue: Catalogue, substance: Substance, cas: str) -> Iterator[tuple[str, str]]:
    group = package_group(cas)
    mine = substance.iarc.group if substance.iarc else None
    if group is not None and group != mine:
        yield substance.id, "iarc"
    if group is None and mine is not None:
        yield substance.id, "iarc-beside"
    limit = package_limit(cas)
    held = [each.value.range for each in catalogue.limits_of(substance) if each.type == "twa"]
    if limit is not None and not any(each and abs(each.low - limit) <= 0.06 * limit for each in held):
        yield substance.id, "twa"


def test_every_cas_number_is_well_formed(catalogue: Catalogue) -> None:
    numbers = [each.number for thing in (*catalogue.substances, *catalogue.pigments) for each in thing.cas]
    assert len(numbers) > 200
    assert [each for each in numbers if not check_CAS(each)] == []


def test_every_disagreement_is_argued(catalogue: Catalogue) -> None:
    assert set(disagreements(catalogue)) == ARGUED


def test_most_limits_of_the_package_agree(catalogue: Catalogue) -> None:
    known = [
        (each.id, number.number)
        for each in catalogue.substances
        for number in each.cas
        if package_limit(number.number) is not None
    ]
    apart = {name for name, what in disagreements(catalogue) if what == "twa"}
    assert len(known) > 15
    assert len(apart) < len(known) / 2


def test_each_reason_is_given() -> None:
    assert all(len(row["reason"]) > 20 for row in rows("chemicals_disagree"))

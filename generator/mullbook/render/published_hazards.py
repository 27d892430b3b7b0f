"""Every hazard class with the place where it holds: a code alone does not say whose it is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from mullbook.derive.results import Derived, FoundClass, Safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import HazardClass

Record = dict[str, Any]

WORKED_OUT = "worked-out"
"""Standing of a class that the mixture rules gave; a draft, not a regulatory classification."""


def hazard_records(catalogue: Catalogue, derived: Derived) -> list[Record]:
    """One record for each class of each entry: as published for substances and for what is declared of a
    whole product, worked out by rule for the rest.

    Parameters: `catalogue` and what was `derived` from it. Returns records by kind and id of the entry.
    """
    records: list[Record] = []
    for pigment in catalogue.pigments:
        records += _of_safety("pigment", pigment.id, derived.pigments[pigment.id].safety)
    for product in (*catalogue.binders, *catalogue.additives):
        records += _of_safety(product.kind_name, product.id, derived.products[product.id])
    for substance in catalogue.substances:
        records += (_published("substance", substance.id, each) for each in catalogue.classes_of(substance))
    return records


def _of_safety(kind: str, entry_id: str, safety: Safety) -> Iterator[Record]:
    for found in (*safety.classes, *safety.elsewhere):
        yield _worked_out(kind, entry_id, found)
    for declared in safety.declared:
        yield _published(kind, entry_id, declared)


def _worked_out(kind: str, entry_id: str, found: FoundClass) -> Record:
    return {
        "kind": kind,
        "entry": entry_id,
        "class": found.hazard,
        "category": found.category,
        "statement": found.statement,
        "place": found.place,
        "standing": WORKED_OUT,
        "basis": "from-memory" if found.remembered else "calculated",
        "source": None,
        "why": found.why.removesuffix(f" ({found.rule})"),
        "rule": found.rule,
    }


def _published(kind: str, entry_id: str, given: HazardClass) -> Record:
    return {
        "kind": kind,
        "entry": entry_id,
        "class": given.hazard,
        "category": given.category,
        "statement": given.statement,
        "place": given.place,
        "standing": given.standing,
        "basis": given.basis,
        "source": given.source,
        "why": given.at,
        "rule": "",
    }

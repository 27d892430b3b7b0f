"""Published records of substances, binders, additives and sources."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from mullbook.derive.results import Safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Source, Substance
from mullbook.model.facts import Dose
from mullbook.model.values import Limit, Quantity
from mullbook.render.numbers import Number, authored

Record = dict[str, Any]


def quantity(found: Quantity | None, shown: Callable[[float], Number] = authored) -> Record | None:
    """A quantity with its two ends, None where an end is open; None where there is no quantity."""
    if found is None:
        return None
    low, high = (None if end is None else shown(end) for end in found.ends)
    return {"low": low, "high": high, "unit": found.unit, "source": found.source, "basis": found.basis}


def substance(catalogue: Catalogue, entry: Substance) -> Record:
    """One substance. Its groups' classes and limits count as its own: a list left empty would say less
    than is known."""
    classes = catalogue.classes_of(entry)
    return {
        "id": entry.id,
        "name": entry.name,
        "formula": entry.formula,
        "cas": [each.number for each in entry.cas],
        "density": quantity(entry.density),
        "hazard_status": "classified" if classes else entry.hazards.status,
        "hazard_statements": sorted({each.statement for each in classes}),
        "limits": [_limit(each) for each in catalogue.limits_of(entry)],
    }


def _limit(limit: Limit) -> Record:
    return {
        "jurisdiction": limit.jurisdiction,
        "list": limit.list,
        "type": limit.type,
        "averaging": limit.averaging,
        "fraction": limit.fraction,
        "value": quantity(limit.value),
        "expressed_as": limit.expressed_as,
        "scope": limit.scope,
        "in_force": limit.in_force,
        "checked": limit.checked,
    }


def binder(entry: Binder, safety: Safety) -> Record:
    """One binder."""
    return {
        "id": entry.id,
        "name": entry.name,
        "kind": entry.kind,
        "solids": quantity(entry.solids),
        "density_wet": quantity(entry.density_wet),
        "density_dry": quantity(entry.density_dry),
        "ph": quantity(entry.ph),
        "hazard_status": safety.status,
        "refractive_index": quantity(entry.refractive_index),
        "binder_index": quantity(entry.binder_index),
        "film_forming_temperature": quantity(entry.film_forming_temperature),
        "allergens": [each.name for each in entry.allergens],
        **_product(entry, safety),
    }


def additive(entry: Additive, safety: Safety) -> Record:
    """One additive."""
    return {
        "id": entry.id,
        "name": entry.name,
        "role": entry.role,
        "active": quantity(entry.active),
        "doses": [_dose(each) for each in entry.doses],
        "stays_in_film": entry.stays_in_film,
        "hazard_status": safety.status,
        "density": quantity(entry.density),
        **_product(entry, safety),
    }


def _dose(dose: Dose) -> Record:
    found = quantity(dose.range) or {}
    return {
        "low": found["low"],
        "high": found["high"],
        "unit": found["unit"],
        "of": dose.of,
        "when": dose.when,
        "source": found["source"],
        "basis": found["basis"],
    }


def _product(entry: Binder | Additive, safety: Safety) -> Record:
    """What binders and additives have in common."""
    persons = (*(each.id for each in safety.not_for), *(each.person for each in entry.not_for))
    return {
        "aliases": list(entry.aliases),
        "summary": entry.summary,
        "hazard_statements": list(safety.statements),
        "lists_searched": list(safety.searched),
        "not_for": list(dict.fromkeys(persons)),
        "signal_word": safety.signal_word,
        "pictograms": list(safety.pictograms),
    }


def source(entry: Source, used_by: int) -> Record:
    """One source, with the number of entries that cite it."""
    return {
        "id": entry.id,
        "kind": entry.kind,
        "title": entry.title,
        "year": entry.year,
        "publisher": entry.publisher,
        "used_by": used_by,
    }

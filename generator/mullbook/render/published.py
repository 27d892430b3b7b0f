"""The published catalogue: plain data whose keys and their order are a promise to those who use it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from mullbook.derive.results import (
    Because,
    BinderStart,
    Derived,
    DerivedPigment,
    DustLimit,
    Paint,
    Part,
    Safety,
    Verdict,
)
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from mullbook.model.facts import Colour
from mullbook.model.values import BASES, Range
from mullbook.model.values.policy import StudioPolicy
from mullbook.render.numbers import authored, worked_out
from mullbook.render.published_things import additive, binder, quantity, source, substance

Record = dict[str, Any]

VERSION = "0.1.0"
"""Version of the content: of the entries and of what is derived from them."""

BENCH, DRUM = "bench", "drum"
GRIND = "grind-quantity"


def published(catalogue: Catalogue, derived: Derived, schema_version: str) -> Record:
    """The whole published catalogue as plain data.

    Parameters: `catalogue` and what was `derived` from it; `schema_version`, that of the schemas it keeps to.
    Returns dicts and lists in the order of the contract, each kind by id. Raises `IndexError` where the
    catalogue has no policy or no classification ruleset, for a level cannot be named without them.
    """
    kinds: Record = {
        "pigments": [pigment(catalogue, each, derived.pigments[each.id]) for each in catalogue.pigments],
        "substances": [substance(catalogue, each) for each in catalogue.substances],
        "binders": [binder(each, derived.products[each.id]) for each in catalogue.binders],
        "additives": [additive(each, derived.products[each.id]) for each in catalogue.additives],
        "sources": [source(each, len(derived.used_by.get(each.id, ()))) for each in catalogue.sources],
    }
    about = {
        "version": VERSION,
        "schema_version": schema_version,
        "checked": catalogue.latest_check or "",
        "jurisdiction": catalogue.classification.jurisdiction,
        "edition": catalogue.classification.edition,
        "counts": {kind: len(records) for kind, records in kinds.items()},
    }
    return {"catalogue": about, **kinds}


def pigment(catalogue: Catalogue, entry: Pigment, derived: DerivedPigment) -> Record:
    """One pigment."""
    physical = entry.physical
    return {
        "id": entry.id,
        "name": entry.name,
        "aliases": list(entry.aliases),
        "colour_index": list(entry.colour_index.names) if entry.colour_index else [],
        "cas": cas_numbers(catalogue, entry),
        "family": entry.family,
        "hue": entry.hue,
        "density": quantity(physical.density) or quantity(derived.paint.density, worked_out),
        "oil_absorption": quantity(physical.oil_absorption),
        "oil_to_grind": quantity(physical.oil_to_grind),
        "refractive_index": quantity(physical.refractive_index),
        "colour": _colour(entry.colour, derived.hex),
        "constituents": [_part(each) for each in derived.parts],
        "derived": _derived(catalogue.policy, derived),
        "provenance": provenance(entry),
    }


def cas_numbers(catalogue: Catalogue, entry: Pigment) -> list[str]:
    """The CAS numbers a pigment is found by: its own, else those of what colours it."""
    if entry.cas:
        return [each.number for each in entry.cas]
    colourants = (each.substance for each in entry.constituents if each.role == "colourant")
    held = (catalogue.substance.get(each) for each in colourants)
    return list(dict.fromkeys(number.number for each in held if each for number in each.cas))


def provenance(entry: Pigment) -> dict[str, int]:
    """How many facts of an entry stand on each basis."""
    count = Counter(bases_in(entry))
    return {basis.replace("-", "_"): count[basis] for basis in BASES}


def bases_in(value: object) -> Iterator[str]:
    """The basis of every evidence record anywhere inside a value."""
    if isinstance(value, tuple):
        for each in value:
            yield from bases_in(each)
    elif is_dataclass(value):
        for field in fields(value):
            inner = getattr(value, field.name)
            if field.name == "basis":
                yield inner
            else:
                yield from bases_in(inner)


def _colour(colour: Colour | None, hex_code: str | None) -> Record | None:
    if colour is None or not colour.lab or hex_code is None:
        return None
    return {
        "lab": [authored(each) for each in colour.lab],
        "hex": hex_code,
        "of": colour.of,
        "basis": colour.basis,
    }


def _part(part: Part) -> Record:
    share = {"low": authored(part.share.low), "high": authored(part.share.high)}
    return {"substance": part.substance, "share": share, "role": part.role}


def _derived(policy: StudioPolicy, found: DerivedPigment) -> Record:
    return {
        "cpvc": _critical(found.paint),
        # A binder that is not listed is one nothing is known of: rows that say so were half of the file.
        "binders": [_start(each) for each in found.paint.binders if each.verdict is not None],
        **_safety(policy, found.safety),
    }


def _critical(paint: Paint) -> Record | None:
    """Critical PVC; a grind quantity gives only a lower bound of it, so the high end stays open."""
    result = paint.critical.result
    if result is None or paint.critical_from is None:
        return None
    high = None if paint.critical_from == GRIND else worked_out(result.high)
    return {"low": worked_out(result.low), "high": high, "from": paint.critical_from}


def _start(start: BinderStart) -> Record:
    return {
        "binder": start.binder,
        "suitability": start.verdict or "not-known",
        "pvc": _ends(start.pvc),
        "binder_g_per_100g": _ends(start.mass.result if start.mass else None),
    }


def _ends(found: Range | None) -> Record | None:
    return None if found is None else {"low": worked_out(found.low), "high": worked_out(found.high)}


def _safety(policy: StudioPolicy, safety: Safety) -> Record:
    return {
        "hazard_status": safety.status,
        "lists_searched": list(safety.searched),
        "hazard_statements": list(safety.statements),
        "signal_word": safety.signal_word,
        "pictograms": list(safety.pictograms),
        "dust_limit": _limit(safety.shown_limit),
        "dust_limit_status": safety.limit_status,
        "control_level": {
            "dry_powder": level_name(policy, safety.dry.get(BENCH)),
            "wet_paint": level_name(policy, safety.wet),
        },
        "control_level_bench": level_name(policy, safety.dry.get(BENCH)),
        "control_level_drum": level_name(policy, safety.dry.get(DRUM)),
        "actions": {
            "heating": _id(safety.heating, "not-known"),
            "sanding": _id(safety.sanding, "not-known"),
            "spraying": _id(safety.spraying, "not-known"),
        },
        "waste": _id(safety.waste, "collect-and-ask"),
        "not_for": _ids(safety.not_for),
        "milder": list(safety.milder),
        "first_aid": list(safety.first_aid),
    }


def level_name(policy: StudioPolicy, verdict: Verdict | None) -> str:
    """The phrase of a level; no verdict is never taken for a mild one."""
    return policy.words(verdict.level).name if verdict else policy.levels[-1].name


def _id(found: Because | None, silent: str) -> str:
    return found.id if found else silent


def _ids(found: Iterable[Because]) -> list[str]:
    return [each.id for each in found]


def _limit(limit: DustLimit | None) -> Record | None:
    if limit is None:
        return None
    return {
        "value": worked_out(limit.value),
        "unit": "mg/m3",
        "fraction": limit.fraction,
        "jurisdiction": limit.jurisdiction,
        "list": limit.list,
        "driver": limit.driver,
    }

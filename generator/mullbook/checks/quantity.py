"""MB5xx: quantities are whole, ordered and plausible."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from mullbook.checks.codes import Rule
from mullbook.checks.context import Check, EntryContext, Finding, records
from mullbook.model.values import BASES

FORMS = ("value", "low", "high", "min", "max")
PLAUSIBLE: dict[str, tuple[float, float]] = {
    "fraction": (0, 1),
    "percent": (0, 100),
    "index": (1, 5),
    "pH": (0, 14),
    "g/cm3": (0.02, 23),
    "g/100g": (1, 1000),
    "um": (0.0005, 5000),
    "m2/g": (0.001, 2000),
    "C": (-50, 2000),
    "mg/m3": (1e-7, 10000),
    "A3": (10, 20000),
    "Mohs": (0.5, 10),
}
"""Bounds outside which a number in this unit is a slip of the pen, not a property of a paint material."""


TARGET_UNITS = {"lambda": "number", "pvc": "fraction"}
"""What a target is counted in, by what it is a target of."""


def _forms(record: dict[str, Any]) -> set[str]:
    return {key for key in FORMS if key in record}


def _one_form(context: EntryContext) -> Iterator[Finding]:
    for pointer, record in records(context, "unit", "basis"):
        if _forms(record) not in ({"value"}, {"low", "high"}, {"min"}, {"max"}):
            yield Finding(
                "A quantity needs one of: value; low with high; min alone; max alone.",
                context.document.place(pointer, key=True),
                example="density: {low: 3.2, high: 3.6, unit: g/cm3, source: ..., basis: published}",
            )


def _ordered(context: EntryContext) -> Iterator[Finding]:
    for pointer, record in records(context, "low", "high"):
        low, high = record["low"], record["high"]
        if _number(low) and _number(high) and low > high:
            yield Finding(
                f"This range runs backwards: low is {low}, high is {high}.",
                context.document.place((*pointer, "low")),
                hint="Swap them, or check the decimal point.",
                example=f"low: {high}, high: {low}",
                related=(context.document.place((*pointer, "high")),),
            )


def _number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _plausible(context: EntryContext) -> Iterator[Finding]:
    for pointer, record in records(context, "unit"):
        bounds = PLAUSIBLE.get(record["unit"]) if isinstance(record["unit"], str) else None
        for key in FORMS:
            value = record.get(key)
            if bounds and isinstance(value, int | float) and not bounds[0] <= value <= bounds[1]:
                yield Finding(
                    f"{value} {record['unit']} is not plausible: expected {bounds[0]:g} to {bounds[1]:g}.",
                    context.document.place((*pointer, key)),
                    hint="Check the unit and the decimal point. Fractions run from 0 to 1, not to 100.",
                )


def _same_unit(context: EntryContext) -> Iterator[Finding]:
    for pointer, record in records(context, "unit", "also"):
        for index, other in enumerate(record["also"]):
            if other.get("unit") != record["unit"]:
                yield Finding(
                    f"The other values must be in {record['unit']} too, not in {other.get('unit')}.",
                    context.document.place((*pointer, "also", index, "unit")),
                    hint="Convert it and keep the printed figure in as_printed.",
                    example=f'unit: {record["unit"]}, as_printed: "48 % of the paste"',
                )


def _best_first(context: EntryContext) -> Iterator[Finding]:
    for pointer, record in records(context, "unit", "also", "basis"):
        better = [each["basis"] for each in record["also"] if _rank(each["basis"]) < _rank(record["basis"])]
        if better and "note" not in record:
            yield Finding(
                f"A {record['basis']} value stands before one that is {better[0]}.",
                context.document.place((*pointer, "basis")),
                hint="The best known value stands first; if another fits better, say why in note.",
            )


def _target_unit(context: EntryContext) -> Iterator[Finding]:
    for pointer, record in records(context, "by"):
        wanted = TARGET_UNITS.get(record["by"])
        for key in ("range", "target"):
            aim = record.get(key)
            if wanted and isinstance(aim, dict) and aim.get("unit", wanted) != wanted:
                yield Finding(
                    f"A target by {record['by']} is given in the unit {wanted}, not {aim['unit']}.",
                    context.document.place((*pointer, key, "unit")),
                    hint="Lambda is the PVC over the critical one, a plain number; a PVC is a fraction.",
                    example=f"unit: {wanted}",
                )


def _rank(basis: str) -> int:
    return BASES.index(basis)


ENTRY = (
    Check(
        Rule(
            "MB501",
            "quantity without one clear form",
            "error",
            "A number, a range or a bound: a reader must know which.",
            "density: {value: 3.2, low: 3.0, unit: g/cm3}",
            "density: {low: 3.0, high: 3.4, unit: g/cm3}",
        ),
        _one_form,
    ),
    Check(
        Rule(
            "MB502",
            "range that runs backwards",
            "error",
            "Every figure worked out from it would be wrong.",
            "low: 60, high: 40",
            "low: 40, high: 60",
        ),
        _ordered,
    ),
    Check(
        Rule(
            "MB503",
            "number that cannot be",
            "error",
            "A slipped decimal point or a percentage for a fraction turns up in every table and verdict.",
            "share: {low: 5, high: 20, unit: fraction}",
            "share: {low: 0.05, high: 0.2, unit: fraction}",
        ),
        _plausible,
    ),
    Check(
        Rule(
            "MB504",
            "values in different units",
            "error",
            "Values that disagree can be compared only in one unit.",
            "also: [{value: 3200, unit: kg/m3}]",
            "also: [{value: 3.2, unit: g/cm3}]",
        ),
        _same_unit,
    ),
    Check(
        Rule(
            "MB505",
            "weaker value first",
            "warning",
            "The first value is the one everything is worked out from.",
            "a from-memory value before a published one, without a note",
            "the published value first, or a note that says why not",
        ),
        _best_first,
    ),
    Check(
        Rule(
            "MB506",
            "target in the wrong unit",
            "error",
            "A lambda of 0.8 and a PVC of 0.8 are different paints.",
            "target: {by: lambda, range: {low: 0.6, high: 0.85, unit: fraction}}",
            "target: {by: lambda, range: {low: 0.6, high: 0.85, unit: number}}",
        ),
        _target_unit,
    ),
)

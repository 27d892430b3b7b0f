"""The one registry of formulas, and the three things one does with it: ask, parse, tell."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from mullbook.model.values import Input, Range, Working
from mullbook.science.formula import BadInput, Formula, Given, UnknownFormula
from mullbook.science.inputs import Parsed, parse_pairs
from mullbook.science.methods import (
    air,
    blends,
    chemistry,
    disperser,
    dosing,
    film,
    fineness,
    levigation,
    measured,
    optics,
    paint,
    powder,
    safety,
    settling,
    stone,
    waste,
)
from mullbook.science.working import work_out

__all__ = ["FORMULAS", "BadInput", "Formula", "UnknownFormula", "as_json", "evaluate", "find", "parse_inputs"]

FORMULAS: Mapping[str, Formula] = MappingProxyType(
    {
        formula.card.id: formula
        for formula in (
            *paint.FORMULAS,
            *blends.FORMULAS,
            *film.FORMULAS,
            *dosing.FORMULAS,
            *disperser.FORMULAS,
            *settling.FORMULAS,
            *fineness.FORMULAS,
            *levigation.FORMULAS,
            *powder.FORMULAS,
            *measured.FORMULAS,
            *stone.FORMULAS,
            *optics.FORMULAS,
            *chemistry.FORMULAS,
            *air.FORMULAS,
            *safety.FORMULAS,
            *waste.FORMULAS,
        )
    }
)
"""Every formula by its id."""


def find(formula_id: str) -> Formula:
    """Return a formula by its id; raises `UnknownFormula` with the ids there are."""
    try:
        return FORMULAS[formula_id]
    except KeyError:
        raise UnknownFormula(formula_id, FORMULAS) from None


def evaluate(formula_id: str, inputs: Mapping[str, Given]) -> Working:
    """Work a formula out over numbers or ranges and keep its working.

    Parameters: `formula_id`; `inputs` by parameter name (numbers, `Range`, words, tuples or `Input`).
    Returns a `Working`, with `not_derivable` in words where something is not known or out of bounds.
    Raises `UnknownFormula`, or `BadInput` for a wrong parameter name or kind of value.

    >>> evaluate("cpvc", {"oil_absorption": 60, "density": 3.2}).steps
    '1/(1 + 60 × 3.2/(100 × 0.935)) = 0.3275'
    >>> evaluate("cpvc", {"density": 3.2}).not_derivable
    'Not derivable because oil absorption is not known.'
    """
    return work_out(find(formula_id), inputs)


def parse_inputs(formula_id: str, pairs: Sequence[str]) -> dict[str, Parsed]:
    """Read inputs as they are written on the command line.

    Parameters: `formula_id`; `pairs` such as `density=3,2`, `oil_absorption=20..24`, `masses=10,20,5`.
    Returns values by parameter name. Raises `UnknownFormula` or `BadInput`.

    >>> parse_inputs("cpvc", ["oil_absorption=20..24", "density=3,2"])
    {'oil_absorption': Range(low=20.0, high=24.0), 'density': Range(low=3.2, high=3.2)}
    """
    return parse_pairs(find(formula_id), pairs)


def as_json(working: Working) -> dict[str, object]:
    """Return a working as plain data, ready to be written as JSON.

    >>> as_json(evaluate("reduced_pvc", {"pvc": 0.25, "cpvc": 0.5}))["result"]
    {'value': 0.5, 'unit': 'number'}
    """
    if working.result is None:
        result: dict[str, object] = {"not_derivable": working.not_derivable}
    else:
        result = _numbers(working.result, working.unit)
    return {
        "formula": working.formula,
        "inputs": {item.name: _input_as_json(item) for item in working.inputs if item.value is not None},
        "result": result,
        "reading": working.reading,
        "working": working.steps,
        "assumptions": list(working.assumptions),
        "source": working.source,
    }


def _input_as_json(item: Input) -> dict[str, object]:
    if isinstance(item.value, Range):
        data = _numbers(item.value, item.unit)
    elif isinstance(item.value, tuple):
        data = {"value": [_plain(each) for each in item.value], "unit": item.unit}
    else:
        data = {"value": item.value, "unit": item.unit}
    evidence = {"source": item.source, "basis": item.basis, "note": item.note}
    return {**data, **{key: value for key, value in evidence.items() if value}}


def _plain(value: float | Range) -> float | dict[str, float]:
    return {"low": value.low, "high": value.high} if isinstance(value, Range) else value


def _numbers(value: Range, unit: str) -> dict[str, object]:
    if value.is_point:
        return {"value": value.low, "unit": unit}
    return {"low": value.low, "high": value.high, "unit": unit}

"""From a formula and its inputs to a working: defaults, corners of ranges, steps in words."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from mullbook.model.values import Input, ParameterCard, Range, Working
from mullbook.science.formula import BadInput, Formula, Given, Inputs, Plain, number_text, plain_text, said

_Reached = tuple[float, dict[str, Plain]]
"""A result and the point it was reached at."""

MOST_RANGES = 12
"""Ranges that may be given at once: each doubles the corners to be tried."""


def work_out(formula: Formula, given: Mapping[str, Given]) -> Working:
    """Evaluate a formula over points or ranges and keep the whole working.

    Parameters: `formula`; `given`, values by parameter name. Defaults fill what is absent or None.
    Returns a `Working`; where an input is not known or lies outside what the formula is for, its
    `not_derivable` says so. Raises `BadInput` for a name or a kind of value the formula does not take.
    """
    for name in given:
        formula.parameter(name)
    inputs = tuple(_input(parameter, given.get(parameter.name)) for parameter in formula.card.parameters)
    card = formula.card
    bare = Working(card.id, card.title, card.statement, inputs, card.unit, card.source)
    reason = _missing(formula, inputs) or _outside(formula, inputs)
    if reason:
        return replace(bare, not_derivable=f"Not derivable because {reason}.")
    values: Inputs = {item.name: item.value for item in inputs}
    try:
        low, high = _extremes(formula, _widened(formula, values))
    except (ValueError, ZeroDivisionError, OverflowError) as error:
        return replace(bare, not_derivable=f"Not derivable because {_reason(error)}.")
    assumptions = formula.assumptions(values) if callable(formula.assumptions) else formula.assumptions
    result = Range(low[0], high[0])
    return replace(
        bare,
        result=result,
        steps=_steps(formula, low, high),
        assumptions=_defaults(formula, given) + assumptions,
        reading=formula.reading(result, values) if formula.reading else "",
    )


def _input(parameter: ParameterCard, given: Given) -> Input:
    """Return the input for one parameter, keeping source and basis when an `Input` was given."""
    if isinstance(given, Input):
        if given.unit != parameter.unit:
            raise BadInput(
                f"{said(parameter.name)} is wanted in {parameter.unit}, but {given.unit} was given.",
                parameter.name,
            )
        value = _shaped(parameter, given.value)
        return replace(given, name=parameter.name, value=value) if value is not None else _default(parameter)
    value = _shaped(parameter, given)
    return Input(parameter.name, parameter.unit, value) if value is not None else _default(parameter)


def _default(parameter: ParameterCard) -> Input:
    """Return the input that stands where nothing was given."""
    if parameter.default is None:
        return Input(parameter.name, parameter.unit, None)
    return Input(parameter.name, parameter.unit, _shaped(parameter, parameter.default), note="by default")


def _shaped(
    parameter: ParameterCard, value: float | Range | str | tuple[float | Range, ...] | None
) -> Range | str | tuple[float | Range, ...] | None:
    """Return a value in the shape its parameter takes, or raise `BadInput`."""
    if value is None:
        return None
    name = said(parameter.name)
    if parameter.shape == "text":
        if not isinstance(value, str):
            raise BadInput(f"{name} is a word, not a number.", parameter.name, parameter.choices)
        return value
    if parameter.shape == "list":
        return _listed(parameter, value)
    if isinstance(value, Range):
        return value
    if isinstance(value, (str, tuple)) or not math.isfinite(value):
        raise BadInput(f"{name} is one number or a range, such as 20 or 20..24.", parameter.name)
    return Range.of(value)


def _listed(
    parameter: ParameterCard, value: float | Range | str | tuple[float | Range, ...]
) -> tuple[float | Range, ...]:
    """Return a list of finite numbers and ranges, or raise `BadInput`."""
    if isinstance(value, str):
        raise BadInput(f"{said(parameter.name)} is a list of numbers, such as 10,20,5.", parameter.name)
    numbers = value if isinstance(value, tuple) else (value,)
    if not all(isinstance(number, Range) or math.isfinite(number) for number in numbers):
        raise BadInput(f"{said(parameter.name)} holds something that is not a number.", parameter.name)
    return tuple(number if isinstance(number, Range) else float(number) for number in numbers)


def _missing(formula: Formula, inputs: Sequence[Input]) -> str:
    """Say which required inputs are not known, or nothing."""
    optional = {parameter.name for parameter in formula.card.parameters if parameter.optional}
    names = [said(item.name) for item in inputs if item.value is None and item.name not in optional]
    if not names:
        return ""
    listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    return f"{listed} {'is' if len(names) == 1 else 'are'} not known"


def _outside(formula: Formula, inputs: Sequence[Input]) -> str:
    """Say which input lies outside the bounds on its card, or nothing."""
    for item, parameter in zip(inputs, formula.card.parameters, strict=True):
        held = item.value if isinstance(item.value, tuple) else (item.value,)
        for value in held:
            if value is None or isinstance(value, str):
                continue
            ends = Range.of(value)
            complaint = out_of_bounds(parameter, ends.low) or out_of_bounds(parameter, ends.high)
            if complaint:
                return complaint
    return ""


def out_of_bounds(parameter: ParameterCard, number: float) -> str:
    """Say how a number lies outside a parameter's bounds, or nothing."""
    low, high = parameter.low, parameter.high
    if (low is None or number >= low) and (high is None or number <= high):
        return ""
    unit = "" if parameter.unit in ("fraction", "index", "number") else f" {parameter.unit}"
    if low is not None and high is not None:
        bounds = f"between {number_text(low)} and {number_text(high)}{unit}"
    elif low is not None:
        bounds = f"at least {number_text(low)}{unit}"
    else:
        bounds = f"at most {number_text(high or 0.0)}{unit}"
    hint = ""
    if parameter.unit == "fraction" and 1 < number <= 100:
        hint = f" (a fraction, not a percentage: {number_text(number / 100)} for {number_text(number)} %)"
    return f"{said(parameter.name)} must be {bounds}, but {number_text(number)} was given{hint}"


def _extremes(formula: Formula, values: Inputs) -> tuple[_Reached, _Reached]:
    """Return the least and the greatest result over the box of ranges, each with the point it stands at."""
    reached = [(formula.function(**point), point) for point in _points(formula, values)]
    if not all(math.isfinite(result) for result, _ in reached):
        raise ValueError("the result is too large to mean anything")
    return min(reached, key=lambda pair: pair[0]), max(reached, key=lambda pair: pair[0])


def over_corners(function: Callable[[Mapping[str, Any]], float], values: Inputs) -> Range:
    """Return the range of a function of the inputs over the corners of their ranges.

    Parameters: `function` of plain values by parameter name, rising or falling throughout in each; `values`.

    >>> over_corners(lambda point: point["a"] / point["b"], {"a": Range(1, 2), "b": Range(4, 5)})
    Range(low=0.2, high=0.5)
    """
    found = [function(corner) for corner in _corners(values)]
    return Range(min(found), max(found))


def _points(formula: Formula, values: Inputs) -> list[dict[str, Plain]]:
    """Return the corners of the box, and the points on its edges where the result turns round."""
    corners = _corners(values)
    turned: list[dict[str, Plain]] = []
    for name, turn in formula.turns.items():
        ends = values[name]
        if isinstance(ends, Range) and not ends.is_point:
            places = [(corner, turn(corner)) for corner in corners]
            turned += [{**corner, name: place} for corner, place in places if ends.low < place < ends.high]
    return corners + turned


def _corners(values: Inputs) -> list[dict[str, Plain]]:
    """Return the corners of the box of ranges; a range in a list counts as one of its own."""
    choices = {name: _choices(value) for name, value in values.items()}
    if math.prod(len(each) for each in choices.values()) > 2**MOST_RANGES:
        raise ValueError(f"more than {MOST_RANGES} ranges at once are too many")
    return [dict(zip(choices, corner, strict=True)) for corner in itertools.product(*choices.values())]


def _choices(value: Range | str | tuple[float | Range, ...] | None) -> list[Plain]:
    """Return the plain values that one input takes at the corners."""
    if isinstance(value, Range):
        return [value.low] if value.is_point else [value.low, value.high]
    if not isinstance(value, tuple):
        return [value]
    ends = [(each.low, each.high) if isinstance(each, Range) else (each,) for each in value]
    return [tuple(corner) for corner in itertools.product(*ends)]


def _widened(formula: Formula, values: Inputs) -> Inputs:
    """Return the inputs with each measured one as wide as its error of measurement makes it."""
    if not formula.errors:
        return values
    wide = dict(values)
    for name, error_name in formula.errors.items():
        measured, error = values[name], values[error_name]
        if isinstance(measured, Range) and isinstance(error, Range):
            wide[name] = Range(measured.low - error.high, measured.high + error.high)
            wide[error_name] = Range.of(error.high)
    return wide


def _steps(formula: Formula, low: _Reached, high: _Reached) -> str:
    """Return the sum with its numbers put in; for a range, at both of its ends."""
    lower, upper = (f"{_told(formula, point)} = {number_text(result)}" for result, point in (low, high))
    return lower if lower == upper else f"from {lower} to {upper}"


def _told(formula: Formula, point: Mapping[str, Plain]) -> str:
    if callable(formula.steps):
        return formula.steps(point)
    return formula.steps.format(**{name: plain_text(value) for name, value in point.items()})


def _defaults(formula: Formula, given: Mapping[str, Given]) -> tuple[str, ...]:
    """Name the defaults that were used, since each is an assumption."""
    used = []
    for parameter in formula.card.parameters:
        value = given.get(parameter.name)
        absent = value is None or (isinstance(value, Input) and value.value is None)
        if absent and parameter.default is not None:
            unit = "" if parameter.unit in ("fraction", "index", "number", "text") else f" {parameter.unit}"
            taken = f"{plain_text(parameter.default)}{unit}"
            used.append(f"{said(parameter.name)} taken as {taken}")
    return tuple(used)


def _reason(error: Exception) -> str:
    if isinstance(error, ZeroDivisionError):
        return "a number that must not be nought is nought"
    return str(error).rstrip(".")

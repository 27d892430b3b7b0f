"""Inputs of a formula as they are written on the command line: `name=value`."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from mullbook.model.values import ParameterCard, Range
from mullbook.science.formula import BadInput, Formula, said
from mullbook.science.working import out_of_bounds

_NUMBER = re.compile(r"[+-]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)([eE][+-]?[0-9]{1,3})?")

Parsed = Range | str | tuple[float | Range, ...]


def parse_pairs(formula: Formula, pairs: Sequence[str]) -> dict[str, Parsed]:
    """Return the inputs written as `name=value`, each in the shape its parameter takes.

    Parameters: `formula`; `pairs`, such as `oil_absorption=20..24` or `masses=10,20,5`.
    A comma stands for the decimal point where one number is wanted and parts the numbers of a list;
    a list with decimal commas is parted by semicolons; a list may hold ranges. Raises `BadInput`, in words,
    with an example.
    """
    found: dict[str, Parsed] = {}
    for pair in pairs:
        name, equals, text = pair.partition("=")
        name, text = name.strip().replace("-", "_"), text.strip()
        if not equals or not text:
            names = [parameter.name for parameter in formula.card.parameters]
            raise BadInput(f"{pair!r} is not written as name=value.", name, names, example_of(formula))
        parameter = formula.parameter(name)
        if name in found:
            raise BadInput(f"{said(name)} is given twice.", name)
        found[name] = _value(parameter, text)
    return found


def example_of(formula: Formula) -> str:
    """Return the formula's example as it would be typed."""
    return " ".join(f"{name}={value}" for name, value in formula.card.example)


def _value(parameter: ParameterCard, text: str) -> Parsed:
    if parameter.shape == "text":
        return _word(parameter, text)
    if parameter.shape == "list":
        ranges = [_range(parameter, part) for part in text.split(";" if ";" in text else ",")]
        return tuple(each.low if each.is_point else each for each in ranges)
    return _range(parameter, text)


def _range(parameter: ParameterCard, text: str) -> Range:
    """Read one number or one range within the bounds of its parameter."""
    low, dots, high = text.partition("..")
    if not dots:
        number = _number(parameter, text)
        value = Range(number, number)
    else:
        ends = _number(parameter, low), _number(parameter, high)
        if ends[0] > ends[1]:
            raise BadInput(f"The range {text} of {said(parameter.name)} runs backwards.", parameter.name)
        value = Range(*ends)
    _check_bounds(parameter, value.low)
    _check_bounds(parameter, value.high)
    return value


def _word(parameter: ParameterCard, text: str) -> str:
    if parameter.choices and text not in parameter.choices:
        words = ", ".join(parameter.choices)
        raise BadInput(
            f"{said(parameter.name)} is one of {words}; {text!r} was given.", text, parameter.choices
        )
    return text


def _number(parameter: ParameterCard, text: str) -> float:
    """Read one number, with a point or a comma, or say how it ought to be written."""
    text = text.strip()
    if _NUMBER.fullmatch(text) and math.isfinite(number := float(text.replace(",", "."))):
        return number
    name = said(parameter.name)
    if parameter.shape == "list":
        how = f"a list of numbers in {parameter.unit} parted by commas, such as 10,20,5"
    else:
        how = f"a number in {parameter.unit}, such as 20, or a range, such as 20..24"
    raise BadInput(f"{name}: {text!r} is not a number. Write {how}, without the unit.", parameter.name)


def _check_bounds(parameter: ParameterCard, number: float) -> None:
    complaint = out_of_bounds(parameter, number)
    if complaint:
        raise BadInput(f"{complaint[0].upper()}{complaint[1:]}.", parameter.name)

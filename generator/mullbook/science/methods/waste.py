"""Formula of waste: the most that could leach of one element."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import waste
from mullbook.science.formula import Formula, Inputs, number_text


def _steps(point: Mapping[str, Any]) -> str:
    total, solid, held = (point[each] for each in ("total", "solids_fraction", "liquid_concentration"))
    if solid < waste.OWN_EXTRACT_BELOW:
        return f"less than {waste.OWN_EXTRACT_BELOW:g} solids, so the total itself"
    liquid, part = number_text(1 - solid), number_text(solid)
    inside = number_text(held or 0.0)
    return f"({liquid} × {inside} + {part} × {number_text(total)})/({liquid} + 20 × {part})"


def _verdict(result: Range, inputs: Inputs) -> str:
    level = inputs["regulated_level"]
    assert isinstance(level, Range)
    return f"beside {number_text(level.low)} mg/l: {waste.verdict(result.high, level.low)}"


LEACH_SCREEN = Formula(
    FormulaCard(
        id="leach_screen",
        title="Most that could leach from waste",
        statement=(
            "extract at most (liquid × its concentration + solid × total)/(liquid + 20 × solid);"
            " the total itself below 0.005 solids"
        ),
        parameters=(
            ParameterCard("total", "mg/kg", "total of the element in the solid part", low=0),
            ParameterCard("regulated_level", "mg/l", "level the extract is regulated at", low=0),
            ParameterCard(
                "solids_fraction", "fraction", "part by mass of the waste that is solid", low=0, high=1
            ),
            ParameterCard(
                "liquid_concentration", "mg/l", "of the element in the liquid part", low=0, optional=True
            ),
        ),
        unit="mg/l",
        source="US EPA method 1311 (toxicity characteristic leaching): 20 parts of liquid to one of solid",
        validity="one element, United States; a screen before a test, not a test",
        example=(("total", "60"), ("regulated_level", "5"), ("solids_fraction", "1")),
        caution="Says nothing of other elements, of other places or of what may go down a sink.",
    ),
    lambda total, regulated_level, solids_fraction, liquid_concentration: waste.leach_screen(
        total, solids_fraction, liquid_concentration
    ),
    _steps,
    turns={"solids_fraction": lambda point: waste.OWN_EXTRACT_BELOW},
    reading=_verdict,
    assumptions=("all of the element leaches",),
)

FORMULAS = (LEACH_SCREEN,)

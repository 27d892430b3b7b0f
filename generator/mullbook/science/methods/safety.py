"""Formulas of mixtures and labels: the acute toxicity estimate."""

from __future__ import annotations

from collections.abc import Mapping

from mullbook.model.values import FormulaCard, ParameterCard
from mullbook.science import acute
from mullbook.science.formula import Formula, Plain, number_text, numbers, pairs_text


def _ate_steps(point: Mapping[str, Plain]) -> str:
    unknown = point["unknown"]
    assert isinstance(unknown, float)
    over = 1 - unknown if unknown > acute.UNKNOWN_ABOVE else 1.0
    return f"{number_text(over)}/({pairs_text(numbers(point, 'shares'), '/', numbers(point, 'estimates'))})"


ATE_MIX = Formula(
    FormulaCard(
        id="ate_mix",
        title="Acute toxicity estimate of a mixture",
        statement="1/ATE = sum of (share/ATE of each component)",
        parameters=(
            ParameterCard(
                "shares",
                "fraction",
                "share by mass of each acutely toxic component",
                low=0,
                high=1,
                shape="list",
            ),
            ParameterCard("estimates", "mg/kg", "acute toxicity estimate of each", low=0, shape="list"),
            ParameterCard("unknown", "fraction", "share of unknown acute toxicity", 0.0, low=0, high=1),
        ),
        unit="mg/kg",
        source="CLP, Annex I 3.1.3.6.1",
        validity="one route at a time; with more than 0.1 unknown, (1 \N{MINUS SIGN} unknown) stands for 1",
        example=(("shares", "0.16,0.04,0.80"), ("estimates", "1600,200,3450")),
        caution="A draft, not a regulatory classification.",
    ),
    acute.ate_mix,
    _ate_steps,
)

FORMULAS = (ATE_MIX,)

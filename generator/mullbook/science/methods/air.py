"""Formulas of dust in the air: limits on one dust, the room's budget, the time the air takes to change."""

from __future__ import annotations

from collections.abc import Mapping

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import air
from mullbook.science.formula import Formula, Inputs, Plain, number_text, numbers

DUST_BUDGET_WORDS = "this little fills the whole room; at your face far less does"
CLEARING_WORDS = "the air has been changed"
TIP_WORDS = "a scenario, not a measurement"
SAME_COMPOSITION = "the dust in the air has the composition of the jar"

_LIMIT = ParameterCard("limit", "mg/m3", "workplace limit, a time-weighted average", low=0)
_FRACTION = ParameterCard(
    "fraction",
    "text",
    "fraction of the dust that the limit is for",
    shape="text",
    choices=air.POWDER_FRACTIONS,
)


def _limit_steps(point: Mapping[str, Plain]) -> str:
    limit, share, element, formula = (point[name] for name in ("limit", "share", "expressed_as", "formula"))
    assert isinstance(limit, float) and isinstance(share, float)
    if not isinstance(element, str) or not isinstance(formula, str):
        return f"{number_text(limit)}/{number_text(share)}"
    part = number_text(air.counted_part(element, formula))
    return f"{number_text(limit)}/({number_text(share)} × {part} {element} in {formula})"


def _combined_steps(point: Mapping[str, Plain]) -> str:
    return f"1/({' + '.join(f'1/{number_text(limit)}' for limit in numbers(point, 'limits'))})"


def _this_dust(result: Range, inputs: Inputs) -> str:
    return f"{number_text(result.low, 3)} mg of this dust in each m3 of air, {inputs['fraction']} fraction"


def _scale_steps(point: Mapping[str, Plain]) -> str:
    limit = point["limit"]
    assert isinstance(limit, float)
    return f"{number_text(limit)} × {number_text(air.inhalable_scale(1.0, str(point['fraction'])))}"


LIMIT_ON_PIGMENT = Formula(
    FormulaCard(
        id="limit_on_pigment",
        title="A constituent's limit as a limit on this dust",
        statement="limit on this dust = limit/(share × mass fraction of what the limit counts)",
        parameters=(
            _LIMIT,
            _FRACTION,
            ParameterCard(
                "share", "fraction", "part by mass of the constituent in the dust", 1.0, low=0, high=1
            ),
            ParameterCard(
                "expressed_as",
                "text",
                "element the limit counts, if it counts one",
                optional=True,
                shape="text",
            ),
            ParameterCard("formula", "text", "formula of the constituent", optional=True, shape="text"),
        ),
        unit="mg/m3",
        source="the limit's own terms, by mass",
        validity="workplace averages in a fraction a powder can make; fume limits count for heating only",
        example=(
            ("limit", "0.05"),
            ("fraction", "inhalable"),
            ("expressed_as", "Pb"),
            ("formula", "2PbCO3.Pb(OH)2"),
        ),
    ),
    air.limit_on_pigment,
    _limit_steps,
    reading=_this_dust,
    assumptions=(SAME_COMPOSITION,),
)

COMBINED_LIMIT = Formula(
    FormulaCard(
        id="combined_limit",
        title="Limits of several constituents together",
        statement="1/limit on this dust = sum of 1/(limit each constituent puts on this dust)",
        parameters=(
            ParameterCard(
                "limits", "mg/m3", "limits on this dust, all for one fraction", low=0, shape="list"
            ),
        ),
        unit="mg/m3",
        source="additive rule for mixed exposures; common practice",
        validity="limits of one fraction only",
        example=(("limits", "0.0624,10"),),
    ),
    air.combined_limit,
    _combined_steps,
    assumptions=(SAME_COMPOSITION, "the effects of the constituents add up"),
)

INHALABLE_SCALE = Formula(
    FormulaCard(
        id="inhalable_scale",
        title="A limit on the inhalable scale",
        statement="limit on the inhalable scale = respirable limit × 2.5; inhalable and total as they are",
        parameters=(_LIMIT, _FRACTION),
        unit="mg/m3",
        source="studio policy: ratio of the 10 and 4 mg/m3 dust thresholds",
        validity="to set a control level, not to compare a measurement with a limit",
        example=(("limit", "0.1"), ("fraction", "respirable")),
    ),
    air.inhalable_scale,
    _scale_steps,
    assumptions=("the dust raised holds respirable dust in the ratio 4 to 10",),
)

DUST_BUDGET = Formula(
    FormulaCard(
        id="dust_budget",
        title="Dust that fills the room to a limit",
        statement="dust in the air = limit × room volume",
        parameters=(_LIMIT, ParameterCard("room_volume", "m3", "volume of the room", low=0)),
        unit="mg",
        source="mean of a room, by definition",
        validity="never an allowance: dust is thickest where it is raised",
        example=(("limit", "0.05"), ("room_volume", "40")),
        caution=DUST_BUDGET_WORDS,
    ),
    air.dust_budget,
    "{limit} × {room_volume}",
    reading=lambda result, inputs: DUST_BUDGET_WORDS,
    assumptions=("the dust is spread evenly over the whole room",),
)

CLEARING_TIME = Formula(
    FormulaCard(
        id="clearing_time",
        title="Time in which the air is changed",
        statement="time = ln(ratio)/(mixing × air changes)",
        parameters=(
            ParameterCard("ratio", "number", "dust in the air at first to dust at last", low=1),
            ParameterCard("air_changes", "1/h", "air changes in an hour", low=0),
            ParameterCard(
                "mixing",
                "fraction",
                "part of perfect mixing; a third for an ordinary room",
                1 / 3,
                low=0,
                high=1,
            ),
        ),
        unit="h",
        source="exponential decay in a ventilated room; mixing factor: common practice",
        validity="says only that the air has been changed: dust that has settled is raised again by work",
        example=(("ratio", "100"), ("air_changes", "6")),
        caution=CLEARING_WORDS,
    ),
    air.clearing_time,
    "ln({ratio})/({mixing} × {air_changes})",
    reading=lambda result, inputs: CLEARING_WORDS,
    assumptions=("no more dust is raised meanwhile",),
)

CARELESS_TIP = Formula(
    FormulaCard(
        id="careless_tip",
        title="Dust that one careless tip may raise",
        statement="dust raised = powder tipped × dustiness",
        parameters=(
            ParameterCard("amount", "g", "powder that falls from the jar in one tip", low=0),
            ParameterCard("dustiness", "mg/kg", "dust in the air from each kilogram that falls", low=0),
        ),
        unit="mg",
        source="a scenario, by definition",
        validity="a stated scenario with its assumptions, never a measurement",
        example=(("amount", "50"), ("dustiness", "200..5000")),
        caution=TIP_WORDS,
    ),
    air.raised_by_tip,
    "{amount}/1000 × {dustiness}",
    reading=lambda result, inputs: TIP_WORDS,
)

FORMULAS = (LIMIT_ON_PIGMENT, COMBINED_LIMIT, INHALABLE_SCALE, DUST_BUDGET, CLEARING_TIME, CARELESS_TIP)

"""Formulas of the high-speed disperser: tip speed, blade, clearance, charge."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import disperser
from mullbook.science.formula import Formula, Inputs, over_range, range_words
from mullbook.science.working import over_corners

SLOW = "slower than a disperser's 20 to 26 m/s: it stirs more than it disperses"
USUAL = "a disperser's speed"
FAST = "faster than a disperser's 20 to 26 m/s: it heats and splashes"

_PRACTICE = "coatings handbook, chapter on high-speed dispersers, as quoted; common practice"
_DIAMETER = ParameterCard("diameter", "mm", "diameter of the blade", low=0)
_VESSEL = ParameterCard("vessel_diameter", "mm", "inner diameter of the vessel", low=0)


def pace(tip_speed: float) -> str:
    """Return the words for a tip speed.

    >>> pace(12), pace(22)
    ("slower than a disperser's 20 to 26 m/s: it stirs more than it disperses", "a disperser's speed")
    """
    if round(tip_speed, 1) < 20:
        return SLOW
    return USUAL if round(tip_speed, 1) <= 26 else FAST


def _pace(result: Range, _: Inputs) -> str:
    return over_range(pace, result)


def _pace_asked(_: Range, inputs: Inputs) -> str:
    asked = inputs["tip_speed"]
    assert isinstance(asked, Range)
    return over_range(pace, asked)


def _in_blades(result: Range, inputs: Inputs) -> str:
    many = over_corners(_blades, inputs) if result.low > 0 else result
    return f"{range_words(many)} diameters of a blade a third as wide as the vessel; 1 to 2 are usual"


def _blades(point: Mapping[str, Any]) -> float:
    return disperser.fill_height(**point) / disperser.blade_diameter(point["vessel_diameter"])


TIP_SPEED = Formula(
    FormulaCard(
        id="tip_speed",
        title="Tip speed of a blade",
        statement="tip speed = π × diameter × turns per minute/60",
        parameters=(
            _DIAMETER,
            ParameterCard("speed", "rpm", "turns of the blade", low=0),
        ),
        unit="m/s",
        source="geometry of the circle; the words by common practice",
        validity="a toothed disc in a stiff paste; binder dispersions are stirred slowly instead",
        example=(("diameter", "80"), ("speed", "5000")),
    ),
    disperser.tip_speed,
    "π × {diameter}/1000 × {speed}/60",
    reading=_pace,
)

SPEED_FOR_TIP = Formula(
    FormulaCard(
        id="speed_for_tip",
        title="Turns for a tip speed",
        statement="turns per minute = 60 × tip speed/(π × diameter)",
        parameters=(
            _DIAMETER,
            ParameterCard("tip_speed", "m/s", "speed of the blade's edge", low=0),
        ),
        unit="rpm",
        source="geometry of the circle; the words by common practice",
        validity="20 to 26 m/s disperse; a hand drill does not reach that with a small blade",
        example=(("diameter", "50"), ("tip_speed", "20")),
    ),
    disperser.speed_for_tip,
    "60 × {tip_speed}/(π × {diameter}/1000)",
    reading=_pace_asked,
)

BLADE_DIAMETER = Formula(
    FormulaCard(
        id="blade_diameter",
        title="Blade for a vessel",
        statement="blade = vessel diameter × ratio",
        parameters=(
            _VESSEL,
            ParameterCard(
                "ratio", "number", "blade to vessel; a third", disperser.BLADE_TO_VESSEL, low=0, high=1
            ),
        ),
        unit="mm",
        source=_PRACTICE,
        validity="upright round vessels",
        example=(("vessel_diameter", "150"),),
    ),
    disperser.blade_diameter,
    "{vessel_diameter} × {ratio}",
)

BLADE_CLEARANCE = Formula(
    FormulaCard(
        id="blade_clearance",
        title="Blade above the bottom",
        statement="clearance = blade diameter × number of diameters",
        parameters=(
            _DIAMETER,
            ParameterCard("diameters", "number", "0.5 to 1 is usual; start at 1", 1.0, low=0),
        ),
        unit="mm",
        source=_PRACTICE,
        validity="the vortex should show a little of the blade or none; lower it for a small charge",
        example=(("diameter", "50"), ("diameters", "0.5..1")),
    ),
    disperser.blade_clearance,
    "{diameter} × {diameters}",
)

FILL_HEIGHT = Formula(
    FormulaCard(
        id="fill_height",
        title="Height of the charge",
        statement="height = volume/(π/4 × vessel diameter²)",
        parameters=(ParameterCard("volume", "ml", "volume of the charge at rest", low=0), _VESSEL),
        unit="mm",
        source="geometry of the cylinder; the words by common practice",
        validity="upright round vessels; leave as much room again above the charge for the vortex",
        example=(("volume", "1000"), ("vessel_diameter", "120")),
    ),
    disperser.fill_height,
    "{volume} × 1000/(π/4 × {vessel_diameter}²)",
    reading=_in_blades,
)

VESSEL_FOR_CHARGE = Formula(
    FormulaCard(
        id="vessel_for_charge",
        title="Vessel for a charge",
        statement="vessel diameter = cube root of (4 × volume/(π × blades deep × ratio))",
        parameters=(
            ParameterCard("volume", "ml", "volume of the charge at rest", low=0),
            ParameterCard("blades_deep", "number", "height of the charge in blade diameters", low=0),
            ParameterCard(
                "ratio", "number", "blade to vessel; a third", disperser.BLADE_TO_VESSEL, low=0, high=1
            ),
        ),
        unit="mm",
        source="geometry of the cylinder; a charge 1 to 2 blades deep by common practice",
        validity="upright round vessels about twice as high as the charge",
        example=(("volume", "1000"), ("blades_deep", "1..2")),
    ),
    disperser.vessel_for_charge,
    "cube root of (4 × {volume} × 1000/(π × {blades_deep} × {ratio}))",
)

FORMULAS = (TIP_SPEED, SPEED_FOR_TIP, BLADE_DIAMETER, BLADE_CLEARANCE, FILL_HEIGHT, VESSEL_FOR_CHARGE)

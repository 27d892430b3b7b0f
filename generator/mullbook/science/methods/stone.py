"""Formulas of the stone check: how far a weighing may be off, how well a density fits a mineral."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from mullbook.model.values import FormulaCard, ParameterCard
from mullbook.science import stone
from mullbook.science.formula import Formula

HALVINGS = 60

WEIGHING_UNCERTAINTY = Formula(
    FormulaCard(
        id="weighing_uncertainty",
        title="How far a density by weighing in water may be off",
        statement=(
            "u = density of water × √(mass in air² + mass in water²)"
            "/(mass in air \N{MINUS SIGN} mass in water)² × error/√3"
        ),
        parameters=(
            ParameterCard("mass_in_air", "g", "mass of the dry stone", low=0),
            ParameterCard("mass_in_water", "g", "hung on a thread under water", low=0),
            ParameterCard("temperature", "C", "temperature of the water", 20.0, low=0, high=50),
            ParameterCard("mass_error", "g", "how far one reading of the balance may be off", 0.1, low=0),
        ),
        unit="g/cm3",
        source="JCGM 100, Guide to the expression of uncertainty in measurement: two independent readings",
        validity="the balance alone; pores and dirt on the lump are counted apart, 3 % in the stone check",
        example=(("mass_in_air", "52.3"), ("mass_in_water", "38.1")),
        caution="A small stone on a coarse balance tells little: what is lost in the water decides.",
    ),
    stone.weighing_uncertainty,
    "{mass_in_air} g in air, {mass_in_water} g in water, each within {mass_error} g",
)


def _widest(point: Mapping[str, Any]) -> float:
    """The spread at which a reading outside the range fits best; not a number inside it."""
    value, low, high = (float(point[name]) for name in ("value", "low", "high"))
    outside, width = max(0.0, low - value, value - high), max(0.0, high - low)
    if outside == 0.0:
        return math.nan
    least, most = 0.0, outside + width + 1.0
    for _ in range(HALVINGS):
        middle = (least + most) / 2
        if outside**2 * (width + middle * stone.ROOT_TAU) > stone.ROOT_TAU * middle**3:
            least = middle
        else:
            most = middle
    return (least + most) / 2


def _narrowest(beyond: float, spread: float) -> float:
    """How far an end may be drawn in past the reading before the fit falls: at first it fits better so.

    `beyond`, from the reading to the other end. With d drawn in, exp(-d²/(2 s²))/(beyond - d + s √(2π)) is
    greatest where d (beyond - d + s √(2π)) = s²; not a number where no end can be drawn in so far.
    """
    reach = beyond + spread * stone.ROOT_TAU
    under = reach**2 - 4 * spread**2
    if reach <= 0 or under < 0:
        return math.nan
    drawn = (reach - math.sqrt(under)) / 2
    return drawn if drawn <= beyond else math.nan


def _fit(value: float, low: float, high: float, spread: float) -> float:
    if low > high:
        raise ValueError("the lightest would be heavier than the heaviest")
    return stone.plateau(value, low, high, spread)


FIT_OF_DENSITY = Formula(
    FormulaCard(
        id="fit_of_density",
        title="How well a density fits a mineral",
        statement="exp(\N{MINUS SIGN}d²/(2 s²))/(high \N{MINUS SIGN} low + s √(2π)), d outside the range",
        parameters=(
            ParameterCard("value", "g/cm3", "density of the lump", low=0.5, high=25),
            ParameterCard("low", "g/cm3", "lightest that the mineral is found", low=0.5, high=25),
            ParameterCard("high", "g/cm3", "heaviest that the mineral is found", low=0.5, high=25),
            ParameterCard("spread", "g/cm3", "standard uncertainty of the density", 0.1, low=0.0001, high=5),
        ),
        unit="number",
        source="Bayes' rule with a normal error: D. J. C. MacKay, Information Theory, 2003, chapter 2",
        validity="one mineral in the lump; per g/cm³, for comparison between minerals only",
        example=(("value", "3.5"), ("low", "3.3"), ("high", "4.3"), ("spread", "0.1")),
        caution="Orpiment at 3.5 fits an ochre's range as well: a fit clears nothing.",
    ),
    _fit,
    "{value} held against {low} to {high}, give or take {spread}",
    turns={
        "value": lambda point: (point["low"] + point["high"]) / 2,
        "low": lambda point: point["value"] + _narrowest(point["high"] - point["value"], point["spread"]),
        "high": lambda point: point["value"] - _narrowest(point["value"] - point["low"], point["spread"]),
        "spread": _widest,
    },
)

FORMULAS = (WEIGHING_UNCERTAINTY, FIT_OF_DENSITY)

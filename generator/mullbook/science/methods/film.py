"""Formulas of paint wet and dry: coats, solids, densities, air, voids."""

from __future__ import annotations

from collections.abc import Mapping

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import film
from mullbook.science.formula import Formula, Inputs, Plain, number_text, numbers, pairs_text, range_words

_COATS = ParameterCard(
    "spreading_rate", "m2/l", "area one litre covers, for each coat in turn", low=0, shape="list"
)
_MASSES = ParameterCard("masses", "g", "mass of each component as supplied", low=0, shape="list")
_SOLIDS = ParameterCard(
    "solids", "fraction", "part by mass of each that stays in the film", low=0, high=1, shape="list"
)

AIRY = 0.03
"""Share of entrained air above which a paint is too foamy; common practice 2 to 3 per cent."""


def _coats_steps(point: Mapping[str, Plain]) -> str:
    return " + ".join(f"1000/{number_text(rate)}" for rate in numbers(point, "spreading_rate"))


def _coats_together(point: Mapping[str, Plain]) -> str:
    return f"1/({' + '.join(f'1/{number_text(rate)}' for rate in numbers(point, 'spreading_rate'))})"


def _feet(result: Range, _: Inputs) -> str:
    return f"{range_words(result.times(1 / film.SQUARE_FEET_PER_GALLON))} square feet per US gallon"


def _staying(point: Mapping[str, Plain]) -> str:
    return pairs_text(numbers(point, "masses"), " × ", numbers(point, "solids"))


def _dry_steps(point: Mapping[str, Plain]) -> str:
    rows = zip(*(numbers(point, each) for each in ("masses", "solids", "solids_densities")), strict=True)
    volumes = " + ".join(f"{number_text(m)} × {number_text(s)}/{number_text(d)}" for m, s, d in rows)
    return f"({_staying(point)})/({volumes})"


def _air_words(result: Range, _: Inputs) -> str:
    if result.high < 0:
        return "heavier than its parts: a weighing or the density is wrong"
    if result.low > AIRY:
        return "foamy: let it stand, stir slowly below the surface"
    return "little air" if result.high <= AIRY else "little air to foamy: weigh again"


def _porous(result: Range, _: Inputs) -> str:
    if result.high == 0:
        return "no voids: the binder fills the gaps"
    return "porous: the film drinks what touches it" if result.low > 0 else "no voids to porous"


WET_FILM = Formula(
    FormulaCard(
        id="wet_film",
        title="Wet film from spreading rate",
        statement="wet film = sum of (1000/spreading rate of each coat)",
        parameters=(_COATS,),
        unit="um",
        source="volume over area",
        validity="an even coat on a ground that does not drink; coats add up as films, not as rates",
        example=(("spreading_rate", "18.6,25,18.8"),),
    ),
    film.wet_film,
    _coats_steps,
)

COATS = Formula(
    FormulaCard(
        id="coats",
        title="Spreading rate of several coats",
        statement="1/spreading rate of all coats = sum of (1/spreading rate of each)",
        parameters=(_COATS,),
        unit="m2/l",
        source="volume over area; older tables divide the arithmetic mean instead, which is too high",
        validity="all coats of one paint, or the litres of all counted together",
        example=(("spreading_rate", "18.6,25,18.8"),),
    ),
    film.coats,
    _coats_together,
    reading=_feet,
)

SPREADING_RATE = Formula(
    FormulaCard(
        id="spreading_rate",
        title="Spreading rate from wet film",
        statement="spreading rate = 1000/wet film",
        parameters=(ParameterCard("wet_film", "um", "thickness of the wet coat", low=0),),
        unit="m2/l",
        source="volume over area",
        validity="an even coat, nothing lost on roller or brush",
        example=(("wet_film", "45..100"),),
    ),
    film.spreading_rate,
    "1000/{wet_film}",
    reading=_feet,
)

POROSITY = Formula(
    FormulaCard(
        id="porosity",
        title="Porosity above the critical PVC",
        statement="porosity = 1 \N{MINUS SIGN} CPVC/PVC above the critical PVC, else 0",
        parameters=(
            ParameterCard("pvc", "fraction", "pigment volume concentration, air not counted", low=0, high=1),
            ParameterCard("cpvc", "fraction", "critical PVC", low=0, high=1),
        ),
        unit="fraction",
        source="the definition of the critical PVC: above it the grains lie no closer and binder is missing",
        validity="share of the dry film's own volume that is air",
        example=(("pvc", "0.6"), ("cpvc", "0.42..0.48")),
    ),
    film.porosity,
    "the larger of 0 and 1 \N{MINUS SIGN} {cpvc}/{pvc}",
    reading=_porous,
)

WEIGHT_SOLIDS = Formula(
    FormulaCard(
        id="weight_solids",
        title="Weight solids",
        statement="weight solids = sum of (mass × solids)/sum of masses",
        parameters=(_MASSES, _SOLIDS),
        unit="fraction",
        source="masses add",
        validity="glycerin, honey, wax and thickener stay; water, ammonia and, in time, glycol do not",
        example=(("masses", "25.2,60.1,14.7"), ("solids", "1,0.5,0")),
    ),
    film.weight_solids,
    lambda point: f"({_staying(point)})/{number_text(sum(numbers(point, 'masses')))}",
)

WET_DENSITY = Formula(
    FormulaCard(
        id="wet_density",
        title="Density of the wet paint",
        statement="density = sum of masses/sum of (mass/density)",
        parameters=(
            _MASSES,
            ParameterCard("densities", "g/cm3", "density of each as supplied", low=0, shape="list"),
        ),
        unit="g/cm3",
        source="volumes add",
        validity="without air; liquids that shrink on mixing, such as alcohol and water, come out heavier",
        example=(("masses", "25.2,60.1,14.7"), ("densities", "4.2,1.05,1")),
    ),
    film.wet_density,
    lambda point: (
        f"{number_text(sum(numbers(point, 'masses')))}"
        f"/({pairs_text(numbers(point, 'masses'), '/', numbers(point, 'densities'))})"
    ),
)

BATCH_VOLUME = Formula(
    FormulaCard(
        id="batch_volume",
        title="Volume of a batch",
        statement="volume = sum of (mass/density)/(1 \N{MINUS SIGN} air)",
        parameters=(
            _MASSES,
            ParameterCard("densities", "g/cm3", "density of each as supplied", low=0, shape="list"),
            ParameterCard("air", "fraction", "part of the paint that is air", 0.0, low=0, high=0.99),
        ),
        unit="ml",
        source="volumes add",
        validity="liquids that shrink on mixing, such as alcohol and water, give a little less",
        example=(("masses", "20,29.8,10"), ("densities", "3,1.05,1")),
    ),
    film.batch_volume,
    lambda point: (
        f"({pairs_text(numbers(point, 'masses'), '/', numbers(point, 'densities'))})"
        f"/(1 \N{MINUS SIGN} {number_text(float(str(point['air'])))})"
    ),
)

DRY_DENSITY = Formula(
    FormulaCard(
        id="dry_density",
        title="Density of the dry film",
        statement="density = sum of (mass × solids)/sum of (mass × solids/density of solids)",
        parameters=(
            _MASSES,
            _SOLIDS,
            ParameterCard("solids_densities", "g/cm3", "density of what stays of each", low=0, shape="list"),
        ),
        unit="g/cm3",
        source="volumes add",
        validity="up to the critical PVC; above it the film holds air and is lighter than this says",
        example=(("masses", "25.2,60.1,14.7"), ("solids", "1,0.5,0"), ("solids_densities", "4.2,1.1,1")),
    ),
    film.dry_density,
    _dry_steps,
)

ENTRAINED_AIR = Formula(
    FormulaCard(
        id="entrained_air",
        title="Air in a paint, from a density cup",
        statement="air = 1 \N{MINUS SIGN} (full \N{MINUS SIGN} empty)/(cup volume × density without air)",
        parameters=(
            ParameterCard("full", "g", "mass of the cup with paint", low=0),
            ParameterCard("empty", "g", "mass of the cup without", low=0),
            ParameterCard("cup_volume", "ml", "volume of the cup", low=0),
            ParameterCard("density", "g/cm3", "density of the paint without air (`wet_density`)", low=0),
            ParameterCard("mass_error", "g", "error of either weighing", 0.0, low=0),
        ),
        unit="fraction",
        source="mass over volume; more than 2 to 3 % is bad, common practice",
        validity="at the temperature of the cup, 20 to 23 °C",
        example=(("full", "226"), ("empty", "100"), ("cup_volume", "100"), ("density", "1.30")),
    ),
    lambda full, empty, cup_volume, density, mass_error: film.entrained_air(full, empty, cup_volume, density),
    "1 \N{MINUS SIGN} ({full} \N{MINUS SIGN} {empty})/({cup_volume} × {density})",
    errors={"full": "mass_error", "empty": "mass_error"},
    reading=_air_words,
)

FORMULAS = (
    WET_FILM,
    COATS,
    SPREADING_RATE,
    POROSITY,
    WEIGHT_SOLIDS,
    WET_DENSITY,
    BATCH_VOLUME,
    DRY_DENSITY,
    ENTRAINED_AIR,
)

"""Formulas of blends: density, oil absorption and volume solids of what is mixed."""

from __future__ import annotations

from collections.abc import Mapping

from mullbook.model.values import FormulaCard, ParameterCard
from mullbook.science import paint
from mullbook.science.formula import Formula, Plain, number_text, numbers, pairs_text

_SHARES = ParameterCard("shares", "number", "parts by mass, of any sum", low=0, shape="list")


def _density_steps(point: Mapping[str, Plain]) -> str:
    shares = numbers(point, "shares")
    return f"{number_text(sum(shares))}/({pairs_text(shares, '/', numbers(point, 'densities'))})"


def _absorption_steps(point: Mapping[str, Plain]) -> str:
    shares = numbers(point, "shares")
    return f"({pairs_text(shares, ' × ', numbers(point, 'oil_absorptions'))})/{number_text(sum(shares))}"


def _volume_solids_steps(point: Mapping[str, Plain]) -> str:
    masses, wet = numbers(point, "masses"), numbers(point, "densities")
    dry = wet if point["solids_densities"] is None else numbers(point, "solids_densities")
    films = " + ".join(
        f"{number_text(mass)} × {number_text(part)}/{number_text(density)}"
        for mass, part, density in zip(masses, numbers(point, "solids"), dry, strict=True)
    )
    return f"({films})/({pairs_text(masses, '/', wet)})"


def _mean(point: Mapping[str, Plain], name: str) -> float:
    return paint.blend_oil_absorption(numbers(point, "shares"), numbers(point, name))


BLEND_DENSITY = Formula(
    FormulaCard(
        id="blend_density",
        title="Density of a blend",
        statement="density of a blend = sum of shares/sum of (share/density)",
        parameters=(
            _SHARES,
            ParameterCard("densities", "g/cm3", "one density for each share", low=0, shape="list"),
        ),
        unit="g/cm3",
        source="volumes add: the harmonic mean by mass",
        validity="dry powders without air, or liquids that mix without shrinking",
        example=(("shares", "1,1"), ("densities", "5.65,2.94")),
    ),
    paint.blend_density,
    _density_steps,
)

CPVC_OF_BLEND = Formula(
    FormulaCard(
        id="cpvc_of_blend",
        title="CPVC of a blend in oil",
        statement=(
            "CPVC = 1/(1 + mean oil absorption × density of the blend/(100 × oil density)),"
            " oil absorption by mass, density harmonic"
        ),
        parameters=(
            _SHARES,
            ParameterCard("oil_absorptions", "g/100g", "rub-out oil absorption of each", low=0, shape="list"),
            ParameterCard("densities", "g/cm3", "one density for each share", low=0, shape="list"),
            ParameterCard("oil_density", "g/cm3", "density of the linseed oil", paint.OIL_DENSITY, low=0),
        ),
        unit="fraction",
        source="the CPVC estimate with the means of a blend; common practice",
        validity="pigments of like size: small grains in the gaps of large ones make the true CPVC higher",
        example=(("shares", "1,1"), ("oil_absorptions", "14,59"), ("densities", "5.65,2.94")),
        caution="From rub-out values only: with oil to grind it gives the PVC of a working paste.",
    ),
    paint.cpvc_of_blend,
    lambda point: (
        f"1/(1 + {number_text(_mean(point, 'oil_absorptions'))}"
        f" × {number_text(paint.blend_density(numbers(point, 'shares'), numbers(point, 'densities')))}"
        f"/(100 × {point['oil_density']:g}))"
    ),
)

BLEND_OIL_ABSORPTION = Formula(
    FormulaCard(
        id="blend_oil_absorption",
        title="Oil absorption of a blend",
        statement="oil absorption of a blend = sum of (share × oil absorption)/sum of shares",
        parameters=(
            _SHARES,
            ParameterCard(
                "oil_absorptions", "g/100g", "one oil absorption for each share", low=0, shape="list"
            ),
        ),
        unit="g/100g",
        source="the mean by mass; common practice",
        validity="pigments of like size; small grains in the gaps of large ones make the true value lower",
        example=(("shares", "1,1"), ("oil_absorptions", "14,59")),
    ),
    paint.blend_oil_absorption,
    _absorption_steps,
)

VOLUME_SOLIDS = Formula(
    FormulaCard(
        id="volume_solids",
        title="Volume solids",
        statement="volume solids = sum of (mass × solids/density of solids)/sum of (mass/density)",
        parameters=(
            ParameterCard("masses", "g", "mass of each component as supplied", low=0, shape="list"),
            ParameterCard("densities", "g/cm3", "density of each as supplied", low=0, shape="list"),
            ParameterCard(
                "solids",
                "fraction",
                "part by mass of each that stays in the film",
                low=0,
                high=1,
                shape="list",
            ),
            ParameterCard(
                "solids_densities",
                "g/cm3",
                "density of what stays of each; as supplied where not given",
                low=0,
                optional=True,
                shape="list",
            ),
        ),
        unit="fraction",
        source="volumes add",
        validity="above the critical PVC the film holds air and is thicker than this says",
        example=(
            ("masses", "25.2,60.1,14.7"),
            ("densities", "4.2,1.05,1"),
            ("solids", "1,0.5,0"),
            ("solids_densities", "4.2,1.1,1"),
        ),
    ),
    paint.volume_solids,
    _volume_solids_steps,
)

FORMULAS = (BLEND_DENSITY, BLEND_OIL_ABSORPTION, CPVC_OF_BLEND, VOLUME_SOLIDS)

"""Formulas of chemistry: molar mass, mass fraction, loss in the fire, density of a crystal."""

from __future__ import annotations

from collections.abc import Mapping

from mullbook.model.values import FormulaCard, ParameterCard
from mullbook.science import chemistry
from mullbook.science.formula import Formula, Plain, number_text, plain_text

_FORMULA = ParameterCard("formula", "text", "chemical formula, such as PbCO3 or CaSO4.2H2O", shape="text")
_WEIGHTS = "standard atomic weights, as in the molmass library"


def _mass_steps(point: Mapping[str, Plain]) -> str:
    return f"{point['formula']}, the sum of its standard atomic weights"


def _density_steps(point: Mapping[str, Plain]) -> str:
    formula, volume, z = point["formula"], point["cell_volume"], point["z"]
    assert isinstance(formula, str) and isinstance(volume, float) and isinstance(z, float)
    mass = number_text(chemistry.molar_mass(formula))
    return f"{number_text(z)} × {mass}/(0.6022 × {number_text(volume)})"


def _loss_steps(point: Mapping[str, Plain]) -> str:
    formula, product = str(point["formula"]), str(point["product"])
    masses = [number_text(chemistry.molar_mass(each), 5) for each in (product, formula)]
    counts = [plain_text(point[each]) for each in ("product_parts", "parts")]
    told = f"1 \N{MINUS SIGN} {counts[0]} × {masses[0]}/({counts[1]} × {masses[1]})"
    return told if point["share"] == 1 else f"{plain_text(point['share'])} × ({told})"


MOLAR_MASS = Formula(
    FormulaCard(
        id="molar_mass",
        title="Molar mass",
        statement="M = sum of (number of atoms × standard atomic weight)",
        parameters=(_FORMULA,),
        unit="g/mol",
        source=_WEIGHTS,
        validity="compounds with a formula; natural minerals vary",
        example=(("formula", "CaSO4.2H2O"),),
    ),
    chemistry.molar_mass,
    _mass_steps,
)

MASS_FRACTION = Formula(
    FormulaCard(
        id="mass_fraction",
        title="Mass fraction of an element",
        statement="mass fraction = atoms of the element × its atomic weight/molar mass",
        parameters=(
            _FORMULA,
            ParameterCard("element", "text", "symbol of the element, such as Pb", shape="text"),
        ),
        unit="fraction",
        source=_WEIGHTS,
        validity="compounds with a formula; natural minerals vary",
        example=(("formula", "2PbCO3.Pb(OH)2"), ("element", "Pb")),
    ),
    chemistry.mass_fraction,
    lambda point: f"{point['element']} in {point['formula']}, by standard atomic weights",
)

CRYSTAL_DENSITY = Formula(
    FormulaCard(
        id="crystal_density",
        title="Density of a crystal",
        statement="density = Z × M/(N_A × V)",
        parameters=(
            _FORMULA,
            ParameterCard("cell_volume", "A3", "volume of the unit cell", low=0),
            ParameterCard("z", "number", "formula units in the cell", low=0),
        ),
        unit="g/cm3",
        source="X-ray density; Avogadro's number, SI 2019",
        validity="a perfect crystal: a powder's grains may hold pores",
        example=(("formula", "TiO2"), ("cell_volume", "62.43"), ("z", "2")),
    ),
    chemistry.crystal_density,
    _density_steps,
)

CALCINATION_LOSS = Formula(
    FormulaCard(
        id="calcination_loss",
        title="Mass lost in the fire",
        statement="loss = share × (1 \N{MINUS SIGN} parts of the product × its M/(parts × M))",
        parameters=(
            ParameterCard("formula", "text", "formula of what is heated, such as FeO(OH)", shape="text"),
            ParameterCard("product", "text", "formula of what stays, such as Fe2O3", shape="text"),
            ParameterCard("parts", "number", "how many of the first the reaction takes", 1, low=0),
            ParameterCard("product_parts", "number", "how many of the product it gives", 1, low=0),
            ParameterCard("share", "fraction", "part of it in what is heated", 1, low=0, high=1),
        ),
        unit="fraction",
        source=_WEIGHTS,
        validity="a reaction gone to its end, of a dry powder; natural minerals vary",
        example=(("formula", "FeO(OH)"), ("product", "Fe2O3"), ("parts", "2")),
        caution=(
            "Whether a powder may be heated at all is another question: see the page on calcining. Damp and"
            " organic matter are lost as well."
        ),
    ),
    chemistry.calcination_loss,
    _loss_steps,
)

FORMULAS = (MOLAR_MASS, MASS_FRACTION, CALCINATION_LOSS, CRYSTAL_DENSITY)

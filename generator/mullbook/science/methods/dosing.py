"""Formulas of weighing out: doses, paste and parts, mixing, tubes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import dosing
from mullbook.science.formula import Formula, Inputs, number_text, numbers, pairs_text, range_words
from mullbook.science.working import over_corners

_PER_100 = ParameterCard("per_100", "g/100g", "liquid per 100 g of pigment", low=0)
_SHARE = "fraction by mass of the thing"


def _dose_steps(point: Mapping[str, Any]) -> str:
    basis = str(point["basis"])
    mass = point[f"{basis.rpartition('-')[2]}_mass"]
    told = f"{number_text(point['percent'])}/100 × {number_text(mass)} g"
    return f"{told}/{number_text(point['active'])}" if basis.startswith("active") else told


def _dose_on_every_basis(result: Range, inputs: Inputs) -> str:
    """Say the same dose on every basis whose mass is known."""
    told = []
    for words, share, mass in (
        ("active on pigment", True, "pigment_mass"),
        ("product on pigment", False, "pigment_mass"),
        ("active on the whole", True, "total_mass"),
        ("product on the whole", False, "total_mass"),
        ("product on binder", False, "binder_mass"),
    ):
        if inputs[mass] is None or (share and inputs["active"] is None):
            continue
        told.append(f"{range_words(over_corners(_percent_of(mass, share), inputs))} % {words}")
    product = f"{range_words(result)} g of product"
    if inputs["active"] is not None:
        active = over_corners(lambda point: dosing.dose(**point) * point["active"], inputs)
        product += f" hold {range_words(active)} g active"
    return f"{product}: {', '.join(told)}"


def _percent_of(mass: str, active: bool) -> Callable[[Mapping[str, Any]], float]:
    def percent(point: Mapping[str, Any]) -> float:
        product = dosing.dose(**point) * (point["active"] if active else 1)
        return float(100 * product / point[mass]) if point[mass] else 0.0

    return percent


def _tubes(result: Range, inputs: Inputs) -> str:
    tubes = f"{range_words(result)} full {'tube' if result.high == 1 else 'tubes'}"
    if not result.is_point:
        return tubes
    left = over_corners(lambda point: dosing.tube_remainder(**point), inputs)
    return f"{tubes} and {range_words(left)} ml over"


DOSE = Formula(
    FormulaCard(
        id="dose",
        title="Dose of an additive",
        statement="product = per cent/100 × mass of what it is of; of active, over the active content",
        parameters=(
            ParameterCard("percent", "percent", "the dose", low=0, high=100),
            ParameterCard(
                "basis",
                "text",
                "what the per cent are of: on total means on the mass given as the whole",
                shape="text",
                choices=dosing.BASES,
            ),
            ParameterCard(
                "active", "fraction", "active part by mass of the product", low=0, high=1, optional=True
            ),
            ParameterCard("pigment_mass", "g", "mass of dry pigment", low=0, optional=True),
            ParameterCard("total_mass", "g", "mass of the whole paste or paint", low=0, optional=True),
            ParameterCard("binder_mass", "g", "mass of binder as supplied", low=0, optional=True),
        ),
        unit="g",
        source="the meaning of per cent",
        validity="one product; drops only beside grams",
        example=(
            ("percent", "2"),
            ("basis", "active-on-pigment"),
            ("active", "0.4"),
            ("pigment_mass", "80"),
            ("total_mass", "135"),
        ),
        caution="`2 % dispersant` can mean any of these, two and a half times apart: ask which.",
    ),
    dosing.dose,
    _dose_steps,
    reading=_dose_on_every_basis,
)

PER_100 = Formula(
    FormulaCard(
        id="per_100",
        title="Per cent of paste as grams per 100 g of pigment",
        statement="per 100 g = 100 × per cent/(100 \N{MINUS SIGN} per cent)",
        parameters=(
            ParameterCard("percent_of_paste", "percent", "liquid in the paste, by mass", low=0, high=99.99),
        ),
        unit="g/100g",
        source="masses add",
        validity="paste of pigment and one liquid, by mass; Gardner's oil figures of 1911 are of this kind",
        example=(("percent_of_paste", "72"),),
        caution="Oil to grind stays oil to grind: this does not make it an oil absorption.",
    ),
    dosing.per_100,
    "100 × {percent_of_paste}/(100 \N{MINUS SIGN} {percent_of_paste})",
)

PERCENT_OF_PASTE = Formula(
    FormulaCard(
        id="percent_of_paste",
        title="Grams per 100 g of pigment as per cent of paste",
        statement="per cent of paste = 100 × per 100 g/(100 + per 100 g)",
        parameters=(_PER_100,),
        unit="percent",
        source="masses add",
        validity="paste of pigment and one liquid, by mass",
        example=(("per_100", "59..63"),),
    ),
    dosing.percent_of_paste,
    "100 × {per_100}/(100 + {per_100})",
)

PARTS_BY_VOLUME = Formula(
    FormulaCard(
        id="parts_by_volume",
        title="Parts of powder to one of binder, by volume",
        statement="parts = (pigment mass/bulk density)/(binder mass/binder density)",
        parameters=(
            ParameterCard("pigment_mass", "g", "mass of dry pigment", low=0),
            ParameterCard("bulk_density", "g/cm3", "density of the powder with its air, as measured", low=0),
            ParameterCard("binder_mass", "g", "mass of binder as supplied", low=0),
            ParameterCard("binder_density", "g/cm3", "density of the binder as supplied", low=0),
        ),
        unit="number",
        source="mass over density",
        validity="for the spoon only: a tapped spoon holds more powder than a loose one",
        example=(
            ("pigment_mass", "100"),
            ("bulk_density", "0.60..0.85"),
            ("binder_mass", "150"),
            ("binder_density", "1.05"),
        ),
        caution="Mostly air: never use this volume in a PVC. Weigh.",
    ),
    dosing.parts_by_volume,
    "({pigment_mass}/{bulk_density})/({binder_mass}/{binder_density})",
    reading=lambda result, _: f"{range_words(result)} parts of powder to 1 part of binder, by volume",
)

MIX_BY_MASS = Formula(
    FormulaCard(
        id="mix_by_mass",
        title="Share in a mix",
        statement="share = sum of (mass × share in each)/sum of masses",
        parameters=(
            ParameterCard("masses", "g", "mass of each part of the mix", low=0, shape="list"),
            ParameterCard("shares", "fraction", f"{_SHARE} in each", low=0, high=1, shape="list"),
        ),
        unit="fraction",
        source="masses add",
        validity="by mass",
        example=(("masses", "30,70"), ("shares", "0.5,0")),
    ),
    dosing.mix_by_mass,
    lambda point: (
        f"({pairs_text(numbers(point, 'masses'), ' × ', numbers(point, 'shares'))})"
        f"/{number_text(sum(numbers(point, 'masses')))}"
    ),
)

MASS_TO_ADD = Formula(
    FormulaCard(
        id="mass_to_add",
        title="Mass to add to reach a share",
        statement="to add = mass × (share \N{MINUS SIGN} target)/(target \N{MINUS SIGN} share added)",
        parameters=(
            ParameterCard("mass", "g", "mass of the mix there is", low=0),
            ParameterCard("share", "fraction", f"{_SHARE} in it", low=0, high=1),
            ParameterCard("target", "fraction", f"{_SHARE} wanted", low=0, high=1),
            ParameterCard("added_share", "fraction", f"{_SHARE} in what is added", 0.0, low=0, high=1),
        ),
        unit="g",
        source="masses add",
        validity="the target lies between the share there is and that of what is added; nothing is taken out",
        example=(("mass", "100"), ("share", "0.5"), ("target", "0.4")),
    ),
    dosing.mass_to_add,
    "{mass} × ({share} \N{MINUS SIGN} {target})/({target} \N{MINUS SIGN} {added_share})",
)


FILL = Formula(
    FormulaCard(
        id="fill",
        title="Tubes a batch fills",
        statement="full tubes = whole part of (volume × (1 \N{MINUS SIGN} loss)/tube volume)",
        parameters=(
            ParameterCard("volume", "ml", "volume of the batch, without air", low=0),
            ParameterCard("loss", "fraction", "part left on slab, knife and pot; 0.05 to 0.1", low=0, high=1),
            ParameterCard("tube_volume", "ml", "what goes into one tube, not its nominal size", low=0),
        ),
        unit="number",
        source="volume over volume; loss of 5 to 10 %: common practice",
        validity="a tube is filled to 75 to 80 % of its length, to be folded",
        example=(("volume", "225"), ("loss", "0.08"), ("tube_volume", "37")),
    ),
    dosing.full_tubes,
    "whole part of {volume} × (1 \N{MINUS SIGN} {loss})/{tube_volume}",
    reading=_tubes,
)

FORMULAS = (DOSE, PER_100, PERCENT_OF_PASTE, PARTS_BY_VOLUME, MIX_BY_MASS, MASS_TO_ADD, FILL)

"""Formulas of dry powder: surface and size of its grains, the air between them."""

from __future__ import annotations

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import powder
from mullbook.science.formula import Formula, Inputs, over_range, range_words
from mullbook.science.working import over_corners

_DENSITY = ParameterCard("density", "g/cm3", "density of the grains themselves, without air", low=0)
_LOOSE = ParameterCard("loose", "g/cm3", "bulk density as poured", low=0)
_TAPPED = ParameterCard("tapped", "g/cm3", "bulk density after tapping", low=0)
_POROUS = "Porous or fused grains have more surface: a black measured at 300 m²/g gives 203 by its size."
_USP = "USP general chapter <1174>, Powder Flow"


def _void(result: Range, inputs: Inputs) -> str:
    void = over_corners(lambda point: 100 * (1 - point["bulk_density"] / point["density"]), inputs)
    return f"{range_words(void, 2)} % of the powder's volume is air"


def _flow(result: Range, _: Inputs) -> str:
    return f"flow: {over_range(powder.flow, result)}"


def _flow_of_index(_: Range, inputs: Inputs) -> str:
    return _flow(over_corners(lambda point: powder.hausner(**point), inputs), inputs)


SPECIFIC_SURFACE = Formula(
    FormulaCard(
        id="specific_surface",
        title="Specific surface of round grains",
        statement="specific surface = 6/(density × size)",
        parameters=(ParameterCard("size", "um", "diameter of the grains", low=0), _DENSITY),
        unit="m2/g",
        source="geometry of the sphere",
        validity="round, dense grains of one size",
        example=(("size", "0.25..0.40"), ("density", "4.2")),
        caution=_POROUS,
    ),
    powder.specific_surface,
    "6/({density} × {size})",
)

SIZE_FROM_SURFACE = Formula(
    FormulaCard(
        id="size_from_surface",
        title="Size of round grains from specific surface",
        statement="size = 6/(density × specific surface)",
        parameters=(
            ParameterCard("specific_surface", "m2/g", "measured surface, by gas adsorption", low=0),
            _DENSITY,
        ),
        unit="um",
        source="geometry of the sphere",
        validity="round, dense grains; the primary grain, not the lump it sits in",
        example=(("specific_surface", "5..6"), ("density", "4.2")),
        caution=_POROUS,
    ),
    powder.size_from_surface,
    "6/({density} × {specific_surface})",
)

BULK_TO_TRUE_VOLUME = Formula(
    FormulaCard(
        id="bulk_to_true_volume",
        title="Volume of the grains in a measure of powder",
        statement="volume of the grains = bulk volume × bulk density/density",
        parameters=(
            ParameterCard("bulk_volume", "ml", "volume of the powder with its air", low=0),
            ParameterCard("bulk_density", "g/cm3", "loose or tapped, as the volume was measured", low=0),
            _DENSITY,
        ),
        unit="ml",
        source="mass over density",
        validity="the only volume of a pigment that counts in a PVC",
        example=(("bulk_volume", "100"), ("bulk_density", "0.60..0.85"), ("density", "3.0")),
    ),
    powder.bulk_to_true_volume,
    "{bulk_volume} × {bulk_density}/{density}",
    reading=_void,
)

HAUSNER = Formula(
    FormulaCard(
        id="hausner",
        title="Hausner ratio",
        statement="Hausner ratio = tapped bulk density/loose bulk density",
        parameters=(_LOOSE, _TAPPED),
        unit="number",
        source=_USP,
        validity="one powder, one cylinder, tapped until it sinks no more",
        example=(("loose", "0.60"), ("tapped", "0.85")),
        caution="A powder that flows badly is not the one that dusts least.",
    ),
    powder.hausner,
    "{tapped}/{loose}",
    reading=_flow,
)

COMPRESSIBILITY = Formula(
    FormulaCard(
        id="compressibility",
        title="Compressibility index",
        statement="index = 100 × (tapped \N{MINUS SIGN} loose)/tapped",
        parameters=(_LOOSE, _TAPPED),
        unit="percent",
        source=_USP,
        validity="one powder, one cylinder, tapped until it sinks no more",
        example=(("loose", "0.60"), ("tapped", "0.85")),
    ),
    powder.compressibility,
    "100 × ({tapped} \N{MINUS SIGN} {loose})/{tapped}",
    reading=_flow_of_index,
)

FORMULAS = (SPECIFIC_SURFACE, SIZE_FROM_SURFACE, BULK_TO_TRUE_VOLUME, HAUSNER, COMPRESSIBILITY)

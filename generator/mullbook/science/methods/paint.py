"""Formulas of paint making: PVC, critical PVC, finish, binder demand."""

from __future__ import annotations

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import paint
from mullbook.science.formula import Formula, Inputs, number_text

_OIL = ParameterCard(
    "oil_density",
    "g/cm3",
    "density of the linseed oil; 0.935 gives the usual constant 93.5",
    paint.OIL_DENSITY,
    low=0,
)
_DENSITY = ParameterCard("density", "g/cm3", "density of the pigment itself, without air", low=0)
_CPVC = ParameterCard("cpvc", "fraction", "critical PVC: the binder just fills the gaps", low=0, high=1)
_PVC = ParameterCard("pvc", "fraction", "pigment volume concentration of the dry film", low=0, high=1)

FINISHES = ((0.6, "glossy"), (0.85, "satin"), (1.0, "matt but bound"))
"""Upper end of reduced PVC and the finish to be expected below it; common practice."""
UNDER_BOUND = "under-bound: chalks"


def finish(reduced: float) -> str:
    """Return the words for a reduced PVC (lambda).

    >>> finish(0.5), finish(1.0), finish(1.2)
    ('glossy', 'matt but bound', 'under-bound: chalks')
    """
    if reduced == 1.0:
        return FINISHES[-1][1]
    return next((words for end, words in FINISHES if reduced < end), UNDER_BOUND)


def _finishes(result: Range, _: Inputs) -> str:
    low, high = finish(result.low), finish(result.high)
    return low if low == high else f"{low} to {high}"


def _finishes_asked(_: Range, inputs: Inputs) -> str:
    reduced = inputs["reduced_pvc"]
    assert isinstance(reduced, Range)
    return _finishes(reduced, inputs)


def _at_least(result: Range, _: Inputs) -> str:
    return f"critical PVC at least {number_text(result.low, 3)}: this is the PVC of a working paste"


PVC = Formula(
    FormulaCard(
        id="pvc",
        title="Pigment volume concentration (PVC)",
        statement="PVC = pigment volume/(pigment volume + volume of binder solids)",
        parameters=(
            ParameterCard("pigment_volume", "ml", "volume of all pigment and filler, without air", low=0),
            ParameterCard("binder_solids_volume", "ml", "volume of what stays of the binder when dry", low=0),
        ),
        unit="fraction",
        source='"Pigment Volume Concentration, part I", trade article, 2014',
        validity="volumes add; water and solvent do not count; glycerin, honey, wax, thickener do, as binder",
        example=(("pigment_volume", "6.00"), ("binder_solids_volume", "27.32")),
    ),
    paint.pvc,
    "{pigment_volume}/({pigment_volume} + {binder_solids_volume})",
)

CPVC = Formula(
    FormulaCard(
        id="cpvc",
        title="Critical pigment volume concentration (CPVC) in oil",
        statement="CPVC = 1/(1 + oil absorption × density/(100 × oil density))",
        parameters=(
            ParameterCard(
                "oil_absorption", "g/100g", "linseed oil taken up by rub-out (ASTM D281, ISO 787-5)", low=0
            ),
            _DENSITY,
            _OIL,
        ),
        unit="fraction",
        source='"Pigment volume concentration, part II", trade article, 2014',
        validity="an estimate for a well dispersed paste, from rub-out oil absorption only",
        example=(("oil_absorption", "60"), ("density", "3.2")),
        caution="Oil to grind, from older books, is not oil absorption: it gives `pvc_of_grind`.",
    ),
    paint.cpvc,
    "1/(1 + {oil_absorption} × {density}/(100 × {oil_density}))",
    assumptions=("the paste is not flocculated",),
)

PVC_OF_GRIND = Formula(
    FormulaCard(
        id="pvc_of_grind",
        title="PVC of a working paste, from oil to grind",
        statement="CPVC is at least 1/(1 + oil to grind × density/(100 × oil density))",
        parameters=(
            ParameterCard(
                "oil_to_grind", "g/100g", "oil that ground 100 g of pigment to a working paste", low=0
            ),
            _DENSITY,
            _OIL,
        ),
        unit="fraction",
        source="the arithmetic of the CPVC estimate, with the oil of a paste instead of a rub-out",
        validity="a lower bound of the CPVC: grinding takes more oil than fills the gaps",
        example=(("oil_to_grind", "59"), ("density", "2.94")),
        caution="Older tables also give per cent of paste: 72 % of paste is 257 g per 100 g.",
    ),
    paint.pvc_of_grind,
    "1/(1 + {oil_to_grind} × {density}/(100 × {oil_density}))",
    reading=_at_least,
)

CPVC_IN_DISPERSION = Formula(
    FormulaCard(
        id="cpvc_in_dispersion",
        title="CPVC in a dispersion binder",
        statement="CPVC in dispersion = 1/(1 + (1/CPVC \N{MINUS SIGN} 1)/binder index)",
        parameters=(
            _CPVC,
            ParameterCard(
                "binder_index",
                "fraction",
                "binder index of the dispersion; 0.6 to 0.9 is usual",
                low=0,
                high=1,
            ),
        ),
        unit="fraction",
        source="binder index on the volume of oil; common practice",
        validity="binder index above 0 and not above 1; not a multiplier on the CPVC",
        example=(("cpvc", "0.47"), ("binder_index", "0.6..0.9")),
    ),
    paint.cpvc_in_dispersion,
    "1/(1 + (1/{cpvc} \N{MINUS SIGN} 1)/{binder_index})",
)

REDUCED_PVC = Formula(
    FormulaCard(
        id="reduced_pvc",
        title="Reduced PVC, lambda",
        statement="lambda = PVC/CPVC",
        parameters=(_PVC, _CPVC),
        unit="number",
        source="common practice",
        validity="below 0.6 glossy, to 0.85 satin, to 1 matt but bound, above 1 under-bound: chalks",
        example=(("pvc", "0.25"), ("cpvc", "0.47")),
    ),
    paint.reduced_pvc,
    "{pvc}/{cpvc}",
    reading=_finishes,
)

PVC_FOR_REDUCED = Formula(
    FormulaCard(
        id="pvc_for_reduced",
        title="PVC for a reduced PVC",
        statement="PVC = lambda × CPVC",
        parameters=(
            ParameterCard("reduced_pvc", "number", "lambda, PVC/CPVC, of the finish wanted", low=0),
            _CPVC,
        ),
        unit="fraction",
        source="common practice",
        validity="the result must be below 1",
        example=(("reduced_pvc", "0.6..0.85"), ("cpvc", "0.47")),
    ),
    paint.pvc_for_reduced,
    "{reduced_pvc} × {cpvc}",
    reading=_finishes_asked,
)

BINDER_FOR_PVC = Formula(
    FormulaCard(
        id="binder_for_pvc",
        title="Binder for a PVC",
        statement=(
            "binder as supplied = pigment mass/density × (1 \N{MINUS SIGN} PVC)/PVC"
            " × binder solids density/binder solids"
        ),
        parameters=(
            ParameterCard("pigment_mass", "g", "mass of dry pigment", 100.0, low=0),
            _DENSITY,
            _PVC,
            ParameterCard(
                "binder_solids",
                "fraction",
                "part by mass of the binder as supplied that stays",
                low=0,
                high=1,
            ),
            ParameterCard("binder_solids_density", "g/cm3", "density of the dry binder", low=0),
        ),
        unit="g",
        source="the definition of PVC solved for the binder",
        validity="0 < PVC < 1; volumes add",
        example=(
            ("density", "4.2"),
            ("pvc", "0.25"),
            ("binder_solids", "0.5"),
            ("binder_solids_density", "1.1"),
        ),
    ),
    paint.binder_for_pvc,
    "{pigment_mass}/{density} × (1 \N{MINUS SIGN} {pvc})/{pvc} × {binder_solids_density}/{binder_solids}",
)

FORMULAS = (PVC, CPVC, PVC_OF_GRIND, CPVC_IN_DISPERSION, REDUCED_PVC, PVC_FOR_REDUCED, BINDER_FOR_PVC)

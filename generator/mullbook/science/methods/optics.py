"""Formulas of optics: reflectance and scattering contrast."""

from __future__ import annotations

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import optics
from mullbook.science.formula import Formula, Inputs

HIDING = ((0.005, "glassy"), (0.03, "semi-opaque"))
"""Upper end of the contrast of a pale grain and its words; above the last one it hides."""
HIDES = "hides"
BY_ABSORPTION = "hides by absorption, not by index"
PALE = 0.01
"""Extinction coefficient below which a grain counts as pale."""


def hiding(contrast: float) -> str:
    """Return the words for the scattering contrast of a pale grain.

    >>> hiding(0.0007), hiding(0.01), hiding(0.2)
    ('glassy', 'semi-opaque', 'hides')
    """
    return next((words for end, words in HIDING if contrast < end), HIDES)


def _hiding(result: Range, inputs: Inputs) -> str:
    k = inputs["k"]
    assert isinstance(k, Range)
    if k.low >= PALE:
        return BY_ABSORPTION
    low, high = hiding(result.low), hiding(result.high)
    pale = low if low == high else f"{low} to {high}"
    return pale if k.high < PALE else f"{pale}, or {BY_ABSORPTION}"


_K = ParameterCard("k", "number", "extinction coefficient of the grain; nought for a clear one", 0.0, low=0)

FRESNEL = Formula(
    FormulaCard(
        id="fresnel",
        title="Reflectance at normal incidence",
        statement="R = ((n1 \N{MINUS SIGN} n2)² + k²)/((n1 + n2)² + k²)",
        parameters=(
            ParameterCard("n1", "index", "refractive index of the grain", low=0),
            ParameterCard("n2", "index", "refractive index of what is around it", low=0),
            _K,
        ),
        unit="fraction",
        source="Fresnel's equations at normal incidence",
        validity="one smooth face, light straight on",
        example=(("n1", "2.7"), ("n2", "1.48")),
    ),
    optics.fresnel,
    "(({n1} \N{MINUS SIGN} {n2})² + {k}²)/(({n1} + {n2})² + {k}²)",
    turns={
        "n1": lambda point: optics.fresnel_turn(point["n2"], point["k"]),
        "n2": lambda point: optics.fresnel_turn(point["n1"], point["k"]),
    },
)

SCATTERING_CONTRAST = Formula(
    FormulaCard(
        id="scattering_contrast",
        title="Scattering contrast of a grain in its binder",
        statement="contrast = ((m² \N{MINUS SIGN} 1)/(m² + 2))², m = n of pigment/n of binder",
        parameters=(
            ParameterCard("n_pigment", "index", "refractive index of the pigment", low=0),
            ParameterCard("n_binder", "index", "refractive index of the dry binder", low=0),
            _K,
        ),
        unit="number",
        source="Lorentz-Lorenz factor of small-particle scattering; the words are ours",
        validity="below 0.005 glassy, to 0.03 semi-opaque, then hides; above the critical PVC voids are air",
        example=(("n_pigment", "2.7"), ("n_binder", "1.48")),
    ),
    lambda n_pigment, n_binder, k: optics.scattering_contrast(n_pigment, n_binder),
    "((({n_pigment}/{n_binder})² \N{MINUS SIGN} 1)/(({n_pigment}/{n_binder})² + 2))²",
    turns={"n_pigment": lambda point: point["n_binder"], "n_binder": lambda point: point["n_pigment"]},
    reading=_hiding,
)

_KM = "P. Kubelka and F. Munk, 1931: a layer so thick that what is under it does not show"

KUBELKA_MUNK = Formula(
    FormulaCard(
        id="kubelka_munk",
        title="Absorption over scattering (Kubelka-Munk)",
        statement="K/S = (1 \N{MINUS SIGN} R)²/(2 × R)",
        parameters=(
            ParameterCard("reflectance", "fraction", "reflectance at one wavelength", low=0, high=1),
        ),
        unit="number",
        source=_KM,
        validity="one wavelength at a time; not for L* or for a mean over the spectrum",
        example=(("reflectance", "0.25"),),
    ),
    optics.kubelka_munk,
    "(1 \N{MINUS SIGN} {reflectance})²/(2 × {reflectance})",
)

REFLECTANCE_FROM_KS = Formula(
    FormulaCard(
        id="reflectance_from_ks",
        title="Reflectance from K/S (Kubelka-Munk)",
        statement="R = 1 + x \N{MINUS SIGN} √(x² + 2x), x = K/S",
        parameters=(ParameterCard("k_over_s", "number", "absorption over scattering", low=0),),
        unit="fraction",
        source=_KM,
        validity="one wavelength at a time; K/S of a mix is the mean by mass of its parts only roughly",
        example=(("k_over_s", "1"),),
    ),
    optics.reflectance_from_ks,
    "1 + {k_over_s} \N{MINUS SIGN} √({k_over_s}² + 2 × {k_over_s})",
)

FORMULAS = (FRESNEL, SCATTERING_CONTRAST, KUBELKA_MUNK, REFLECTANCE_FROM_KS)

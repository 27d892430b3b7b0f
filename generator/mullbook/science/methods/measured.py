"""Formulas of one's own measurements of a lot, each with its error of measurement carried through."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import powder
from mullbook.science.formula import Formula, Inputs, number_text
from mullbook.science.media import water_density
from mullbook.science.working import over_corners

WORST_CASE = "every reading is off by its whole error, in the worst direction"

_MASS_ERROR = ParameterCard("mass_error", "g", "error of each weighing", 0.05, low=0)
_VOLUME_ERROR = ParameterCard("volume_error", "ml", "error of each reading of the cylinder", 0.5, low=0)


def _as_read(function: Callable[..., float], unit: str) -> Callable[[Range, Inputs], str]:
    """Return the words for a result as read, and how far it may be off."""

    def told(result: Range, inputs: Inputs) -> str:
        read = over_corners(lambda point: function(**point), inputs)
        off = max(result.high - read.middle, read.middle - result.low)
        return f"{number_text(read.middle, 3)} ± {number_text(off, 2)} {unit}"

    return told


def _bulk(mass: float, volume: float, **_: float) -> float:
    return powder.bulk_density(mass, volume)


def _displaced(mass: float, volume_before: float, volume_after: float, **_: float) -> float:
    return powder.density_by_displacement(mass, volume_before, volume_after)


def _weighed(mass_in_air: float, mass_in_water: float, temperature: float, **_: float) -> float:
    return powder.hydrostatic_density(mass_in_air, mass_in_water, temperature)


def _weighed_steps(point: Mapping[str, Any]) -> str:
    air, water = number_text(point["mass_in_air"]), number_text(point["mass_in_water"])
    density = number_text(water_density(point["temperature"]) / 1000)
    return f"{air} × {density}/({air} \N{MINUS SIGN} {water})"


def _rubbed(oil_mass: float, pigment_mass: float, **_: float) -> float:
    return powder.rub_out(oil_mass, pigment_mass)


BULK_DENSITY = Formula(
    FormulaCard(
        id="bulk_density",
        title="Bulk density of a lot",
        statement="bulk density = mass/volume of the powder with its air",
        parameters=(
            ParameterCard("mass", "g", "mass of the powder", low=0),
            ParameterCard("volume", "ml", "its volume, as poured or after tapping: say which", low=0),
            _MASS_ERROR,
            _VOLUME_ERROR,
        ),
        unit="g/cm3",
        source="mass over volume",
        validity="a cylinder of 50 ml or more; poured through a funnel, or tapped until it sinks no more",
        example=(("mass", "30.2"), ("volume", "50")),
    ),
    _bulk,
    "{mass}/{volume}",
    errors={"mass": "mass_error", "volume": "volume_error"},
    reading=_as_read(_bulk, "g/cm3"),
    assumptions=(WORST_CASE,),
)

DENSITY_BY_DISPLACEMENT = Formula(
    FormulaCard(
        id="density_by_displacement",
        title="Density of a lot by displacement",
        statement="density = mass/(volume after \N{MINUS SIGN} volume before)",
        parameters=(
            ParameterCard("mass", "g", "mass of the dry powder", low=0),
            ParameterCard("volume_before", "ml", "reading of the liquid alone", low=0),
            ParameterCard("volume_after", "ml", "reading with the powder in it, no bubbles left", low=0),
            _MASS_ERROR,
            _VOLUME_ERROR,
        ),
        unit="g/cm3",
        source="mass over volume displaced",
        validity="a liquid that wets the powder and does not dissolve it; bubbles make the result too low",
        example=(("mass", "40"), ("volume_before", "30"), ("volume_after", "42.5"), ("volume_error", "0.25")),
        caution="The rise of the level decides: take as much powder as the cylinder can hold.",
    ),
    _displaced,
    "{mass}/({volume_after} \N{MINUS SIGN} {volume_before})",
    errors={"mass": "mass_error", "volume_before": "volume_error", "volume_after": "volume_error"},
    reading=_as_read(_displaced, "g/cm3"),
    assumptions=(WORST_CASE,),
)

HYDROSTATIC_DENSITY = Formula(
    FormulaCard(
        id="hydrostatic_density",
        title="Density of a stone by weighing it in water",
        statement="density = mass in air × density of water/(mass in air \N{MINUS SIGN} mass in water)",
        parameters=(
            ParameterCard("mass_in_air", "g", "mass of the dry stone", low=0),
            ParameterCard("mass_in_water", "g", "hung on a thread under water, no bubbles left", low=0),
            ParameterCard("temperature", "C", "temperature of the water", low=0, high=50),
            _MASS_ERROR,
        ),
        unit="g/cm3",
        source="Archimedes; density of water: G. S. Kell, J. Chem. Eng. Data 20 (1975) 97",
        validity="a stone that does not drink; the lift of the air, below 0.1 %, is left out",
        example=(("mass_in_air", "26.5"), ("mass_in_water", "16.5"), ("temperature", "20")),
    ),
    _weighed,
    _weighed_steps,
    errors={"mass_in_air": "mass_error", "mass_in_water": "mass_error"},
    reading=_as_read(_weighed, "g/cm3"),
    assumptions=(WORST_CASE,),
)

RUB_OUT = Formula(
    FormulaCard(
        id="rub_out",
        title="Oil absorption of a lot by rub-out",
        statement="oil absorption = 100 × oil/pigment",
        parameters=(
            ParameterCard("oil_mass", "g", "linseed oil that just made one coherent lump", low=0),
            ParameterCard("pigment_mass", "g", "mass of the dry powder", low=0),
            _MASS_ERROR,
        ),
        unit="g/100g",
        source="the definition in ASTM D281 and ISO 787-5",
        validity="drop by drop under a stiff knife, to a lump that does not break; two hands differ by more",
        example=(("oil_mass", "2.4"), ("pigment_mass", "5")),
        caution="Only the weighing error is counted: judge the end point twice and take the range.",
    ),
    _rubbed,
    "100 × {oil_mass}/{pigment_mass}",
    errors={"oil_mass": "mass_error", "pigment_mass": "mass_error"},
    reading=_as_read(_rubbed, "g per 100 g"),
    assumptions=(WORST_CASE,),
)

FORMULAS = (BULK_DENSITY, DENSITY_BY_DISPLACEMENT, HYDROSTATIC_DENSITY, RUB_OUT)

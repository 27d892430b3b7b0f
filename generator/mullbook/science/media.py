"""What grains sink in: density, viscosity and free path of still water and air at one atmosphere."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

FLUIDS = ("water", "air")
"""The fluids there are."""

ICE_POINT = 273.15
"""0 degrees Celsius in kelvin."""

ATMOSPHERE = 101325.0
"""Standard pressure (Pa)."""

_GAS_CONSTANT = 8.314462618
_AIR_MOLAR_MASS = 0.0289647

_IAPWS_LEAST = (1.67752, 2.20462, 0.6366564, -0.241605)
_IAPWS_TERMS = (
    (0, 0, 5.20094e-1),
    (1, 0, 8.50895e-2),
    (2, 0, -1.08374),
    (3, 0, -2.89555e-1),
    (0, 1, 2.22531e-1),
    (1, 1, 9.99115e-1),
    (2, 1, 1.88797),
    (3, 1, 1.26613),
    (5, 1, 1.20573e-1),
    (0, 2, -2.81378e-1),
    (1, 2, -9.06851e-1),
    (2, 2, -7.72479e-1),
    (3, 2, -4.89837e-1),
    (4, 2, -2.57040e-1),
    (0, 3, 1.61913e-1),
    (1, 3, 2.57399e-1),
    (0, 4, -3.25372e-2),
    (3, 4, 6.98452e-2),
    (4, 5, 8.72102e-3),
    (3, 6, -4.35673e-3),
    (5, 6, -5.93264e-4),
)


@dataclass(frozen=True, slots=True)
class Medium:
    """A still fluid at one temperature."""

    name: str
    temperature: float
    """Kelvin."""
    density: float
    """kg/m3."""
    viscosity: float
    """Pa s."""
    free_path: float
    """Mean free path of its molecules (m); nought for a liquid."""


@lru_cache(maxsize=512)
def medium(fluid: str, temperature: float) -> Medium:
    """Return water or air at a temperature.

    Parameters: `fluid`, water or air; `temperature` (C), 0 to 50. Raises `ValueError` for another fluid or
    temperature.

    >>> water = medium("water", 20)
    >>> round(water.density, 2), round(water.viscosity * 1000, 4)
    (998.2, 1.0016)
    """
    if not 0 <= temperature <= 50:
        raise ValueError("temperature must lie between 0 and 50 C")
    kelvin = temperature + ICE_POINT
    if fluid == "water":
        density = water_density(temperature)
        return Medium(fluid, kelvin, density, water_viscosity(kelvin, density), 0.0)
    if fluid == "air":
        return Medium(fluid, kelvin, air_density(kelvin), air_viscosity(kelvin), air_free_path(kelvin))
    raise ValueError(f"the fluid is water or air, not {fluid!r}")


def water_density(temperature: float) -> float:
    """Density of water without air at one atmosphere.

    Parameters: `temperature` (C), 0 to 150. Returns kg/m3.

    Source: G. S. Kell, J. Chem. Eng. Data 20 (1975) 97-105.

    >>> round(water_density(25), 1)
    997.0
    """
    t = temperature
    above = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))
    )
    return above / (1 + 16.879850e-3 * t)


def water_viscosity(temperature: float, density: float) -> float:
    """Viscosity of water, away from its critical point.

    Parameters: `temperature` (K); `density` (kg/m3). Returns Pa s.

    Source: IAPWS R12-08, Formulation 2008 for the Viscosity of Ordinary Water Substance, without its
    critical enhancement.

    >>> round(water_viscosity(298.15, 998) * 1e6, 4)
    889.7351
    """
    t, r = temperature / 647.096, density / 322.0
    thin = 100 * math.sqrt(t) / sum(h / t**i for i, h in enumerate(_IAPWS_LEAST))
    dense = sum(h * (1 / t - 1) ** i * (r - 1) ** j for i, j, h in _IAPWS_TERMS)
    return float(thin * math.exp(r * dense)) * 1e-6


def air_density(temperature: float) -> float:
    """Density of dry air at one atmosphere, as an ideal gas.

    Parameters: `temperature` (K). Returns kg/m3.

    >>> round(air_density(293.15), 3)
    1.204
    """
    return ATMOSPHERE * _AIR_MOLAR_MASS / (_GAS_CONSTANT * temperature)


def air_viscosity(temperature: float) -> float:
    """Viscosity of air, by Sutherland's law.

    Parameters: `temperature` (K). Returns Pa s.

    Source: US Standard Atmosphere, 1976.

    >>> round(air_viscosity(293.15) * 1e6, 2)
    18.13
    """
    return 1.458e-6 * float(temperature**1.5) / (temperature + 110.4)


def air_free_path(temperature: float) -> float:
    """Mean free path of the molecules of air at one atmosphere: `mu/p x sqrt(pi R T/(2 M))`.

    Parameters: `temperature` (K). Returns m.

    >>> round(air_free_path(293.15) * 1e9)
    65
    """
    speed = math.sqrt(math.pi * _GAS_CONSTANT * temperature / (2 * _AIR_MOLAR_MASS))
    return air_viscosity(temperature) / ATMOSPHERE * speed

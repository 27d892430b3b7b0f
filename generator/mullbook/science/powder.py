"""Dry powder: grain size and surface, the air between grains, and what a maker measures of a lot."""

from __future__ import annotations

from mullbook.science.media import water_density
from mullbook.science.paint import above_nought

FLOWS = (
    (1.11, "excellent"),
    (1.18, "good"),
    (1.25, "fair"),
    (1.34, "passable"),
    (1.45, "poor"),
    (1.59, "very poor"),
)
"""Highest Hausner ratio of each kind of flow, USP general chapter <1174>."""
WORST_FLOW = "very, very poor"


def flow(hausner: float) -> str:
    """Return the words for how a powder flows, from its Hausner ratio rounded as the table is.

    >>> flow(1.11), flow(1.3), flow(2)
    ('excellent', 'passable', 'very, very poor')
    """
    return next((words for end, words in FLOWS if round(hausner, 2) <= end), WORST_FLOW)


def specific_surface(size: float, density: float) -> float:
    """Outer surface of round, dense grains: `6/(rho d)`.

    Parameters: `size` (um); `density` (g/cm3). Returns m2/g.

    >>> round(specific_surface(0.25, 4.2), 1)
    5.7
    """
    above_nought(size, "size")
    above_nought(density, "density")
    return 6 / (density * size)


def size_from_surface(specific_surface: float, density: float) -> float:
    """Size of round, dense grains that have a surface: `6/(rho S)`, the inverse of `specific_surface`.

    Parameters: `specific_surface` (m2/g); `density` (g/cm3). Returns um.

    >>> round(size_from_surface(5.7, 4.2), 2)
    0.25
    """
    above_nought(specific_surface, "specific surface")
    above_nought(density, "density")
    return 6 / (density * specific_surface)


def bulk_to_true_volume(bulk_volume: float, bulk_density: float, density: float) -> float:
    """Volume of the grains in a volume of powder: `V rho_bulk/rho`.

    Parameters: `bulk_volume` (ml) of the powder with its air; `bulk_density` (g/cm3), loose or tapped as
    the volume is; `density` (g/cm3) of the grains. Returns ml. Raises `ValueError` where a powder would be
    denser than its grains.

    >>> round(bulk_to_true_volume(100, 0.6, 3.0), 6)
    20.0
    """
    above_nought(density, "density")
    if bulk_density > density:
        raise ValueError("the bulk density must not be above that of the grains")
    return bulk_volume * bulk_density / density


def hausner(loose: float, tapped: float) -> float:
    """Hausner ratio: `tapped/loose`.

    Parameters: `loose` and `tapped` bulk density (g/cm3). Returns a plain number, 1 or more. Raises
    `ValueError` where the tapped one is the lower.

    Source: USP general chapter <1174>, Powder Flow.

    >>> round(hausner(0.6, 0.85), 3)
    1.417
    """
    above_nought(loose, "loose bulk density")
    if tapped < loose:
        raise ValueError("the tapped bulk density must not be below the loose one")
    return tapped / loose


def compressibility(loose: float, tapped: float) -> float:
    """Compressibility index: `100 (tapped - loose)/tapped`.

    Parameters: as for `hausner`. Returns per cent.

    Source: USP general chapter <1174>, Powder Flow.

    >>> round(compressibility(0.6, 0.85), 1)
    29.4
    """
    return 100 * (1 - 1 / hausner(loose, tapped))


def bulk_density(mass: float, volume: float) -> float:
    """Density of a powder with its air: `mass/volume`.

    Parameters: `mass` (g); `volume` (ml) as poured or as tapped. Returns g/cm3.

    >>> bulk_density(30, 50)
    0.6
    """
    above_nought(mass, "mass")
    above_nought(volume, "volume")
    return mass / volume


def density_by_displacement(mass: float, volume_before: float, volume_after: float) -> float:
    """Density of grains by the liquid they push aside: `mass/(after - before)`.

    Parameters: `mass` (g) of the dry powder; `volume_before` and `volume_after` (ml), readings of the
    liquid in a cylinder. Returns g/cm3. Raises `ValueError` where the level does not rise.

    >>> density_by_displacement(20, 30, 36.5)
    3.076923076923077
    """
    above_nought(mass, "mass")
    if volume_after <= volume_before:
        raise ValueError("the level does not rise by more than the error of reading")
    return mass / (volume_after - volume_before)


def hydrostatic_density(mass_in_air: float, mass_in_water: float, temperature: float) -> float:
    """Density of a stone by weighing it in water: `m_air rho_water/(m_air - m_water)`.

    Parameters: `mass_in_air` and `mass_in_water` (g), the second hung on a thread; `temperature` (C) of the
    water. Returns g/cm3. Raises `ValueError` where it does not weigh less in water.

    >>> round(hydrostatic_density(26.5, 16.5, 20), 3)
    2.645
    """
    above_nought(mass_in_air, "mass in air")
    if mass_in_water >= mass_in_air:
        raise ValueError("the stone must weigh less in water, by more than the error of weighing")
    return mass_in_air * water_density(temperature) / 1000 / (mass_in_air - mass_in_water)


def rub_out(oil_mass: float, pigment_mass: float) -> float:
    """Oil absorption of a lot by rub-out: `100 oil/pigment`.

    Parameters: `oil_mass` (g) of linseed oil that just made one coherent lump; `pigment_mass` (g).
    Returns g/100g.

    Source: the definition in ASTM D281 and ISO 787-5.

    >>> rub_out(2.4, 5)
    48.0
    """
    above_nought(pigment_mass, "pigment mass")
    above_nought(oil_mass, "oil mass")
    return 100 * oil_mass / pigment_mass

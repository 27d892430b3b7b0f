"""Paint on the knife and on the wall: solids, densities, air, coats, voids of the dry film."""

from __future__ import annotations

from collections.abc import Sequence

from mullbook.science.paint import above_nought, blend_density, parts, same_length

SQUARE_FEET_PER_GALLON = 0.09290304 / 3.785411784
"""One square foot per US gallon in m2/l."""


def wet_film(spreading_rate: Sequence[float]) -> float:
    """Wet film of one coat or of several together: `sum(1000/rate)`.

    Parameters: `spreading_rate` (m2/l) of each coat. Returns um. Raises `ValueError` where there is none or
    one is not above nought.

    >>> wet_film([10]), wet_film([10, 20])
    (100.0, 150.0)
    """
    return 1000 / coats(spreading_rate)


def coats(spreading_rate: Sequence[float]) -> float:
    """Spreading rate of several coats together: `1/sum(1/rate)`, a third of the harmonic mean for three.

    Parameters: `spreading_rate` (m2/l) of each coat. Returns m2/l. Raises as `wet_film` does.

    >>> round(coats([759, 1020, 768]))
    278
    """
    if not spreading_rate:
        raise ValueError("there is no coat")
    for rate in spreading_rate:
        above_nought(rate, "a spreading rate")
    return 1 / sum(1 / rate for rate in spreading_rate)


def spreading_rate(wet_film: float) -> float:
    """Spreading rate of a wet film: `1000/film`.

    Parameters: `wet_film` (um). Returns m2/l. Raises `ValueError` where it is not above nought.

    >>> spreading_rate(50)
    20.0
    """
    above_nought(wet_film, "the wet film")
    return 1000 / wet_film


def porosity(pvc: float, cpvc: float) -> float:
    """Share of a dry film that is air: `1 - CPVC/PVC` above the critical PVC, else nought.

    The grains lie as close at every PVC above the critical one, and binder is missing between them.

    Parameters: `pvc` and `cpvc`, fractions. Returns a fraction. Raises `ValueError` outside 0 < CPVC <= 1.

    >>> round(porosity(0.6, 0.45), 6), porosity(0.3, 0.45)
    (0.25, 0.0)
    """
    if not 0 < cpvc <= 1:
        raise ValueError("CPVC must lie above 0 and not above 1")
    return max(0.0, 1 - cpvc / pvc) if pvc > 0 else 0.0


def weight_solids(masses: Sequence[float], solids: Sequence[float]) -> float:
    """Share by mass that stays as film: `sum(m s)/sum(m)`.

    Parameters: `masses` (g) as supplied; `solids`, fraction by mass that stays of each. Returns a fraction.
    Raises `ValueError` where the lists do not match or weigh nothing.

    >>> weight_solids([25, 60, 15], [1, 0.5, 0])
    0.55
    """
    same_length(masses, solids)
    return sum(mass * part for mass, part in zip(parts(masses), solids, strict=True)) / sum(masses)


def wet_density(masses: Sequence[float], densities: Sequence[float]) -> float:
    """Density of a wet paint without air: `sum(m)/sum(m/rho)`.

    Parameters: `masses` (g); `densities` (g/cm3) as supplied. Returns g/cm3. Raises as `blend_density`.

    >>> round(wet_density([25.2, 60.1, 14.7], [4.2, 1.05, 1.0]), 3)
    1.283
    """
    return blend_density(masses, densities)


def batch_volume(masses: Sequence[float], densities: Sequence[float], air: float = 0) -> float:
    """Volume of a wet paint with the air stirred into it: `sum(m/rho)/(1 - air)`.

    Parameters: `masses` (g); `densities` (g/cm3) as supplied; `air`, fraction of the paint that is air.
    Returns ml. Raises as `blend_density`, and for `air` outside 0 to 1.

    >>> round(batch_volume([20, 30, 10], [3.0, 1.05, 1.0]), 1)
    45.2
    """
    if not 0 <= air < 1:
        raise ValueError("air is a part from 0 to below 1")
    return sum(masses) / blend_density(masses, densities) / (1 - air)


def dry_density(masses: Sequence[float], solids: Sequence[float], solids_densities: Sequence[float]) -> float:
    """Density of the dry film without air: `sum(m s)/sum(m s/rho_s)`.

    Parameters: `masses` (g) as supplied; `solids`, fraction by mass that stays of each; `solids_densities`
    (g/cm3) of what stays. Returns g/cm3. Raises `ValueError` where the lists do not match or nothing stays.

    >>> round(dry_density([25.2, 60.1, 14.7], [1, 0.5, 0], [4.2, 1.1, 1.0]), 3)
    1.658
    """
    same_length(masses, solids)
    staying = [mass * part for mass, part in zip(masses, solids, strict=True)]
    return blend_density(staying, solids_densities)


def entrained_air(full: float, empty: float, cup_volume: float, density: float) -> float:
    """Air beaten into a paint, from a density cup: `1 - (full - empty)/(volume x density)`.

    Parameters: `full` and `empty` (g), the cup with paint and without; `cup_volume` (ml); `density` (g/cm3)
    the paint has without air. Returns a fraction; below 0 a weighing or the density is wrong. Raises
    `ValueError` where the cup weighs no more full than empty.

    >>> round(entrained_air(226.0, 100.0, 100.0, 1.30), 4)
    0.0308
    """
    above_nought(cup_volume, "cup volume")
    above_nought(density, "density")
    if full <= empty:
        raise ValueError("the full cup must weigh more than the empty one")
    return 1 - (full - empty) / (cup_volume * density)

"""Volumes and masses of paint: PVC, critical PVC, blends, binder demand.

Shares and concentrations are fractions of one. Volumes are taken to add.
"""

from __future__ import annotations

from collections.abc import Sequence

OIL_DENSITY = 0.935
"""Density of linseed oil (g/cm3) that the usual constant 93.5 of the CPVC estimate stands for."""


def pvc(pigment_volume: float, binder_solids_volume: float) -> float:
    """Pigment volume concentration: `V_p / (V_p + V_b)`.

    Parameters: `pigment_volume` (ml) of all pigment and filler, without air; `binder_solids_volume` (ml)
    of what stays of the binder. Returns a fraction. Raises `ValueError` where both are nought.

    Source: "Pigment Volume Concentration, part I", trade article, 2014.

    >>> round(pvc(25.20 / 4.20, 30.05 / 1.10), 4)
    0.1801
    """
    total = pigment_volume + binder_solids_volume
    if total <= 0:
        raise ValueError("there is neither pigment nor binder")
    return pigment_volume / total


def cpvc(oil_absorption: float, density: float, oil_density: float = OIL_DENSITY) -> float:
    """Critical PVC in oil, from rub-out oil absorption: `1 / (1 + OA rho / (100 rho_oil))`.

    Parameters: `oil_absorption` (g oil per 100 g pigment, rub-out); `density` (g/cm3) of the pigment;
    `oil_density` (g/cm3). Returns a fraction. Raises `ValueError` for densities that are not above nought.

    Source: "Pigment volume concentration, part II", trade article, 2014.

    >>> round(cpvc(20, 4.2), 4)
    0.5268
    """
    above_nought(oil_absorption, "oil absorption")
    above_nought(density, "density")
    above_nought(oil_density, "oil density")
    return 1 / (1 + oil_absorption * density / (100 * oil_density))


def pvc_of_grind(oil_to_grind: float, density: float, oil_density: float = OIL_DENSITY) -> float:
    """PVC of a working paste, from the oil that grinds it: a lower bound of the critical PVC.

    Parameters: `oil_to_grind` (g oil per 100 g pigment); `density` (g/cm3); `oil_density` (g/cm3).
    Returns a fraction. Raises `ValueError` as `cpvc` does.

    Source: the arithmetic of `cpvc`; grinding takes more oil than just fills the gaps.

    >>> round(pvc_of_grind(59, 2.94), 3)
    0.35
    """
    above_nought(oil_to_grind, "oil to grind")
    return cpvc(oil_to_grind, density, oil_density)


def cpvc_in_dispersion(cpvc: float, binder_index: float) -> float:
    """Critical PVC in a dispersion binder: `1 / (1 + (1/CPVC - 1)/e)`.

    Parameters: `cpvc`, the fraction in oil; `binder_index` e, 0 < e <= 1. Returns a fraction, never above
    `cpvc`. Raises `ValueError` outside those bounds.

    Source: binder index on the volume of oil; common practice.

    >>> round(cpvc_in_dispersion(0.5268, 0.7), 4)
    0.438
    """
    between_nought_and_one(cpvc, "CPVC")
    if not 0 < binder_index <= 1:
        raise ValueError("the binder index must lie above 0 and not above 1")
    return 1 / (1 + (1 / cpvc - 1) / binder_index)


def reduced_pvc(pvc: float, cpvc: float) -> float:
    """Reduced PVC, lambda: `PVC / CPVC`.

    Parameters: `pvc` and `cpvc`, fractions. Returns a plain number; above 1 the film is under-bound.
    Raises `ValueError` where the CPVC is nought.

    >>> reduced_pvc(0.25, 0.5)
    0.5
    """
    above_nought(cpvc, "CPVC")
    return pvc / cpvc


def pvc_for_reduced(reduced_pvc: float, cpvc: float) -> float:
    """PVC that has a given reduced PVC: `lambda x CPVC`.

    Parameters: `reduced_pvc` lambda, plain number; `cpvc`, fraction. Returns a fraction. Raises
    `ValueError` where that would leave no room for binder.

    >>> pvc_for_reduced(0.8, 0.5)
    0.4
    """
    between_nought_and_one(cpvc, "CPVC")
    found = reduced_pvc * cpvc
    if not 0 < found < 1:
        raise ValueError(
            f"a reduced PVC of {reduced_pvc:g} at a CPVC of {cpvc:.3g} leaves no room for binder"
        )
    return found


def blend_density(shares: Sequence[float], densities: Sequence[float]) -> float:
    """Density of a blend of powders, without air: the harmonic mean by mass.

    Parameters: `shares` by mass, of any sum; `densities` (g/cm3), one for each. Returns g/cm3.
    Raises `ValueError` where the lists do not match or a density is not above nought.

    Source: volumes add.

    >>> round(blend_density([1, 1], [5.65, 2.94]), 3)
    3.868
    """
    same_length(shares, densities)
    for density in densities:
        above_nought(density, "density")
    total = sum(parts(shares))
    return total / sum(share / density for share, density in zip(shares, densities, strict=True))


def blend_oil_absorption(shares: Sequence[float], oil_absorptions: Sequence[float]) -> float:
    """Oil absorption of a blend: the mean by mass. Packing may make the true one lower.

    Parameters: `shares` by mass, of any sum; `oil_absorptions` (g/100g), one for each. Returns g/100g.
    Raises `ValueError` where the lists do not match.

    >>> blend_oil_absorption([1, 1], [14, 59])
    36.5
    """
    same_length(shares, oil_absorptions)
    total = sum(parts(shares))
    return sum(share * value for share, value in zip(shares, oil_absorptions, strict=True)) / total


def cpvc_of_blend(
    shares: Sequence[float],
    oil_absorptions: Sequence[float],
    densities: Sequence[float],
    oil_density: float = OIL_DENSITY,
) -> float:
    """Critical PVC of a blend in oil: that of its mean oil absorption and its density.

    Parameters: `shares` by mass, of any sum; `oil_absorptions` (g/100g, rub-out) and `densities` (g/cm3),
    one for each; `oil_density` (g/cm3). Returns a fraction. Raises `ValueError` as the parts do.

    >>> round(cpvc_of_blend([1, 1], [14, 59], [5.65, 2.94]), 3)
    0.398
    """
    absorption = blend_oil_absorption(shares, oil_absorptions)
    return cpvc(absorption, blend_density(shares, densities), oil_density)


def binder_for_pvc(
    pigment_mass: float, density: float, pvc: float, binder_solids: float, binder_solids_density: float
) -> float:
    """Binder as supplied that brings a mass of pigment to a PVC.

    `pigment_mass / density x (1 - PVC)/PVC x binder_solids_density / binder_solids`

    Parameters: `pigment_mass` (g); `density` (g/cm3) of the pigment; `pvc`, fraction; `binder_solids`,
    fraction by mass of the binder as supplied; `binder_solids_density` (g/cm3) of the dry binder.
    Returns g. Raises `ValueError` outside 0 < pvc < 1, 0 < solids <= 1 or for densities not above nought.

    >>> round(binder_for_pvc(100, 4.2, 0.25, 0.5, 1.1), 1)
    157.1
    """
    above_nought(density, "density")
    above_nought(binder_solids_density, "binder solids density")
    between_nought_and_one(pvc, "PVC")
    if not 0 < binder_solids <= 1:
        raise ValueError("binder solids must lie above 0 and not above 1")
    return pigment_mass / density * (1 - pvc) / pvc * binder_solids_density / binder_solids


def volume_solids(
    masses: Sequence[float],
    densities: Sequence[float],
    solids: Sequence[float],
    solids_densities: Sequence[float] | None = None,
) -> float:
    """Share of the wet volume that stays as film: `sum(m s / rho_s) / sum(m / rho)`.

    Parameters: `masses` (g) as supplied; `densities` (g/cm3) as supplied; `solids`, fraction by mass that
    stays of each; `solids_densities` (g/cm3) of what stays, as supplied where not given.
    Returns a fraction. Raises `ValueError` where the lists do not match.

    >>> round(volume_solids([25.2, 60.1, 14.7], [4.2, 1.05, 1.0], [1, 0.5, 0], [4.2, 1.1, 1.0]), 3)
    0.427
    """
    dry = densities if solids_densities is None else solids_densities
    for listed in (densities, solids, dry):
        same_length(masses, listed)
    for density in (*densities, *dry):
        above_nought(density, "density")
    wet_volume = sum(mass / density for mass, density in zip(parts(masses), densities, strict=True))
    dry_volume = sum(mass * part / density for mass, part, density in zip(masses, solids, dry, strict=True))
    return dry_volume / wet_volume


def above_nought(number: float, name: str) -> None:
    """Raise `ValueError` in words unless a number is above nought."""
    if not number > 0:
        raise ValueError(f"{name} must be above 0")


def between_nought_and_one(number: float, name: str) -> None:
    """Raise `ValueError` in words unless 0 < number < 1."""
    if not 0 < number < 1:
        raise ValueError(f"{name} must lie between 0 and 1, without either")


def parts(shares: Sequence[float]) -> Sequence[float]:
    """Return shares unchanged; raise `ValueError` unless none is below nought and one is above."""
    if any(share < 0 for share in shares):
        raise ValueError("a share must not be below 0")
    if not sum(shares) > 0:
        raise ValueError("the shares add up to nothing")
    return shares


def same_length(first: Sequence[float], second: Sequence[float]) -> None:
    """Raise `ValueError` in words unless two lists have as many numbers."""
    if len(first) != len(second):
        raise ValueError(f"the lists do not match: {len(first)} numbers against {len(second)}")

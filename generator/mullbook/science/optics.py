"""What light does at the face of a grain: reflectance and scattering from refractive indices."""

from __future__ import annotations

from mullbook.science.paint import above_nought


def fresnel(n1: float, n2: float, k: float = 0.0) -> float:
    """Reflectance at normal incidence: `((n1 - n2)^2 + k^2)/((n1 + n2)^2 + k^2)`.

    Parameters: `n1` and `n2`, refractive indices of grain and surroundings; `k`, extinction coefficient
    of the grain. Returns a fraction. Raises `ValueError` for an index that is not above nought.

    Source: Fresnel's equations, normal incidence.

    >>> round(fresnel(1.5, 1.0), 4)
    0.04
    """
    above_nought(n1, "a refractive index")
    above_nought(n2, "a refractive index")
    return ((n1 - n2) ** 2 + k**2) / ((n1 + n2) ** 2 + k**2)


def fresnel_turn(n_other: float, k: float = 0.0) -> float:
    """Index at which `fresnel` is least, the other index and `k` being held: `sqrt(n^2 + k^2)`.

    >>> fresnel_turn(1.5)
    1.5
    """
    return float((n_other**2 + k**2) ** 0.5)


def scattering_contrast(n_pigment: float, n_binder: float) -> float:
    """Contrast of a grain in its binder: `((m^2 - 1)/(m^2 + 2))^2`, with `m = n_pigment/n_binder`.

    Parameters: refractive indices. Returns a plain number: nought where the indices are equal.
    Raises `ValueError` for an index that is not above nought.

    Source: Lorentz-Lorenz factor of small-particle scattering.

    >>> round(scattering_contrast(2.71, 1.48), 4)
    0.1932
    """
    above_nought(n_pigment, "a refractive index")
    above_nought(n_binder, "a refractive index")
    square = (n_pigment / n_binder) ** 2
    return float(((square - 1) / (square + 2)) ** 2)

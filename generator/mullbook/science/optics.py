"""What light does at the face of a grain: reflectance and scattering from refractive indices."""

from __future__ import annotations

import math

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


def kubelka_munk(reflectance: float) -> float:
    """Absorption over scattering, K/S, of a layer that hides what is under it: `(1 - R)^2/(2 R)`.

    Parameters: `reflectance` R, fraction, above 0 and not above 1. Returns a plain number. Raises
    `ValueError` outside those bounds.

    Source: P. Kubelka and F. Munk, 1931.

    >>> kubelka_munk(0.1)
    4.05
    """
    if not 0 < reflectance <= 1:
        raise ValueError("reflectance must lie above 0 and not above 1")
    return (1 - reflectance) ** 2 / (2 * reflectance)


def reflectance_from_ks(k_over_s: float) -> float:
    """Reflectance of a layer that hides, from K/S: `1/(1 + x + sqrt(x^2 + 2 x))`, inverse of `kubelka_munk`.

    The same as the usual `1 + x - sqrt(x^2 + 2 x)`, which loses figures for dark layers.

    Parameters: `k_over_s` x, not below 0. Returns a fraction. Raises `ValueError` below 0.

    Source: P. Kubelka and F. Munk, 1931.

    >>> round(reflectance_from_ks(1), 5)
    0.26795
    """
    if k_over_s < 0:
        raise ValueError("K/S must not be below 0")
    return 1 / (1 + k_over_s + math.sqrt(k_over_s * (k_over_s + 2)))

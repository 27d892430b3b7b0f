"""Colour on a screen and distance between colours, from CIELAB."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # the library takes a fifth of a second to load
    from coloraide import Color


def lab_to_hex(lightness: float, a: float, b: float) -> tuple[str, bool]:
    """Colour of a CIELAB value for D65 on an sRGB screen.

    A value for the 10-degree observer is drawn against the screen's own white, as one for the 2-degree
    observer is: what counts is the colour beside white, and the swatch is no colorimetric match.

    Parameters: `lightness` L*, `a` a*, `b` b*.
    Returns `#rrggbb` and whether the colour lay outside what the screen can show and was clipped.
    Raises `ValueError` where a coordinate is not a finite number.

    Source: CIE 1976 L*a*b* and IEC 61966-2-1 (sRGB), by the coloraide library.

    >>> lab_to_hex(100, 0, 0)
    ('#ffffff', False)
    """
    screen = _lab(lightness, a, b).convert("srgb")
    clipped = not screen.in_gamut(tolerance=1e-3)
    return screen.clip().to_string(hex=True), clipped


def colour_distance(first: tuple[float, float, float], second: tuple[float, float, float]) -> float:
    """Difference of two colours, CIEDE2000.

    Parameters: two CIELAB values (L*, a*, b*) for the same illuminant and observer.
    Returns a plain number; a difference of about 1 is just seen. Raises `ValueError` where a coordinate is
    not a finite number.

    Source: Sharma, Wu and Dalal, Color Research and Application 30 (2005) 21-30, by the coloraide library.

    >>> round(colour_distance((50, 2.6772, -79.7751), (50, 0, -82.7485)), 4)
    2.0425
    """
    return _lab(*first).delta_e(_lab(*second), method="2000")


def _lab(lightness: float, a: float, b: float) -> Color:
    """Return a CIELAB colour for D65."""
    from coloraide import Color

    if not all(math.isfinite(coordinate) for coordinate in (lightness, a, b)):
        raise ValueError("a colour needs three finite coordinates L*, a*, b*")
    return Color("lab-d65", [lightness, a, b])

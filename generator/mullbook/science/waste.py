"""Waste: what an extract could hold at most of one element, beside a level it is regulated at."""

from __future__ import annotations

OWN_EXTRACT_BELOW = 0.005
"""Share of solids below which a liquid counts as its own extract."""
MAY_EXCEED = "may exceed: have it tested"
BELOW = "below the US leaching level for this one element"


def leach_screen(total: float, solids_fraction: float, liquid_concentration: float | None = None) -> float:
    """Concentration an extract could reach if everything leached.

    Below 0.005 solids the total itself; else `(liquid x c + solid x total)/(liquid + 20 x solid)`.

    Parameters: `total` (mg/kg) of the element in the solid part, in the whole for a liquid;
    `solids_fraction` by mass; `liquid_concentration` c (mg/l) in the liquid part. Returns mg/l.
    Raises `ValueError` where there is a liquid part whose concentration is not known.

    Source: the toxicity characteristic leaching procedure, US EPA method 1311: 20 parts of extraction
    liquid to one of solid, all of it taken to leach.

    >>> leach_screen(100, 1.0)
    5.0
    >>> leach_screen(4, 0.001)
    4
    """
    if not 0 <= solids_fraction <= 1:
        raise ValueError("solids fraction must lie between 0 and 1")
    if solids_fraction < OWN_EXTRACT_BELOW:
        return total
    liquid = 1 - solids_fraction
    if liquid and liquid_concentration is None:
        raise ValueError("the concentration in the liquid part is not known")
    held = liquid * (liquid_concentration or 0.0) + solids_fraction * total
    return held / (liquid + 20 * solids_fraction)


def verdict(highest: float, least_level: float) -> str:
    """Return the words for the highest extract beside the lowest level.

    >>> verdict(5.0, 5.0), verdict(1.0, 5.0)
    ('may exceed: have it tested', 'below the US leaching level for this one element')
    """
    return MAY_EXCEED if highest >= least_level else BELOW

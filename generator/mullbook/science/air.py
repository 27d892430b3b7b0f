"""Dust in the air: workplace limits read for one dust, what a room holds, how long the air takes to change.

Nothing here says that a room may be entered or that a dust may be breathed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from mullbook.science.chemistry import mass_fraction
from mullbook.science.paint import above_nought

POWDER_FRACTIONS = ("inhalable", "respirable", "total")
"""Fractions of airborne dust that a powder can make; fume and vapour are for heating."""

RESPIRABLE_TO_INHALABLE = 2.5
"""Ratio of the 10 and 4 mg/m3 dust thresholds: puts a respirable limit on the inhalable scale."""


def limit_on_pigment(
    limit: float,
    fraction: str,
    share: float = 1.0,
    expressed_as: str | None = None,
    formula: str | None = None,
) -> float:
    """A constituent's limit read as a limit on the whole dust: `limit/(share x mass fraction)`.

    Parameters: `limit` (mg/m3); `fraction`, inhalable, respirable or total; `share` by mass of the
    constituent in the dust; `expressed_as`, the element the limit counts, with the constituent's `formula`.
    Returns mg of this dust per m3 in the same fraction of the air's dust. Raises `ValueError` for a fume or
    vapour limit, a missing formula, or an element the constituent does not hold.

    >>> round(limit_on_pigment(0.05, "inhalable", 1.0, "Pb", "2PbCO3.Pb(OH)2"), 4)
    0.0624
    """
    if fraction not in POWDER_FRACTIONS:
        raise ValueError(f"a {fraction} limit does not count for a dust: it is for heating")
    above_nought(limit, "the limit")
    above_nought(share, "share")
    return limit / (share * counted_part(expressed_as, formula))


def counted_part(expressed_as: str | None, formula: str | None) -> float:
    """Mass fraction of a constituent that a limit counts: 1, or that of the element it is expressed as.

    Raises `ValueError` where the formula is not known or does not hold the element.

    >>> counted_part(None, None)
    1.0
    """
    if expressed_as is None:
        return 1.0
    if formula is None:
        raise ValueError(f"the limit counts {expressed_as} and the formula is not known")
    part = mass_fraction(formula, expressed_as)
    if part == 0:
        raise ValueError(f"the limit counts {expressed_as}, which {formula} does not hold")
    return part


def combined_limit(limits: Sequence[float]) -> float:
    """Limit of a dust from those its constituents give it, in one fraction: `1/L = sum(1/L_i)`.

    Parameters: `limits` (mg/m3), each already a limit on the whole dust. Returns mg/m3, never above the
    least of them. Raises `ValueError` where there is none or one is not above nought.

    Source: additive formula for mixed exposures.

    >>> combined_limit([1.0, 1.0])
    0.5
    """
    if not limits:
        raise ValueError("there is no limit to combine")
    for limit in limits:
        above_nought(limit, "a limit")
    return 1 / sum(1 / limit for limit in limits)


def inhalable_scale(limit: float, fraction: str) -> float:
    """A limit on the inhalable scale: a respirable one times 2.5, others as they are.

    Parameters: `limit` (mg/m3); `fraction`. Returns mg/m3. Raises `ValueError` for fume or vapour.

    >>> inhalable_scale(0.1, "respirable")
    0.25
    """
    if fraction not in POWDER_FRACTIONS:
        raise ValueError(f"a {fraction} limit does not count for a dust: it is for heating")
    return limit * (RESPIRABLE_TO_INHALABLE if fraction == "respirable" else 1.0)


def dust_budget(limit: float, room_volume: float) -> float:
    """Dust in the air of a room at which its mean equals a limit: `limit x volume`.

    Parameters: `limit` (mg/m3), `room_volume` (m3). Returns mg. Raises `ValueError` below nought.

    >>> dust_budget(0.05, 40)
    2.0
    """
    above_nought(limit, "the limit")
    above_nought(room_volume, "room volume")
    return limit * room_volume


def clearing_time(ratio: float, air_changes: float, mixing: float = 1 / 3) -> float:
    """Time in which ventilation thins the dust in the air by a ratio: `ln(ratio)/(mixing x air changes)`.

    Parameters: `ratio`, dust at first to dust at last, not below 1; `air_changes` (per hour); `mixing`,
    part of perfect mixing, above 0 and not above 1. Returns h. Raises `ValueError` outside those bounds.

    >>> round(clearing_time(100, 6, mixing=1) * 60)
    46
    """
    if ratio < 1:
        raise ValueError("the ratio must be at least 1")
    above_nought(air_changes, "air changes")
    if not 0 < mixing <= 1:
        raise ValueError("mixing must lie above 0 and not above 1")
    return math.log(ratio) / (mixing * air_changes)


def raised_by_tip(amount: float, dustiness: float) -> float:
    """Dust that one tip of a powder raises in a scenario: `amount x dustiness`.

    Parameters: `amount` of powder tipped (g); `dustiness`, mg of dust in the air per kg tipped. Returns mg.
    Raises `ValueError` below nought.

    >>> raised_by_tip(50, 1000)
    50.0
    """
    above_nought(amount, "amount")
    above_nought(dustiness, "dustiness")
    return amount / 1000 * dustiness

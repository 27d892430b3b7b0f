"""Acute toxicity of a mixture by estimates (ATE)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mullbook.model.values.hazard import HazardClass
from mullbook.model.values.ruleset import (
    AcuteBand,
    AcuteToxicity,
    ClassFound,
    Classification,
    Component,
)
from mullbook.science.formula import number_text

_Counted = tuple[Component, HazardClass, float]
"""A component, its class and the estimate it counts with."""

UNKNOWN_ABOVE = 0.1
"""Share of unknown acute toxicity above which the estimate is corrected for it."""


def ate_mix(shares: Sequence[float], estimates: Sequence[float], unknown: float = 0.0) -> float:
    """Acute toxicity estimate of a mixture: `1/ATE = sum(share_i/ATE_i)`.

    Where more than a tenth is of unknown toxicity, `(1 - unknown)/ATE = sum(share_i/ATE_i)`.

    Parameters: `shares` by mass of the acutely toxic components; `estimates`, one for each, all in one unit
    (mg/kg by mouth or skin, mg/l in air); `unknown`, share of unknown acute toxicity.
    Returns the estimate in that unit. Raises `ValueError` where the lists do not match or hold nothing.

    Source: CLP, Annex I 3.1.3.6.1; the example is that of UN document ST/SG/AC.10/C.4/2008/23, Annex 2.

    >>> round(ate_mix([0.16, 0.04, 0.80], [1600, 200, 3450]))
    1880
    """
    if len(shares) != len(estimates):
        raise ValueError(f"the lists do not match: {len(shares)} numbers against {len(estimates)}")
    if any(estimate <= 0 for estimate in estimates):
        raise ValueError("an acute toxicity estimate must be above 0")
    total = sum(share / estimate for share, estimate in zip(shares, estimates, strict=True))
    if total <= 0:
        raise ValueError("no component is acutely toxic")
    return (1 - unknown if unknown > UNKNOWN_ABOVE else 1.0) / total


def acute_classes(components: Sequence[Component], rules: Classification) -> Iterator[ClassFound]:
    """Yield the acute toxicity of the mixture by each route for which a component has a class."""
    acute = rules.acute_toxicity
    if acute is None:
        return
    unknown = unknown_share(components)
    for route in sorted({band.hazard for band in acute.bands}):
        counted = [
            (component, hazard, estimate)
            for component in components
            for hazard, estimate in _estimates(component, route, acute, rules)
        ]
        found = _route_class(route, counted, acute, unknown) if counted else None
        if found is not None:
            yield found


def _route_class(
    route: str, counted: Sequence[_Counted], acute: AcuteToxicity, unknown: float
) -> ClassFound | None:
    """Return what the counted components give by one route, if anything."""
    ate, band = _band(route, counted, acute, unknown)
    if band is None:
        return None
    sure = [each for each in counted if not each[1].remembered]
    without_memory = _band(route, sure, acute, unknown)[1] if sure else None
    parts = " + ".join(
        f"{part.name} {number_text(part.share)}/{number_text(estimate)}" for part, _, estimate in counted
    )
    numerator = number_text(1 - unknown) if unknown > UNKNOWN_ABOVE else "1"
    return ClassFound(
        hazard=route,
        category=band.category,
        statement=band.statement,
        rule=f"estimate up to {number_text(band.up_to)} {band.unit} gives category {band.category}"
        + (f" ({acute.at})" if acute.at else ""),
        figures=f"{numerator}/({parts}) = {number_text(ate)} {band.unit}",
        remembered=without_memory is None or without_memory.category > band.category,
        places=tuple(sorted({hazard.place for _, hazard, _ in counted})),
    )


def _band(
    route: str, counted: Sequence[_Counted], acute: AcuteToxicity, unknown: float
) -> tuple[float, AcuteBand | None]:
    """Return the estimate of the whole by one route and the band it lies in."""
    ate = ate_mix([part.share for part, _, _ in counted], [estimate for _, _, estimate in counted], unknown)
    bands = [band for band in acute.bands if band.hazard == route and band.form in (None, "dust")]
    band = next((each for each in sorted(bands, key=lambda each: each.up_to) if ate <= each.up_to), None)
    if unknown <= UNKNOWN_ABOVE and all(route not in part.acute_estimates for part, _, _ in counted):
        band = _not_worse_than_its_parts(band, bands, [hazard.category for _, hazard, _ in counted])
    return ate, band


def _not_worse_than_its_parts(
    band: AcuteBand | None, bands: Sequence[AcuteBand], categories: Sequence[str]
) -> AcuteBand | None:
    """Return the band of the worst part where the sum would put the whole above it.

    A converted estimate is the upper edge of the band above its own, so that by the letter of the table a
    pure part of category 2 would come out as category 1. Nothing that is at most category 2 can be worse.
    """
    worst = min(categories)
    if band is None or band.category >= worst:
        return band
    return next(each for each in bands if each.category == worst)


def unknown_share(components: Sequence[Component]) -> float:
    """Share of the mixture whose acute toxicity is not known."""
    return sum(component.share for component in components if not component.known)


def unknown_acute_toxicity(components: Sequence[Component], rules: Classification) -> str | None:
    """Return the sentence on components of unknown acute toxicity, where the ruleset asks for it."""
    unknown = unknown_share(components)
    if rules.acute_toxicity is None or unknown < rules.acute_toxicity.unknown_stated_from:
        return None
    return (
        f"{number_text(unknown * 100, 3)} % of the mixture consists of components of unknown acute toxicity"
    )


def _estimates(
    component: Component, route: str, acute: AcuteToxicity, rules: Classification
) -> list[tuple[HazardClass, float]]:
    """Return the strictest acute class of a component for a route with its estimate, if it counts."""
    found = []
    for hazard in component.classes:
        if hazard.hazard != route or component.share < rules.cut_off(hazard):
            continue
        estimate = hazard.estimate or component.acute_estimates.get(route) or _point(hazard, acute)
        if estimate is not None:
            found.append((hazard, estimate))
    return sorted(found, key=lambda pair: pair[1])[:1]


def _point(hazard: HazardClass, acute: AcuteToxicity) -> float | None:
    """Return the converted point estimate for a class that is known by category only."""
    for point in acute.point_estimates:
        if (point.hazard, point.category) == (hazard.hazard, hazard.category) and point.form in (
            None,
            "dust",
        ):
            return point.estimate
    return None

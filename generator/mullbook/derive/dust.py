"""Workplace limits of the constituents, turned into limits on this dust."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from mullbook.derive.results import DustLimit, Part
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Input, Limit, Range, Working
from mullbook.model.values.policy import StudioPolicy
from mullbook.science.air import POWDER_FRACTIONS, combined_limit, inhalable_scale
from mullbook.science.registry import evaluate

ROOM = Range(60, 60)
"""The room the pages reckon with until a studio names its own, m3."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """One constituent's limit on the whole dust: `limit / (share x mass fraction of the element)`."""

    part: Part
    limit: Limit
    on_dust: float
    working: Working


def dust_limits(catalogue: Catalogue, parts: tuple[Part, ...]) -> tuple[DustLimit, ...]:
    """Limits on this dust, one for each list and fraction that names a constituent, strictest first.

    Within one list and fraction constituents combine as 1/L = sum(share/limit), and so do two elements of
    one constituent, each with its own limit. A remembered limit is kept apart from the published ones, and
    only where it is stricter than all of them in its place.
    """
    by_list: dict[tuple[str, str, str, bool], dict[tuple[str, str | None], Candidate]] = {}
    for each in _candidates(catalogue, parts):
        limit = each.limit
        key = (limit.jurisdiction, limit.list, limit.fraction, limit.value.basis == "from-memory")
        held = by_list.setdefault(key, {})
        name = each.part.substance, limit.expressed_as
        if name not in held or each.on_dust < held[name].on_dust:
            held[name] = each
    found = sorted(
        (_combined(tuple(held.values()), catalogue.policy) for held in by_list.values()),
        key=lambda each: (each.on_inhalable_scale, each.jurisdiction, each.list, each.fraction),
    )
    return tuple(each for each in found if not each.remembered or _strictest_in_place(each, found))


def _candidates(catalogue: Catalogue, parts: Iterable[Part]) -> Iterator[Candidate]:
    for part in parts:
        substance = catalogue.substance.get(part.substance)
        if substance is None or part.share.high <= 0:
            continue
        for limit in catalogue.limits_of(substance):
            if limit.type == "twa" and limit.fraction in POWDER_FRACTIONS:
                candidate = _candidate(part, limit, substance.formula)
                if candidate is not None:
                    yield candidate


def _candidate(part: Part, limit: Limit, formula: str | None) -> Candidate | None:
    value = limit.value.range
    if value is None or value.low <= 0:
        return None
    share = Range(part.share.high, part.share.high)
    # Where the element's part of the compound is not known the whole compound is counted: stricter.
    element = limit.expressed_as if limit.expressed_as in part.elements else None
    working = evaluate(
        "limit_on_pigment",
        {
            "limit": Input("limit", "mg/m3", value, limit.value.source, limit.value.basis, limit.scope),
            "fraction": limit.fraction,
            "share": Input("share", "fraction", share, note=f"{part.name}, the most it may be"),
            "expressed_as": element,
            "formula": formula if element else None,
        },
    )
    return Candidate(part, limit, working.result.low, working) if working.result else None


def _combined(candidates: tuple[Candidate, ...], policy: StudioPolicy) -> DustLimit:
    driver = min(candidates, key=lambda each: each.on_dust)
    value = combined_limit([each.on_dust for each in candidates])
    limit = driver.limit
    return DustLimit(
        value=value,
        reckoned=min(value, policy.unlisted_dust.of(limit.fraction)),
        on_inhalable_scale=inhalable_scale(value, limit.fraction),
        fraction=limit.fraction,
        jurisdiction=limit.jurisdiction,
        list=limit.list,
        driver=driver.part.substance,
        remembered=any(each.limit.value.basis == "from-memory" for each in candidates),
        working=driver.working if len(candidates) == 1 else _sum_working(candidates, value),
    )


def _sum_working(candidates: tuple[Candidate, ...], value: float) -> Working:
    terms = " + ".join(f"1/{each.on_dust:.3g}" for each in candidates)
    return Working(
        formula="limit_on_pigment",
        title="Limit on this dust",
        statement="1/L = sum of 1/(limit on the dust by each constituent)",
        inputs=tuple(
            Input(
                each.part.name,
                "mg/m3",
                Range.of(each.on_dust),
                each.limit.value.source,
                each.limit.value.basis,
                each.working.steps,
            )
            for each in candidates
        ),
        unit="mg/m3",
        source=candidates[0].working.source,
        steps=f"1/({terms}) = {value:.3g}",
        result=Range.of(value),
        assumptions=candidates[0].working.assumptions,
    )


def _strictest_in_place(remembered: DustLimit, found: Iterable[DustLimit]) -> bool:
    return all(
        remembered.on_inhalable_scale < each.on_inhalable_scale
        for each in found
        if not each.remembered and each.jurisdiction == remembered.jurisdiction
    )


def limit_to_show(found: tuple[DustLimit, ...], jurisdiction: str) -> DustLimit | None:
    """The strictest limit of the reader's own place, else the strictest of any place, named."""
    own = [each for each in found if each.jurisdiction == jurisdiction]
    return next(iter(own or found), None)


def room_of(catalogue: Catalogue) -> Range:
    """Volume of the room that pages reckon with, m3."""
    return ROOM if catalogue.room is None else Range.of(catalogue.room.volume)


def room_budget(limit: DustLimit | None, room: Range = ROOM) -> Working | None:
    """Milligrams in the air of a room, m3, at which its mean equals the limit."""
    if limit is None:
        return None
    return evaluate(
        "dust_budget",
        {
            "limit": Input("limit", "mg/m3", Range.of(limit.reckoned), note=_reckoned_words(limit)),
            "room_volume": Input("room_volume", "m3", room, note="an example room" if room is ROOM else None),
        },
    )


def _reckoned_words(limit: DustLimit) -> str:
    if limit.reckoned < limit.value:
        return f"the threshold for any dust, {limit.fraction}, as it is lower than the limit worked out"
    return f"{limit.list}, {limit.fraction}"


def level_by_limit(policy: StudioPolicy, on_inhalable_scale: float, amount: str) -> str:
    """The level the policy table gives a dust limit, for an amount id."""
    band = next(each for each in policy.bands if on_inhalable_scale >= each.at_least)
    return band.level(amount)

"""The answer of the stone check for a terminal and as plain data: hazards first, then what fits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from mullbook.derive.stone_results import (
    POINTS,
    Behind,
    Counted,
    Fit,
    HazardFound,
    StoneResult,
)
from mullbook.model.stones import StoneCheck, StoneLine
from mullbook.render.words import number

TOLD_BITS = 0.5
"""From half a bit on, an observation counts as fitting, or as speaking against."""
MOST_FITS, MOST_BEHIND, MOST_NEXT = 8, 4, 4
HEAD = "Stone check. It raises flags; it cannot clear a stone."
EQUAL = "all were taken to be equally likely beforehand, so rare minerals stand too high"
"""Said wherever candidates are ranked."""


def counted_word(counted: Counted) -> str:
    """How an observation counted, in a word or two.

    >>> counted_word(Counted(test="streak", bits=2.0, known=True))
    'fits'
    """
    if not counted.known:
        return "not known"
    if counted.bits >= TOLD_BITS:
        return "fits"
    return "against" if counted.bits <= -TOLD_BITS else "says little"


def percent(share: float) -> str:
    """A share as it is shown; what is small stays above nought.

    >>> percent(0.4567), percent(0.004)
    ('46 %', 'below 1 %')
    """
    return f"{share * 100:.0f} %" if share >= 0.01 else "below 1 %"


def status_words(found: HazardFound) -> str:
    """What is said of a hazard: that something points to it, or that it is not ruled out."""
    if found.always:
        return "assume it is there"
    if found.status == POINTS:
        return "points to it"
    return "not ruled out, less likely" if found.less_likely else "not ruled out"


def stone_text(check: StoneCheck, result: StoneResult) -> str:
    """The whole answer in lines, in the order in which it counts."""
    return "\n".join(_lines(check, result))


def _lines(check: StoneCheck, result: StoneResult) -> Iterator[str]:
    yield HEAD
    yield from (f"  {each}" for each in _observed(check, result))
    yield from ("", "HAZARDS: none of them is ever ruled out here")
    for hazard in result.hazards:
        yield from _hazard_lines(hazard)
    yield from ("", f"WHAT FITS: {EQUAL}")
    for place, fit in enumerate(result.fits[:MOST_FITS], 1):
        yield _fit_line(check, place, fit)
    yield f"  and {len(result.fits) - MOST_FITS} more, each a worse fit"
    yield from _next_lines(check, result)
    yield from ("", "WHATEVER WAS SEEN")
    yield from _said(check.handling)
    yield from ("", "WHAT THIS CANNOT TELL")
    yield from _said(check.never)


def _said(lines: Sequence[StoneLine]) -> Iterator[str]:
    return (f"  - {each.say}" for each in lines)


def _observed(check: StoneCheck, result: StoneResult) -> Iterator[str]:
    seen = result.observations
    for test in check.tests:
        if test.id in seen.answers:
            name = next(each.name for each in test.values if each.id == seen.answers[test.id])
            yield f"{test.name}: {name}"
        elif test.kind == "number" and seen.density is not None:
            off = number(seen.density.uncertainty, 2)
            told = f" ({seen.density.told})" if seen.density.told else ""
            yield f"{test.name}: {number(seen.density.value)} ± {off} g/cm³{told}"
    if not seen.made:
        yield "Nothing was observed yet: everything is open."
    yield from seen.notes


def _hazard_lines(hazard: HazardFound) -> Iterator[str]:
    mark = "!" if hazard.status == POINTS else "?"
    yield f"{mark} {hazard.name}: {status_words(hazard)}, {percent(hazard.share)} of the fit"
    yield from (f"    {each}" for each in hazard.because)
    if hazard.behind:
        yield f"    behind it: {_behind(hazard.behind)}"
    if hazard.status == POINTS:
        yield f"    {hazard.do}"


def _behind(behind: Sequence[Behind]) -> str:
    shown = [f"{each.name}{' (may hold it)' if each.say else ''}" for each in behind[:MOST_BEHIND]]
    more = len(behind) - MOST_BEHIND
    return ", ".join(shown) + (f" and {more} more" if more > 0 else "")


def _fit_line(check: StoneCheck, place: int, fit: Fit) -> str:
    told = ", ".join(f"{check.test(each.test).name.lower()} {counted_word(each)}" for each in fit.counted)
    return f"{place:3}. {fit.candidate.name}: {percent(fit.share)}{f'; {told}' if told else ''}"


def _next_lines(check: StoneCheck, result: StoneResult) -> Iterator[str]:
    if not result.next:
        return
    yield from ("", f"WHICH TEST WOULD TELL MOST: {number(result.unknown, 2)} bits are open")
    for each in result.next[:MOST_NEXT]:
        test = check.test(each.test)
        yield f"  {test.name}: {number(each.bits, 2)} bits. {test.ask} {test.how}"


def stone_json(check: StoneCheck, result: StoneResult) -> dict[str, Any]:
    """The same as plain data: every hazard, every candidate, every test not made."""
    seen = result.observations
    return {
        "edition": check.edition,
        "says": HEAD,
        "observed": {
            "answers": dict(seen.answers),
            "density": {"value": seen.density.value, "uncertainty": seen.density.uncertainty}
            if seen.density
            else None,
            "notes": list(seen.notes),
        },
        "hazards": [_hazard_json(each) for each in result.hazards],
        "fits": [_fit_json(each) for each in result.fits],
        "unknown_bits": result.unknown,
        "next": [{"test": each.test, "bits": each.bits} for each in result.next],
        "assumptions": list(check.assumptions),
        "handling": [each.say for each in check.handling],
        "never": [each.say for each in check.never],
    }


def _hazard_json(found: HazardFound) -> dict[str, Any]:
    return {
        "id": found.id,
        "name": found.name,
        "status": found.status,
        "less_likely": found.less_likely,
        "share": found.share,
        "share_before": found.before,
        "because": list(found.because),
        "do": found.do,
        "behind": [
            {
                "id": each.id,
                "name": each.name,
                "kind": each.kind,
                "share": each.share,
                "may_hold": each.say or None,
            }
            for each in found.behind
        ],
    }


def _fit_json(fit: Fit) -> dict[str, Any]:
    return {
        "id": fit.candidate.id,
        "name": fit.candidate.name,
        "kind": fit.candidate.kind,
        "share": fit.share,
        "counted": {each.test: {"bits": each.bits, "known": each.known} for each in fit.counted},
    }

"""The stone check: from what was observed to hazards, fits and the test that would tell most.

It never says that a hazard is ruled out: each one of the check is listed for every stone.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from mullbook.derive.stone_results import (
    NOT_RULED_OUT,
    POINTS,
    Behind,
    Candidate,
    Counted,
    Density,
    Fit,
    HazardFound,
    NextTest,
    Observations,
    StoneResult,
    StoneTable,
)
from mullbook.model.stones import StoneFlag, StoneHazard, StoneTest
from mullbook.model.values import Range
from mullbook.science import stone as science

FIGURES = 1e9
"""Shares are put in order as if rounded to so many parts, so that equal ones keep the order of the table."""


def judge(table: StoneTable, observations: Observations) -> StoneResult:
    """Work out what a stone may be and what it may hold.

    Parameters: `table`, of `stone_table`; `observations`. Returns hazards, those pointed to first, then by
    their share; candidates by theirs; the tests not made, by the bits they are expected to tell.
    """
    chances = [_of_made(table, place, observations) for place in range(len(table.candidates))]
    held = science.shares([math.fsum(math.log(chance) for _, chance, _, _ in each) for each in chances])
    fits = [
        Fit(
            candidate=candidate,
            share=share,
            counted=tuple(
                Counted(test=test, bits=math.log2(chance / blind), known=known)
                for test, chance, blind, known in each
            ),
        )
        for candidate, share, each in zip(table.candidates, held, chances, strict=True)
    ]
    ordered = sorted(fits, key=lambda each: -place_of(each.share))
    left = [each for each in table.check.tests if each.id not in observations.made]
    told = [
        NextTest(test=each.id, bits=science.expected_information(held, table.chances[each.id]))
        for each in left
    ]
    return StoneResult(
        observations=observations,
        hazards=_hazards(table, ordered, observations),
        fits=tuple(ordered),
        unknown=science.entropy(held),
        next=tuple(sorted(told, key=lambda each: -place_of(each.bits))),
    )


def place_of(number: float) -> float:
    """A number as it is put in order."""
    return math.floor(number * FIGURES + 0.5)


def _of_made(
    table: StoneTable, place: int, observations: Observations
) -> list[tuple[str, float, float, bool]]:
    """For each test made: its id, the chance of the answer, that of a blind guess, whether it is known."""
    candidate, found = table.candidates[place], []
    for test in table.check.tests:
        if test.kind == "number":
            if observations.density is not None:
                blind = 1 / (test.highest - test.lowest)
                known = candidate.density is not None
                found.append(
                    (test.id, _of_density(test, candidate.density, observations.density), blind, known)
                )
        elif test.id in observations.answers:
            answer = test.ids.index(observations.answers[test.id])
            chance = table.chances[test.id][place][answer]
            found.append((test.id, chance, 1 / len(test.values), _is_known(test, candidate)))
    return found


def _is_known(test: StoneTest, candidate: Candidate) -> bool:
    return candidate.hardness is not None if test.kind == "steps" else test.id in candidate.shown


def _of_density(test: StoneTest, found: Range | None, reading: Density) -> float:
    blind = 1 / (test.highest - test.lowest)
    if found is None:
        return blind
    spread = math.hypot(reading.uncertainty, test.spread * reading.value)
    fit = science.plateau(reading.value, found.low, found.high, spread)
    return (1 - test.error) * fit + test.error * blind


def _hazards(table: StoneTable, fits: Sequence[Fit], observations: Observations) -> tuple[HazardFound, ...]:
    found = [_hazard(table, each, fits, observations) for each in table.check.hazards]
    return tuple(sorted(found, key=lambda each: (each.status != POINTS, -place_of(each.share))))


def _hazard(
    table: StoneTable, hazard: StoneHazard, fits: Sequence[Fit], observations: Observations
) -> HazardFound:
    behind = tuple(each for fit in fits if (each := _behind(hazard.id, fit)) is not None)
    share = math.fsum(each.share for each in behind)
    before = len(behind) / len(table.candidates)
    flags = [each.say for each in hazard.flags if raised(each, observations)]
    fitting = bool(observations.made) and share >= table.check.points_from
    points = hazard.always or bool(flags) or fitting
    return HazardFound(
        id=hazard.id,
        name=hazard.name,
        status=POINTS if points else NOT_RULED_OUT,
        less_likely=not points and share < before * table.check.less_likely_below,
        share=share,
        before=before,
        because=tuple(flags),
        do=hazard.do,
        behind=behind,
    )


def _behind(hazard: str, fit: Fit) -> Behind | None:
    candidate = fit.candidate
    say = next((each.say for each in candidate.hides if each.hazard == hazard), "")
    if hazard not in candidate.hazards and not say:
        return None
    return Behind(id=candidate.id, name=candidate.name, kind=candidate.kind, share=fit.share, say=say)


def raised(flag: StoneFlag, observations: Observations) -> bool:
    """Whether what was observed raises a flag."""
    if flag.unless is not None and observations.answers.get(flag.unless) in flag.unless_any:
        return False
    if flag.above is not None:
        return observations.density is not None and observations.density.value > flag.above
    return observations.answers.get(flag.test) in flag.any_of

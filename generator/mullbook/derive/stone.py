"""The stone check: from what was observed to hazards, fits and the test that would tell most.

It never says that a hazard is ruled out: each one of the check is listed for every stone.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

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
    fits = fits_of(table, observations)
    by_id = {each.candidate.id: each.share for each in fits}
    held = [by_id[each.id] for each in table.candidates]
    left = [each for each in table.check.tests if each.id not in observations.made]
    told = [
        NextTest(test=each.id, bits=science.expected_information(held, table.chances[each.id]))
        for each in left
    ]
    return StoneResult(
        observations=observations,
        hazards=hazards_of(table, fits, observations),
        fits=fits,
        unknown=science.entropy(held),
        next=tuple(sorted(told, key=lambda each: -place_of(each.bits))),
    )


def fits_of(table: StoneTable, observations: Observations) -> tuple[Fit, ...]:
    """Every candidate with its share of the fit and how each observation counted, best first."""
    columns = _columns(table, observations)
    places = range(len(table.candidates))
    logs = [[math.log(chance) for chance in column.chances] for column in columns]
    held = science.shares([math.fsum(column[place] for column in logs) for place in places])
    fits = [
        Fit(
            candidate=candidate,
            share=held[place],
            counted=tuple(
                Counted(
                    test=column.test,
                    bits=math.log2(column.chances[place] / column.blind),
                    known=column.known[place],
                )
                for column in columns
            ),
        )
        for place, candidate in enumerate(table.candidates)
    ]
    return tuple(sorted(fits, key=lambda each: -place_of(each.share)))


def place_of(number: float) -> float:
    """A number as it is put in order."""
    return math.floor(number * FIGURES + 0.5)


@dataclass(frozen=True, slots=True)
class _Column:
    """One observation held against every candidate."""

    test: str
    chances: list[float]
    known: list[bool]
    blind: float
    """The chance of a blind guess."""


def _columns(table: StoneTable, observations: Observations) -> list[_Column]:
    columns = []
    for test in table.check.tests:
        if test.kind == "number" and observations.density is not None:
            chances = [_of_density(test, each.density, observations.density) for each in table.candidates]
            known = [each.density is not None for each in table.candidates]
            columns.append(_Column(test.id, chances, known, 1 / (test.highest - test.lowest)))
        elif test.id in observations.answers:
            answer = test.ids.index(observations.answers[test.id])
            chances = [row[answer] for row in table.chances[test.id]]
            known = [_is_known(test, each) for each in table.candidates]
            columns.append(_Column(test.id, chances, known, 1 / len(test.values)))
    return columns


def _is_known(test: StoneTest, candidate: Candidate) -> bool:
    return candidate.hardness is not None if test.kind == "steps" else test.id in candidate.shown


def _of_density(test: StoneTest, found: Range | None, reading: Density) -> float:
    blind = 1 / (test.highest - test.lowest)
    if found is None:
        return blind
    spread = math.hypot(reading.uncertainty, test.spread * reading.value)
    fit = science.plateau(reading.value, found.low, found.high, spread)
    return (1 - test.error) * fit + test.error * blind


def hazards_of(table: StoneTable, fits: Sequence[Fit], observations: Observations) -> tuple[HazardFound, ...]:
    """Every hazard of the check, those pointed to first, then by their share. None is ever left out."""
    behind: dict[str, list[Behind]] = {each.id: [] for each in table.check.hazards}
    for fit in fits:
        candidate = fit.candidate
        says = {**dict.fromkeys(candidate.hazards, ""), **{each.hazard: each.say for each in candidate.hides}}
        for hazard, say in says.items():
            behind[hazard].append(
                Behind(id=candidate.id, name=candidate.name, kind=candidate.kind, share=fit.share, say=say)
            )
    found = [_hazard(table, each, behind[each.id], observations) for each in table.check.hazards]
    return tuple(sorted(found, key=lambda each: (each.status != POINTS, -place_of(each.share))))


def _hazard(
    table: StoneTable, hazard: StoneHazard, behind: Sequence[Behind], observations: Observations
) -> HazardFound:
    share = math.fsum(each.share for each in behind)
    before = len(behind) / len(table.candidates)
    flags = [each.say for each in hazard.flags if raised(each, observations)]
    fitting = bool(observations.made) and share >= table.check.points_from
    points = hazard.always or bool(flags) or fitting
    return HazardFound(
        id=hazard.id,
        name=hazard.name,
        status=POINTS if points else NOT_RULED_OUT,
        always=hazard.always,
        less_likely=not points and share < before * table.check.less_likely_below,
        share=share,
        before=before,
        because=tuple(flags),
        do=hazard.do,
        behind=tuple(behind),
    )


def raised(flag: StoneFlag, observations: Observations) -> bool:
    """Whether what was observed raises a flag."""
    if flag.unless is not None and observations.answers.get(flag.unless) in flag.unless_any:
        return False
    if flag.above is not None:
        return observations.density is not None and observations.density.value > flag.above
    return observations.answers.get(flag.test) in flag.any_of

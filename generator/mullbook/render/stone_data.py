"""The table of the stone check as the page sums it: a score for each answer, once for all that share it."""

from __future__ import annotations

import math
from typing import Any

from mullbook.derive.stone_results import Candidate, StoneTable
from mullbook.model.stones import StoneFlag, StoneHazard, StoneTest
from mullbook.model.values import Range

FIGURES = 12
"""Decimals of a score: the page and the command then agree to nine figures and more."""


def stone_data(table: StoneTable | None) -> dict[str, Any] | None:
    """All that the page needs, as plain data; None where there is no stone check.

    Scores are natural logarithms of chances, `rows` once for all candidates that share them; a candidate
    names the place of its row for each test, -1 where nothing is known of it.
    """
    if table is None:
        return None
    check = table.check
    asked = [each for each in check.tests if each.kind != "number"]
    rows = {each.id: list(dict.fromkeys(_scored(table, each))) for each in asked}
    sayings = list(dict.fromkeys(hide.say for each in table.candidates for hide in each.hides))
    order = [each.id for each in check.hazards]
    return {
        "edition": check.edition,
        "points_from": check.points_from,
        "less_likely_below": check.less_likely_below,
        "never": [each.say for each in check.never],
        "handling": [each.say for each in check.handling],
        "tests": [_test(each) for each in check.tests],
        "hazards": [_hazard(each) for each in check.hazards],
        "sayings": sayings,
        "rows": {name: [list(row) for row in held] for name, held in rows.items()},
        "candidates": [
            {
                "id": each.id,
                "name": each.name,
                "page": each.kind == "substance",
                "summary": each.summary,
                "density": _ends(each.density),
                "rows": [
                    rows[test.id].index(_scores(table, test, place)) if _knows(each, test) else -1
                    for test in asked
                ],
                "hazards": [order.index(found) for found in each.hazards],
                "hides": [[order.index(hide.hazard), sayings.index(hide.say)] for hide in each.hides],
            }
            for place, each in enumerate(table.candidates)
        ],
    }


def _knows(candidate: Candidate, test: StoneTest) -> bool:
    return candidate.hardness is not None if test.kind == "steps" else test.id in candidate.shown


def _scored(table: StoneTable, test: StoneTest) -> list[tuple[float, ...]]:
    return [_scores(table, test, place) for place, each in enumerate(table.candidates) if _knows(each, test)]


def _scores(table: StoneTable, test: StoneTest, place: int) -> tuple[float, ...]:
    return tuple(round(math.log(chance), FIGURES) for chance in table.chances[test.id][place])


def _ends(found: Range | None) -> list[float] | None:
    return [found.low, found.high] if found else None


def _test(test: StoneTest) -> dict[str, Any]:
    told: dict[str, Any] = {
        "id": test.id,
        "name": test.name,
        "kind": test.kind,
        "values": [[each.id, each.name] for each in test.values],
    }
    if test.kind == "number":
        told |= {
            "error": test.error,
            "spread": test.spread,
            "lowest": test.lowest,
            "highest": test.highest,
            "step": test.step,
        }
    return told


def _hazard(hazard: StoneHazard) -> dict[str, Any]:
    return {
        "id": hazard.id,
        "name": hazard.name,
        "always": hazard.always,
        "do": hazard.do,
        "flags": [_flag(each) for each in hazard.flags],
    }


def _flag(flag: StoneFlag) -> dict[str, Any]:
    return {
        "test": flag.test,
        "any_of": list(flag.any_of),
        "above": flag.above,
        "unless": flag.unless,
        "unless_any": list(flag.unless_any),
        "say": flag.say,
    }

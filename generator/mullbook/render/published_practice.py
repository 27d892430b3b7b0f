"""Guides, questions, faults and studio tests as plain records: one for each sentence, cause and test."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from mullbook.model.catalogue import Catalogue
from mullbook.model.guides import Guide, Question
from mullbook.model.marks import plain
from mullbook.model.practice import Accept, Statement, StudioTest

Record = dict[str, Any]
FIGURE = "…"
"""Stands in a sentence for a figure that is worked out, with its working, on the page."""


def statement_records(catalogue: Catalogue) -> list[Record]:
    """Each sentence of the guides and questions with its evidence, in the order of their pages.

    Parameters: the catalogue. Returns one record a sentence.
    """
    told: tuple[Guide | Question, ...] = (*catalogue.guides, *catalogue.questions)
    return [record for thing in told for record in _of_page(thing)]


def _of_page(thing: Guide | Question) -> Iterator[Record]:
    opening = thing.answer if isinstance(thing, Question) else ()
    parts = ((part.id, (*part.statements, *part.steps)) for part in thing.parts)
    for part, statements in (("answer", opening), ("warns", thing.warns), *parts):
        for each in statements:
            yield {
                "kind": thing.kind_name,
                "entry": thing.id,
                "part": part,
                "say": plain(each.say, FIGURE),
                "source": each.source,
                "at": each.at,
                "basis": each.basis,
            }


def cause_records(catalogue: Catalogue) -> list[Record]:
    """Each cause of each fault, the likeliest first: the check that tells, the remedy, the evidence.

    Parameters: the catalogue. Returns one record a cause.
    """
    return [
        {
            "fault": fault.id,
            "name": fault.name,
            "place": place,
            "cause": each.cause,
            "check": f"{each.check.what}: {each.check.how}",
            "yes_if": each.check.yes,
            "test": each.check.test,
            "remedy": each.remedy,
            "outcome": each.outcome,
            "correction": each.correction,
            "source": each.source,
            "at": each.at,
            "basis": each.basis,
        }
        for fault in catalogue.faults
        for place, each in enumerate(fault.causes, start=1)
    ]


def studio_test_records(catalogue: Catalogue) -> list[Record]:
    """Each studio test: what it needs, its steps, its readings, what it can and cannot claim.

    Parameters: the catalogue. Returns one record a test.
    """
    return [_test(each) for each in catalogue.studio_tests]


def _test(test: StudioTest) -> Record:
    return {
        "id": test.id,
        "name": test.name,
        "tells": test.tells,
        "takes": test.takes,
        "needs": list(test.needs),
        "steps": _says(test.steps),
        "accept": [_reading(each) for each in test.accept],
        "can_claim": _says(test.can_claim),
        "cannot_claim": _says(test.cannot_claim),
        "sources": sorted(_sources(test)),
    }


def _says(held: tuple[Statement, ...]) -> list[str]:
    return [plain(each.say, FIGURE) for each in held]


def _reading(each: Accept) -> str:
    return f"{', '.join(each.systems)}: {each.reading}" if each.systems else each.reading


def _sources(test: StudioTest) -> set[str]:
    said = (*test.steps, *test.standard, *test.can_claim, *test.cannot_claim)
    return {each for each in (*(one.source for one in said), *(one.source for one in test.accept)) if each}

"""Numbers that faults and studio tests ask to have worked out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from mullbook.derive.practice_results import Worked
from mullbook.model.catalogue import Catalogue
from mullbook.model.practice import Work
from mullbook.science.formula import BadInput, Given, UnknownFormula
from mullbook.science.registry import evaluate, parse_inputs


def worked(catalogue: Catalogue) -> dict[str, tuple[Worked, ...]]:
    """The numbers of each fault and studio test by its id, in the order in which they stand there.

    A formula or an input that does not exist is for the rules to tell; here it is left out.
    """
    asked: dict[str, Iterable[Work]] = {
        each.id: [cause.work for cause in each.causes if cause.work] for each in catalogue.faults
    } | {each.id: each.work for each in catalogue.studio_tests}
    return {name: tuple(found for each in works if (found := _work(each))) for name, works in asked.items()}


def _work(work: Work) -> Worked | None:
    if refused(work.formula, work.inputs):
        return None
    return Worked(words=work.words, working=evaluate(work.formula, _inputs(work.formula, work.inputs)))


def refused(formula: str, inputs: Mapping[str, Any]) -> str:
    """Why a number cannot be worked out, in words; nothing where it can."""
    try:
        working = evaluate(formula, _inputs(formula, inputs))
    except (BadInput, UnknownFormula) as error:
        return str(error)
    return "" if working.result is not None else working.not_derivable or "There is no result."


def _inputs(formula: str, inputs: Mapping[str, Any]) -> Mapping[str, Given]:
    return parse_inputs(formula, [f"{name}={value}" for name, value in inputs.items()])

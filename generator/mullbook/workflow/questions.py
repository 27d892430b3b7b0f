"""Questions from the command line: what a rule means, what a formula gives, what goes under a name."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from mullbook.checks.input_rules import BAD_INPUT, NOT_FOUND, UNKNOWN_FORMULA
from mullbook.checks.rules import ALL_RULES
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Working
from mullbook.science.registry import BadInput, UnknownFormula, as_json, evaluate, parse_inputs
from mullbook.text.problem import Place, Problem
from mullbook.text.suggest import nearest


def explain(code: str | None) -> str | Problem:
    """What a rule's code means, or a list of all codes; a problem for a code there is none of."""
    if code is None:
        return "\n".join(f"{rule.code}  {rule.name}" for rule in ALL_RULES.values())
    rule = ALL_RULES.get(code.upper())
    if rule is None:
        close = nearest(code, ALL_RULES)
        hint = f"Did you mean {' or '.join(close)}?" if close else "`mullbook explain` alone lists them."
        return Problem(BAD_INPUT, "error", f"There is no rule {code}.", Place("command line"), hint=hint)
    return (
        f"{rule.code} ({rule.severity}): {rule.name}\n\n{rule.why}\n\n"
        f"Not so:\n{_indented(rule.bad)}\n\nBut so:\n{_indented(rule.good)}"
    )


def _indented(text: str) -> str:
    return "\n".join(f"    {line}" for line in text.splitlines())


def work(formula: str, pairs: Iterable[str]) -> Working | Problem:
    """The working of one formula, or the problem with the question."""
    try:
        return evaluate(formula, parse_inputs(formula, list(pairs)))
    except BadInput as error:
        close = nearest(error.name, error.candidates)
        meant = f"Did you mean {' or '.join(close)}?" if close else None
        code = UNKNOWN_FORMULA if isinstance(error, UnknownFormula) else BAD_INPUT
        hint = meant or (f"It takes: {', '.join(error.candidates)}." if error.candidates else None)
        return Problem(code, "error", error.message, Place("command line"), hint=hint, example=error.example or None)


def working_json(working: Working) -> str:
    """A working as JSON text."""
    return json.dumps(as_json(working), ensure_ascii=False, indent=2)


def find(catalogue: Catalogue, words: str) -> list[Any] | Problem:
    """Everything that goes under these words, or the problem with the nearest names."""
    found = catalogue.find(words)
    if found:
        return list(found)
    close = [each.name for each in catalogue.nearest(words)]
    hint = f"Did you mean {' or '.join(close)}?" if close else None
    return Problem(NOT_FOUND, "error", f"Nothing goes under the name {words}.", Place("command line"), hint=hint)

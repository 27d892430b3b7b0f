"""Questions from the command line: what a rule means, what a formula gives, what goes under a name."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from typing import Any

from mullbook.checks.input_rules import BAD_INPUT, NO_RULE, NOT_FOUND, UNKNOWN_FORMULA
from mullbook.checks.rules import ALL_RULES
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Input, Working
from mullbook.text.problem import Place, Problem
from mullbook.text.suggest import nearest

HUES = {
    "black": "Bk",
    "blue": "B",
    "brown": "Br",
    "green": "G",
    "metal": "M",
    "orange": "O",
    "red": "R",
    "violet": "V",
    "white": "W",
    "yellow": "Y",
}
"""How the Colour Index shortens the words of a generic name."""
GENERIC_NAME = re.compile(
    rf"(?:c\.?\s*i\.?\s+)?(pigment|natural|vat)\s+({'|'.join(HUES)})\s*([0-9]+(?::[0-9]+)?)", re.IGNORECASE
)


def explain(code: str | None) -> str | Problem:
    """What a rule's code means, or a list of all codes; a problem for a code there is none of."""
    if code is None:
        return "\n".join(f"{rule.code}  {rule.name}" for rule in ALL_RULES.values())
    rule = ALL_RULES.get(code.strip().upper())
    if rule is None:
        close = nearest(code, ALL_RULES)
        return _problem(
            NO_RULE, f"There is no rule {code}.", _meant(close) or "`mullbook explain` lists them."
        )
    return (
        f"{rule.code} ({rule.severity}): {rule.name}\n\n{rule.why}\n\n"
        f"Not so:\n{_indented(rule.bad)}\n\nBut so:\n{_indented(rule.good)}"
    )


def _indented(text: str) -> str:
    return "\n".join(f"    {line}" for line in text.splitlines())


def work(
    formula: str, pairs: Iterable[str], measured: Mapping[str, Input] | None = None
) -> Working | Problem:
    """The working of one formula, or the problem with the question.

    Parameters: `formula`, its id; `pairs` such as `density=3.2`; `measured`, figures of the maker's own lot,
    taken where the formula asks for them and no pair gives them.
    """
    from mullbook.science.registry import BadInput, UnknownFormula, evaluate, find, parse_inputs

    try:
        given = parse_inputs(formula, list(pairs))
        asked = {each.name: each.unit for each in find(formula).card.parameters}
        own = {name: each for name, each in (measured or {}).items() if asked.get(name) == each.unit}
        return evaluate(formula, {**own, **given})
    except BadInput as error:
        hint = None if error.name in error.candidates else _meant(nearest(error.name, error.candidates))
        code = UNKNOWN_FORMULA if isinstance(error, UnknownFormula) else BAD_INPUT
        if hint is None and error.candidates:
            hint = f"It takes: {', '.join(error.candidates)}."
        return _problem(code, error.message, hint, error.example or None)


def working_json(working: Working) -> str:
    """A working as JSON text."""
    from mullbook.science.registry import as_json

    return json.dumps(as_json(working), ensure_ascii=False, indent=2)


def called(catalogue: Catalogue, words: str) -> list[Any]:
    """Everything that goes under these words."""
    generic = GENERIC_NAME.fullmatch(words)
    short = f"{generic[1][0].upper()}{HUES[generic[2].lower()]} {generic[3]}" if generic else words
    return list(catalogue.find(words) or catalogue.find(short))


def find(catalogue: Catalogue, words: str) -> list[Any] | Problem:
    """Everything that goes under these words, or the problem with the nearest names."""
    words = " ".join(words.split())
    found = called(catalogue, words)
    if found:
        return found
    close = [each.name for each in catalogue.nearest(words)]
    return _problem(NOT_FOUND, f"Nothing goes under the name {words}.", _meant(close))


def _meant(names: list[str]) -> str | None:
    return f"Did you mean {' or '.join(names)}?" if names else None


def _problem(code: str, message: str, hint: str | None, example: str | None = None) -> Problem:
    return Problem(code, "error", message, Place("command line"), hint=hint, example=example)

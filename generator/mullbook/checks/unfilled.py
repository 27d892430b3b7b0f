"""MB214: what a starter file leaves open is said as such, not as a mistake."""

from __future__ import annotations

from mullbook.checks.schema import Schemas, check_shape
from mullbook.text.problem import Problem, mistake
from mullbook.text.yaml_text import Document

OPEN = "FILL THIS IN"
"""What stands in a starter file where nothing is known yet."""
CODE = "MB214"


def check_filled(document: Document, kind: str, schemas: Schemas) -> list[Problem]:
    """Everything that is still open, and what is wrong with the shape of the rest."""
    shape = check_shape(document, kind, schemas)
    waiting = [pointer for pointer, value in document.values if value == OPEN]
    if not waiting:
        return shape
    found = [
        mistake(CODE, f"`{_key(pointer)}` is not filled in yet", document.place(pointer), _hint(pointer))
        for pointer in waiting
    ]
    lines = {each.place.span.line for each in found if each.place.span}
    rest = [each for each in shape if each.place.span is None or each.place.span.line not in lines]
    return [*found, *rest]


def _key(pointer: tuple[str | int, ...]) -> str:
    return next((each for each in reversed(pointer) if isinstance(each, str)), "it")


def _hint(pointer: tuple[str | int, ...]) -> str:
    if _key(pointer) == "basis":
        return "say how well it is known: published, dataset, calculated, common-practice or from-memory"
    return f"put what is known in place of {OPEN}; what nobody knows is not guessed"

"""What is wrong with an entry of the wrong shape; one mistake gives one message, in words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from jsonschema import ValidationError

from mullbook.checks.faults import Fault, ShapeFinding, listed, name
from mullbook.checks.schemas import Schemas
from mullbook.checks.shape_words import findings
from mullbook.text.problem import Problem, mistake
from mullbook.text.yaml_text import Document, Pointer

MOST_ERRORS = 200


def shape_problems(document: Document, kind: str, schemas: Schemas) -> list[Problem]:
    """What is wrong with an entry that its schema does not accept, in the order of places."""
    found: list[ShapeFinding] = []
    for number, error in enumerate(schemas.validator(kind).iter_errors(document.data)):
        if number == MOST_ERRORS:
            break
        found += findings(_fault(error, kind, schemas))
    causes = _gathered(_causes(found, document))
    return sorted((_problem(finding, document) for finding in causes), key=_order)


def _fault(error: ValidationError, kind: str, schemas: Schemas) -> Fault:
    spot = schemas.spot(kind, list(error.absolute_schema_path)[:-1])
    return Fault(error, tuple(error.absolute_path), spot, schemas)


def _causes(found: Iterable[ShapeFinding], document: Document) -> list[ShapeFinding]:
    """The findings without those that only follow from another, or from a problem of the text."""
    best: dict[tuple[Pointer, str], ShapeFinding] = {}
    for finding in found:
        group = finding.path, finding.group
        if group not in best or finding.rank < best[group].rank:
            best[group] = finding
    misspelt = {(each.path[:-1], each.meant) for each in best.values()}
    forbidden = {each.path for each in best.values() if each.forbids}
    told = {problem.place.span for problem in document.problems}

    def is_consequence(finding: ShapeFinding) -> bool:
        return (
            (finding.missing is not None and (finding.path, finding.missing) in misspelt)
            or any(finding.path[:length] in forbidden for length in range(len(finding.path)))
            or (finding.missing is None and document.place(finding.path, finding.at_key).span in told)
        )

    return [finding for finding in best.values() if not is_consequence(finding)]


def _gathered(causes: list[ShapeFinding]) -> list[ShapeFinding]:
    """The findings with all keys that are missing in one place in one message."""
    missing: dict[tuple[Pointer, str], list[ShapeFinding]] = {}
    rest = []
    for finding in causes:
        if finding.missing is None:
            rest.append(finding)
        else:
            missing.setdefault((finding.path, finding.message), []).append(finding)
    return rest + [_missing(group) for group in missing.values()]


def _missing(group: list[ShapeFinding]) -> ShapeFinding:
    first = group[0]
    keys = listed([f"`{each.missing}`" for each in group], "and")
    verb = "is" if len(group) == 1 else "are"
    where = "" if first.message or not first.path else f" in {name(first.path)}"
    lead = f"{first.message}: " if first.message else ""
    examples = "\n".join(each.example for each in group if each.example)
    return replace(first, message=f"{lead}{keys} {verb} missing{where}", example=examples or None)


def _problem(finding: ShapeFinding, document: Document) -> Problem:
    place = document.place(finding.path, finding.at_key)
    if finding.at_key and not finding.path and document.data:
        place = document.place((next(iter(document.data)),), key=True)
    related = () if finding.related is None else (document.place(finding.related),)
    return mistake(
        finding.code, finding.message, place, finding.hint, example=finding.example, related=related
    )


def _order(problem: Problem) -> tuple[tuple[int, ...], str, str]:
    return problem.place.span or (), problem.code, problem.message

"""Overrides of a studio held against the book: whatever comes out milder is refused, with its reason."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from mullbook import load
from mullbook.checks.studio import MILDER
from mullbook.derive.milder import Milder, milder_fields, milder_substance, milder_verdicts
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment, Substance
from mullbook.text.merging import merged
from mullbook.text.problem import Problem, sentence
from mullbook.text.yaml_text import Document

WHY = "A studio may ask for more than the book, never for less. Better knowledge goes into the book itself."
TUPLES = {"pigment": "pigments", "substance": "substances", "binder": "binders", "additive": "additives"}
"""Kinds that verdicts are worked out from, and where the catalogue keeps them."""
Key = tuple[str, str]


@dataclass(frozen=True)
class Overridden:
    """One override: the entry below, and what was laid over it."""

    kind: str
    id: str
    base: Document
    over: Document


def loosened(before: Catalogue, after: Catalogue, overrides: Iterable[Overridden]) -> Iterator[Problem]:
    """A problem for every verdict of the book that an override makes milder.

    Parameters: `before`, the book; `after`, with the overrides; both under the book's own policy and at the
    studio's place. The place of a problem is the key of the override that does it.
    """
    held = {(each.kind, each.id): each for each in overrides}
    for (kind, entry), override in held.items():
        old, new = _entity(before, kind, entry), _entity(after, kind, entry)
        if old is None or new is None:
            continue
        found = list(milder_fields(old, new))
        if kind == "substance":
            found += milder_substance(before, after, entry)
        yield from _problems(before, override, old.name, found, after=after)
    for (kind, entry), by in _touched(before, held).items():
        old, new = _entity(before, kind, entry), _entity(after, kind, entry)
        if old is not None and new is not None:
            verdicts = list(milder_verdicts(before, _safety(before, old), _safety(after, new)))
            yield from _problems(before, by, old.name, verdicts, after=after, of=(kind, entry))


def _entity(catalogue: Catalogue, kind: str, entry: str) -> Any:
    held: Mapping[str, Any] = getattr(catalogue, kind) if kind in TUPLES else {}
    return held.get(entry)


def _safety(catalogue: Catalogue, thing: Pigment | Binder | Additive) -> Any:
    from mullbook.workflow.safety import safety_of  # brings the formulas along

    return safety_of(catalogue, thing)


def _touched(before: Catalogue, held: Mapping[Key, Overridden]) -> dict[Key, Overridden]:
    """Jars whose verdicts an override may change, each with that override: its own, or a substance's."""
    substances = {entry for kind, entry in held if kind == "substance"}
    found: dict[Key, Overridden] = {}
    for jar in before.jars:
        key = (jar.kind_name, jar.id)
        if key in held:
            found[key] = held[key]
            continue
        holds = [line.id for part in jar.constituents for line in before.lineage(part.substance)]
        by = next((each for each in holds if each in substances), None)
        if by is not None:
            found[key] = held["substance", by]
    return found


def _problems(
    before: Catalogue,
    override: Overridden,
    name: str,
    found: Iterable[Milder],
    *,
    after: Catalogue,
    of: Key | None = None,
) -> Iterator[Problem]:
    for each in found:
        key = _culprit(before, after, override, each, of or (override.kind, override.id))
        where = override.over.place((key,) if key else (), key=bool(key))
        message = f"{name} would come out milder. {sentence(each.what)[:-1]}: {each.before} -> {each.after}."
        yield Problem(MILDER, "error", message, where, WHY, related=(override.base.place(()),))


def _culprit(before: Catalogue, after: Catalogue, override: Overridden, found: Milder, of: Key) -> str | None:
    """The key of the override without which the verdict would stand; None where no single one does it."""
    for key in override.over.data or {}:
        data = merged(override.base, override.over, without=key).data
        try:
            entity = load.entity(override.kind, data or {})
        except (KeyError, TypeError, ValueError):
            continue
        if found not in _milder_of(before, _with(after, override.kind, entity), of):
            return key
    return None


def _with(catalogue: Catalogue, kind: str, entity: Any) -> Catalogue:
    field = TUPLES[kind]
    held = tuple(entity if each.id == entity.id else each for each in getattr(catalogue, field))
    changes: dict[str, Any] = {field: held}
    return replace(catalogue, **changes)


def _milder_of(before: Catalogue, after: Catalogue, of: Key) -> list[Milder]:
    old, new = _entity(before, *of), _entity(after, *of)
    found = list(milder_fields(old, new))
    if isinstance(old, Substance):
        return [*found, *milder_substance(before, after, old.id)]
    return [*found, *milder_verdicts(before, _safety(before, old), _safety(after, new))]

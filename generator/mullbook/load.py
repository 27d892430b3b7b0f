"""From checked plain data to frozen entities."""

from __future__ import annotations

import types
import typing
from collections.abc import Callable, Iterable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from functools import cache, partial
from typing import Any, TypeVar, Union, get_args, get_origin

from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment, Source, Substance, Vocabulary
from mullbook.model.guides import Guide, Question
from mullbook.model.practice import GeneralFault, StudioTest
from mullbook.model.recipes import Recipe, System
from mullbook.model.samples import Sample
from mullbook.model.stones import StoneCheck
from mullbook.model.values.advice import Advice, LeachingLevels, RespiratorFactors
from mullbook.model.values.policy import StudioPolicy
from mullbook.model.values.ruleset import Classification

T = TypeVar("T")

FOLDERS: dict[str, str] = {
    "pigments": "pigment",
    "substances": "substance",
    "binders": "binder",
    "additives": "additive",
    "systems": "system",
    "recipes": "recipe",
    "guides": "guide",
    "questions": "question",
    "samples": "sample",
    "faults": "fault",
    "studio-tests": "studio-test",
    "sources": "source",
    "vocabulary": "vocabulary",
    "rulesets": "ruleset",
}
"""Entry folder to the kind of entry in it."""

# `class` and `except` cannot be names of Python fields.
FIELD_KEYS = {"hazard": "class", "excepts": "except", "school_class": "class"}

KINDS: dict[str, type] = {
    "pigment": Pigment,
    "substance": Substance,
    "binder": Binder,
    "additive": Additive,
    "system": System,
    "recipe": Recipe,
    "guide": Guide,
    "question": Question,
    "sample": Sample,
    "fault": GeneralFault,
    "studio-test": StudioTest,
    "source": Source,
    "vocabulary": Vocabulary,
}
RULESETS: dict[str, type] = {
    "classification": Classification,
    "studio-policy": StudioPolicy,
    "advice": Advice,
    "respirators": RespiratorFactors,
    "leaching-levels": LeachingLevels,
    "stone-check": StoneCheck,
}


Read = Callable[[Any], Any]
"""From plain data to the value of a field."""


@cache
def _fields(cls: Any) -> tuple[tuple[str, str, Read | None, bool], ...]:
    hints = typing.get_type_hints(cls)
    return tuple(
        (
            each.name,
            FIELD_KEYS.get(each.name, each.name),
            _reader(hints[each.name]),
            each.default is MISSING and each.default_factory is MISSING,
        )
        for each in fields(cls)
    )


def build(cls: type[T], data: Mapping[str, Any]) -> T:
    """Make a frozen dataclass from plain data whose keys are its field names.

    Parameters: `cls`, the dataclass; `data`, plain data that its schema has accepted.
    Returns the instance, with nested dataclasses and tuples built from the type hints.
    Raises `KeyError` or `TypeError` for data the schema would have refused.
    """
    given: dict[str, Any] = {}
    for name, key, read, required in _fields(typing.cast(Any, cls)):
        if key in data:
            given[name] = read(data[key]) if read else data[key]
        elif required:
            raise KeyError(key)
    return cls(**given)


@cache
def _reader(hint: Any) -> Read | None:
    """How a value of a type is made, worked out once for each type; None where data stay as they are."""
    origin = get_origin(hint)
    if origin in (Union, types.UnionType):
        inner = _reader(next(each for each in get_args(hint) if each is not type(None)))
        return inner and (lambda data: None if data is None else inner(data))
    if origin is tuple:
        each_of = _reader(get_args(hint)[0])
        return (lambda data: tuple(map(each_of, data))) if each_of else tuple
    if origin is dict:
        value_of = _reader(get_args(hint)[1])
        return lambda data: {key: value_of(each) if value_of else each for key, each in data.items()}
    if is_dataclass(hint):
        return partial(build, typing.cast(type, hint))
    return float if hint is float else None


def entity(kind: str, data: Mapping[str, Any]) -> Any:
    """Build the entity of a kind, or None for a ruleset of a kind there is none of."""
    cls = RULESETS.get(str(data.get("kind"))) if kind == "ruleset" else KINDS.get(kind)
    return None if cls is None else build(cls, data)


def catalogue(entities: Iterable[Any]) -> Catalogue:
    """Gather entities into a frozen catalogue, each kind in the order of its ids."""
    held = sorted((each for each in entities if each is not None), key=lambda each: str(each.id))
    return Catalogue(
        pigments=tuple(each for each in held if isinstance(each, Pigment)),
        substances=tuple(each for each in held if isinstance(each, Substance)),
        binders=tuple(each for each in held if isinstance(each, Binder)),
        additives=tuple(each for each in held if isinstance(each, Additive)),
        systems=tuple(each for each in held if isinstance(each, System)),
        recipes=tuple(each for each in held if isinstance(each, Recipe)),
        samples=tuple(each for each in held if isinstance(each, Sample)),
        sources=tuple(each for each in held if isinstance(each, Source)),
        vocabularies=tuple(each for each in held if isinstance(each, Vocabulary)),
        policies=tuple(each for each in held if isinstance(each, StudioPolicy)),
        classifications=tuple(each for each in held if isinstance(each, Classification)),
        advices=tuple(each for each in held if isinstance(each, Advice)),
        respirators=tuple(each for each in held if isinstance(each, RespiratorFactors)),
        leaching=tuple(each for each in held if isinstance(each, LeachingLevels)),
        guides=tuple(each for each in held if isinstance(each, Guide)),
        questions=tuple(each for each in held if isinstance(each, Question)),
        stone_checks=tuple(each for each in held if isinstance(each, StoneCheck)),
        faults=tuple(each for each in held if isinstance(each, GeneralFault)),
        studio_tests=tuple(each for each in held if isinstance(each, StudioTest)),
    )

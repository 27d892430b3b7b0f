"""From checked plain data to frozen entities."""

from __future__ import annotations

import types
import typing
from collections.abc import Iterable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from functools import cache
from typing import Any, TypeVar, Union, get_args, get_origin

from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment, Source, Substance, Vocabulary
from mullbook.model.recipes import Recipe, System
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
    "source": Source,
    "vocabulary": Vocabulary,
}
RULESETS: dict[str, type] = {
    "classification": Classification,
    "studio-policy": StudioPolicy,
    "advice": Advice,
    "respirators": RespiratorFactors,
    "leaching-levels": LeachingLevels,
}


@cache
def _fields(cls: Any) -> tuple[tuple[str, str, Any, bool], ...]:
    hints = typing.get_type_hints(cls)
    return tuple(
        (
            each.name,
            FIELD_KEYS.get(each.name, each.name),
            hints[each.name],
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
    for name, key, hint, required in _fields(typing.cast(Any, cls)):
        if key in data:
            given[name] = _value(hint, data[key])
        elif required:
            raise KeyError(key)
    return cls(**given)


def _value(hint: Any, data: Any) -> Any:
    origin = get_origin(hint)
    if origin in (Union, types.UnionType):
        if data is None:
            return None
        return _value(next(each for each in get_args(hint) if each is not type(None)), data)
    if origin is tuple:
        return tuple(_value(get_args(hint)[0], each) for each in data)
    if origin is dict:
        return {key: _value(get_args(hint)[1], each) for key, each in data.items()}
    if is_dataclass(hint):
        return build(typing.cast(type, hint), data)
    return float(data) if hint is float else data


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
        sources=tuple(each for each in held if isinstance(each, Source)),
        vocabularies=tuple(each for each in held if isinstance(each, Vocabulary)),
        policies=tuple(each for each in held if isinstance(each, StudioPolicy)),
        classifications=tuple(each for each in held if isinstance(each, Classification)),
        advices=tuple(each for each in held if isinstance(each, Advice)),
        respirators=tuple(each for each in held if isinstance(each, RespiratorFactors)),
        leaching=tuple(each for each in held if isinstance(each, LeachingLevels)),
    )

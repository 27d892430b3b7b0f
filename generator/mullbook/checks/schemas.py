"""The JSON Schemas of all kinds: read once, each with one validator, and a way to walk into them."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple
from urllib.parse import urljoin

import jsonschema_rs

if TYPE_CHECKING:
    from jsonschema import ValidationError

ENDING = ".schema.json"
# Keywords that lead to another value, and keywords after which a name or a number is the next step.
INWARD = {"properties", "patternProperties", "prefixItems", "items", "additionalProperties", "contains"}
NAMED = {
    "properties",
    "patternProperties",
    "prefixItems",
    "allOf",
    "anyOf",
    "oneOf",
    "dependentSchemas",
    "$defs",
}

Schema = Mapping[str, Any]


class Spot(NamedTuple):
    """A place in a schema: all schemas there that speak of one value, outermost first."""

    chain: list[Schema]

    def nearest(self, word: str) -> Any:
        """The annotation closest to the constraint, or None."""
        return next((schema[word] for schema in reversed(self.chain) if word in schema), None)

    def outermost(self, word: str) -> Any:
        """The annotation closest to the field, or None."""
        return next((schema[word] for schema in self.chain if word in schema), None)


class Schemas:
    """The schemas by name (pigment, common, ...), JSON Schema 2020-12."""

    def __init__(self, schemas: Mapping[str, Schema]) -> None:
        bases = {name: str(schema.get("$id", name + ENDING)) for name, schema in schemas.items()}
        self._schemas = {name: _absolute(schema, bases[name]) for name, schema in schemas.items()}
        self._targets: dict[str, Any] = {}
        self._validators: dict[str, Any] = {}
        self._bases = bases
        self._gates: dict[str, jsonschema_rs.Draft202012Validator] = {}

    def __contains__(self, name: object) -> bool:
        """Whether there is a schema of this name."""
        return name in self._schemas

    @property
    def names(self) -> list[str]:
        """The names of all schemas."""
        return sorted(self._schemas)

    @cached_property
    def _resolver(self) -> Any:
        from referencing import Registry, Resource
        from referencing.jsonschema import DRAFT202012

        return (
            Registry[Any]()
            .with_resources(
                (self._bases[name], Resource.from_contents(schema, DRAFT202012))
                for name, schema in self._schemas.items()
            )
            .resolver()
        )

    @cached_property
    def _validator(self) -> Any:
        from jsonschema import Draft202012Validator  # loaded for what is wrong; most entries are sound
        from jsonschema.validators import extend

        return extend(Draft202012Validator, {"$ref": self._reference})  # type: ignore[no-untyped-call]

    def validator(self, name: str) -> Any:
        """The validator of a kind, the same each time. Raises KeyError."""
        if name not in self._validators:
            self._validators[name] = self._validator(self._schemas[name])
        return self._validators[name]

    @cached_property
    def _registry(self) -> jsonschema_rs.Registry:
        return jsonschema_rs.Registry([(self._bases[name], each) for name, each in self._schemas.items()])

    def accepts(self, name: str, data: Any) -> bool:
        """Whether data is sound. Twenty times quicker than asking what is wrong with it.

        A fault in any schema makes it False: the slow way then tells which entries that fault touches.
        """
        try:
            if name not in self._gates:
                schema = self._schemas[name]
                self._gates[name] = jsonschema_rs.Draft202012Validator(schema, registry=self._registry)
            return self._gates[name].is_valid(data)
        except ValueError:
            return False

    def target(self, reference: str) -> Any:
        """What a reference leads to, looked up once."""
        if reference not in self._targets:
            self._targets[reference] = self._resolver.lookup(reference)
        return self._targets[reference]

    def whole(self, schema: Schema) -> Schema:
        """A schema with what it refers to laid under it."""
        parts = [schema]
        while "$ref" in parts[-1]:
            parts.append(self.target(parts[-1]["$ref"]).contents)
        return {key: value for part in reversed(parts) for key, value in part.items()}

    def spot(self, name: str, steps: Iterable[str | int]) -> Spot:
        """Follow the steps of an error's schema path, through references."""
        current: Any = self._schemas[name]
        chain, named = [current], None
        for step in steps:
            if named is None and step == "$ref":
                current = self.target(current["$ref"]).contents
            else:
                current = current[step]
            keyword, named = named or step, None
            if keyword is step and keyword in NAMED:
                named = step
                continue
            if keyword in INWARD:
                chain = []
            if isinstance(current, Mapping):
                chain.append(current)
        return Spot(chain)

    def _reference(self, validator: Any, reference: str, value: Any, _: Schema) -> Iterator[ValidationError]:
        """Follow a reference, and leave a step for it in the schema path, which the library does not."""
        target = self.target(reference)
        for error in validator.descend(value, target.contents, resolver=target.resolver):
            error.schema_path.appendleft("$ref")
            yield error


def _absolute(schema: Any, base: str) -> Any:
    """The schema with references that are whole by themselves, so that each is looked up only once."""
    if isinstance(schema, list):
        return [_absolute(each, base) for each in schema]
    if not isinstance(schema, Mapping):
        return schema
    made = {key: _absolute(value, base) for key, value in schema.items()}
    if "$ref" in made:
        made["$ref"] = urljoin(base, made["$ref"])
    return made


def load_schemas(folder: Path) -> Schemas:
    """Read all `*.schema.json` of a folder. Raises OSError, ValueError: a broken schema is our own fault."""
    paths = sorted(folder.glob("*" + ENDING))
    return Schemas({path.name.removesuffix(ENDING): json.loads(path.read_text("utf-8")) for path in paths})

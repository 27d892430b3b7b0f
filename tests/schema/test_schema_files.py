"""The schema files themselves: well formed, fully described, and in step with the model."""

from __future__ import annotations

import dataclasses
import json
import re
import types
import typing
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry
from referencing.jsonschema import DRAFT202012

from mullbook import load
from mullbook.model.values import UNITS
from mullbook.text.yaml_text import read_file, read_text

ROOT = Path(__file__).resolve().parents[2]
SCHEMAS: dict[str, Any] = {
    path.name: json.loads(path.read_text("utf-8")) for path in sorted((ROOT / "schema").glob("*.schema.json"))
}
REGISTRY: Registry[Any] = Registry().with_resources(
    (name, DRAFT202012.create_resource(schema)) for name, schema in SCHEMAS.items()
)
MAPS = ("properties", "$defs")
LISTS = ("prefixItems", "allOf")
SINGLE = ("items", "if", "then", "else", "not")
CONDITIONAL = ("if", "then", "else")
ASSERTS = {"type", "enum", "const", "pattern", "not"}


@dataclass(frozen=True)
class Node:
    """A schema inside a schema file."""

    file: str
    pointer: tuple[str, ...]
    schema: Mapping[str, Any]
    refines: bool
    """Whether it narrows what is declared elsewhere: under a condition, or beside a reference."""

    @property
    def address(self) -> str:
        return "/".join([f"{self.file}#", *self.pointer])

    @property
    def is_property(self) -> bool:
        return len(self.pointer) > 1 and self.pointer[-2] == "properties"


def walk(node: Node) -> Iterator[Node]:
    yield node
    for key, value in node.schema.items():
        if key in MAPS:
            children: list[tuple[tuple[str, ...], Any]] = [((key, name), value[name]) for name in value]
        elif key in LISTS:
            children = [((key, str(index)), each) for index, each in enumerate(value)]
        else:
            children = [((key,), value)] if key in SINGLE else []
        narrows = node.refines or key in CONDITIONAL or (key == "properties" and "$ref" in node.schema)
        for steps, each in children:
            yield from walk(Node(node.file, (*node.pointer, *steps), each, narrows))


NODES = [each for name, schema in SCHEMAS.items() for each in walk(Node(name, (), schema, False))]
DECLARED = [each for each in NODES if each.is_property and not each.refines]


def target(node: Node) -> Mapping[str, Any]:
    """The schema that a node refers to."""
    found: Mapping[str, Any] = REGISTRY.resolver(node.file).lookup(node.schema["$ref"]).contents
    return found


def told(node: Node, key: str) -> Any:
    """What a node says under a key, itself or through its reference."""
    schema, resolver = node.schema, REGISTRY.resolver(node.file)
    while key not in schema and "$ref" in schema:
        found = resolver.lookup(schema["$ref"])
        schema, resolver = found.contents, found.resolver
    return schema.get(key)


def errors(address: str, value: object) -> list[str]:
    validator = Draft202012Validator({"$ref": address}, registry=REGISTRY)
    return [f"{each.json_path}: {each.message}" for each in validator.iter_errors(value)]


def addresses(nodes: list[Node]) -> list[str]:
    return [each.address for each in nodes]


def test_every_kind_of_entry_has_a_schema() -> None:
    wanted = {
        *load.FOLDERS.values(),
        "common",
        "published",
        "strings",
        "lot",
        "have",
        "studio",
        "jar",
        "register",
        "course",
    }
    assert {name.removesuffix(".schema.json") for name in SCHEMAS} == wanted


def test_version_is_three_numbers() -> None:
    assert re.fullmatch(r"\d+\.\d+\.\d+\n", (ROOT / "schema" / "VERSION").read_text("utf-8"))


@pytest.mark.parametrize("name", SCHEMAS)
def test_valid_against_the_metaschema(name: str) -> None:
    Draft202012Validator.check_schema(SCHEMAS[name])
    assert "$id" not in SCHEMAS[name], "without an id, references lead to the files beside this one"


def test_every_reference_resolves() -> None:
    for node in NODES:
        if "$ref" in node.schema:
            assert target(node) is not None


@pytest.mark.parametrize("key", ["title", "description", "examples", "x-message", "x-example"])
def test_every_property_explains_itself(key: str) -> None:
    silent = [each for each in DECLARED if not told(each, key)]
    if key in ("x-message", "x-example"):
        silent = [each for each in silent if each.file != "published.schema.json" or key == "x-message"]
    assert not addresses(silent)


@pytest.mark.parametrize("key", ["title", "description", "examples"])
def test_what_is_narrowed_to_one_unit_or_a_few_words_explains_itself(key: str) -> None:
    """An editor shows what stands nearest: there a unit is one word, and no longer one of thirty."""
    narrowed = [
        each for each in NODES if each.is_property and each.refines and {"const", "enum"} & {*each.schema}
    ]
    assert len(narrowed) > 80
    assert not addresses([each for each in narrowed if "if" not in each.pointer and key not in each.schema])


def test_every_constraint_has_a_message_beside_it() -> None:
    asserting = [each for each in NODES if ASSERTS & set(each.schema) and "if" not in each.pointer]
    assert not addresses([each for each in asserting if each.pointer and "x-message" not in each.schema])


def test_messages_are_words() -> None:
    for node in NODES:
        for key in ("x-message", "x-hint"):
            words = node.schema.get(key, "A.")
            assert not re.search(r"\^|\\|\$ref|\[0-9|\[a-z", words), f"{node.address} {key} shows a pattern"
            assert words.endswith("."), f"{node.address} {key} is not a sentence"


def test_examples_fit_their_own_property() -> None:
    for node in NODES:
        for example in node.schema.get("examples", ()):
            assert not errors(node.address, example), node.address


def test_example_lines_are_yaml_that_fits() -> None:
    for node in NODES:
        line = node.schema.get("x-example")
        if line is None:
            continue
        assert "..." not in line, f"{node.address}: {line}"
        document = read_text(line, "example.yaml")
        assert not document.problems and document.data is not None, f"{node.address}: {line}"
        if node.is_property and not node.refines:
            assert list(document.data) == [node.pointer[-1]], f"{node.address}: {line}"
            assert not errors(node.address, document.data[node.pointer[-1]]), f"{node.address}: {line}"


def test_variants_are_told_apart_by_a_condition_only() -> None:
    for node in NODES:
        assert not {"oneOf", "anyOf", "dependentSchemas"} & set(node.schema), node.address
        for branch in node.schema.get("allOf", ()):
            assert "if" in branch, node.address


def _switch(node: Node) -> tuple[str, list[str]]:
    """The key whose word the branches of a schema ask for, and those words in order."""
    asked = [next(iter(branch["if"]["properties"].items())) for branch in node.schema["allOf"]]
    assert len({key for key, _ in asked}) == 1, node.address
    return asked[0][0], [condition["const"] for _, condition in asked]


def test_every_kind_has_a_branch() -> None:
    switches = [each for each in NODES if "allOf" in each.schema]
    assert len(switches) > 5
    for node in switches:
        key, words = _switch(node)
        known = node.schema["properties"][key]["enum"]
        assert sorted(words) == sorted(known), node.address


def test_objects_are_closed() -> None:
    for node in NODES:
        if "properties" not in node.schema or node.refines or "$ref" in node.schema:
            continue
        hands_over = [branch["then"].get("$ref") for branch in node.schema.get("allOf", ())]
        if not (hands_over and all(hands_over)):
            assert node.schema.get("additionalProperties") is False, node.address
        assert set(node.schema.get("required", ())) <= set(node.schema["properties"]), node.address


def test_refinements_name_only_declared_keys() -> None:
    for node in NODES:
        if set(node.pointer) & {*CONDITIONAL, "allOf"}:
            continue
        known = set((target(node) if "$ref" in node.schema else node.schema).get("properties", ()))
        parts = [node.schema, *node.schema.get("allOf", ())]
        narrowing = [part[key] for part in parts for key in CONDITIONAL if key in part]
        narrowing += [node.schema] if "$ref" in node.schema else []
        for part in narrowing:
            assert {*part.get("properties", ()), *part.get("required", ())} <= known, node.address


def test_units_are_those_of_the_model() -> None:
    known = SCHEMAS["common.schema.json"]["$defs"]["unit"]["enum"]
    assert set(known) == set(UNITS) - {"text"}


def test_a_fixed_unit_is_named_beside_the_field() -> None:
    for node in DECLARED:
        unit = node.schema.get("properties", {}).get("unit", {}).get("const")
        if "$ref" in node.schema and unit:
            assert node.schema.get("x-unit") == unit, node.address


@pytest.mark.parametrize("kind", ["system", "recipe"])
def test_samples_are_valid(kind: str) -> None:
    samples = sorted((ROOT / "tests" / "corpus" / "good" / f"{kind}s").glob("*.yaml"))
    assert samples
    for path in samples:
        document = read_file(path)
        assert not document.problems, path.name
        assert (document.data or {}).get("id") == path.stem
        assert not errors(f"{kind}.schema.json", document.data), path.name


def _inner(hint: Any) -> Any:
    """The dataclass that a type hint holds, however wrapped, or None."""
    if dataclasses.is_dataclass(hint):
        return hint
    if typing.get_origin(hint) in (tuple, typing.Union, types.UnionType):
        return next((found for each in typing.get_args(hint) if (found := _inner(each))), None)
    return None


def _compare(file: str, schema: Mapping[str, Any], cls: Any, seen: frozenset[Any]) -> Iterator[str]:
    """The keys that only one of a schema and its dataclass knows, through all they hold."""
    while "$ref" in schema or "items" in schema:
        if "items" in schema:
            schema = schema["items"]
            continue
        found = REGISTRY.resolver(file).lookup(schema["$ref"])
        file, schema = schema["$ref"].split("#")[0] or file, found.contents
    if cls in seen or "properties" not in schema:
        return
    fields = {load.FIELD_KEYS.get(each.name, each.name): each.name for each in dataclasses.fields(cls)}
    for key in sorted(set(fields) ^ set(schema["properties"])):
        yield f"{cls.__name__}.{key} is only in the {'model' if key in fields else 'schema'}"
    hints = typing.get_type_hints(cls)
    for key in fields.keys() & schema["properties"].keys():
        inner = _inner(hints[fields[key]])
        if inner is not None:
            yield from _compare(file, schema["properties"][key], inner, seen | {cls})


@pytest.mark.parametrize("kind", sorted(load.KINDS))
def test_keys_are_those_of_the_model(kind: str) -> None:
    schema = SCHEMAS[f"{kind}.schema.json"]
    if kind == "vocabulary":
        keys = set().union(*(each["properties"] for each in schema["$defs"].values()))
        assert keys == {each.name for each in dataclasses.fields(load.KINDS[kind])}
    else:
        assert not list(_compare(f"{kind}.schema.json", schema, load.KINDS[kind], frozenset()))


@pytest.mark.parametrize("kind", sorted(load.RULESETS))
def test_ruleset_keys_are_those_of_the_model(kind: str) -> None:
    schema = SCHEMAS["ruleset.schema.json"]["$defs"][kind]
    differences = list(_compare("ruleset.schema.json", schema, load.RULESETS[kind], frozenset()))
    assert differences == [f"{load.RULESETS[kind].__name__}.kind is only in the schema"]

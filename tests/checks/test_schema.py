"""Shape: one mistake gives one message, in words, at its place, with what was probably meant."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mullbook.checks.schema import Schemas, check_shape
from mullbook.text.problem import Problem
from mullbook.text.yaml_text import Document, read_text

COMMON: dict[str, Any] = {
    "$id": "common.schema.json",
    "$defs": {
        "text": {"type": "string", "minLength": 1, "pattern": "^[^\\s]", "x-example": "note: words"},
        "unit": {"type": "string", "enum": ["g/cm3", "g/100g", "fraction", "um", "percent"]},
        "quantity": {
            "type": "object",
            "additionalProperties": False,
            "required": ["unit", "basis"],
            "properties": {
                "value": {"type": "number", "minimum": 0, "x-hint": "Write 0.5, not 0,5."},
                "unit": {"$ref": "#/$defs/unit"},
                "basis": {
                    "type": "string",
                    "enum": ["published", "from-memory"],
                    "x-example": "basis: published",
                },
                "also": {"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/quantity"}},
            },
            "x-message": "A quantity is a group of keys.",
        },
    },
}
PIGMENT: dict[str, Any] = {
    "$id": "pigment.schema.json",
    "type": "object",
    "additionalProperties": False,
    "required": ["id", "hue"],
    "dependentRequired": {"at": ["source"]},
    "properties": {
        "id": {
            "type": "string",
            "pattern": "^[a-z]+(-[a-z]+)*$",
            "x-message": "An id is lower-case words joined by hyphens.",
            "x-hint": "Spaces become hyphens.",
            "x-example": "id: caput-mortuum",
        },
        "hue": {"type": "string", "enum": ["red", "orange", "blue"], "x-example": "hue: red"},
        "aliases": {
            "type": "array",
            "items": {"$ref": "common.schema.json#/$defs/text"},
            "uniqueItems": True,
        },
        "title": {"$ref": "common.schema.json#/$defs/text", "maxLength": 10, "x-example": "title: Caput"},
        "at": {"type": "string"},
        "source": {"type": "string"},
        "stays": {"type": "boolean"},
        "numbers": {"type": "array", "items": {"type": "string"}, "minItems": 2, "maxItems": 3},
        "physical": {
            "type": "object",
            "additionalProperties": False,
            "properties": {
                "density": {
                    "$ref": "common.schema.json#/$defs/quantity",
                    "properties": {"unit": {"const": "g/cm3", "x-hint": "Convert the figure."}},
                }
            },
        },
        "colour": {
            "type": "object",
            "additionalProperties": False,
            "required": ["kind"],
            "properties": {
                "kind": {"enum": ["measured", "described"]},
                "lab": {"type": "array"},
                "words": {},
            },
            "allOf": [
                {
                    "if": {"properties": {"kind": {"const": "measured"}}, "required": ["kind"]},
                    "then": {"required": ["lab"], "x-message": "A measured colour needs its figures."},
                },
                {
                    "if": {"properties": {"kind": {"const": "described"}}, "required": ["kind"]},
                    "then": {
                        "properties": {"lab": {"not": {}, "x-message": "`lab` belongs to a measured colour."}}
                    },
                },
            ],
        },
    },
}
SCHEMAS = Schemas({"common": COMMON, "pigment": PIGMENT})
SOUND = "id: caput\nhue: red\n"
NOT_IN_A_MESSAGE = (
    "^",
    "\\s",
    "$ref",
    "$defs",
    "'",
    "None",
    "True",
    "dict",
    "schema",
    "property",
    "instance",
)


def problems(text: str) -> list[Problem]:
    return check_shape(read_text(text, "caput.yaml"), "pigment", SCHEMAS)


def only(text: str) -> Problem:
    (problem,) = problems(text)
    return problem


def test_a_sound_entry_has_no_problem() -> None:
    density = "physical: {density: {value: 3.2, unit: g/cm3, basis: published}}\n"
    assert problems(SOUND + density + "colour: {kind: measured, lab: [1, 2, 3]}\n") == []


MISTAKES = """
alases: [a]
  3:1 MB201 `alases` is not a key of the entry. | Did you mean `aliases`?
density: 3
  3:1 MB201 `density` is not a key of the entry. | `density` belongs under `physical`.
colour: {kind: described, zzz: 1}
  3:27 MB201 `zzz` is not a key of `colour`. | The keys here are kind, lab, words.
physical: {density: {value: 1, unit: g/cm3, basis: published, b c: }}
  3:63 MB201 `b c` is not a key of `density`. | Between braces, text that holds a comma goes into quotes.
physical: {density: {value: 1, unit: g/cm3}}
  3:12 MB202 `basis` is missing in `density`.
physical: {density: {value: 1}}
  3:12 MB202 `unit` and `basis` are missing in `density`.
at: p. 1
  3:1 MB202 `at` needs `source` beside it.
colour: {kind: measured}
  3:1 MB202 A measured colour needs its figures: `lab` is missing.
physical: [a]
  3:11 MB203 `physical` must be a group of keys, not a list.
physical: {density: {value: "3", unit: g/cm3, basis: published}}
  3:29 MB203 `value` must be a number, not the text "3". | Take the quotes away: `3`.
physical: {density: {value: 3 1, unit: g/cm3, basis: published}}
  3:29 MB203 `value` must be a number, not the text "3 1". | Write 0.5, not 0,5.
numbers: [77491, x]
  3:11 MB203 Item 1 of `numbers` must be text, not the number 77491. | Put it in quotes: "77491".
stays: yes
  3:8 MB203 `stays` must be true or false, not the text "yes". | Write true or false.
title:
  3:7 MB203 `title` has no value. | Write it after the colon, or leave the key out.
colour: {kind: mesured}
  3:16 MB204 `kind` cannot be "mesured"; it takes one of 2 words. | \
Did you mean `measured`? Choose one of: measured, described.
physical: {density: {value: 1, unit: kg/m3, basis: published}}
  3:38 MB205 `density` is given in g/cm3, not kg/m3. | Convert the figure.
physical: {density: {value: 1, unit: um, basis: published}}
  3:38 MB205 `density` is given in g/cm3, not um. | Convert the figure.
physical: {density: {value: -1, unit: g/cm3, basis: published}}
  3:29 MB206 `value` is -1, but must be at least 0.
title: ""
  3:8 MB208 `title` is empty.
title: much too long
  3:8 MB208 `title` is longer than 10 characters.
numbers: [a]
  3:10 MB209 `numbers` holds 1, but must hold at least 2.
numbers: [a, b, c, d]
  3:10 MB209 `numbers` holds 4, but must hold at most 3.
aliases: [a, b, a]
  3:17 MB210 "a" stands twice in `aliases`. | Keep one of them.
colour: {kind: described, lab: x}
  3:27 MB211 `lab` belongs to a measured colour.
""".strip().splitlines()


@pytest.mark.parametrize(("added", "expected"), list(zip(MISTAKES[::2], MISTAKES[1::2], strict=True)))
def test_a_mistake_gives_one_message(added: str, expected: str) -> None:
    problem = only(f"{SOUND}{added}\n")
    place = str(problem.place).removeprefix("caput.yaml:")
    hint = f" | {problem.hint}" if problem.hint else ""
    assert f"{place} {problem.code} {problem.message}{hint}" == expected.strip()


def test_a_wrong_form_is_told_in_the_words_of_the_schema() -> None:
    problem = only("id: Caput Mortuum\nhue: red\n")
    assert problem.code == "MB207"
    assert problem.message == 'An id is lower-case words joined by hyphens; here stands "Caput Mortuum".'
    assert problem.example == "id: caput-mortuum"


def test_a_misspelt_key_is_not_reported_as_missing_too() -> None:
    assert only("id: caput\nheu: red\n").code == "MB201"


def test_the_example_is_the_fields_own() -> None:
    assert only(SOUND + 'title: ""\n').example == "title: Caput"


def test_all_that_is_missing_at_the_top_comes_in_one_message() -> None:
    problem = only("at: x\nsource: y\n")
    assert problem.message == "`id` and `hue` are missing."
    assert str(problem.place) == "caput.yaml:1:1"
    assert problem.example == "id: caput-mortuum\nhue: red"


def test_an_item_twice_names_the_first() -> None:
    assert [str(place) for place in only(SOUND + "aliases: [a, b, a]\n").related] == ["caput.yaml:3:11"]


def test_what_the_text_already_told_is_not_told_again() -> None:
    document = read_text(SOUND + "title: .inf\n7: x\n<<: y\n", "caput.yaml")
    assert len(document.problems) == 3
    assert check_shape(document, "pigment", SCHEMAS) == []


def test_a_document_without_data_has_no_shape() -> None:
    assert problems("a: [") == []


def test_problems_come_in_the_order_of_their_places() -> None:
    found = problems("id: A\nhue: pink\nzzz: 1\ntitle: ''\n")
    assert [problem.code for problem in found] == ["MB207", "MB204", "MB201", "MB208"]


def test_a_kind_without_schema_is_a_problem() -> None:
    (problem,) = check_shape(read_text(SOUND, "caput.yaml"), "pigmnt", SCHEMAS)
    assert (problem.code, problem.hint) == ("MB212", "Did you mean pigment?")


def test_a_crash_in_the_check_becomes_a_problem() -> None:
    broken = Schemas({"pigment": {"properties": {"id": {"$ref": "nowhere.json#/x"}}}})
    (problem,) = check_shape(read_text(SOUND, "caput.yaml"), "pigment", broken)
    assert problem.code == "MB213"


def test_a_schema_without_words_still_gives_a_sentence() -> None:
    bare = {"properties": {"id": {"oneOf": [{"type": "number"}, {"maxLength": 2}]}, "hue": {"not": {}}}}
    found = check_shape(read_text(SOUND, "caput.yaml"), "pigment", Schemas({"pigment": bare}))
    assert [(problem.code, problem.message) for problem in found] == [
        ("MB211", "What stands in `id` does not go together."),
        ("MB211", "`hue` does not belong here."),
    ]


def test_the_validator_of_a_kind_is_made_once() -> None:
    assert SCHEMAS.validator("pigment") is SCHEMAS.validator("pigment")


keys = st.sampled_from(
    ["id", "hue", "aliases", "title", "physical", "density", "colour", "kind", "lab", "unit", "x"]
)
leaves = st.one_of(
    st.none(), st.booleans(), st.integers(-5, 5), st.sampled_from(["red", "A b", "", "g/cm3", "3,2"])
)
values = st.recursive(
    leaves,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(keys, inner, max_size=4)),
    max_leaves=10,
)


@settings(max_examples=300, deadline=None)
@given(st.dictionaries(keys, values, max_size=6))
def test_whatever_stands_in_an_entry_the_messages_are_words(data: dict[str, Any]) -> None:
    found = check_shape(Document("caput.yaml", "", data), "pigment", SCHEMAS)
    assert bool(found) == (not SCHEMAS.validator("pigment").is_valid(data))
    for problem in found:
        assert problem.code.startswith("MB2") and problem.code != "MB213"
        assert not any(sign in problem.message for sign in NOT_IN_A_MESSAGE), problem.message

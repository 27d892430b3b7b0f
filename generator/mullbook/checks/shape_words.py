"""From a validator's error to a finding in words; never a regex, a fragment of schema or of Python."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from mullbook.checks.faults import Fault, ShapeFinding, bare, listed, name
from mullbook.text.problem import quoted
from mullbook.text.scalars import JSON_NUMBER
from mullbook.text.suggest import nearest

TYPES = {
    "string": "text",
    "number": "a number",
    "integer": "a whole number",
    "boolean": "true or false",
    "array": "a list",
    "object": "a group of keys",
    "null": "nothing",
}
BOUNDS = {
    "minimum": "at least",
    "maximum": "at most",
    "exclusiveMinimum": "more than",
    "exclusiveMaximum": "less than",
    "multipleOf": "a multiple of",
}
MOST_LISTED = 14


def findings(fault: Fault) -> Iterator[ShapeFinding]:
    """What an error says, in words."""
    keyword = str(fault.error.validator)
    if keyword in BOUNDS:
        yield _bounds(fault, keyword)
    else:
        yield from KEYWORDS.get(keyword, _other)(fault)


def _unknown_keys(fault: Fault) -> Iterator[ShapeFinding]:
    known: Mapping[str, Any] = fault.schema.get("properties", {})
    patterns = fault.schema.get("patternProperties", {})
    for key in fault.found:
        if key in known or any(re.search(pattern, key) for pattern in patterns):
            continue
        close = nearest(key, [word for word in known if word not in fault.found]) or nearest(key, known)
        yield ShapeFinding(
            code="MB201",
            path=(*fault.path, key),
            message=f"`{bare(key)}` is not a key of {name(fault.path)}",
            group="key",
            at_key=True,
            hint=_key_hint(fault, key, close, known),
            example=_example(fault, known[close[0]]) if close else None,
            meant=close[0] if close and close[0] not in fault.found else None,
        )


def _key_hint(fault: Fault, key: str, close: list[str], known: Mapping[str, Any]) -> str | None:
    if close:
        return f"did you mean {listed([f'`{word}`' for word in close], 'or')}?"
    if " " in key and fault.found[key] is None:
        return "between braces, text that holds a comma goes into quotes"
    homes = [
        word for word, schema in known.items() if key in fault.schemas.whole(schema).get("properties", {})
    ]
    if homes:
        return f"`{bare(key)}` belongs under {listed([f'`{home}`' for home in homes[:3]], 'or')}"
    if known:
        more = ", ..." if len(known) > MOST_LISTED else ""
        return "the keys here are " + ", ".join(list(known)[:MOST_LISTED]) + more
    return None


def _missing_key(fault: Fault) -> Iterator[ShapeFinding]:
    own_words = "type" not in fault.schema and fault.schema.get("x-message")
    known = {key: value for schema in fault.spot.chain for key, value in schema.get("properties", {}).items()}
    for key in fault.wanted:
        if key not in fault.found:
            yield ShapeFinding(
                code="MB202",
                path=fault.path,
                message=str(own_words).rstrip(".") if own_words else "",
                group=f"missing {key}",
                at_key=True,
                hint=fault.schema.get("x-hint") if own_words else None,
                example=_example(fault, known[key]) if key in known else None,
                missing=key,
            )


def _example(fault: Fault, schema: Any) -> str | None:
    return (
        str(fault.schemas.whole(schema).get("x-example", "")) or None if isinstance(schema, Mapping) else None
    )


def _companion_missing(fault: Fault) -> Iterator[ShapeFinding]:
    for key, companions in fault.wanted.items():
        absent = [word for word in companions if word not in fault.found]
        if key in fault.found and absent:
            needs = listed([f"`{word}`" for word in absent], "and")
            yield ShapeFinding(
                code="MB202",
                path=(*fault.path, key),
                group=f"missing beside {key}",
                at_key=True,
                message=f"`{key}` needs {needs} beside it",
                hint=fault.word("hint"),
            )


def _wrong_type(fault: Fault) -> Iterator[ShapeFinding]:
    types = [fault.wanted] if isinstance(fault.wanted, str) else list(fault.wanted)
    wanted = listed([TYPES[each] for each in types], "or")
    if fault.found is None:
        message, hint = f"{name(fault.path)} has no value", "write it after the colon, or leave the key out"
    else:
        message = f"{name(fault.path)} must be {wanted}, not {_what(fault.found)}"
        hint = _type_hint(fault, types) or fault.word("hint") or ""
    yield fault.value("MB203", 0, message, hint or None)


def _what(found: Any) -> str:
    if isinstance(found, bool):
        return "true" if found else "false"
    if isinstance(found, str):
        return f"the text {quoted(found)}" if found else "an empty text"
    if isinstance(found, int | float):
        return f"the number {json.dumps(found)}"
    return TYPES["array" if isinstance(found, list) else "object"]


def _type_hint(fault: Fault, types: list[str]) -> str | None:
    found = fault.found
    if "string" in types and isinstance(found, bool | int | float):
        return f'put it in quotes: "{json.dumps(found)}"'
    if isinstance(found, str) and {"number", "integer"} & set(types) and JSON_NUMBER.fullmatch(found):
        return f"take the quotes away: `{found}`"
    if isinstance(found, str) and "boolean" in types:
        return "write true or false"
    return None


def _not_a_word(fault: Fault) -> Iterator[ShapeFinding]:
    words = [str(word) for word in (fault.wanted if fault.error.validator == "enum" else [fault.wanted])]
    if fault.path and fault.path[-1] == "unit":
        yield from _wrong_unit(fault, words)
        return
    close = nearest(str(fault.found), words)
    hint = fault.word("hint") or f"Choose one of: {', '.join(words)}"
    if close:
        hint = f"did you mean {listed([f'`{word}`' for word in close], 'or')}? {hint}"
    found = quoted(fault.found) if isinstance(fault.found, str) else _what(fault.found)
    message = f"{name(fault.path)} cannot be {found}; it takes " + (
        f"only {quoted(words[0])}" if len(words) == 1 else f"one of {len(words)} words"
    )
    yield fault.value("MB204", 10 + min(len(words), 80), message, hint)


def _wrong_unit(fault: Fault, units: list[str]) -> Iterator[ShapeFinding]:
    field = name(fault.path[:-1]) if len(fault.path) > 1 else "the entry"
    found = bare(fault.found) if isinstance(fault.found, str) else _what(fault.found)
    fixed = len(units) <= 3
    message = (
        f"{field} is given in {listed(units, 'or')}, not {found}"
        if fixed
        else f"{found} is no unit used here"
    )
    close = nearest(str(fault.found), units)
    hint = f"did you mean `{close[0]}`?" if close else fault.word("hint")
    yield fault.value("MB205", len(units), message, hint)


def _bounds(fault: Fault, keyword: str) -> ShapeFinding:
    found, bound = json.dumps(fault.found), json.dumps(fault.wanted)
    message = f"{name(fault.path)} is {found}, but must be {BOUNDS[keyword]} {bound}"
    return fault.value("MB206", 120, message, fault.word("message"))


def _wrong_form(fault: Fault) -> Iterator[ShapeFinding]:
    said = fault.word("message")
    lead = said.rstrip(".") if said else f"{name(fault.path)} is not written as it should be"
    yield fault.value("MB207", 110, f"{lead}; here stands {quoted(fault.found)}", fault.word("hint"))


def _length(fault: Fault) -> Iterator[ShapeFinding]:
    long = fault.error.validator == "maxLength"
    if long:
        message = f"{name(fault.path)} is longer than {fault.wanted} characters"
    elif not fault.found.strip():
        message = f"{name(fault.path)} is empty"
    else:
        message = f"{name(fault.path)} is shorter than {fault.wanted} characters"
    yield fault.value("MB208", 100, message, fault.word("hint"))


def _count(fault: Fault) -> Iterator[ShapeFinding]:
    most = fault.error.validator in {"maxItems", "maxProperties"}
    limit = f"at {'most' if most else 'least'} {fault.wanted}"
    number = len(fault.found) or "nothing"
    message = f"{name(fault.path)} holds {number}, but must hold {limit}"
    yield fault.value("MB209", 100, message, fault.word("message"))


def _twice(fault: Fault) -> Iterator[ShapeFinding]:
    seen: dict[str, int] = {}
    for index, item in enumerate(fault.found):
        text = json.dumps(item, sort_keys=True)
        if text in seen:
            what = quoted(item) if isinstance(item, str) else "the same item"
            yield ShapeFinding(
                code="MB210",
                path=(*fault.path, index),
                group="twice",
                hint="keep one of them",
                message=f"{what} stands twice in {name(fault.path)}",
                related=(*fault.path, seen[text]),
            )
        seen.setdefault(text, index)


def _other(fault: Fault) -> Iterator[ShapeFinding]:
    """Alternatives and prohibitions, which only the schema's author can put into words."""
    forbids = fault.error.validator == "not" and fault.wanted in ({}, True)
    where = name(fault.path)
    default = f"{where} does not belong here" if forbids else f"what stands in {where} does not go together"
    said = fault.word("message")
    message = said.rstrip(".") if said else default
    yield ShapeFinding(
        code="MB211",
        path=fault.path,
        message=message,
        group="value",
        rank=-1 if forbids else 130,
        at_key=True,
        hint=fault.word("hint"),
        example=None if forbids else fault.example,
        forbids=forbids,
    )


KEYWORDS: dict[str, Callable[[Fault], Iterator[ShapeFinding]]] = {
    "additionalProperties": _unknown_keys,
    "required": _missing_key,
    "dependentRequired": _companion_missing,
    "type": _wrong_type,
    "enum": _not_a_word,
    "const": _not_a_word,
    "pattern": _wrong_form,
    "format": _wrong_form,
    "minLength": _length,
    "maxLength": _length,
    "minItems": _count,
    "maxItems": _count,
    "minProperties": _count,
    "maxProperties": _count,
    "uniqueItems": _twice,
}

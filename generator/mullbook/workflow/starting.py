"""A starter file for an entry, made from the schema of its kind: fields in its order, a line on each."""

from __future__ import annotations

import json
import os
import re
import textwrap
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any

from mullbook import load
from mullbook.checks.input_rules import BAD_INPUT, THERE_ALREADY
from mullbook.checks.unfilled import OPEN
from mullbook.text.problem import Place, Problem
from mullbook.text.suggest import nearest
from mullbook.workflow.folders import ENDING, Roots, missing_folders
from mullbook.workflow.swap import Refused

Node = Mapping[str, Any]
FLOW_MOST = 6
"""Groups of plain values up to so many keys stand on one line."""
ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def start_entry(kind: str, words: str, roots: Roots, to: Path | None) -> Path:
    """Write the starter file of an entry; nothing is ever overwritten.

    Parameters: `kind`, such as pigment; `words`, its id or its name, or nothing; `to`, a folder other than
    that of its kind, made if missing. Returns the path written. Raises `Refused`.
    """
    folder = to or roots.entries / next(name for name, each in load.FOLDERS.items() if each == kind)
    entry = _id_of(words) if words else f"new-{kind}"
    if not ID.fullmatch(entry) or len(entry) > 60:
        message = f"{words!r} makes no id: letters a to z and digits, joined by hyphens, 60 at most."
        raise Refused(
            Problem(BAD_INPUT, "error", message, Place("command line"), example="mullbook new sample lane-7")
        )
    for problem in missing_folders(roots):
        if problem.place.path == str(roots.schema):
            raise Refused(problem)
    path = folder / f"{entry}{ENDING}"
    name = words if words and words != entry else ""
    text = Starter(kind, roots.schema).text(entry, name, os.path.relpath(roots.schema, folder))
    folder.mkdir(parents=True, exist_ok=True)
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        hint = "Nothing was touched. Give another id, or another folder with --to."
        raise Refused(
            Problem(THERE_ALREADY, "error", f"There is a file {path} already.", Place(str(path)), hint=hint)
        ) from None
    return path


def _id_of(words: str) -> str:
    """An id from a name: accents off, spaces and signs to hyphens.

    >>> _id_of("Grüne Erde, No. 7")
    'grune-erde-no-7'
    """
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")


@dataclass(frozen=True)
class Starter:
    """Writes starter files of one kind."""

    kind: str
    folder: Path

    @cached_property
    def schema(self) -> Node:
        """The schema of the kind."""
        return self._read(f"{self.kind}.schema.json")

    @cached_property
    def common(self) -> Node:
        """The definitions that all schemas share."""
        return self._read("common.schema.json")

    def _read(self, name: str) -> Node:
        found: Node = json.loads((self.folder / name).read_text(encoding="utf-8"))
        return found

    def text(self, entry: str, name: str, schemas: str) -> str:
        """The whole file: required fields open, all others as examples behind a #."""
        today = date.today()
        known = {"id": entry, "checked": today.isoformat(), "review_by": _in_a_year(today)}
        if name:
            known["name"] = json.dumps(name, ensure_ascii=False)
        lines = [
            f"# yaml-language-server: $schema={schemas}/{self.kind}.schema.json",
            f"# A new {self.kind.replace('-', ' ')}. Put what is known in place of {OPEN}; take the # away",
            "# from further fields you can fill, and delete the rest. Then run: mullbook check",
        ]
        required = self._required(self.schema)
        for key, node in self.schema["properties"].items():
            lines += ["", *self._field(key, node, key in required, known)]
        return "\n".join(lines) + "\n"

    def _required(self, node: Node) -> list[str]:
        return [*node.get("required", ()), *node.get("then", {}).get("required", ())]

    def _field(self, key: str, node: Node, required: bool, known: Mapping[str, str]) -> Iterator[str]:
        full = self._whole(node)
        yield from _remark(full, 0)
        if not required:
            yield from (f"# {line}" for line in str(full.get("x-example", f"{key}:")).splitlines())
        elif key in known:
            yield f"{key}: {known[key]}"
        else:
            yield from self._open(key, full, 0)

    def _whole(self, node: Node) -> dict[str, Any]:
        """A node with what it refers to; what stands beside the reference counts over it."""
        full = dict(node)
        while "$ref" in full:
            target = self._definition(full.pop("$ref"))
            inner = {name: dict(each) for name, each in target.get("properties", {}).items()}
            for name, each in full.get("properties", {}).items():
                inner[name] = {**inner.get(name, {}), **each}
            full = {**target, **full, **({"properties": inner} if inner else {})}
        return full

    def _definition(self, address: str) -> Node:
        """What an address leads to, in the schema of the kind or among the shared definitions."""
        _, _, path = address.partition("#/$defs/")
        own = {} if address.startswith("common") else self.schema.get("$defs", {})
        found: Node = own[path] if path in own else self.common["$defs"][path]
        return found

    def _open(self, key: str, node: Node, depth: int) -> Iterator[str]:
        """A required field, with all that is required inside it."""
        indent = "  " * depth
        if "properties" in node:
            inside = self._inside(node)
            if _flat(inside):
                yield f"{indent}{key}: {_flow(inside)}"
                return
            yield f"{indent}{key}:"
            yield from self._group(node, depth + 1)
        elif node.get("type") == "array":
            yield f"{indent}{key}:"
            yield from self._item(self._whole(node["items"]), depth + 1)
        else:
            yield f"{indent}{key}: {node.get('const', OPEN)}"

    def _inside(self, node: Node) -> dict[str, Node]:
        """What is required inside a group; an amount wants its number too."""
        names = self._required(node)
        if "value" in node["properties"] and "value" not in names:
            names = ["value", *names]
        return {name: self._whole(node["properties"][name]) for name in names}

    def _group(self, node: Node, depth: int) -> Iterator[str]:
        required = self._inside(node)
        for name, child in node["properties"].items():
            full = self._whole(child)
            if name in required:
                yield from _remark(full, depth)
                yield from self._open(name, full, depth)
            elif "x-example" in full:
                yield f"{'  ' * depth}# {str(full['x-example']).splitlines()[0]}"

    def _item(self, node: Node, depth: int) -> Iterator[str]:
        """The first item of a list."""
        indent = "  " * depth
        if "properties" not in node:
            yield from _remark(node, depth)
            yield f"{indent}- {OPEN}"
            return
        first = True
        for name, child in self._inside(node).items():
            yield from _remark(child, depth + (0 if first else 1))
            lines = list(self._open(name, child, depth + 1))
            yield f"{indent}- {lines[0].lstrip()}" if first else lines[0]
            yield from lines[1:]
            first = False


def _flat(inside: Mapping[str, Node]) -> bool:
    plain = all("properties" not in each and each.get("type") != "array" for each in inside.values())
    return plain and 0 < len(inside) <= FLOW_MOST and {"value", "unit"} <= set(inside)


def _flow(inside: Mapping[str, Node]) -> str:
    pairs = (f"{name}: {each.get('const', OPEN)}" for name, each in inside.items())
    return "{" + ", ".join(pairs) + "}"


def _remark(node: Node, depth: int) -> Iterator[str]:
    """Title, description and, for a closed list, its words, as comments."""
    indent = "  " * depth
    said = f"{node.get('title', '')}. {node.get('description', '')}".strip(". ") + "."
    words = node.get("enum")
    if words:
        said += f" One of: {', '.join(str(each) for each in words)}."
    yield from (f"{indent}# {line}" for line in textwrap.wrap(said, 100 - len(indent)))


def _in_a_year(today: date) -> str:
    try:
        return today.replace(year=today.year + 1).isoformat()
    except ValueError:  # the 29th of February
        return today.replace(year=today.year + 1, day=28).isoformat()


def no_such_kind(name: str, known: list[str]) -> Problem:
    """The problem with a kind that there is none of."""
    close = nearest(name, known)
    hint = f"Did you mean {' or '.join(close)}?" if close else f"There are: {', '.join(known)}."
    place = Place("command line")
    return Problem(BAD_INPUT, "error", f"Nothing called {name} can be begun.", place, hint=hint)

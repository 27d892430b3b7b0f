"""Spoil one safety datum at a time in the real entries, and see what catches it.

    python -m tests.mutation.mutate             a hundred of each kind
    python -m tests.mutation.mutate --each 400  more; --all, every one there is
    python -m tests.mutation.mutate --seed 7    others

A datum is a class (dropped), a hazard statement, a digit of a CAS number, a share, a limit or a date.
It is caught by `check` on the file, or by one of the nets that the tests hold empty. Survivors are listed,
each with the reason why nothing need catch it; one without a reason makes the run fail.
"""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from mullbook import load, workflow
from mullbook.model.catalogue import Catalogue
from mullbook.text.yaml_text import Document, read_text, walk
from tests.conftest import ROOT
from tests.safety import nets

FOLDERS = ("substances", "pigments", "binders", "additives")
KINDS = ("class dropped", "statement", "CAS digit", "share", "limit", "date")
NUMBERS = ("value", "low", "high", "min", "max")
DATES = ("checked", "review_by", "in_force")
WANTED = 0.95
# What may survive, and why: the kind, the end of its pointer, and the reason.
ARGUED: tuple[tuple[str, str, str], ...] = (
    ("date", "in_force", "the day a limit comes into force is told, not reckoned with: it counts before"),
    ("limit", "ceiling", "ceilings and short-term limits are listed apart and give no verdict"),
    ("limit", "stel", "ceilings and short-term limits are listed apart and give no verdict"),
)

Pointer = tuple[Any, ...]


@dataclass(frozen=True)
class Mutant:
    """One spoilt datum."""

    kind: str
    path: Path
    pointer: Pointer
    text: str
    told: str


def mutants(path: Path, chance: random.Random) -> Iterator[Mutant]:
    """Every way in which this script spoils one file."""
    document = read_text(path.read_text(encoding="utf-8"), str(path))
    for pointer, value in walk(document.data):
        kind = kind_of(pointer, value)
        if kind is None:
            continue
        new = None if kind == "class dropped" else _altered(kind, value, chance)
        if new != str(value):
            yield _mutant(kind, path, document, pointer, new)


def kind_of(pointer: Pointer, value: Any) -> str | None:
    """What kind of datum stands at a pointer, if it is one of those that are spoilt."""
    last = pointer[-1] if pointer else None
    if isinstance(value, dict):
        in_list = "classes" in pointer[-2:-1] or "declared_hazards" in pointer[-2:-1]
        return "class dropped" if in_list and "statement" in value else None
    if last == "statement":
        return "statement"
    if last == "number" and "cas" in pointer:
        return "CAS digit"
    if last in NUMBERS and "also" not in pointer:
        return "share" if "share" in pointer else "limit" if "limits" in pointer else None
    if last in DATES and "also" not in pointer:
        return "date"
    return None


def _altered(kind: str, value: Any, chance: random.Random) -> str:
    if kind == "statement":
        return value[:3] + str((int(value[3]) + 1) % 10) + value[4:]
    if kind == "CAS digit":
        at = chance.choice([place for place, sign in enumerate(value) if sign.isdigit()])
        return value[:at] + str((int(value[at]) + chance.randint(1, 9)) % 10) + value[at + 1 :]
    if kind == "date":
        year = int(value[:4]) + chance.choice((-1, 1))
        return f"{year}{value[4:]}"
    by = chance.choice((10, 0.1))
    return f"{float(value) * by:.10g}"  # nought stays nought, and is passed over


def _mutant(kind: str, path: Path, document: Document, pointer: Pointer, new: str | None) -> Mutant:
    span = document.spans[pointer].value
    lines = document.text.splitlines(keepends=True)
    if new is None:
        told = lines[span.line - 1].strip()[:90]
        kept = [*lines[: span.line - 1], *lines[_last_line(document, pointer) :]]
        return Mutant(kind, path, pointer, "".join(kept), told)
    line = lines[span.line - 1]
    old = line[span.column - 1 : span.end_column - 1]
    quoted = f"{old[0]}{new}{old[0]}" if old[:1] in "\"'" else new
    lines[span.line - 1] = line[: span.column - 1] + quoted + line[span.end_column - 1 :]
    return Mutant(kind, path, pointer, "".join(lines), f"{old} -> {quoted}")


def _last_line(document: Document, pointer: Pointer) -> int:
    """The last line of a record: the furthest that anything in it reaches."""
    inside = [each.value for place, each in document.spans.items() if place[: len(pointer)] == pointer]
    return max(span.end_line if span.end_column > 1 else span.end_line - 1 for span in inside)


def caught_by(mutant: Mutant, catalogue: Catalogue, folder: Path) -> str | None:
    """What catches a mutant: a rule's code, a net, a verdict; None where it survives."""
    file = folder / mutant.path.parent.name / mutant.path.name
    file.parent.mkdir(exist_ok=True)
    file.write_text(mutant.text, encoding="utf-8")
    checked = workflow.check_path(workflow.Roots(folder / "none", ROOT / "schema", ROOT), file)
    if checked.errors:
        return checked.errors[0].code
    data = read_text(mutant.text, str(file)).data or {}
    kind = load.FOLDERS[mutant.path.parent.name]
    spoilt = put_in(catalogue, load.entity(kind, data))
    for name, net in nets.NETS.items():
        if next(iter(net(spoilt)), None):
            return name
    changed = next(iter(nets.verdicts(spoilt, concerned(spoilt, str(data["id"]), kind))), None)
    return f"verdict of {changed}" if changed else None


def put_in(catalogue: Catalogue, entity: Any) -> Catalogue:
    """The catalogue with one entity in place of the one that goes under its id."""
    held: dict[str, Any] = {}
    for name in FOLDERS:
        if isinstance(entity, load.KINDS[load.FOLDERS[name]]):
            kept = getattr(catalogue, name)
            held[name] = tuple(entity if each.id == entity.id else each for each in kept)
    return replace(catalogue, **held)


def concerned(catalogue: Catalogue, name: str, kind: str) -> set[str]:
    """Jars whose verdicts may change with an entry: itself, or what holds it or a member of it."""
    if kind != "substance":
        return {name}
    members = {each.id for each in catalogue.substances if name in each.member_of} | {name}
    return {jar.id for jar in catalogue.jars if any(part.substance in members for part in jar.constituents)}


def reason(mutant: Mutant) -> str | None:
    """Why nothing need catch a survivor, or None."""
    last = str(mutant.pointer[-1])
    data = read_text(mutant.text, "x").data or {}
    limit: Any = data
    for step in mutant.pointer[:-2] if mutant.kind == "limit" else ():
        limit = limit[step]
    marks = {last, limit.get("type") if mutant.kind == "limit" else None}
    return next((why for kind, mark, why in ARGUED if kind == mutant.kind and mark in marks), None)


def chosen(each: int | None, seed: int) -> list[Mutant]:
    """A sample of mutants, so many of each kind; all of them where `each` is None."""
    chance = random.Random(seed)
    found: dict[str, list[Mutant]] = {kind: [] for kind in KINDS}
    for folder in FOLDERS:
        for path in sorted((ROOT / "entries" / folder).glob("*.yaml")):
            for mutant in mutants(path, chance):
                found[mutant.kind].append(mutant)
    if each is None:
        return [mutant for held in found.values() for mutant in held]
    return [mutant for held in found.values() for mutant in chance.sample(held, min(each, len(held)))]


def run(sample: list[Mutant], catalogue: Catalogue) -> tuple[Counter[str], list[Mutant]]:
    """How many of each kind were caught, under `kind` and `kind caught`, and the survivors."""
    counted: Counter[str] = Counter()
    survivors = []
    with tempfile.TemporaryDirectory() as name:
        for mutant in sample:
            counted[mutant.kind] += 1
            catcher = caught_by(mutant, catalogue, Path(name))
            if catcher is None:
                survivors.append(mutant)
                continue
            counted[f"{mutant.kind} caught"] += 1
            counted["by a rule" if catcher.startswith("MB") else f"by {catcher.partition(' of ')[0]}"] += 1
    return counted, survivors


def main() -> int:
    """Spoil, count, list survivors; 1 where too many survive or one has no reason."""
    options = argparse.ArgumentParser(description="Spoil one safety datum at a time.")
    options.add_argument("--each", type=int, default=100, help="so many of each kind")
    options.add_argument("--all", action="store_true", help="every one there is (slow)")
    options.add_argument("--seed", type=int, default=1)
    given = options.parse_args()
    catalogue = workflow.check(workflow.Roots.at(ROOT)).catalogue
    sample = chosen(None if given.all else given.each, given.seed)
    counted, survivors = run(sample, catalogue)
    for kind in KINDS:
        print(f"{kind}: {counted[f'{kind} caught']} of {counted[kind]} caught")
    print(", ".join(f"{count} {by}" for by, count in counted.most_common() if by.startswith("by ")))
    caught = len(sample) - len(survivors)
    print(f"all: {caught} of {len(sample)} caught, {caught / len(sample):.1%}")
    bare = 0
    for mutant in survivors:
        why = reason(mutant)
        bare += why is None
        place = ".".join(str(step) for step in mutant.pointer)
        file = f"{mutant.path.parent.name}/{mutant.path.name}"
        print(f"survived: {file} {place} {mutant.told}: {why or 'NO REASON'}")
    return 1 if bare or caught < WANTED * len(sample) else 0


if __name__ == "__main__":
    sys.exit(main())

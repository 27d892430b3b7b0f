"""MB3xx: things are what they say they are, and only one thing goes under a name."""

from __future__ import annotations

from collections.abc import Iterator

from mullbook.checks.codes import Rule
from mullbook.checks.context import CatalogueContext, Check, EntryContext, Finding
from mullbook.model.entities import Entity
from mullbook.text.suggest import fold
from mullbook.text.yaml_text import Pointer


def _file_is_named_after_id(context: EntryContext) -> Iterator[Finding]:
    given = context.data.get("id")
    if given != context.file.stem:
        yield Finding(
            f"The id is {given}, but the file is called {context.file.name}.",
            context.document.place(("id",)),
            hint="Ids never change meaning: rename the file, not the id of a published entry.",
            example=f"id: {context.file.stem}",
        )


def cas_digit(number: str) -> int:
    """Check digit a CAS number should end in: the sum of its digits, counted from the right, modulo 10.

    Parameters: `number` such as `1309-37-1`. Source: CAS, check digit verification of registry numbers.

    >>> cas_digit("1309-37-1")
    1
    """
    digits = [int(each) for each in number.replace("-", "")[:-1]]
    return sum(place * digit for place, digit in enumerate(reversed(digits), start=1)) % 10


def ec_digit(number: str) -> int:
    """Check digit of an EC number: the sum of its digits, counted from the left, modulo 11.

    Parameters: `number` such as `215-168-2`. A remainder of 10 is never given out.

    >>> ec_digit("215-168-2")
    2
    """
    digits = [int(each) for each in number.replace("-", "")[:-1]]
    return sum(place * digit for place, digit in enumerate(digits, start=1)) % 11


def _numbers(context: EntryContext, key: str) -> Iterator[tuple[str, Pointer]]:
    for index, each in enumerate(context.data.get(key) or ()):
        yield str(each["number"]), (key, index, "number")


def _cas_checks(context: EntryContext) -> Iterator[Finding]:
    for number, pointer in _numbers(context, "cas"):
        if not number.endswith(str(cas_digit(number))):
            yield Finding(
                f"{number} is no CAS number: its last digit should be {cas_digit(number)}.",
                context.document.place(pointer),
                hint="One digit was mistyped or two were swapped; look it up again in the source.",
                example='cas: [{number: "1309-37-1", source: ..., basis: published}]',
            )


def _ec_checks(context: EntryContext) -> Iterator[Finding]:
    for number, pointer in _numbers(context, "ec"):
        if not number.endswith(f"-{ec_digit(number)}"):
            yield Finding(
                f"{number} is no EC number: its last digit should be {ec_digit(number)}.",
                context.document.place(pointer),
                hint="One digit was mistyped or two were swapped; look it up again in the source.",
                example='ec: [{number: "215-168-2", source: ..., basis: published}]',
            )


def _one_id(context: CatalogueContext) -> Iterator[Finding]:
    seen: dict[str, tuple[str, str]] = {}
    for thing in context.catalogue.things:
        kind = thing.kind_name
        key = f"{_space(kind)}:{thing.id}"
        if key in seen:
            yield Finding(
                f"The id {thing.id} already belongs to a {seen[key][0]}.",
                context.place(kind, thing.id, "id"),
                hint="Say more in the newer id.",
                related=(context.place(*seen[key], "id"),),
            )
        seen.setdefault(key, (kind, thing.id))


def _one_name(context: CatalogueContext) -> Iterator[Finding]:
    seen: dict[tuple[str, str], tuple[str, str, Pointer]] = {}
    # What an entry is called stands before what it is called as well: it is the alias that has to go.
    for key in ("id", "name", "aliases"):
        for thing in context.catalogue.things:
            for name, pointer in _called(thing, key):
                held = seen.setdefault(
                    (_space(thing.kind_name), fold(name)), (thing.kind_name, thing.id, pointer)
                )
                if held[1] != thing.id:
                    yield Finding(
                        f"{held[1]} already goes under the name {name}.",
                        context.place(thing.kind_name, thing.id, *pointer),
                        hint="A name leads to one entry. Name the other one under false_friends.",
                        related=(context.place(held[0], held[1], *held[2]),),
                    )


def _called(thing: Entity, key: str) -> Iterator[tuple[str, Pointer]]:
    if key == "aliases":
        yield from ((name, (key, index)) for index, name in enumerate(thing.aliases))
    else:
        yield str(getattr(thing, key)), (key,)


def _space(kind: str) -> str:
    """Where a name must be the only one: a jar may be made of the substance that shares its plain name."""
    return "substance" if kind == "substance" else "jar"


def _one_name_once(context: EntryContext) -> Iterator[Finding]:
    seen: set[str] = set()
    names = [context.data.get("name"), *(context.data.get("aliases") or ())]
    for index, name in enumerate(names):
        if isinstance(name, str) and name and fold(name) in seen:
            yield Finding(
                f"The name {name} stands twice.",
                context.document.place(("aliases", index - 1)),
                hint="Case, spaces and hyphens do not make a new name: the search folds them.",
            )
        seen.add(fold(name or ""))


STRAY = Rule(
    "MB307",
    "file or folder that nobody reads",
    "error",
    "A file under another name or in another folder would be left out of the book without a word.",
    "entries/pigments/raw-umber.yml, or entries/pigment/raw-umber.yaml",
    "entries/pigments/raw-umber.yaml",
)
"""Found while the folders are read, before there is an entry."""
ENTRY = (
    Check(
        Rule(
            "MB301",
            "file not named after its id",
            "error",
            "Other entries, links and labels name an entry by its id; the file must be found under it.",
            "id: raw-umbre in raw-umber.yaml",
            "id: raw-umber in raw-umber.yaml",
        ),
        _file_is_named_after_id,
    ),
    Check(
        Rule(
            "MB302",
            "CAS check digit",
            "error",
            "A mistyped CAS number leads to another substance's hazards.",
            'number: "1309-37-7"',
            'number: "1309-37-1"',
        ),
        _cas_checks,
    ),
    Check(
        Rule(
            "MB303",
            "EC check digit",
            "error",
            "A mistyped EC number leads to another substance's hazards.",
            'number: "215-168-7"',
            'number: "215-168-2"',
        ),
        _ec_checks,
    ),
    Check(
        Rule(
            "MB304",
            "name twice in one entry",
            "error",
            "A list of names is read by people; the same name twice hides a missing one.",
            "aliases: [ochre, Ochre]",
            "aliases: [ochre, yellow earth]",
        ),
        _one_name_once,
    ),
)
CATALOGUE = (
    Check(
        Rule(
            "MB305",
            "id of two entries",
            "error",
            "Ids never change meaning and belong to one entry.",
            "binders/casein.yaml and additives/casein.yaml",
            "binders/casein.yaml and additives/casein-powder.yaml",
        ),
        _one_id,
    ),
    Check(
        Rule(
            "MB306",
            "name of two entries",
            "error",
            "Someone who reads a name on a jar must be led to one entry.",
            "aliases: [umber] in raw-umber and in burnt-umber",
            "aliases: [umber] in raw-umber, umber under false_friends in burnt-umber",
        ),
        _one_name,
    ),
)

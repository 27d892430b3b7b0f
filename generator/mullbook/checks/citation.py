"""MB4xx: every value is cited, every citation leads to a source, every source is used."""

from __future__ import annotations

from collections.abc import Iterator

from mullbook.checks.codes import Rule
from mullbook.checks.context import CatalogueContext, Check, EntryContext, Finding, Word, records
from mullbook.text.suggest import nearest

NEED_SOURCE = ("published", "dataset", "calculated")
CITING = ("source", "searched", "limits_searched")
"""Keys under which ids of sources stand."""


def _cited(context: EntryContext) -> Iterator[Finding]:
    for pointer, record in records(context, "basis"):
        if record["basis"] in NEED_SOURCE and "source" not in record:
            yield Finding(
                f"This value is called {record['basis']} but names no source.",
                context.document.place((*pointer, "basis"), key=True),
                hint="Name the source that was opened; if it is only remembered, say basis: from-memory.",
                example='source: gettens-stout-1942, at: "table p. 143", basis: published',
            )


def _memory_names_none(context: EntryContext) -> Iterator[Finding]:
    for pointer, record in records(context, "basis", "source"):
        if record["basis"] == "from-memory":
            yield Finding(
                f"This value is from memory, yet it names {record['source']} as its source.",
                context.document.place((*pointer, "source")),
                hint="A source is named only when it was opened. Leave it out, or open it and say published.",
                example="value: 1.13, unit: g/cm3, basis: from-memory",
            )


def _place_without_source(context: EntryContext) -> Iterator[Finding]:
    for pointer, record in records(context, "at", "basis"):
        if "source" not in record:
            yield Finding(
                "This value gives a place but no source to find it in.",
                context.document.place((*pointer, "at")),
                hint="A page or table number is only good together with its source.",
                example='source: gettens-stout-1942, at: "table p. 143"',
            )


def _source_exists(context: CatalogueContext) -> Iterator[Finding]:
    known = context.ids.get("source", frozenset())
    for word in _citations(context):
        if word.text not in known:
            close = nearest(word.text, known)
            yield Finding(
                f"There is no source called {word.text}.",
                word.place,
                hint=_meant(close) if close else "Add it under entries/sources first.",
            )


def _meant(names: list[str]) -> str:
    return f"Did you mean {' or '.join(names)}?"


def _citations(context: CatalogueContext) -> Iterator[Word]:
    """Every id of a source, wherever it is cited."""
    for key in CITING:
        yield from context.words_by_key.get(key, ())


def _source_used(context: CatalogueContext) -> Iterator[Finding]:
    if context.unsound:  # a broken entry may be the one that cites it
        return
    used = {word.text for word in _citations(context)}
    for source in context.catalogue.sources:
        if source.id not in used:
            yield Finding(
                f"No entry cites {source.id}.",
                context.place("source", source.id, "id"),
                hint="Cite it where its facts stand, or take it out.",
            )


ENTRY = (
    Check(
        Rule(
            "MB401",
            "value without a source",
            "error",
            "A number nobody can look up again is worth less than none.",
            "density: {value: 3.2, unit: g/cm3, basis: published}",
            "density: {value: 3.2, unit: g/cm3, source: gettens-stout-1942, basis: published}",
        ),
        _cited,
    ),
    Check(
        Rule(
            "MB402",
            "remembered value that names a source",
            "error",
            "A source stands only behind what was read in it.",
            "value: 1.13, source: handbook, basis: from-memory",
            "value: 1.13, basis: from-memory",
        ),
        _memory_names_none,
    ),
    Check(
        Rule(
            "MB403",
            "place without a source",
            "error",
            "A page number without a book cannot be looked up.",
            'at: "p. 143", basis: common-practice',
            'source: gettens-stout-1942, at: "p. 143", basis: published',
        ),
        _place_without_source,
    ),
)
CATALOGUE = (
    Check(
        Rule(
            "MB404",
            "source that does not exist",
            "error",
            "A citation must lead somewhere.",
            "source: getens-stout-1942",
            "source: gettens-stout-1942",
        ),
        _source_exists,
    ),
    Check(
        Rule(
            "MB405",
            "source nobody cites",
            "error",
            "The list of sources tells what the book rests on; a source nothing rests on misleads.",
            "entries/sources/unused-1999.yaml",
            "a source that at least one entry cites",
        ),
        _source_used,
    ),
)

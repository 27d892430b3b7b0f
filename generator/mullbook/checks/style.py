"""MB9xx: words that must not stand, and the line that helps editors."""

from __future__ import annotations

import re
from collections.abc import Iterator

from mullbook.checks.codes import Rule
from mullbook.checks.context import CatalogueContext, Check, EntryContext, Finding
from mullbook.text.problem import Place, Span

TAG = re.compile(r"<\s*[A-Za-z/!]|&#?\w+;|javascript:", re.IGNORECASE)
MODELINE = "# yaml-language-server: $schema=../../schema/{kind}.schema.json"
SCHEMA_LINE = re.compile(
    r"# yaml-language-server: \$schema=(?:\S+/)?(?P<kind>[a-z-]+)\.schema\.json\s*?(?:\n|\r|$)"
)
"""The first line, which tells editors the schema; a studio's own folder may lie elsewhere."""
QUOTED = ("title", "read", "as_printed", "scope", "text")
"""Keys that hold somebody else's words."""


def _plain_text(context: EntryContext) -> Iterator[Finding]:
    if not _may_hold_tag(context.document.text):
        return
    for pointer, value in context.values:
        if isinstance(value, str) and TAG.search(value):
            yield Finding(
                "This text holds HTML or a script.",
                context.document.place(pointer),
                hint="Entries are plain words; the pages put the form to them. Write < as less than.",
            )


def _may_hold_tag(text: str) -> bool:
    """Whether a file can hold a tag, however its texts are quoted; quicker than looking at each text."""
    return "<" in text or "&" in text or "\\" in text or "script:" in text.lower()


def _modeline(context: EntryContext) -> Iterator[Finding]:
    wanted = MODELINE.format(kind=context.kind)
    found = SCHEMA_LINE.match(context.document.text)
    if found is None or found["kind"] != context.kind:
        yield Finding(
            "The first line does not point editors at the schema.",
            Place(context.document.path, Span(1, 1, 1, 1)),
            hint="With it an editor offers the keys and underlines mistakes while you type.",
            example=wanted,
        )


def _promises(context: CatalogueContext) -> Iterator[Finding]:
    if not context.catalogue.policies:
        return
    words = context.catalogue.policy.forbidden_words
    pattern = re.compile(r"\b(" + "|".join(re.escape(each) for each in words) + r")\b", re.IGNORECASE)
    for document in context.documents.values():
        texts = [(pointer, value) for pointer, value in document.values if isinstance(value, str)]
        whole = "\n".join(value for _, value in texts).casefold()
        if not any(each.casefold() in whole for each in words):  # so for nearly every file, and much quicker
            continue
        for pointer, value in texts:
            found = pattern.search(value)
            if found and not _is_quoted(pointer):
                yield Finding(
                    f"The words {found[0]} promise what nobody can promise.",
                    document.place(pointer),
                    hint="Say what was searched and what was found.",
                )


def _is_quoted(pointer: tuple[str | int, ...]) -> bool:
    return "forbidden_words" in pointer or any(each in QUOTED for each in pointer)


ENTRY = (
    Check(
        Rule(
            "MB901",
            "HTML in a text",
            "error",
            "Entries outlive the site they are shown on, and a page must not run what an entry brings along.",
            "summary: <b>Poisonous</b>",
            "summary: Poisonous",
        ),
        _plain_text,
    ),
    Check(
        Rule(
            "MB902",
            "no pointer to the schema",
            "error",
            "An editor that knows the schema catches most mistakes before they are saved.",
            "id: raw-umber on the first line",
            "# yaml-language-server: $schema=../../schema/pigment.schema.json",
        ),
        _modeline,
    ),
)
CATALOGUE = (
    Check(
        Rule(
            "MB903",
            "promise of safety",
            "error",
            "No output of this book may call a thing safe.",
            "a promise such as the words listed in the studio policy",
            "no class was found in the lists searched",
        ),
        _promises,
    ),
)

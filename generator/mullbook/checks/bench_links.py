"""MB81x: what faults, studio tests, systems and classes of chemistry name must be there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from mullbook.checks.codes import Rule
from mullbook.checks.context import CatalogueContext, Check, Finding, Word
from mullbook.text.suggest import nearest

# Where a name stands: the file's folder or id, the keys on the way, and the kind of entry it must lead to.
NAMED: tuple[tuple[str, tuple[str, ...], str], ...] = (
    ("faults", ("causes", "check", "test"), "studio-test"),
    ("faults", ("see",), "fault"),
    ("systems", ("faults", "general"), "fault"),
    ("vocabulary", ("attacks", "test"), "studio-test"),
    ("vocabulary", ("classes", "substances"), "substance"),
    ("vocabulary", ("classes", "pigments"), "pigment"),
    ("vocabulary", ("classes", "except"), "pigment"),
    ("vocabulary", ("media", "binders"), "binder"),
    ("vocabulary", ("media", "kin"), "binder"),
)


def _at(word: Word) -> tuple[str, tuple[str, ...]]:
    folder = word.document.path.replace("\\", "/").rpartition("/")[0].rpartition("/")[2]
    return folder, tuple(each for each in word.pointer if isinstance(each, str))


def _names(context: CatalogueContext) -> Iterator[Finding]:
    wanted = {(folder, path): kind for folder, path, kind in NAMED}
    keys = {path[-1] for _, path, _ in NAMED}
    for key in sorted(keys):
        for word in context.words_by_key.get(key, ()):
            kind = wanted.get(_at(word))
            if kind is not None and word.text not in context.ids.get(kind, frozenset()):
                yield _missing(kind.replace("-", " "), word, context.ids.get(kind, ()), f"entries/{kind}s")


def _attacks(context: CatalogueContext) -> Iterator[Finding]:
    book = context.catalogue.vocabulary("chemistry")
    if book is None:
        return
    known = [each.id for each in book.attacks]
    for key, path in (("attack", ("classes", "verdicts", "attack")), ("attacks", ("media", "attacks"))):
        for word in context.words_by_key.get(key, ()):
            if _at(word) == ("vocabulary", path) and word.text not in known:
                yield _missing("attack", word, known, "the list `attacks`")


def _missing(what: str, word: Word, known: Iterable[str], where: str) -> Finding:
    close = nearest(word.text, known)
    hint = f"Did you mean {' or '.join(close)}?" if close else f"Add it to {where} first."
    return Finding(f"There is no {what} called {word.text}.", word.place, hint=hint)


def _links(context: CatalogueContext) -> Iterator[Finding]:
    yield from _names(context)
    yield from _attacks(context)


def _terms(context: CatalogueContext) -> Iterator[Finding]:
    glossary = context.catalogue.vocabulary("glossary")
    if glossary is None:
        return
    known = {each.term.casefold() for each in glossary.terms}
    for word in context.words_by_key.get("see", ()):
        if _at(word) == ("vocabulary", ("terms", "see")) and word.text.casefold() not in known:
            yield _missing("term", word, [each.term for each in glossary.terms], "the glossary")


def _works(context: CatalogueContext) -> Iterator[Finding]:
    from mullbook.derive.practice import refused  # formulas load only where they are needed

    for word in context.words_by_key.get("formula", ()):
        folder, path = _at(word)
        if folder not in ("faults", "studio-tests") or path[-2:-1] != ("work",):
            continue
        held: Any = word.document.data
        for step in word.pointer[:-1]:
            held = held[step]
        said = refused(held["formula"], held["inputs"])
        if said:
            yield Finding(
                f"The number cannot be worked out. {said}",
                word.place,
                hint=f"Try it on its own: mullbook work {word.text}.",
            )


CATALOGUE = (
    Check(
        Rule(
            "MB811",
            "name of practice that leads nowhere",
            "error",
            "A check that names a test, or a class that names a substance, must lead to it.",
            "test: densty-cup",
            "test: density-cup",
        ),
        _links,
    ),
    Check(
        Rule(
            "MB812",
            "glossary term that leads to no term",
            "error",
            "Someone who looks a word up and is sent on must find the other word there.",
            "see: [CPVCC]",
            "see: [CPVC]",
        ),
        _terms,
    ),
    Check(
        Rule(
            "MB813",
            "worked number that cannot be worked out",
            "error",
            "A fault or a test that promises a number must give it, with its working.",
            "work: {formula: entrained_airr, inputs: {}, words: air in the cup}",
            "work: {formula: entrained_air, inputs: {...}, words: air in the cup}",
        ),
        _works,
    ),
)

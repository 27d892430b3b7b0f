"""MB8xx: what one entry says of another leads somewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mullbook.checks.codes import Rule
from mullbook.checks.context import CatalogueContext, Check, Finding, Word
from mullbook.text.suggest import nearest


def _named(context: CatalogueContext, *path: str) -> Iterator[Word]:
    """Every name that stands at a path such as ("constituents", "substance"), in whatever entry."""
    for word in context.words_by_key.get(path[-1], ()):
        if tuple(each for each in word.pointer if isinstance(each, str)) == path:
            yield word


def _leads_to(context: CatalogueContext, kind: str, *path: str) -> Iterator[Finding]:
    known = context.ids.get(kind, frozenset())
    for word in _named(context, *path):
        if word.text not in known:
            yield _missing(kind, word, known, f"{kind}s")


def _missing(what: str, word: Word, known: Iterable[str], folder: str) -> Finding:
    close = nearest(word.text, known)
    hint = f"Did you mean {' or '.join(close)}?" if close else f"Add it under entries/{folder} first."
    return Finding(f"There is no {what} called {word.text}.", word.place, hint=hint)


def _constituents(context: CatalogueContext) -> Iterator[Finding]:
    yield from _leads_to(context, "substance", "constituents", "substance")


def _groups(context: CatalogueContext) -> Iterator[Finding]:
    yield from _leads_to(context, "substance", "member_of")
    known = context.catalogue.substance
    for word in _named(context, "member_of"):
        if word.text in known and known[word.text].kind != "group":
            hint = "Only an entry of kind: group has members."
            yield Finding(f"{word.text} is no group.", word.place, hint=hint)


def _binders(context: CatalogueContext) -> Iterator[Finding]:
    yield from _leads_to(context, "binder", "suitability", "binder")


def _persons(context: CatalogueContext) -> Iterator[Finding]:
    if not context.catalogue.policies:
        return
    known = [each.id for each in context.catalogue.policy.persons]
    for word in _named(context, "not_for", "person"):
        if word.text not in known:
            yield _missing("person", word, known, "rulesets/studio-policy.yaml")


def _rule(code: str, what: str, bad: str, good: str) -> Rule:
    return Rule(
        code, f"{what} that does not exist", "error", "A name of another entry must lead to it.", bad, good
    )


CATALOGUE = (
    Check(_rule("MB801", "substance", "substance: goethit", "substance: goethite"), _constituents),
    Check(_rule("MB802", "group", "member_of: [lead]", "member_of: [lead-compounds]"), _groups),
    Check(_rule("MB803", "binder", "binder: linsed-oil", "binder: linseed-oil"), _binders),
    Check(_rule("MB804", "person", "person: children", "person: age-12-and-under"), _persons),
)

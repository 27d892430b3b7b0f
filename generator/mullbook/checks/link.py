"""MB8xx: what one entry says of another leads somewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mullbook.checks.codes import Rule
from mullbook.checks.context import CatalogueContext, Check, Finding
from mullbook.text.problem import Place
from mullbook.text.suggest import nearest


def _named(context: CatalogueContext, *path: str) -> Iterator[tuple[str, Place]]:
    """Every name that stands at a path such as ("constituents", "substance"), in whatever entry."""
    for word in context.words_by_key.get(path[-1], ()):
        if tuple(each for each in word.pointer if isinstance(each, str)) == path:
            yield word.text, word.place


def _leads_to(context: CatalogueContext, kind: str, *path: str) -> Iterator[Finding]:
    known = context.ids.get(kind, frozenset())
    for name, place in _named(context, *path):
        if name not in known:
            yield _missing(kind, name, known, place, f"{kind}s")


def _missing(what: str, name: str, known: Iterable[str], place: Place, folder: str) -> Finding:
    close = nearest(name, known)
    hint = f"Did you mean {' or '.join(close)}?" if close else f"Add it under entries/{folder} first."
    return Finding(f"There is no {what} called {name}.", place, hint=hint)


def _constituents(context: CatalogueContext) -> Iterator[Finding]:
    yield from _leads_to(context, "substance", "constituents", "substance")


def _groups(context: CatalogueContext) -> Iterator[Finding]:
    yield from _leads_to(context, "substance", "member_of")
    known = context.catalogue.substance
    for name, place in _named(context, "member_of"):
        if name in known and known[name].kind != "group":
            yield Finding(f"{name} is no group.", place, hint="Only an entry of kind: group has members.")


def _binders(context: CatalogueContext) -> Iterator[Finding]:
    yield from _leads_to(context, "binder", "suitability", "binder")


def _persons(context: CatalogueContext) -> Iterator[Finding]:
    if not context.catalogue.policies:
        return
    known = [each.id for each in context.catalogue.policy.persons]
    for name, place in _named(context, "not_for", "person"):
        if name not in known:
            yield _missing("person", name, known, place, "rulesets/studio-policy.yaml")


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

"""MB8xx: what one entry says of another leads somewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mullbook.checks.codes import Rule
from mullbook.checks.context import CatalogueContext, Check, Finding
from mullbook.text.problem import Place
from mullbook.text.suggest import nearest


def _missing(what: str, name: str, known: Iterable[str], place: Place, folder: str) -> Finding:
    close = nearest(name, known)
    hint = f"Did you mean {' or '.join(close)}?" if close else f"Add it under entries/{folder} first."
    return Finding(f"There is no {what} called {name}.", place, hint=hint)


def _constituents(context: CatalogueContext) -> Iterator[Finding]:
    known = context.catalogue.substance
    for thing in context.catalogue.jars:
        for index, each in enumerate(thing.constituents):
            if each.substance not in known:
                place = context.place(thing.kind_name, thing.id, "constituents", index, "substance")
                yield _missing("substance", each.substance, known, place, "substances")


def _groups(context: CatalogueContext) -> Iterator[Finding]:
    known = context.catalogue.substance
    for substance in context.catalogue.substances:
        for index, group in enumerate(substance.member_of):
            place = context.place("substance", substance.id, "member_of", index)
            if group not in known:
                yield _missing("substance", group, known, place, "substances")
            elif known[group].kind != "group":
                yield Finding(f"{group} is no group.", place, hint="Only an entry of kind: group has members.")


def _binders(context: CatalogueContext) -> Iterator[Finding]:
    known = context.catalogue.binder
    for pigment in context.catalogue.pigments:
        for index, each in enumerate(pigment.suitability):
            if each.binder not in known:
                place = context.place("pigment", pigment.id, "suitability", index, "binder")
                yield _missing("binder", each.binder, known, place, "binders")


def _persons(context: CatalogueContext) -> Iterator[Finding]:
    if not context.catalogue.policies:
        return
    known = [each.id for each in context.catalogue.policy.persons]
    for thing in context.catalogue.products:
        for index, each in enumerate(thing.not_for):
            if each.person not in known:
                place = context.place(thing.kind_name, thing.id, "not_for", index, "person")
                yield _missing("person", each.person, known, place, "rulesets/studio-policy.yaml")


def _rule(code: str, what: str, bad: str, good: str) -> Rule:
    return Rule(code, f"{what} that does not exist", "error", "A name of another entry must lead to it.", bad, good)


CATALOGUE = (
    Check(_rule("MB801", "substance", "substance: goethit", "substance: goethite"), _constituents),
    Check(_rule("MB802", "group", "member_of: [lead]", "member_of: [lead-compounds]"), _groups),
    Check(_rule("MB803", "binder", "binder: linsed-oil", "binder: linseed-oil"), _binders),
    Check(_rule("MB804", "person", "person: children", "person: age-12-and-under"), _persons),
)

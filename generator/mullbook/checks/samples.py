"""MB72x and MB82x: a sample is sold only with papers, and names entries that are there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mullbook.checks.codes import Rule
from mullbook.checks.context import CatalogueContext, Check, EntryContext, Finding
from mullbook.text.suggest import nearest


def _sale_has_papers(context: EntryContext) -> Iterator[Finding]:
    if context.kind != "sample" or "sale" not in context.data["allowed_uses"]:
        return
    place = context.document.place(("allowed_uses",))
    if not context.data.get("lab_reports"):
        yield Finding(
            "Sale is allowed, but no laboratory has looked at this sample.",
            place,
            hint="Tests in a studio raise flags, they clear nothing: no sale until there is a report.",
        )
    if "sale" not in context.data["found"]["permission"]["what_for"].lower():
        yield Finding(
            "Sale is allowed here, but the permission does not name it.",
            place,
            hint="Picking up for own use and selling what is made of it are two permissions: ask again.",
        )


def _none_stands_alone(context: EntryContext) -> Iterator[Finding]:
    uses = context.data.get("allowed_uses", ()) if context.kind == "sample" else ()
    if "none" in uses and len(uses) > 1:
        yield Finding(
            "It is to be kept shut and yet used.",
            context.document.place(("allowed_uses",)),
            hint="Keep `none` alone, or take it out.",
        )


def _named(context: CatalogueContext) -> Iterator[Finding]:
    for sample in context.catalogue.samples:
        for key, kind in (("becomes", "pigment"), ("recipe", "recipe")):
            name, known = getattr(sample, key), context.ids.get(kind, frozenset())
            if name is not None and name not in known:
                place = context.place("sample", sample.id, key)
                yield Finding(f"There is no {kind} called {name}.", place, hint=_meant(name, kind, known))


def _readings(context: CatalogueContext) -> Iterator[Finding]:
    check = context.catalogue.stone_check
    known = {each.id: [value.id for value in each.values] for each in check.tests} if check else {}
    for sample in context.catalogue.samples if check else ():
        for place, each in enumerate(sample.observed):
            where = ("sample", sample.id, "observed", place)
            if each.test not in known:
                said = f"The stone check has no test called {each.test}."
                yield Finding(said, context.place(*where, "test"), hint=_one_of(each.test, known))
            elif each.answer not in known[each.test]:
                said = f"{each.answer} is no answer to {each.test}."
                hint = _one_of(each.answer, known[each.test])
                yield Finding(said, context.place(*where, "answer"), hint=hint)


def _one_of(name: str, known: Iterable[str]) -> str:
    close = nearest(name, known)
    return f"Did you mean {' or '.join(close)}?" if close else f"There are: {', '.join(known)}."


def _meant(name: str, kind: str, known: Iterable[str]) -> str:
    close = nearest(name, known)
    return f"Did you mean {' or '.join(close)}?" if close else f"Add it under entries/{kind}s first."


ENTRY = (
    Check(
        Rule(
            "MB720",
            "sale of a sample without papers",
            "error",
            "Paint of a found stone is sold only where a laboratory has looked and the owner allowed it.",
            "allowed_uses: [sale] (no lab_reports)",
            "allowed_uses: [adult-wet, own-paint]",
        ),
        _sale_has_papers,
    ),
    Check(
        Rule(
            "MB721",
            "sample that is shut and used",
            "error",
            "Kept shut means kept shut.",
            "allowed_uses: [none, teaching]",
            "allowed_uses: [none]",
        ),
        _none_stands_alone,
    ),
)
CATALOGUE = (
    Check(
        Rule(
            "MB820",
            "entry of a sample that does not exist",
            "error",
            "A name of another entry must lead to it.",
            "becomes: yelow-ochre",
            "becomes: yellow-ochre",
        ),
        _named,
    ),
    Check(
        Rule(
            "MB821",
            "reading that the stone check does not ask for",
            "error",
            "What it leaves open is worked out only from tests and answers it knows.",
            "{test: streak, answer: yelow}",
            "{test: streak, answer: yellow-brown}",
        ),
        _readings,
    ),
)

"""Guides, questions and what else tells of practice: evidence, length, and marks that lead somewhere."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from mullbook.checks.codes import Rule
from mullbook.checks.context import CatalogueContext, Check, EntryContext, Finding, records
from mullbook.model.guides import Figure, Guide, Question, figures_of
from mullbook.model.marks import pieces
from mullbook.text.suggest import nearest

LONGEST = 1200
"""Words of practice on a page, above which a summary must stand first."""
SAYS = ("say", "do", "stop_test", "how", "remedy", "cause")
"""Keys under which practice is told."""
TELLS = ("guide", "question", "fault", "studio-test", "system")
"""Kinds of entry that tell practice and nothing else: all in them is a statement, whatever its key."""
OPENINGS: Mapping[str, str] = {"guide": "in_short", "question": "answer"}
"""What stands first where it is not the summary."""


def _known_from(context: EntryContext) -> Iterator[Finding]:
    for pointer, record in records(context, "basis" if context.kind in TELLS else "say", "basis"):
        if record["basis"] == "from-memory":
            yield Finding(
                "This statement names no source and is no common practice.",
                context.document.place((*pointer, "basis")),
                hint="Name the source that was opened, or call it common-practice if the trade repeats it.",
                example="basis: common-practice",
            )


def _short_first(context: EntryContext) -> Iterator[Finding]:
    words = sum(
        len(group[key].split())
        for key in SAYS
        for _, group in records(context, key)
        if isinstance(group[key], str)
    )
    wanted = OPENINGS.get(context.kind, "summary")
    if words > LONGEST and not context.data.get(wanted):
        yield Finding(
            f"This page holds {words} words of practice and does not say first what it comes to.",
            context.document.place(("id",)),
            hint=f"Above {LONGEST} words a page needs `{wanted}`, or is cut in two.",
        )


def _kind_of(folder: str) -> str:
    return folder.removesuffix("s")


def _pages(context: CatalogueContext) -> Iterator[Finding]:
    for word in context.words_by_key.get("page", ()):
        folder, slash, rest = word.text.partition("/")
        name = rest.partition(".html")[0]
        known = context.ids.get(_kind_of(folder), frozenset())
        if slash and known and name != "index" and name not in known:
            close = nearest(name, known)
            hint = (
                f"Did you mean {folder}/{close[0]}.html?"
                if close
                else f"Add it under entries/{folder} first."
            )
            yield Finding(f"There is no page {word.text}.", word.place, hint=hint)


def _figures(context: CatalogueContext) -> Iterator[Finding]:
    things = [each for each in _told(context) if any(figures_of(each))]
    if not things:
        return
    from mullbook.derive.guides import BadFigure, worked_figure  # formulas load only where they are needed

    for thing in things:
        found: dict[str, Any] = {}
        for pointer, figure in _placed(thing):
            try:
                found[figure.id] = worked_figure(context.catalogue, figure, found)
            except BadFigure as error:
                yield Finding(
                    f"The figure {figure.id} cannot be worked out. {error}",
                    context.place(thing.kind_name, thing.id, *pointer),
                    hint="The methods page lists the formulas with their inputs; mullbook work tries one.",
                )


def _told(context: CatalogueContext) -> tuple[Guide | Question, ...]:
    return (*context.catalogue.guides, *context.catalogue.questions)


def _placed(thing: Guide | Question) -> Iterator[tuple[tuple[str | int, ...], Figure]]:
    for at, part in enumerate(thing.parts):
        for index, figure in enumerate(part.figures):
            yield ("parts", at, "figures", index, "formula"), figure


def _marks(context: CatalogueContext) -> Iterator[Finding]:
    glossary = context.catalogue.vocabulary("glossary")
    terms = {each.term.lower(): each.term for each in glossary.terms} if glossary else {}
    held = {(each.kind_name, each.id): {figure.id for figure in figures_of(each)} for each in _told(context)}
    for word in context.words:
        if "{" not in word.text and "[" not in word.text:
            continue
        kind, name = _owner(word.document.path)
        if (kind, name) not in held:
            continue
        for piece in pieces(word.text):
            if piece.figure is not None and piece.figure not in held[kind, name]:
                yield Finding(f"There is no figure {piece.figure} on this page.", word.place)
            elif terms and piece.term is not None and piece.term.lower() not in terms:
                close = nearest(piece.term, list(terms.values()))
                hint = f"Did you mean {' or '.join(close)}?" if close else "Add it to the glossary first."
                yield Finding(f"The glossary has no term {piece.term}.", word.place, hint=hint)


def _owner(path: str) -> tuple[str, str]:
    folder, _, file = path.replace("\\", "/").rpartition("/")
    return _kind_of(folder.rpartition("/")[2]), file.removesuffix(".yaml")


ENTRY = (
    Check(
        Rule(
            "MB406",
            "practice known from nowhere",
            "error",
            "A sentence that people act on must say who says so: an opened source, or the trade at large.",
            "say: Let it rest overnight, basis: from-memory",
            "say: Let it rest overnight, basis: common-practice",
        ),
        _known_from,
    ),
    Check(
        Rule(
            "MB904",
            "long page without its summary",
            "error",
            "Someone with wet gloves reads the first lines only; they must hold the whole of it.",
            "a guide of 1500 words without in_short",
            "in_short with three to five lines",
        ),
        _short_first,
    ),
)
CATALOGUE = (
    Check(
        Rule(
            "MB805",
            "page that does not exist",
            "error",
            "A name of another entry must lead to it.",
            "page: guides/cleanup.html",
            "page: guides/clean-up.html",
        ),
        _pages,
    ),
    Check(
        Rule(
            "MB806",
            "figure that cannot be worked out",
            "error",
            "A number that a page promises must be there, with its working.",
            "formula: pvcc",
            "formula: pvc",
        ),
        _figures,
    ),
    Check(
        Rule(
            "MB807",
            "mark that leads nowhere",
            "error",
            "A sentence may name a figure of its page, or a term of the glossary; both must be there.",
            "say: Aim at {pcv}.",
            "say: Aim at {pvc}.",
        ),
        _marks,
    ),
)

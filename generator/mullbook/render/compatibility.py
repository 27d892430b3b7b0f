"""Who lives with whom: pigments in binders with the reason, pigments beside each other, by medium."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from mullbook.derive.practice_results import Chemistry
from mullbook.derive.results import Derived
from mullbook.model.catalogue import Catalogue
from mullbook.model.chemistry import STRICTNESS
from mullbook.model.entities import Pigment
from mullbook.model.facts import Reaction, Suitability
from mullbook.render.bench_data import reacting
from mullbook.render.links import short_name
from mullbook.render.words import BASIS_WORDS, GRADE_WORDS, VERDICT_WORDS

Record = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Pair:
    """Two sets of pigments that harm each other, with what happens and how well that is known."""

    reaction: Reaction
    one: tuple[Pigment, ...]
    other: tuple[Pigment, ...]
    media: str
    """Where, in words."""

    @property
    def ids(self) -> str:
        """Every pigment of the pair, for a script that looks for one."""
        return " ".join(each.id for each in (*self.one, *self.other))


def pairs(catalogue: Catalogue, derived: Derived) -> Iterator[Pair]:
    """Every reaction of the vocabulary with the pigments of this catalogue that it is about."""
    listed = catalogue.vocabulary("reactions")
    names = {each.kind: each.name for each in catalogue.systems}
    for each in listed.reactions if listed else ():
        one, other = reacting(derived, each.one), reacting(derived, each.other)
        if one and other:
            media = ", ".join(names.get(kind, kind) for kind in each.media) or "any medium"
            yield Pair(each, _named(catalogue, one), _named(catalogue, other), media)


def _named(catalogue: Catalogue, ids: list[str]) -> tuple[Pigment, ...]:
    return tuple(sorted((catalogue.pigment[each] for each in ids), key=lambda each: each.name.casefold()))


def compatibility_data(catalogue: Catalogue, derived: Derived) -> Record:
    """Verdict, grade, reason and source of each pigment in each binder; what is said often stands once.

    Returns `words`, those for verdict, grade and basis; `said`, the reasons; `from`, the sources, each by id
    and in words; `cells`, by pigment and then by place of the binder in the workbench's list: the places of
    verdict, grade, reason, basis and, where there is one, source.
    `classes`, what each attack does to each class of chemistry; `by_class`, for each pigment the binders that
    its entry says nothing of.
    """
    words: dict[str, int] = {}
    said: dict[str, int] = {}
    sources: dict[tuple[str, str], int] = {}
    place = {each.id: number for number, each in enumerate(catalogue.binders)}
    cells = {
        pigment.id: {
            str(place[each.binder]): _cell(catalogue, each, words, said, sources)
            for each in pigment.suitability
            if each.binder in place
        }
        for pigment in catalogue.pigments
    }
    return {
        "words": list(words),
        "said": list(said),
        "from": [list(each) for each in sources],
        "cells": cells,
        **_by_chemistry(catalogue, derived),
    }


def _cell(
    catalogue: Catalogue,
    found: Suitability,
    words: dict[str, int],
    said: dict[str, int],
    sources: dict[tuple[str, str], int],
) -> list[int]:
    reason = found.mechanism + (f" {found.note}" if found.note else "")
    verdict, grade, basis = (
        words.setdefault(each, len(words))
        for each in (VERDICT_WORDS[found.verdict], GRADE_WORDS[found.grade], BASIS_WORDS[found.basis])
    )
    cell = [verdict, grade, said.setdefault(reason, len(said)), basis]
    if found.source is None:
        return cell
    known = catalogue.source.get(found.source)
    where = f"{short_name(known) if known else found.source}{f', {found.at}' if found.at else ''}"
    return [*cell, sources.setdefault((found.source, where), len(sources))]


def _by_chemistry(catalogue: Catalogue, derived: Derived) -> Record:
    book = catalogue.vocabulary("chemistry")
    if book is None:
        return {"attacks": [], "classes": [], "by_class": {}}
    classes = {each.id: number for number, each in enumerate(book.classes)}
    attacks = {each.id: number for number, each in enumerate(book.attacks)}
    return {
        "attacks": [[each.id, each.name] for each in book.attacks],
        "classes": [
            [
                each.id,
                each.name,
                {
                    str(attacks[said.attack]): [
                        VERDICT_WORDS[said.verdict],
                        said.mechanism,
                        GRADE_WORDS[said.grade],
                    ]
                    for said in each.verdicts
                },
            ]
            for each in book.classes
        ],
        "by_class": {
            name: _class_cells(catalogue, found.chemistry, classes, attacks)
            for name, found in derived.pigments.items()
            if found.chemistry.binders
        },
    }


def _class_cells(
    catalogue: Catalogue, found: Chemistry, classes: dict[str, int], attacks: dict[str, int]
) -> list[Any]:
    """Two digits a binder, verdict and attack; the class that speaks of each attack; the stricter kin."""
    held = [found.binders.get(each.id) for each in catalogue.binders]
    digits = "".join(
        f"{STRICTNESS.index(each.verdict)}{attacks[each.attack]}" if each else "--" for each in held
    )
    said = [classes[found.said[each].class_id] if each in found.said else None for each in attacks]
    kin = {str(number): each.kin for number, each in enumerate(held) if each and each.kin}
    return [digits, said, kin] if kin else [digits, said]

"""The frozen catalogue, and how a thing is found in it by whatever name it goes under."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar

from mullbook.model.entities import (
    Additive,
    Binder,
    Entity,
    Pigment,
    Source,
    Substance,
    Vocabulary,
)
from mullbook.model.guides import Guide, Question
from mullbook.model.practice import GeneralFault, StudioTest
from mullbook.model.recipes import Recipe, System
from mullbook.model.samples import Sample
from mullbook.model.stones import StoneCheck
from mullbook.model.studio import Room
from mullbook.model.values import HazardClass, Limit
from mullbook.model.values.advice import Advice, LeachingLevels, RespiratorFactors
from mullbook.model.values.policy import StudioPolicy
from mullbook.model.values.ruleset import Classification
from mullbook.text.suggest import fold, nearest

T = TypeVar("T")

LISTED = ("harmonised", "government-list")
"""Standings of an entry in a list of the place itself."""


class Listed(dict[str, T]):
    """Things by id. What is not listed is found all the same when it is asked for by id."""

    def __init__(self, listed: Mapping[str, T], others: Mapping[str, T]) -> None:
        super().__init__(listed)
        self._others = others

    def __missing__(self, key: str) -> T:
        """One that is not listed. Raises `KeyError`."""
        return self._others[key]


@dataclass(frozen=True)
class Catalogue:
    """Everything known, by kind, each kind in the order of its ids."""

    pigments: tuple[Pigment, ...] = ()
    substances: tuple[Substance, ...] = ()
    binders: tuple[Binder, ...] = ()
    additives: tuple[Additive, ...] = ()
    systems: tuple[System, ...] = ()
    recipes: tuple[Recipe, ...] = ()
    samples: tuple[Sample, ...] = ()
    """Found stones. Pages show only their public side."""
    sources: tuple[Source, ...] = ()
    vocabularies: tuple[Vocabulary, ...] = ()
    policies: tuple[StudioPolicy, ...] = ()
    classifications: tuple[Classification, ...] = ()
    advices: tuple[Advice, ...] = ()
    respirators: tuple[RespiratorFactors, ...] = ()
    leaching: tuple[LeachingLevels, ...] = ()
    guides: tuple[Guide, ...] = ()
    questions: tuple[Question, ...] = ()
    faults: tuple[GeneralFault, ...] = ()
    studio_tests: tuple[StudioTest, ...] = ()
    at_place: str | None = None
    """The studio's place where it is not that of the classification in force."""
    room: Room | None = None
    """The studio's smallest room, which dust is reckoned for; an example room where there is none."""
    left_out: tuple[Pigment, ...] = ()
    """Pigments that a studio's edition does not list; what speaks of them still finds them by id."""

    stone_checks: tuple[StoneCheck, ...] = ()

    @property
    def products(self) -> tuple[Binder | Additive, ...]:
        """Binders and additives: what is not a dry powder."""
        return (*self.binders, *self.additives)

    @property
    def jars(self) -> tuple[Pigment | Binder | Additive, ...]:
        """Everything that is made of substances."""
        return (*self.pigments, *self.products)

    @property
    def things(self) -> tuple[Entity, ...]:
        """Pigments, binders, additives and substances: all that a jar may hold."""
        return (*self.pigments, *self.binders, *self.additives, *self.substances)

    @property
    def policy(self) -> StudioPolicy:
        """The studio policy. Raises `IndexError` when there is none."""
        return self.policies[0]

    @property
    def classification(self) -> Classification:
        """The classification ruleset in force. Raises `IndexError` when there is none."""
        return self.classifications[0]

    @property
    def place(self) -> str:
        """The studio's place, that of the classification in force where none was named."""
        return self.at_place or self.classification.jurisdiction

    @property
    def own_places(self) -> tuple[str, ...]:
        """Places whose lists count as the studio's own: that of the classification in force always does."""
        return tuple(dict.fromkeys((self.classification.jurisdiction, self.place)))

    @property
    def law_places(self) -> tuple[str, ...]:
        """The studio's place and, for a state, the country whose law holds there too."""
        return tuple(dict.fromkeys((self.place, self.place.partition("-")[0])))

    @property
    def label_rules(self) -> Classification:
        """The ruleset of the studio's place; the one in force where there is none of that place."""
        return next(
            (each for each in self.classifications if each.jurisdiction in self.law_places),
            self.classification,
        )

    @property
    def advice(self) -> Advice | None:
        """The advice beside the verdicts, where there is one."""
        return next(iter(self.advices), None)

    @cached_property
    def substance(self) -> dict[str, Substance]:
        """Substances by id."""
        return {each.id: each for each in self.substances}

    @cached_property
    def pigment(self) -> dict[str, Pigment]:
        """Pigments by id."""
        return Listed({each.id: each for each in self.pigments}, {each.id: each for each in self.left_out})

    @property
    def stone_check(self) -> StoneCheck | None:
        """What is asked of a found stone, where there is an entry for it."""
        return next(iter(self.stone_checks), None)

    @cached_property
    def binder(self) -> dict[str, Binder]:
        """Binders by id."""
        return {each.id: each for each in self.binders}

    @cached_property
    def additive(self) -> dict[str, Additive]:
        """Additives by id."""
        return {each.id: each for each in self.additives}

    @cached_property
    def system(self) -> dict[str, System]:
        """Systems by id."""
        return {each.id: each for each in self.systems}

    @cached_property
    def recipe(self) -> dict[str, Recipe]:
        """Recipes by id."""
        return {each.id: each for each in self.recipes}

    @cached_property
    def fault(self) -> dict[str, GeneralFault]:
        """Faults by id."""
        return {each.id: each for each in self.faults}

    @cached_property
    def guide(self) -> dict[str, Guide]:
        """Guides by id."""
        return {each.id: each for each in self.guides}

    @cached_property
    def studio_test(self) -> dict[str, StudioTest]:
        """Studio tests by id."""
        return {each.id: each for each in self.studio_tests}

    @cached_property
    def source(self) -> dict[str, Source]:
        """Sources by id."""
        return {each.id: each for each in self.sources}

    def lineage(self, substance_id: str) -> tuple[Substance, ...]:
        """A substance and the groups it belongs to; nothing for an id there is no substance of."""
        substance = self.substance.get(substance_id)
        if substance is None:
            return ()
        groups = (self.substance.get(each) for each in substance.member_of)
        return (substance, *(each for each in groups if each is not None))

    def classes_of(self, substance: Substance) -> tuple[HazardClass, ...]:
        """A substance's own classes and, for places where it has none of its own, those of its groups.

        A group entry of a list covers a compound only while the list has no entry of its own for it;
        what suppliers or we say of the compound takes nothing away, nor does what is only remembered.
        """
        own = substance.hazards.classes
        places = {each.place for each in own if each.standing in LISTED and not each.remembered}
        _, *groups = self.lineage(substance.id)
        lent = (
            each
            for group in groups
            for each in group.hazards.classes
            if each.place not in places and substance.id not in each.excepts
        )
        return (*own, *lent)

    def limits_of(self, substance: Substance) -> tuple[Limit, ...]:
        """A substance's own limits and those of its groups."""
        _, *groups = self.lineage(substance.id)
        lent = (each for group in groups for each in group.limits if substance.id not in each.excepts)
        return (*substance.limits, *lent)

    def vocabulary(self, kind: str) -> Vocabulary | None:
        """The vocabulary of a kind (`glossary`, `hues`, `families`, `lists`), or None."""
        return next((each for each in self.vocabularies if each.kind == kind), None)

    @cached_property
    def latest_check(self) -> str | None:
        """The newest `checked` date of any entry, the builds' idea of today."""
        held: tuple[Entity | Source | StudioPolicy | Advice, ...] = (
            *self.things,
            *self.sources,
            *self.policies,
            *self.advices,
        )
        dates = [each.checked for each in held if each.checked]
        return max(dates, default=None)

    @cached_property
    def _by_name(self) -> dict[str, list[Entity]]:
        index: dict[str, list[Entity]] = {}
        for thing in self.things:
            for name in dict.fromkeys(fold(each) for each in names_of(thing)):
                index.setdefault(name, []).append(thing)
        return index

    def find(self, words: str) -> tuple[Entity, ...]:
        """Everything that goes under exactly these words: id, name, alias, C.I. name or number,
        CAS, formula; case, spaces, hyphens and the letters "C.I." do not matter.

        Parameters: `words`, what someone typed or read on a jar. Returns matches, pigments first.
        """
        return tuple(self._by_name.get(fold(_bare_code(words)), ()))

    def nearest(self, words: str) -> tuple[Entity, ...]:
        """Up to three things whose names look most like the words, for "did you mean"."""
        return tuple(
            dict.fromkeys(thing for name in nearest(words, self._by_name, 3) for thing in self._by_name[name])
        )[:3]


def _bare_code(words: str) -> str:
    return re.sub(r"^\s*c\.?\s*i\.?\s+(?:pigment\s+)?", "", words, flags=re.IGNORECASE)


def names_of(thing: Any) -> Iterator[str]:
    """Every name, code and number a thing goes under, as written."""
    yield thing.id
    yield thing.name
    yield from thing.aliases
    if isinstance(thing, Pigment):
        if thing.colour_index is not None:
            yield from thing.colour_index.names
            yield from thing.colour_index.numbers
        yield from (each.number for each in thing.cas)
    if isinstance(thing, Substance):
        yield from (each.number for each in (*thing.cas, *thing.ec))
        if thing.formula is not None:
            yield thing.formula

"""What the pages on harm list: who carries a statement, limits, waste, people, rooms, what is not known."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from mullbook.derive.results import Derived, DerivedPigment, DustLimit, Safety, Screened
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment, Substance
from mullbook.model.values import Limit
from mullbook.model.values.policy import Person
from mullbook.render.gaps import Gap, gaps

Jar = Pigment | Binder | Additive


@dataclass(frozen=True, slots=True)
class Carrier:
    """Something that carries a hazard statement in some places."""

    kind: str
    id: str
    name: str
    category: str
    places: str
    remembered: bool


@dataclass(frozen=True, slots=True)
class Leached:
    """One element of one pigment in its waste: the content of the wet paint and what may reach the level."""

    pigment: Pigment
    screens: tuple[Screened, ...]

    @property
    def first(self) -> Screened:
        """The element, its number and level."""
        return self.screens[0]

    @property
    def exceeding(self) -> list[str]:
        """Kinds of waste whose extract may reach the level."""
        return [each.waste for each in self.screens if each.may_exceed]


class Harm:
    """Lists over the whole catalogue, each made when a page asks for it."""

    def __init__(self, catalogue: Catalogue, derived: Derived) -> None:
        self._catalogue = catalogue
        self._derived = derived

    @cached_property
    def statements(self) -> dict[str, list[Carrier]]:
        """Statement code to everything that carries it: pigments, products, then substances as published."""
        found: dict[str, dict[tuple[str, str], Carrier]] = {}
        for code, carrier in (*self._of_jars(), *self._of_substances()):
            held = found.setdefault(code, {})
            key = (carrier.kind, carrier.id)
            before = held.get(key)
            if before is None:
                held[key] = carrier
                continue
            places = ", ".join(dict.fromkeys((*before.places.split(", "), *carrier.places.split(", "))))
            held[key] = Carrier(
                carrier.kind,
                carrier.id,
                carrier.name,
                before.category,
                places,
                before.remembered and carrier.remembered,
            )
        return {code: list(found[code].values()) for code in sorted(found)}

    def _safeties(self) -> Iterator[tuple[Jar, Safety]]:
        for pigment in self._catalogue.pigments:
            yield pigment, self._derived.pigments[pigment.id].safety
        for product in self._catalogue.products:
            yield product, self._derived.products[product.id]

    def _of_jars(self) -> Iterator[tuple[str, Carrier]]:
        for thing, safety in self._safeties():
            for each in (*safety.classes, *safety.elsewhere):
                yield (
                    each.statement,
                    Carrier(
                        thing.kind_name, thing.id, thing.name, each.category, each.place, each.remembered
                    ),
                )
            for notice in safety.supplements:
                if notice.code is not None:
                    place = self._catalogue.classification.jurisdiction
                    yield (
                        notice.code,
                        Carrier(thing.kind_name, thing.id, thing.name, "", place, notice.remembered),
                    )

    def _of_substances(self) -> Iterator[tuple[str, Carrier]]:
        for substance in self._catalogue.substances:
            for each in self._catalogue.classes_of(substance):
                yield (
                    each.statement,
                    Carrier(
                        "substance", substance.id, substance.name, each.category, each.place, each.remembered
                    ),
                )

    @cached_property
    def limits(self) -> list[tuple[Substance, Limit]]:
        """Every published limit with the substance or group it stands under, by name."""
        held = ((each, limit) for each in self._catalogue.substances for limit in each.limits)
        return sorted(
            held, key=lambda row: (row[0].name.casefold(), row[1].jurisdiction, row[1].list, row[1].type)
        )

    @cached_property
    def routes(self) -> list[tuple[str, list[Pigment]]]:
        """Waste route to the pigments that go that way, in the order of the policy."""
        held = self._derived.pigments
        return [
            (
                route,
                [
                    each
                    for each in self._catalogue.pigments
                    if (waste := held[each.id].safety.waste) is not None and waste.id == route
                ],
            )
            for route in self._catalogue.policy.waste
        ]

    @cached_property
    def leached(self) -> list[Leached]:
        """Pigments with an element of the leaching test, most concentrated first within each element."""
        rows = []
        for pigment in self._catalogue.pigments:
            drain = self._derived.pigments[pigment.id].safety.beside.drain
            by_element: dict[str, list[Screened]] = {}
            for each in drain.screens if drain else ():
                by_element.setdefault(each.element, []).append(each)
            rows += [Leached(pigment, tuple(screens)) for screens in by_element.values()]
        return sorted(rows, key=lambda row: (row.first.number, -row.first.content, row.pigment.name))

    @cached_property
    def persons(self) -> list[tuple[Person, list[tuple[Jar, str]]]]:
        """Each person of the policy with what is not for them and why."""
        return [
            (
                person,
                [
                    (thing, each.because)
                    for thing, safety in self._safeties()
                    for each in safety.not_for
                    if each.id == person.id
                ],
            )
            for person in self._catalogue.policy.persons
        ]

    @cached_property
    def rooms(self) -> list[tuple[Pigment, DustLimit, float]]:
        """Pigments with a limit on their dust and the mg that fill a room of 1 m3 to it, least first."""
        rows = []
        for pigment in self._catalogue.pigments:
            limit = self._found(pigment).safety.shown_limit
            if limit is not None:
                rows.append((pigment, limit, limit.reckoned))
        return sorted(rows, key=lambda row: (row[2], row[0].name))

    def _found(self, pigment: Pigment) -> DerivedPigment:
        return self._derived.pigments[pigment.id]

    @cached_property
    def gaps(self) -> list[Gap]:
        """Each kind of safety datum that is missing, with the entries that lack it."""
        return list(gaps(self._catalogue, self._derived))

    def iarc(self, found: Iterable[str]) -> list[Substance]:
        """Of substances by id, those that IARC has judged."""
        held = (self._catalogue.substance.get(each) for each in found)
        return [each for each in held if each is not None and each.iarc is not None]

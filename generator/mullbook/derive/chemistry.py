"""What a pigment's chemistry says of each attack, and of binders its entry says nothing of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from mullbook.derive.practice_results import ByClass, Chemistry, ClassSays
from mullbook.derive.results import Part
from mullbook.model.catalogue import Catalogue
from mullbook.model.chemistry import (
    SHARE_FROM,
    STRICTNESS,
    ChemistryClass,
    Medium,
    strictest,
)
from mullbook.model.entities import Binder, Pigment, Vocabulary

KIND = "chemistry"
"""Kind of the vocabulary that holds the classes."""
ROLES = ("impurity", "extender", "colourant")
"""What a constituent may be, the least first: a sentence is taken from the class of what colours."""


def chemistry_of(catalogue: Catalogue, pigment: Pigment, parts: Iterable[Part]) -> Chemistry:
    """The classes of one pigment, what each attack does to it, and verdicts for binders by class.

    Parameters: the catalogue; `pigment`; `parts`, its constituents with their groups. What the entry itself
    says of a binder stands; a verdict by class is given only for the others, and is never milder than what
    the entry says of the binders that the medium names as kin.
    """
    book = catalogue.vocabulary(KIND)
    weighed = list(_classes(book, pigment, parts)) if book else []
    if book is None or not weighed:
        return Chemistry()
    classes = tuple(each for _, each in sorted(weighed, key=lambda pair: -pair[0]))
    said = {each.id: found for each in book.attacks if (found := _says(classes, each.id)) is not None}
    return Chemistry(
        classes=tuple(each.id for _, each in weighed),
        said=said,
        binders=dict(_binders(catalogue, book, pigment, said)),
    )


def medium_of(book: Vocabulary, binder: Binder) -> Medium | None:
    """The medium a binder belongs to: where it is named, else where its kind is."""
    named = (each for each in book.media if binder.id in each.binders)
    by_kind = (each for each in book.media if binder.kind in each.kinds)
    return next(named, None) or next(by_kind, None)


def _classes(
    book: Vocabulary, pigment: Pigment, parts: Iterable[Part]
) -> Iterator[tuple[int, ChemistryClass]]:
    """Each class of a pigment, with the weight of what puts it there: what colours it weighs most."""
    held: dict[str, int] = {}
    for part in parts:
        if part.share.high >= SHARE_FROM:
            for name in (part.substance, *part.groups):
                held[name] = max(held.get(name, 0), ROLES.index(part.role))
    for each in book.classes:
        weights = [held[name] for name in each.substances if name in held]
        if pigment.id in each.pigments:
            weights.append(len(ROLES))
        if weights and pigment.id not in each.excepts:
            yield max(weights), each


def _says(classes: tuple[ChemistryClass, ...], attack: str) -> ClassSays | None:
    """The strictest that any of its classes says of an attack; of those as strict, the first."""
    held = [(each, verdict) for each in classes if (verdict := each.against(attack)) is not None]
    if not held:
        return None
    found, verdict = max(held, key=lambda pair: STRICTNESS.index(pair[1].verdict))
    return ClassSays(class_id=found.id, name=found.name, verdict=verdict)


def _binders(
    catalogue: Catalogue, book: Vocabulary, pigment: Pigment, said: Mapping[str, ClassSays]
) -> Iterator[tuple[str, ByClass]]:
    entered = {each.binder: each for each in pigment.suitability}
    for binder in catalogue.binders:
        medium = medium_of(book, binder)
        if binder.id in entered or medium is None or medium.attacks[0] not in said:
            continue
        found = max(
            (said[each] for each in medium.attacks if each in said),
            key=lambda each: STRICTNESS.index(each.verdict.verdict),
        )
        verdict, because = found.verdict.verdict, found.verdict.mechanism
        kin = None
        for each in (entered[name] for name in medium.kin if name in entered):
            if strictest(verdict, each.verdict) != verdict:
                verdict, because, kin = each.verdict, each.mechanism, each.binder
        yield (
            binder.id,
            ByClass(
                verdict=verdict,
                because=because,
                class_id=found.class_id,
                attack=found.verdict.attack,
                kin=kin,
            ),
        )

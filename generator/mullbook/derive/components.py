"""From the parts of a powder or product to the components of a mixture, and to the classes they give."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mullbook.derive.composition import is_unknown, traits_of
from mullbook.derive.results import FoundClass, Part
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import HazardClass, Quantity, Range
from mullbook.model.values.ruleset import ClassFound, Classification, Component
from mullbook.science.mixture import mixture_classes

SILICA = "crystalline-silica"
STANDS_ALONE = "does-not-add-up"
"""Trait of acids, bases and the like that corrode at shares too small to add up with others."""
ACTIVE_ROLES = ("solids", "active")
"""Roles of constituents that make the pH of a product."""


def needs_dust(found: HazardClass) -> bool:
    """Whether a class acts only through dust in the air."""
    return (
        found.route == "inhalation"
        or found.hazard == "acute-toxicity-inhalation"
        or found.statement.endswith("i")
        or found.statement == "H335"
    )


def components(
    catalogue: Catalogue,
    found: Iterable[Part],
    *,
    own_place: bool | None,
    scale: float = 1.0,
    wet: bool = False,
    without_silica: bool = False,
    ph: Range | None = None,
) -> list[Component]:
    """The components of a mixture, each part at the most it may be.

    Parameters: `found`, the parts; `own_place`, whether classes of the studio's own places count (True),
    those of all others (False) or all (None); `scale`, the part of the mixture that the parts make up;
    `wet`, leave out classes that need dust; `without_silica`, leave crystalline silica to its own row of
    the policy; `ph` of the product the parts come from.
    """
    return [
        Component(
            name=part.name,
            share=part.share.high * scale,
            classes=_counted(catalogue, part, own_place, wet),
            elements=part.elements,
            known=not is_unknown(catalogue, part),
            ph=ph if part.role in ACTIVE_ROLES else None,
            adds_up=STANDS_ALONE not in traits_of(catalogue, part.substance),
        )
        for part in found
        if part.substance in catalogue.substance
        and not (without_silica and SILICA in traits_of(catalogue, part.substance))
    ]


def _counted(catalogue: Catalogue, part: Part, own_place: bool | None, wet: bool) -> tuple[HazardClass, ...]:
    return tuple(
        each
        for each in catalogue.classes_of(catalogue.substance[part.substance])
        if own_place in (None, is_own(catalogue, each)) and not (wet and needs_dust(each))
    )


def is_own(catalogue: Catalogue, hazard: HazardClass) -> bool:
    """Whether a class holds in the studio's place, or in that of the rules in force."""
    return hazard.place in catalogue.own_places


def found_classes(
    catalogue: Catalogue,
    found: Iterable[Part],
    *,
    own_place: bool,
    scale: float = 1.0,
    wet: bool = False,
    without_silica: bool = False,
    ph: Range | None = None,
) -> tuple[FoundClass, ...]:
    """Classes of a mixture by the rules in force; parameters as for `components`."""
    made = components(
        catalogue,
        found,
        own_place=own_place,
        scale=scale,
        wet=wet,
        without_silica=without_silica,
        ph=ph if own_place else None,
    )
    rules = catalogue.classification
    classes = mixture_classes(made, rules, ph if own_place else None)
    return tuple(as_found(catalogue, each, rules, own_place) for each in classes)


def as_found(catalogue: Catalogue, each: ClassFound, rules: Classification, own_place: bool) -> FoundClass:
    """A class the rules gave, with its text and the place where it holds."""
    own = ", ".join(place for place in catalogue.own_places if place in each.places)
    return FoundClass(
        hazard=each.hazard,
        category=each.category,
        statement=each.statement,
        text=statement_text(catalogue, each.statement, rules),
        place=own or rules.jurisdiction if own_place else ", ".join(each.places) or "elsewhere",
        why=f"{each.figures} ({each.rule})",
        rule=each.rule,
        remembered=each.remembered,
    )


def statement_text(catalogue: Catalogue, code: str, rules: Classification | None = None) -> str:
    """The text of a statement in a ruleset, else in the one in force, else its code."""
    tables = (*(() if rules is None else (rules,)), *catalogue.classifications)
    return next((each.text for table in tables for each in table.statements if each.code == code), code)


def stated_classes(
    catalogue: Catalogue, given: Iterable[HazardClass], own_place: bool
) -> Iterator[FoundClass]:
    """Classes that an entry states for the whole product, for the studio's own places or for others."""
    for each in given:
        if is_own(catalogue, each) == own_place:
            yield FoundClass(
                hazard=each.hazard,
                category=each.category,
                statement=each.statement,
                text=statement_text(catalogue, each.statement),
                place=each.place,
                why=f"stated for the product, {each.standing.replace('-', ' ')}",
                remembered=each.remembered,
            )


def stated_component(
    name: str, stated: Iterable[HazardClass], made: Iterable[Component], share: float = 1.0
) -> list[Component]:
    """What an entry states of a whole product and its parts do not explain, as one more component.

    Parameters: `name` of the product; `stated`; `made`, the components of its parts; `share` of the product.
    """
    explained = {each.hazard for part in made for each in part.classes}
    left = tuple(each for each in stated if each.hazard not in explained)
    return [Component(name=name, share=share, classes=left)] if left else []


def once(classes: Iterable[FoundClass]) -> tuple[FoundClass, ...]:
    """Each class, category and statement once; what the parts give stands before what is stated."""
    kept: dict[tuple[str, str, str], FoundClass] = {}
    for each in classes:
        kept.setdefault((each.hazard, each.category, each.statement), each)
    return tuple(kept.values())


def as_classes(classes: Iterable[FoundClass]) -> list[ClassFound]:
    """Found classes as the rules on labels take them."""
    return [
        ClassFound(
            hazard=each.hazard, category=each.category, statement=each.statement, rule="", figures=each.why
        )
        for each in classes
    ]


def ph_range(ph: Quantity | None) -> Range | None:
    """The pH of a product as a closed range; an open end is taken at that end alone."""
    if ph is None:
        return None
    low, high = ph.ends
    ends = [each for each in (low, high) if each is not None]
    return Range(min(ends), max(ends)) if ends else None

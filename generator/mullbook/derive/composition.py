"""From an entry's constituents to shares, elements and groups."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from mullbook.derive.results import Part
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Substance
from mullbook.model.facts import Constituent
from mullbook.model.values import Quantity, Range
from mullbook.science.chemistry import element_fractions

UNKNOWN = "unknown"


def share_range(share: Quantity) -> Range:
    """The closed range of a share by mass; an open end is taken at 0 or 1."""
    low, high = share.ends
    return Range(0.0 if low is None else low, 1.0 if high is None else high)


@cache
def elements_of(formula: str | None) -> dict[str, float]:
    """Mass fraction of each element in a formula; empty when there is none or it cannot be read."""
    if formula is None:
        return {}
    try:
        return dict(element_fractions(formula))
    except ValueError:
        return {}


def parts(catalogue: Catalogue, constituents: Iterable[Constituent]) -> tuple[Part, ...]:
    """The constituents with shares, groups and elements, largest share first.

    A constituent that names no known substance counts as an unknown one, never as nothing.
    """
    found = (_part(catalogue.substance.get(each.substance), each) for each in constituents)
    return tuple(sorted(found, key=lambda part: (-part.share.high, part.substance)))


def _part(substance: Substance | None, constituent: Constituent) -> Part:
    return Part(
        substance=constituent.substance,
        name=substance.name if substance else constituent.substance,
        role=constituent.role,
        share=share_range(constituent.share),
        groups=substance.member_of if substance else (),
        elements=elements_of(substance.formula) if substance else {},
    )


def is_unknown(catalogue: Catalogue, part: Part) -> bool:
    """Whether nothing is known of a part's hazards: an unknown substance, or one never searched."""
    substance = catalogue.substance.get(part.substance)
    return substance is None or substance.kind == UNKNOWN or not _looked_up(catalogue, substance)


def _looked_up(catalogue: Catalogue, substance: Substance) -> bool:
    """Whether anyone looked a substance up: classes that are only remembered do not make it a known one."""
    classes = catalogue.classes_of(substance)
    if classes and all(each.remembered for each in classes):
        return bool(substance.hazards.searched)
    return status_of(catalogue, substance) != "not-known"


def status_of(catalogue: Catalogue, substance: Substance) -> str:
    """A substance's hazard status, its groups' classes counted as its own."""
    return "classified" if catalogue.classes_of(substance) else substance.hazards.status


def unknown_share(catalogue: Catalogue, found: Iterable[Part]) -> float:
    """The largest part of the powder of which nothing is known, as a fraction."""
    return min(1.0, sum(part.share.high for part in found if is_unknown(catalogue, part)))


def element_share(found: Iterable[Part], element: str) -> float:
    """The largest share of one element in the powder, as a fraction by mass.

    Formula: sum over the constituents of (high end of the share x mass fraction in the formula).
    """
    return min(1.0, sum(part.share.high * part.elements.get(element, 0.0) for part in found))


def group_share(found: Iterable[Part], group: str) -> float:
    """The largest share of the members of a group, as a fraction by mass."""
    return min(1.0, sum(part.share.high for part in found if group in (*part.groups, part.substance)))


def trait_share(catalogue: Catalogue, found: Iterable[Part], trait: str) -> float:
    """The largest share of substances with a trait, as a fraction by mass."""
    return min(1.0, sum(part.share.high for part in found if trait in traits_of(catalogue, part.substance)))


def traits_of(catalogue: Catalogue, substance_id: str) -> tuple[str, ...]:
    """The traits of a substance and of the groups it belongs to."""
    return tuple(trait for each in catalogue.lineage(substance_id) for trait in each.traits)


def searched_lists(catalogue: Catalogue, found: Iterable[Part], what: str) -> tuple[str, ...]:
    """The lists searched for every known constituent: `what` is `searched` or `limits_searched`."""
    lists = [
        frozenset(name for each in catalogue.lineage(part.substance) for name in _searched(each, what))
        for part in found
        if part.substance in catalogue.substance
    ]
    return tuple(sorted(frozenset.intersection(*lists))) if lists else ()


def _searched(substance: Substance, what: str) -> tuple[str, ...]:
    return substance.hazards.searched if what == "searched" else substance.limits_searched

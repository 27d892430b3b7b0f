"""Classes of a mixture from those of its components, by the rules of a ruleset.

A draft, not a regulatory classification: bridging principles and test data are not applied.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from mullbook.model.values import Range
from mullbook.model.values.hazard import HazardClass
from mullbook.model.values.ruleset import ClassFound, Classification, Component, MixtureRule, Term
from mullbook.science.acute import acute_classes
from mullbook.science.corrosive import corrosive_classes
from mullbook.science.formula import number_text

SEVERITY = ("1A", "1B", "1C", "1", "2", "2A", "2B", "3", "4", "lactation")
"""Categories, most severe first; a plain 1 gives way to its parts, which say more on the same label."""

BESIDE = {("stot-single", "3"), ("reproductive-toxicity", "lactation")}
"""Categories that name an effect of their own and stay beside a more severe category."""


def mixture_classes(
    components: Sequence[Component], rules: Classification, ph: Range | None = None
) -> list[ClassFound]:
    """Classes of a mixture, each with the rule and the figures that gave it.

    A component at its own specific limit gives its class; without one the generic cut-off counts. Weighted
    sums count components from their generic cut-off on. Acute toxicity goes by estimates; an extreme pH, and
    parts that do not add up, count by themselves. Of each class only the most severe category stays.

    Parameters: `components` with shares by mass; `rules`, a classification ruleset; `ph` of the mixture,
    where known.
    Returns the classes in alphabetical order; the order of the components does not matter.
    Source: the ruleset's own rows, named in each result.
    """
    ordered = sorted(components, key=lambda component: (component.name, component.share))
    found: list[ClassFound] = []
    for component in ordered:
        found.extend(_own_limits(component))
    for rule in rules.mixture_rules:
        found.extend(_by_any(ordered, rule) if rule.counts == "any" else _by_sum(ordered, rule, rules))
    found.extend(acute_classes(ordered, rules))
    found.extend(corrosive_classes(ordered, rules, ph))
    return most_severe(_merged(found))


def most_severe(found: Iterable[ClassFound]) -> list[ClassFound]:
    """Keep of each hazard only the most severe category, with every statement of it, in order.

    >>> two = [ClassFound(hazard="carcinogenicity", category=c, statement=s, rule="", figures="")
    ...        for c, s in (("2", "H351"), ("1A", "H350"))]
    >>> [each.category for each in most_severe(two)]
    ['1A']
    """
    kept = list(found)
    worst: dict[str, int] = {}
    for each in kept:
        if (each.hazard, each.category) not in BESIDE:
            worst[each.hazard] = min(severity(each.category), worst.get(each.hazard, len(SEVERITY)))
    stay = [
        each
        for each in kept
        if (each.hazard, each.category) in BESIDE or severity(each.category) == worst[each.hazard]
    ]
    return sorted(stay, key=lambda each: (each.hazard, severity(each.category), each.statement))


def severity(category: str) -> int:
    """Rank of a category, most severe first; one we do not know counts as most severe."""
    return SEVERITY.index(category) if category in SEVERITY else 0


@dataclass(frozen=True, slots=True)
class _Counted:
    """What one class of one component puts on the scale."""

    name: str
    hazard: HazardClass
    amount: float
    words: str


def share_of(component: Component, hazard: HazardClass) -> tuple[float, str]:
    """Return the share that counts for a class, as the metal where its note says so, and the sum in words."""
    words = f"{component.name} {number_text(component.share)}"
    if not hazard.metal_basis or hazard.as_element is None:
        return component.share, words
    part = component.elements.get(hazard.as_element)
    if part is None:
        return component.share, f"{words} (content of {hazard.as_element} not known, taken as all of it)"
    share = component.share * part
    return share, f"{words} × {number_text(part)} {hazard.as_element} = {number_text(share)}"


def _stated(hazard: HazardClass) -> Iterator[tuple[str, str, float]]:
    """Yield category, statement and share of each limit that a class states for itself."""
    own = hazard.specific_limit
    for limit in ((own,) if own else ()) + hazard.lesser_categories:
        yield limit.category or hazard.category, limit.statement or hazard.statement, limit.at_least


def _own_limits(component: Component) -> Iterator[ClassFound]:
    """Yield the classes a component gives at its own specific limits."""
    for hazard in component.classes:
        share, words = share_of(component, hazard)
        for category, statement, at_least in _stated(hazard):
            if share >= at_least:
                yield ClassFound(
                    hazard=hazard.hazard,
                    category=category,
                    statement=statement,
                    rule=f"specific limit {percent(at_least)} of {component.name}",
                    figures=f"{words}, limit {number_text(at_least)}",
                    remembered=hazard.remembered,
                    places=(hazard.place,),
                )


def _by_any(components: Sequence[Component], rule: MixtureRule) -> Iterator[ClassFound]:
    """Yield what a rule on any one component gives, by statement."""
    gives = rule.gives
    for component in components:
        for hazard in component.classes:
            if (hazard.hazard, hazard.category) != (rule.hazard, rule.category):
                continue
            same = hazard.category == gives.category
            if _replaced(hazard, gives.category):
                continue
            share, words = share_of(component, hazard)
            if share >= rule.at_least:
                yield ClassFound(
                    hazard=gives.hazard,
                    category=gives.category,
                    statement=hazard.statement if same else gives.statement,
                    rule=rule_text(rule),
                    figures=f"{words}, cut-off {number_text(rule.at_least)}",
                    remembered=hazard.remembered,
                    places=(hazard.place,),
                )


def _replaced(hazard: HazardClass, category: str) -> bool:
    """Whether limits of its own stand in place of the generic one for an outcome."""
    stated = {own for own, _, _ in _stated(hazard)}
    return category in stated or (bool(hazard.lesser_categories) and category != hazard.category)


def _by_sum(
    components: Sequence[Component], rule: MixtureRule, rules: Classification
) -> Iterator[ClassFound]:
    """Yield the class a weighted sum gives, if it reaches the rule's share."""
    counted = []
    for component in components:
        amounts = list(_amounts(component, rule, rules))
        if amounts:
            counted.append(max(amounts, key=lambda each: (each.amount, not each.hazard.remembered)))
    total = sum(each.amount for each in counted)
    # Binary fractions must not turn 0.1 + 0.2 against 0.3 into a milder class.
    if not counted or total < rule.at_least * (1 - 1e-9):
        return
    sure = sum(each.amount for each in counted if not each.hazard.remembered)
    gives = rule.gives
    yield ClassFound(
        hazard=gives.hazard,
        category=gives.category,
        statement=gives.statement,
        rule=rule_text(rule),
        figures=f"{' + '.join(each.words for each in counted)} = {number_text(total)}, "
        f"limit {number_text(rule.at_least)}",
        remembered=sure < rule.at_least * (1 - 1e-9),
        places=tuple(sorted({each.hazard.place for each in counted})),
    )


def _amounts(component: Component, rule: MixtureRule, rules: Classification) -> Iterator[_Counted]:
    """Yield what each class of a component adds to a sum.

    Where the class states a limit of its own for the outcome, its share is scaled so that it reaches the
    sum's limit just when it reaches its own.
    """
    for hazard in component.classes:
        share, words = share_of(component, hazard)
        if share < _counted_from(hazard, rules):
            continue
        own = _own_limit(hazard, rule.gives.category)
        for term in rule.terms:
            if not _fits(hazard, term):
                continue
            if own is not None and term.hazard == rule.gives.hazard:
                amount = share * rule.at_least / own
                yield _Counted(
                    component.name, hazard, amount, f"{words} × {number_text(rule.at_least / own)}"
                )
                continue
            m = (hazard.m_factor or 1.0) if term.m_factor else 1.0
            weight = term.weight * m
            told = words if weight == 1 else f"{words} × {number_text(weight)}"
            yield _Counted(component.name, hazard, share * weight, told)


def _own_limit(hazard: HazardClass, category: str) -> float | None:
    """Return the share at which a class says of itself that it gives a category, or a part of it."""
    stated = [(own, limit) for own, _, limit in _stated(hazard)]
    exact = [limit for own, limit in stated if own == category]
    return min(exact or [limit for own, limit in stated if own[0] == category[0]], default=None)


def _fits(hazard: HazardClass, term: Term) -> bool:
    return (
        hazard.hazard == term.hazard
        and hazard.category in term.categories
        and (not term.statements or hazard.statement in term.statements)
    )


def _counted_from(hazard: HazardClass, rules: Classification) -> float:
    """Share from which a class counts in sums: the generic cut-off or a lower limit of its own."""
    return min([rules.cut_off(hazard), *(limit for _, _, limit in _stated(hazard))])


def _merged(found: Iterable[ClassFound]) -> list[ClassFound]:
    """Join what several components or rules say of one class, category and statement."""
    merged: dict[tuple[str, str, str], ClassFound] = {}
    for each in found:
        key = (each.hazard, each.category, each.statement)
        before = merged.get(key)
        if before is None:
            merged[key] = each
            continue
        merged[key] = replace(
            before,
            rule=_joined(before.rule, each.rule),
            figures=_joined(before.figures, each.figures),
            remembered=before.remembered and each.remembered,
            places=tuple(sorted({*before.places, *each.places})),
        )
    return list(merged.values())


def _joined(first: str, second: str) -> str:
    return first if second in first.split("; ") else f"{first}; {second}"


def percent(share: float) -> str:
    """Return a share as a percentage.

    >>> percent(0.003)
    '0.3 %'
    """
    return f"{number_text(share * 100)} %"


def rule_text(rule: MixtureRule) -> str:
    """Return a rule in words, with its place in the law."""
    of = "in one component" if rule.counts == "any" else "in all, weighted,"
    return f"at least {percent(rule.at_least)} {of} gives category {rule.gives.category}" + (
        f" ({rule.at})" if rule.at else ""
    )

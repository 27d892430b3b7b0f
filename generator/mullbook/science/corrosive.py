"""Skin and eye classes that do not come of adding up: extreme pH, strong acids and bases."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from mullbook.model.values import Range
from mullbook.model.values.hazard import HazardClass
from mullbook.model.values.ruleset import ClassFound, Classification, Component, NonAdditive, Outcome
from mullbook.science.formula import number_text


def corrosive_classes(
    components: Sequence[Component], rules: Classification, ph: Range | None = None
) -> Iterator[ClassFound]:
    """Yield what the pH of the mixture, and parts that do not add up, give it.

    An acid or base counts by its pH whatever its classes; another part only where it is marked as not
    adding up. A part with limits of its own for the class is judged by those alone. Where a pH is a range
    its worse end counts. Acid or alkaline reserve and tests, which may show less, are not weighed.

    Parameters: `components` with shares by mass; `rules`, a classification ruleset; `ph` of the mixture.
    Source: the ruleset's own rows, named in each result.
    """
    if rules.extreme_ph is not None and ph is not None:
        extreme = rules.extreme_ph
        words = _extreme(ph, extreme.acid_up_to, extreme.base_from)
        if words is not None:
            for gives in extreme.gives:
                yield _found(gives, f"a mixture of {words} ({extreme.at})", f"pH {_ph_text(ph)}")
    for rule in rules.non_additive:
        for component in components:
            found = _by_itself(component, rule)
            if found is not None:
                yield found


def _by_itself(component: Component, rule: NonAdditive) -> ClassFound | None:
    """Return what one component gives by one rule, if anything."""
    if component.share < rule.at_least or _has_own_limit(component.classes, rule.gives.hazard):
        return None
    words = f"{component.name} {number_text(component.share)}, limit {number_text(rule.at_least)}"
    from_on = f"from {number_text(rule.at_least * 100)} % on ({rule.at})"
    if rule.acid_up_to is not None or rule.base_from is not None:
        if component.ph is None:
            return None
        told = _extreme(component.ph, rule.acid_up_to, rule.base_from)
        return None if told is None else _found(rule.gives, f"a part of {told} counts {from_on}", words)
    asked = [each for each in component.classes if _is_of(each, rule)]
    if component.adds_up or not asked:
        return None
    sure = [each for each in asked if not each.remembered]
    return _found(
        rule.gives, f"a part that does not add up counts {from_on}", words, asked, remembered=not sure
    )


def _is_of(hazard: HazardClass, rule: NonAdditive) -> bool:
    return hazard.hazard == rule.hazard and hazard.category in rule.categories


def _has_own_limit(classes: Iterable[HazardClass], hazard: str) -> bool:
    return any(
        each.hazard == hazard and (each.specific_limit is not None or each.lesser_categories)
        for each in classes
    )


def _extreme(ph: Range, acid_up_to: float | None, base_from: float | None) -> str | None:
    """Return in words which bound a pH reaches, or None."""
    if acid_up_to is not None and ph.low <= acid_up_to:
        return f"pH {number_text(acid_up_to)} or less"
    if base_from is not None and ph.high >= base_from:
        return f"pH {number_text(base_from)} or more"
    return None


def _ph_text(ph: Range) -> str:
    return number_text(ph.low) if ph.is_point else f"{number_text(ph.low)} to {number_text(ph.high)}"


def _found(
    gives: Outcome,
    rule: str,
    figures: str,
    classes: Iterable[HazardClass] = (),
    *,
    remembered: bool = False,
) -> ClassFound:
    return ClassFound(
        hazard=gives.hazard,
        category=gives.category,
        statement=gives.statement,
        rule=rule,
        figures=figures,
        remembered=remembered,
        places=tuple(sorted({each.place for each in classes})),
    )

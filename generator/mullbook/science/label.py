"""Label elements of a classified thing: signal word, pictograms and statements, after precedence."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from mullbook.model.values.hazard import HazardClass
from mullbook.model.values.ruleset import ClassFound, LabelElement, Precedence

SIGNAL_WORDS = ("Danger", "Warning")
"""Signal words, the stronger first; the stronger excludes the weaker."""


def label_elements(
    classes: Iterable[ClassFound | HazardClass],
    elements: Sequence[LabelElement],
    precedence: Sequence[Precedence],
) -> tuple[str | None, tuple[str, ...]]:
    """Signal word and pictograms of a set of classes, after precedence.

    A pictogram is dropped only where every class that asks for it is covered by a rule.

    Parameters: `classes`; `elements`, what each class and category asks for; `precedence`, the rules.
    Returns the signal word (None where no class asks for one) and the pictograms in order.
    Source: the ruleset's rows on precedence.
    """
    asked = [found for each in classes if (found := element_for(each, elements)) is not None]
    words = {element.signal_word for element in asked}
    signal_word = next((word for word in SIGNAL_WORDS if word in words), None)
    reasons: dict[str, set[str]] = {}
    for element in asked:
        if element.pictogram:
            reasons.setdefault(element.pictogram, set()).add(element.hazard)
    left = {pictogram: _left(pictogram, reasons, precedence) for pictogram in reasons}
    return signal_word, tuple(sorted(pictogram for pictogram, why in left.items() if why))


def label_statements(statements: Iterable[str], precedence: Sequence[Precedence]) -> tuple[str, ...]:
    """Hazard statements without those that a stronger one makes needless, in order.

    >>> label_statements(["H400", "H410"], [Precedence(kind="statement", present="H410", drops="H400")])
    ('H410',)
    """
    present = set(statements)
    dropped = {rule.drops for rule in precedence if rule.kind == "statement" and rule.present in present}
    return tuple(sorted(present - dropped))


def element_for(each: ClassFound | HazardClass, elements: Sequence[LabelElement]) -> LabelElement | None:
    """Return the label element of a class and category; a row naming its statement goes first."""
    rows = [row for row in elements if (row.hazard, row.category) == (each.hazard, each.category)]
    named = [row for row in rows if row.statement == each.statement]
    return next(iter(named), None) or next((row for row in rows if row.statement is None), None)


def _left(pictogram: str, reasons: Mapping[str, set[str]], precedence: Sequence[Precedence]) -> set[str]:
    """Return the classes that still ask for a pictogram when every rule has been applied."""
    left = set(reasons[pictogram])
    for rule in precedence:
        if rule.kind != "pictogram" or rule.drops != pictogram or rule.present not in reasons:
            continue
        if rule.because_of and not reasons[rule.present] & set(rule.because_of):
            continue
        left -= set(rule.for_reasons) if rule.for_reasons else left
    return left

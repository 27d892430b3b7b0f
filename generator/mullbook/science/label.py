"""Label elements of a classified thing: signal word, pictograms and statements, after precedence."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from mullbook.model.values.hazard import HazardClass
from mullbook.model.values.labelling import Label, Notice, NoticeFound, PrecautionChoice
from mullbook.model.values.ruleset import ClassFound, Classification, Component, LabelElement, Precedence
from mullbook.science.acute import unknown_acute_toxicity
from mullbook.science.formula import number_text
from mullbook.science.mixture import percent, share_of

SIGNAL_WORDS = ("Danger", "Warning")
"""Signal words, the stronger first; the stronger excludes the weaker."""

NAMED = "(name of sensitising substance)"
"""What a statement's text leaves open for the component's name."""


def label(
    components: Sequence[Component],
    classes: Sequence[ClassFound],
    rules: Classification,
    *,
    volume: float | None = None,
    public: bool = False,
) -> Label:
    """Draft label of a mixture by the rules of one jurisdiction.

    Parameters: `components` with shares by mass; `classes` of the mixture by the same `rules`; `volume` of
    the pack in ml; `public`, whether it goes to the general public.
    Source: the ruleset's rows on label elements, precedence, supplements and precautions.
    """
    signal_word, pictograms = label_elements(classes, rules.elements, rules.precedence)
    return Label(
        signal_word=signal_word,
        pictograms=pictograms,
        statements=label_statements((each.statement for each in classes), rules.precedence),
        supplements=(*supplements(components, rules, volume), *notices(components, classes, rules)),
        precautions=precautions(classes, rules, public=public),
        unknown=unknown_acute_toxicity(components, rules),
        not_judged=not_judged(components, rules),
    )


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


def not_judged(components: Iterable[Component], rules: Classification) -> tuple[str, ...]:
    """Classes of the components that the ruleset says nothing about, so that silence is never clearance."""
    held = {each.hazard for component in components for each in component.classes}
    return tuple(sorted(held & set(rules.not_judged)))


def precautions(
    classes: Iterable[ClassFound | HazardClass], rules: Classification, *, public: bool = False
) -> tuple[str, ...]:
    """Precautionary statements of a set of classes: at most six, by the ruleset's stated choice.

    Needless ones go first; one on disposal stays; the rest follow the ruleset's order of need.

    Parameters: `classes`; `rules`; `public`, whether the thing goes to the general public.
    Returns the codes in the order of need, none where the ruleset has no choice to make.
    Source: the ruleset's `precautions` and `precaution_choice`.
    """
    choice = rules.precaution_choice
    if choice is None:
        return ()
    asked = {code for each in classes for code in _asked(each, rules)}
    if not asked:
        return ()
    if public:
        asked |= set(choice.public)
    return _chosen(asked - set(choice.leave_out), choice, public)


def _asked(each: ClassFound | HazardClass, rules: Classification) -> Iterator[str]:
    for row in rules.precautions:
        fits = row.hazard == each.hazard and each.category in row.categories
        if fits and row.statement in (None, each.statement):
            yield from (*row.prevention, *row.response, *row.storage, *row.disposal)


def _chosen(asked: set[str], choice: PrecautionChoice, public: bool) -> tuple[str, ...]:
    dropped = {rule.drops for rule in choice.redundant if rule.present in asked}
    ranked = sorted(asked - dropped, key=choice.order.index)
    kept = [code for code in ranked if code in (*choice.always, *(choice.public if public else ()))]
    rest = [code for code in ranked if code not in kept][: choice.most - len(kept)]
    return tuple(sorted((*kept, *rest), key=choice.order.index))


def supplements(
    components: Sequence[Component], rules: Classification, volume: float | None = None
) -> Iterator[NoticeFound]:
    """Yield the statements asked for by what a paint holds, whatever its classes; annulled ones never.

    Parameters: `components` with shares by mass; `rules`; `volume` of the pack in ml, where known.
    """
    texts = {each.code: each.text for each in rules.statements}
    for row in rules.supplements:
        if row.annulled is not None or row.element is None or row.above is None:
            continue
        share = sum(component.share * _element(component, row.element) for component in components)
        if share <= row.above:
            continue
        small = row.small_code is not None and volume is not None and volume < (row.small_below or 0)
        code = row.small_code if small and row.small_code else row.code
        why = f"{row.element} {number_text(share)}, asked for above {percent(row.above)} ({row.at})"
        yield NoticeFound(code=code, text=texts[code], why=why)


def _element(component: Component, element: str) -> float:
    """Mass fraction of an element; all of it where a class counts it and its content is not known."""
    part = component.elements.get(element)
    if part is not None:
        return part
    return 1.0 if any(each.as_element == element for each in component.classes) else 0.0


def notices(
    components: Sequence[Component], classes: Sequence[ClassFound], rules: Classification
) -> Iterator[NoticeFound]:
    """Yield the statements that name components the mixture is not classified for.

    Allergens count from the elicitation limit on: people already sensitised react below the limit that
    classifies. In a mixture classified as sensitising a further allergen is named without the statement.

    Parameters: `components` with shares by mass; `classes` of the mixture by the same `rules`.
    """
    texts = {each.code: each.text for each in rules.statements}
    seen: set[tuple[str, str]] = set()
    for row in rules.notices:
        so_classified = any(not row.hazards or each.hazard in row.hazards for each in classes)
        if row.unless == "classified" and classes:
            continue
        for component in sorted(components, key=lambda each: each.name):
            found = _noticed(component, row)
            key = (row.code, component.name if NAMED in texts[row.code] else "")
            if found is None or key in seen:
                continue
            seen.add(key)
            yield NoticeFound(
                code=None if so_classified else row.code,
                text=f"Contains {component.name}"
                if so_classified
                else texts[row.code].replace(NAMED, component.name),
                why=found[0],
                remembered=found[1],
                named=component.name,
            )


def _noticed(component: Component, row: Notice) -> tuple[str, bool] | None:
    """Return why a component is named by a row, and whether from memory alone, or None."""
    for hazard in sorted(component.classes, key=lambda each: each.remembered):
        if row.hazards and hazard.hazard not in row.hazards:
            continue
        if row.categories and hazard.category not in row.categories:
            continue
        share, words = share_of(component, hazard)
        limit = row.at_least
        if row.of_specific_limit is not None and hazard.specific_limit is not None:
            # Of the general limit and a part of its own limit the lower counts: editions of the law differ.
            limit = min(limit, hazard.specific_limit.at_least * row.of_specific_limit)
        if share >= limit * (1 - 1e-9):
            return f"{words}, named from {percent(limit)} on ({row.at})", hazard.remembered
    return None

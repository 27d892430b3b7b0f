"""What stands beside the verdicts: a careless tip, fire, what heat and acid set free, how often, at home."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mullbook.derive.composition import element_share, trait_share, traits_of
from mullbook.derive.results import Advised, Beside, FoundClass, Part, SetFree
from mullbook.derive.verdict import ELEMENT_NAMES
from mullbook.derive.waste import drain
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Evidence, Input, Range, Working
from mullbook.model.values.advice import Advice, Combustible, GivesOff, Surveillance, Tip
from mullbook.science.registry import evaluate


def beside(
    catalogue: Catalogue,
    found: tuple[Part, ...],
    classes: Iterable[FoundClass],
    *,
    family: str | None = None,
    paint_part: float = 1.0,
) -> Beside:
    """All advice that applies to a powder, or to a product where `family` is None.

    Parameters: `found`, its parts; `classes` of any place; `family` of a pigment; `paint_part`, the mass
    fraction of it in the stated paint.
    """
    advice = catalogue.advice
    if advice is None:
        return Beside()
    held = tuple(classes)
    return Beside(
        tip=_tip(advice.tip) if family is not None else None,
        tip_note=advice.tip.note or "",
        combustible=_combustible(catalogue, advice.combustible, found, family),
        combustible_do=advice.combustible.do,
        set_free=tuple(_set_free(catalogue, advice.gives_off, found, family)),
        frequency=tuple(_frequency(advice, found)),
        take_home=advice.take_home,
        surveillance=tuple(
            each for row in advice.surveillance if (each := _surveyed(catalogue, row, found, held))
        ),
        drain=drain(catalogue, found, paint_part),
    )


def _tip(tip: Tip) -> Working:
    return evaluate(
        "careless_tip",
        {
            "amount": Input("amount", "g", Range.of(tip.amount), None, tip.basis, tip.assumptions[0]),
            "dustiness": Input(
                "dustiness",
                "mg/kg",
                Range(tip.dustiness_low, tip.dustiness_high),
                tip.source,
                tip.basis,
                tip.note,
            ),
        },
    )


def _combustible(
    catalogue: Catalogue, rule: Combustible, found: tuple[Part, ...], family: str | None
) -> Advised | None:
    """What is said of fire; nothing only for a product, which is no dust."""
    if family is None:
        return None
    burning = [part.name for part in found if rule.trait in traits_of(catalogue, part.substance)]
    if burning:
        return _advised(rule, rule.known, ", ".join(burning))
    if family in rule.families:
        return _advised(rule, rule.possible, f"family {family.replace('-', ' ')}")
    return _advised(rule, rule.other)


def _advised(evidence: Evidence, words: str, because: str = "", place: str | None = None) -> Advised:
    return Advised(
        words=words,
        because=because,
        place=place,
        source=evidence.source,
        at=evidence.at,
        basis=evidence.basis,
        note=evidence.note,
    )


def _set_free(
    catalogue: Catalogue, rules: Iterable[GivesOff], found: tuple[Part, ...], family: str | None
) -> Iterator[SetFree]:
    """What heat, acid and alkali set free, each once, with the parts that give it off."""
    told: dict[tuple[str, str], SetFree] = {}
    for rule in rules:
        parts = [part for part in found if part.share.high > 0 and _fits(catalogue, rule, part, family)]
        if not parts:
            continue
        told.setdefault(
            (rule.when, rule.what),
            SetFree(
                when=rule.when,
                words=rule.what,
                because=", ".join(part.name for part in parts),
                source=rule.source,
                at=rule.at,
                basis=rule.basis,
                note=rule.note,
            ),
        )
    yield from told.values()


def _fits(catalogue: Catalogue, rule: GivesOff, part: Part, family: str | None) -> bool:
    if rule.family is not None:
        return rule.family == family
    lineage = {each.id for each in catalogue.lineage(part.substance)}
    if lineage & {*rule.substances, *rule.groups}:
        return True
    return (
        bool(rule.holds)
        and all(part.elements.get(each) for each in rule.holds)
        and not any(part.elements.get(each) for each in rule.lacks)
    )


def _frequency(advice: Advice, found: tuple[Part, ...]) -> Iterator[Advised]:
    for row in advice.frequency:
        held = [each for each in row.elements if element_share(found, each) >= row.share > 0]
        if held or not row.elements:
            named = ", ".join(ELEMENT_NAMES.get(each, each) for each in held)
            yield _advised(row, f"{row.how_often}: {row.asks}", named)


def _surveyed(
    catalogue: Catalogue, row: Surveillance, found: tuple[Part, ...], classes: tuple[FoundClass, ...]
) -> Advised | None:
    held = [each for each in row.elements if element_share(found, each) >= row.share > 0]
    traits = [each for each in row.traits if trait_share(catalogue, found, each) >= row.share > 0]
    groups = [
        part.name
        for part in found
        if set(row.groups) & {*part.groups, part.substance} and part.share.high > 0
    ]
    hazards = [each.text for each in classes if each.hazard in row.hazards]
    if not (held or traits or groups or hazards):
        return None
    named = [ELEMENT_NAMES.get(each, each) for each in held] + [each.replace("-", " ") for each in traits]
    return _advised(row, row.words, ", ".join([*named, *groups, *hazards[:1]]), row.place)

"""Everything derived about harm, for a pigment or for a product that is not a dry powder."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from mullbook.derive import verdict
from mullbook.derive.composition import (
    is_unknown,
    parts,
    searched_lists,
    traits_of,
    unknown_share,
)
from mullbook.derive.dust import dust_limits, limit_to_show, room_budget
from mullbook.derive.results import FoundClass, Part, Safety
from mullbook.derive.verdict import Findings
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.model.values import HazardClass, Quantity
from mullbook.model.values.ruleset import ClassFound, Component
from mullbook.science.label import label_elements, label_statements
from mullbook.science.mixture import mixture_classes

SILICA = "crystalline-silica"
BENCH = "bench"
SITUATIONS = {
    "eyes": "Eyes",
    "skin": "Skin",
    "breathed-in": "Breathed in",
    "swallowed": "Swallowed",
    "spill": "Spill",
    "anything": "Any exposure",
}


def needs_dust(found: HazardClass) -> bool:
    """Whether a class acts only through dust in the air."""
    return (
        found.route == "inhalation"
        or found.hazard == "acute-toxicity-inhalation"
        or found.statement.endswith("i")
        or found.statement == "H335"
    )


def found_classes(
    catalogue: Catalogue,
    found: Iterable[Part],
    *,
    own_place: bool,
    scale: float = 1.0,
    wet: bool = False,
    without_silica: bool = False,
) -> tuple[FoundClass, ...]:
    """Classes of a mixture by the rules in force.

    Parameters: `found`, the parts; `own_place`, whether classes of the ruleset's own place count or those
    of every other; `scale`, the part of the mixture the parts make up; `wet`, leave out classes that need
    dust; `without_silica`, leave crystalline silica to its own row of the policy.
    """
    ruleset = catalogue.classification
    components = [
        Component(
            name=part.name,
            share=part.share.high * scale,
            classes=_counted(catalogue, part, own_place, wet),
            elements=part.elements,
            known=not is_unknown(catalogue, part),
        )
        for part in found
        if part.substance in catalogue.substance
        and not (without_silica and SILICA in traits_of(catalogue, part.substance))
    ]
    return tuple(_found(catalogue, each, own_place) for each in mixture_classes(components, ruleset))


def _counted(catalogue: Catalogue, part: Part, own_place: bool, wet: bool) -> tuple[HazardClass, ...]:
    here = catalogue.classification.jurisdiction
    return tuple(
        each
        for each in catalogue.classes_of(catalogue.substance[part.substance])
        if (each.place == here) == own_place and not (wet and needs_dust(each))
    )


def _found(catalogue: Catalogue, each: ClassFound, own_place: bool) -> FoundClass:
    ruleset = catalogue.classification
    return FoundClass(
        hazard=each.hazard,
        category=each.category,
        statement=each.statement,
        text=_text(catalogue, each.statement),
        place=ruleset.jurisdiction if own_place else ", ".join(each.places) or "elsewhere",
        why=f"{each.figures} ({each.rule})",
        remembered=each.remembered,
    )


def _text(catalogue: Catalogue, code: str) -> str:
    texts = catalogue.classification.statements
    return next((each.text for each in texts if each.code == code), code)


def stated_classes(
    catalogue: Catalogue, given: Iterable[HazardClass], own_place: bool
) -> Iterator[FoundClass]:
    """Classes that an entry states for the whole product, for the ruleset's own place or for others."""
    for each in given:
        if (each.place == catalogue.classification.jurisdiction) == own_place:
            yield FoundClass(
                hazard=each.hazard,
                category=each.category,
                statement=each.statement,
                text=_text(catalogue, each.statement),
                place=each.place,
                why=f"stated for the product, {each.standing.replace('-', ' ')}",
                remembered=each.remembered,
            )


def status(catalogue: Catalogue, found: tuple[Part, ...], classes: Iterable[FoundClass]) -> str:
    """`classified`, `searched-none-found` or `not-known`, for the whole."""
    if any(classes):
        return "classified"
    if not found or unknown_share(catalogue, found) >= catalogue.policy.unknown_share:
        return "not-known"
    return "searched-none-found"


def _base(catalogue: Catalogue, found: tuple[Part, ...], stated: tuple[HazardClass, ...] = ()) -> Safety:
    """What holds for powders and products alike: classes, status, lists searched, label elements.

    Label elements are those of the ruleset's own place; where it lists nothing, those of other places
    are shown rather than none.
    """
    classes, elsewhere = (
        _once((*found_classes(catalogue, found, own_place=own), *stated_classes(catalogue, stated, own)))
        for own in (True, False)
    )
    ruleset = catalogue.classification
    shown = classes or elsewhere
    signal_word, pictograms = label_elements(_as_found(shown), ruleset.elements, ruleset.precedence)
    return Safety(
        status=status(catalogue, found, shown),
        searched=searched_lists(catalogue, found, "searched"),
        limits_searched=searched_lists(catalogue, found, "limits_searched"),
        unknown_share=unknown_share(catalogue, found),
        classes=classes,
        elsewhere=elsewhere,
        declared=stated,
        statements=label_statements((each.statement for each in shown), ruleset.precedence),
        signal_word=signal_word,
        pictograms=pictograms,
        first_aid=_first_aid(catalogue, (*classes, *elsewhere)),
    )


def _once(classes: Iterable[FoundClass]) -> tuple[FoundClass, ...]:
    """Each class, category and statement once; what the parts give stands before what is stated."""
    kept: dict[tuple[str, str, str], FoundClass] = {}
    for each in classes:
        kept.setdefault((each.hazard, each.category, each.statement), each)
    return tuple(kept.values())


def _as_found(classes: Iterable[FoundClass]) -> list[ClassFound]:
    return [
        ClassFound(
            hazard=each.hazard, category=each.category, statement=each.statement, rule="", figures=each.why
        )
        for each in classes
    ]


def _first_aid(catalogue: Catalogue, classes: Iterable[FoundClass]) -> tuple[str, ...]:
    hazards = {each.hazard for each in classes}
    return tuple(
        f"{SITUATIONS.get(line.situation, line.situation)}: {line.text}"
        for line in catalogue.classification.first_aid
        if not line.hazards or hazards & set(line.hazards)
    )


def _findings(
    catalogue: Catalogue, thing: Pigment | Binder | Additive, found: tuple[Part, ...], safety: Safety
) -> Findings:
    return Findings(
        catalogue=catalogue,
        entry=thing.id,
        family=thing.family if isinstance(thing, Pigment) else "",
        parts=found,
        status=safety.status,
        unknown_share=safety.unknown_share,
        classes=_without_silica(catalogue, found, safety, own_place=True),
        elsewhere=_without_silica(catalogue, found, safety, own_place=False),
        limits=safety.dust_limits,
        limits_searched=safety.limits_searched,
    )


def _without_silica(
    catalogue: Catalogue, found: tuple[Part, ...], safety: Safety, *, own_place: bool
) -> tuple[FoundClass, ...]:
    """Classes that count for a level: crystalline silica acts through its own row of the policy alone."""
    return _once(
        (
            *found_classes(catalogue, found, own_place=own_place, without_silica=True),
            *stated_classes(catalogue, safety.declared, own_place),
        )
    )


def powder_safety(
    catalogue: Catalogue, pigment: Pigment, found: tuple[Part, ...], density: Quantity | None
) -> Safety:
    """All that is derived about harm from one pigment, as a dry powder and as paint."""
    limits = dust_limits(catalogue, found)
    shown = limit_to_show(limits, catalogue.classification.jurisdiction)
    base = replace(
        _base(catalogue, found, pigment.declared_hazards),
        dust_limits=limits,
        shown_limit=shown,
        room=room_budget(shown),
    )
    base = replace(base, limit_status=_limit_status(base))
    findings = _findings(catalogue, pigment, found, base)
    dry = verdict.dry_verdicts(findings)
    level = dry[BENCH].level
    return replace(
        base,
        dry=dry,
        wet=verdict.wet_verdict(findings, _wet_classes(catalogue, found, density)),
        heating=verdict.heating(findings, level),
        sanding=verdict.by_level(findings, catalogue.policy.sanding, level),
        spraying=verdict.by_level(findings, catalogue.policy.spraying, level),
        waste=verdict.waste(findings, level),
        not_for=tuple(verdict.not_for(findings, level)),
    )


def _limit_status(safety: Safety) -> str:
    if safety.dust_limits:
        return "found"
    return "searched-none-found" if safety.limits_searched else "not-known"


def _wet_classes(
    catalogue: Catalogue, found: tuple[Part, ...], density: Quantity | None
) -> tuple[FoundClass, ...]:
    return tuple(
        each
        for own in (True, False)
        for each in found_classes(
            catalogue,
            found,
            own_place=own,
            scale=pigment_part(catalogue, density),
            wet=True,
            without_silica=True,
        )
    )


def pigment_part(catalogue: Catalogue, density: Quantity | None) -> float:
    """Mass fraction of the pigment in the stated paint of the policy.

    Formula: rho PVC / (rho PVC + rho_b (1 - PVC)); where the density is not known the paint counts as
    all pigment, which is stricter.
    """
    if density is None or density.range is None:
        return 1.0
    paint = catalogue.policy.wet_paint
    pigment = density.range.high * paint.pvc
    return pigment / (pigment + paint.binder_density * (1 - paint.pvc))


def product_safety(catalogue: Catalogue, product: Binder | Additive) -> Safety:
    """All that is derived about harm from a binder or an additive as supplied.

    What its entry states of the whole product counts beside what its parts give; a status of not known
    on either side stays.
    """
    found = parts(catalogue, product.constituents)
    own = product.hazards
    base = _base(catalogue, found, own.classes if own else ())
    if own is not None and own.status == "not-known" and base.status != "classified":
        base = replace(base, status=own.status)
    findings = _findings(catalogue, product, found, base)
    stated = tuple(own.classes) if own else ()
    classes = _once(
        each
        for mine in (True, False)
        for each in (
            *found_classes(catalogue, found, own_place=mine, wet=True),
            *stated_classes(catalogue, (each for each in stated if not needs_dust(each)), mine),
        )
    )
    wet = verdict.wet_verdict(findings, classes)
    return replace(
        base,
        wet=wet,
        waste=verdict.waste(findings, wet.level),
        not_for=tuple(verdict.not_for(findings, None)),
    )

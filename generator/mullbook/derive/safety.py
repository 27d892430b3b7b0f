"""Everything derived about harm, for a pigment or for a product that is not a dry powder."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from mullbook.derive import verdict
from mullbook.derive.advice import beside
from mullbook.derive.components import (
    SILICA,
    as_classes,
    components,
    found_classes,
    is_own,
    needs_dust,
    once,
    ph_range,
    stated_classes,
    stated_component,
)
from mullbook.derive.composition import parts, searched_lists, traits_of, unknown_share
from mullbook.derive.dust import dust_limits, limit_to_show, room_budget, room_of
from mullbook.derive.results import FoundClass, Part, Safety
from mullbook.derive.verdict import Findings
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.model.values import HazardClass, Quantity, Range
from mullbook.science.label import label
from mullbook.science.mixture import most_severe

BENCH = "bench"
SITUATIONS = {
    "eyes": "Eyes",
    "skin": "Skin",
    "breathed-in": "Breathed in",
    "swallowed": "Swallowed",
    "spill": "Spill",
    "fire": "Fire",
    "anything": "Any exposure",
}


def status(catalogue: Catalogue, found: tuple[Part, ...], classes: Iterable[FoundClass]) -> str:
    """`classified`, `searched-none-found` or `not-known`, for the whole."""
    if any(classes):
        return "classified"
    if not found or unknown_share(catalogue, found) >= catalogue.policy.unknown_share:
        return "not-known"
    return "searched-none-found"


def _base(
    catalogue: Catalogue,
    found: tuple[Part, ...],
    stated: tuple[HazardClass, ...] = (),
    ph: Range | None = None,
    name: str = "",
) -> Safety:
    """What holds for powders and products alike: classes, status, lists searched, draft label.

    Label elements are those of the studio's own places; where they list nothing, those of other places
    are shown rather than none.
    """
    classes, elsewhere = (
        once(
            (*found_classes(catalogue, found, own_place=own, ph=ph), *stated_classes(catalogue, stated, own))
        )
        for own in (True, False)
    )
    made = components(catalogue, found, own_place=True, ph=ph)
    if not any(each.classes for each in made) and not any(is_own(catalogue, each) for each in stated):
        # A pH alone is no list: what other places list is shown beside it.
        made = components(catalogue, found, own_place=None, ph=ph)
        shown = once((*classes, *elsewhere))
    else:
        shown = classes or elsewhere
    draft = label(
        [*made, *stated_component(name, stated, made)],
        most_severe(as_classes(shown)),
        catalogue.classification,
    )
    return Safety(
        status=status(catalogue, found, shown),
        searched=searched_lists(catalogue, found, "searched"),
        limits_searched=searched_lists(catalogue, found, "limits_searched"),
        unknown_share=unknown_share(catalogue, found),
        classes=classes,
        elsewhere=elsewhere,
        declared=stated,
        statements=draft.statements,
        signal_word=draft.signal_word,
        pictograms=draft.pictograms,
        first_aid=_first_aid(catalogue, (*classes, *elsewhere)),
        label=draft,
    )


def _first_aid(catalogue: Catalogue, classes: Iterable[FoundClass]) -> tuple[str, ...]:
    hazards = {each.hazard for each in classes}
    return tuple(
        f"{SITUATIONS.get(line.situation, line.situation)}: {line.text}"
        for line in catalogue.classification.first_aid
        if (not line.hazards or hazards & set(line.hazards)) and not hazards & set(line.unless)
    )


def _findings(
    catalogue: Catalogue,
    thing: Pigment | Binder | Additive,
    found: tuple[Part, ...],
    safety: Safety,
    ph: Range | None,
) -> Findings:
    return Findings(
        catalogue=catalogue,
        entry=thing.id,
        family=thing.family if isinstance(thing, Pigment) else "",
        parts=found,
        status=safety.status,
        unknown_share=safety.unknown_share,
        classes=_without_silica(catalogue, found, safety, own_place=True, ph=ph),
        elsewhere=_without_silica(catalogue, found, safety, own_place=False, ph=ph),
        limits=safety.dust_limits,
        limits_searched=safety.limits_searched,
    )


def _without_silica(
    catalogue: Catalogue, found: tuple[Part, ...], safety: Safety, *, own_place: bool, ph: Range | None
) -> tuple[FoundClass, ...]:
    """Classes that count for a level: crystalline silica acts through its own row of the policy alone."""
    if not any(SILICA in traits_of(catalogue, part.substance) for part in found):
        return safety.classes if own_place else safety.elsewhere
    return once(
        (
            *found_classes(catalogue, found, own_place=own_place, without_silica=True, ph=ph),
            *stated_classes(catalogue, safety.declared, own_place),
        )
    )


def powder_safety(
    catalogue: Catalogue, pigment: Pigment, found: tuple[Part, ...], density: Quantity | None
) -> Safety:
    """All that is derived about harm from one pigment, as a dry powder and as paint."""
    limits = dust_limits(catalogue, found)
    shown = limit_to_show(limits, catalogue.place)
    ph = ph_range(pigment.physical.slurry_ph)
    base = replace(
        _base(catalogue, found, pigment.declared_hazards, ph, pigment.name),
        dust_limits=limits,
        shown_limit=shown,
        room=room_budget(shown, room_of(catalogue)),
    )
    base = replace(base, limit_status=_limit_status(base))
    findings = _findings(catalogue, pigment, found, base, ph)
    dry = verdict.dry_verdicts(findings)
    level = dry[BENCH].level
    paint_part = pigment_part(catalogue, density)
    diluted = 1.0 if density is not None and density.basis == "from-memory" else paint_part
    wet = verdict.wet_verdict(findings, _wet_classes(catalogue, found, diluted, ph))
    return replace(
        base,
        dry=dry,
        wet=wet,
        heating=verdict.heating(findings, level, wet.level),
        sanding=verdict.by_level(findings, catalogue.policy.sanding, level, wet.level),
        spraying=verdict.by_level(findings, catalogue.policy.spraying, level, wet.level),
        waste=verdict.waste(findings, level),
        not_for=tuple(verdict.not_for(findings, level)),
        beside=beside(
            catalogue,
            found,
            (*base.classes, *base.elsewhere),
            family=pigment.family,
            paint_part=paint_part,
        ),
    )


def _limit_status(safety: Safety) -> str:
    if safety.dust_limits:
        return "found"
    return "searched-none-found" if safety.limits_searched else "not-known"


def _wet_classes(
    catalogue: Catalogue, found: tuple[Part, ...], paint_part: float, ph: Range | None
) -> tuple[FoundClass, ...]:
    return tuple(
        each
        for own in (True, False)
        for each in found_classes(
            catalogue, found, own_place=own, scale=paint_part, wet=True, without_silica=True, ph=ph
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
    stated = tuple(own.classes) if own else ()
    ph = ph_range(product.ph) if isinstance(product, Binder) else None
    base = _base(catalogue, found, stated, ph, product.name)
    if own is not None and own.status == "not-known" and base.status != "classified":
        base = replace(base, status=own.status)
    findings = _findings(catalogue, product, found, base, ph)
    classes = once(
        each
        for mine in (True, False)
        for each in (
            *found_classes(catalogue, found, own_place=mine, wet=True, ph=ph),
            *stated_classes(catalogue, (each for each in stated if not needs_dust(each)), mine),
        )
    )
    wet = verdict.wet_verdict(findings, classes)
    return replace(
        base,
        wet=wet,
        heating=verdict.heating(findings, wet.level, wet.level),
        waste=verdict.waste(findings, wet.level),
        not_for=tuple(verdict.not_for(findings, None)),
        beside=beside(catalogue, found, (*base.classes, *base.elsewhere)),
    )

"""The draft of a label for a jar or tube of one batch."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from mullbook.derive import verdict
from mullbook.derive.batch import tube_volume
from mullbook.derive.batch_results import Sheet
from mullbook.derive.components import (
    as_found,
    components,
    found_classes,
    is_own,
    needs_dust,
    once,
    ph_range,
    stated_classes,
    stated_component,
)
from mullbook.derive.composition import parts, searched_lists, unknown_share
from mullbook.derive.label_names import Jar, allergens, pigment_named, preservatives
from mullbook.derive.results import Because, Derived, FoundClass, LabelDraft, Named, Part
from mullbook.derive.safety import status
from mullbook.derive.verdict import ACTION_ORDER, Findings
from mullbook.derive.waste import drain, placed
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.model.values import HazardClass, Range
from mullbook.model.values.ruleset import ClassFound, Component
from mullbook.science.label import label
from mullbook.science.mixture import mixture_classes

SENSITISED = "asthma-or-sensitised"


def label_draft(catalogue: Catalogue, derived: Derived, sheet: Sheet) -> LabelDraft:
    """Draft a label for one jar of a batch, for the catalogue's place.

    Parameters: `catalogue`; `derived`; `sheet`, the batch worked out. Batch number and dates are left open
    for whoever made it. Never raises: where the batch could not be worked out the draft says so.
    """
    recipe = sheet.recipe
    rules = catalogue.label_rules
    system = catalogue.system.get(recipe.system)
    made = LabelDraft(
        recipe=recipe.id,
        name=recipe.name,
        system=system.name if system else recipe.system,
        place=catalogue.place,
        edition=rules.edition,
        checked=rules.checked,
        weighed=tuple(line.id for line in sheet.lines),
        missing=sheet.missing,
        volume=tube_volume(recipe)
        or next((each.value for each in sheet.figures if each.id == "yield"), None),
    )
    if sheet.missing:
        return made
    shares = dict(_shares(catalogue, sheet))
    return _with_classes(catalogue, _with_names(catalogue, derived, made, shares), shares, sheet)


def _shares(catalogue: Catalogue, sheet: Sheet) -> Iterator[tuple[str, float]]:
    """Mass fraction in the paint of each thing weighed, by id."""
    total = sum(line.grams for line in sheet.lines) or 1.0
    for line in sheet.lines:
        yield line.id, line.grams / total


def _jar(catalogue: Catalogue, name: str) -> Jar | None:
    found: Jar | None = (
        catalogue.pigment.get(name) or catalogue.binder.get(name) or catalogue.additive.get(name)
    )
    return found


def _jars(catalogue: Catalogue, shares: dict[str, float]) -> list[tuple[Jar, float]]:
    found = ((_jar(catalogue, name), share) for name, share in shares.items())
    return [(jar, share) for jar, share in found if jar is not None]


def _with_names(
    catalogue: Catalogue, derived: Derived, made: LabelDraft, shares: dict[str, float]
) -> LabelDraft:
    """The draft with all that is named on it: pigments, binder, preservatives, allergens, persons, lines."""
    jars = _jars(catalogue, shares)
    pigments = [jar for jar, _ in jars if isinstance(jar, Pigment)]
    binder = next((jar for jar, _ in jars if isinstance(jar, Binder)), None)
    powders = [derived.pigments[each.id].safety for each in pigments if each.id in derived.pigments]
    advice = catalogue.advice
    kind = binder.kind.replace("-", " ") if binder else ""
    return replace(
        made,
        pigments=tuple(pigment_named(each) for each in pigments),
        binder=Named(name=binder.name, also=kind, entry=binder.id) if binder else None,
        preservatives=tuple(preservatives(catalogue, jars)),
        allergens=tuple(allergens(catalogue, jars)),
        sanding=_strictest(each.sanding for each in powders),
        heating=_strictest(each.heating for each in powders),
        spraying=_strictest(each.spraying for each in powders),
        lines=advice.label_lines if advice else (),
        never=advice.never_on_a_label if advice else (),
    )


def _strictest(found: Iterable[Because | None]) -> Because | None:
    held = [each for each in found if each is not None]
    return min(held, key=lambda each: ACTION_ORDER.index(each.id), default=None)


def batch_parts(catalogue: Catalogue, shares: dict[str, float]) -> tuple[Part, ...]:
    """The substances of a batch as parts of the whole paint, each once, at the most it may be."""
    held: dict[str, Part] = {}
    for jar, share in _jars(catalogue, shares):
        for part in parts(catalogue, jar.constituents):
            scaled = replace(part, share=part.share.times(share))
            before = held.get(part.substance)
            if before is not None:
                both = Range(before.share.low + scaled.share.low, before.share.high + scaled.share.high)
                scaled = replace(before, share=both)
            held[part.substance] = scaled
    return tuple(sorted(held.values(), key=lambda part: (-part.share.high, part.substance)))


def _components(
    catalogue: Catalogue,
    found: tuple[Part, ...],
    shares: dict[str, float],
    own_place: bool | None,
    *,
    wet: bool = False,
) -> list[Component]:
    """Components of the paint: its substances, and what entries state of products as a whole."""
    made = components(catalogue, found, own_place=own_place, wet=wet)
    for jar, share in _jars(catalogue, shares):
        ph = ph_range(jar.ph) if isinstance(jar, Binder) else None
        active = {each.substance for each in jar.constituents if each.role in ("solids", "active")}
        names = {catalogue.substance[each].name for each in active if each in catalogue.substance}
        if ph is not None:
            made = [replace(each, ph=ph) if each.name in names else each for each in made]
        stated = [
            each
            for each in _stated(jar)
            if own_place in (None, is_own(catalogue, each)) and not (wet and needs_dust(each))
        ]
        made += stated_component(jar.name, stated, made, share)
        if not jar.constituents:
            made.append(Component(name=jar.name, share=share, known=False))
    return made


def _filled(own: list[Component], every: list[Component]) -> list[Component]:
    """Components with their own place's classes, and those of every place where they have none."""
    by_name = {each.name: each for each in every}
    filled = [
        each if each.classes else replace(each, classes=by_name[each.name].classes)
        for each in own
        if each.name in by_name
    ]
    held = {each.name for each in own}
    return [*filled, *(each for each in every if each.name not in held)]


def _of_own(catalogue: Catalogue, each: ClassFound) -> bool:
    """Whether a class holds by a list of the studio's own places, or by a rule on the mixture as such."""
    return not each.places or bool(set(each.places) & set(catalogue.own_places))


def _only_dust(found: FoundClass) -> bool:
    return (
        found.hazard == "acute-toxicity-inhalation"
        or found.statement.endswith("i")
        or found.statement == "H335"
    )


def _stated(jar: Jar) -> tuple[HazardClass, ...]:
    if isinstance(jar, Pigment):
        return jar.declared_hazards
    return jar.hazards.classes if jar.hazards else ()


def _elsewhere(
    catalogue: Catalogue, found: tuple[Part, ...], shares: dict[str, float], shown: tuple[FoundClass, ...]
) -> tuple[FoundClass, ...]:
    """Classes that other places list for the paint beside those shown."""
    rules = catalogue.classification
    others = mixture_classes(_components(catalogue, found, shares, False), rules)
    told = {(each.hazard, each.statement) for each in shown}
    return tuple(
        as_found(catalogue, each, rules, own_place=False)
        for each in others
        if (each.hazard, each.statement) not in told
    )


def _with_classes(
    catalogue: Catalogue, made: LabelDraft, shares: dict[str, float], sheet: Sheet
) -> LabelDraft:
    """The draft with what the rules of the place make of it."""
    found = batch_parts(catalogue, shares)
    rules = catalogue.label_rules
    # Where a place has no list of its own, or none for a part, the classes of every list count that act
    # without dust; what acts only as dust is told beside.
    own = rules is catalogue.classification
    parts_of_it = _components(catalogue, found, shares, True if own else None, wet=not own)
    if own:
        parts_of_it = _filled(parts_of_it, _components(catalogue, found, shares, None, wet=True))
    classes = mixture_classes(parts_of_it, rules)
    shown = tuple(as_found(catalogue, each, rules, own_place=_of_own(catalogue, each)) for each in classes)
    elsewhere = _elsewhere(catalogue, found, shares, shown)
    findings = _findings(catalogue, made, found, shares)
    wet = verdict.wet_verdict(findings, (*findings.classes, *findings.elsewhere))
    solids = next((each.value for each in sheet.figures if each.id == "weight_solids"), None) or 1.0
    advice = catalogue.advice
    return replace(
        made,
        classes=shown,
        elsewhere=tuple(each for each in elsewhere if not _only_dust(each)),
        as_dust=tuple(each for each in elsewhere if _only_dust(each)),
        label=label(parts_of_it, classes, rules, volume=made.volume, public=True),
        not_for=(*verdict.not_for(findings, None), *_own_persons(catalogue, shares)),
        level=wet,
        waste=verdict.waste(findings, wet.level),
        drain=drain(catalogue, found, 1 / solids, solids),
        sale=tuple(
            each
            for each in placed(advice.sale if advice else (), found, classified=bool(shown or elsewhere))
            if each.place in catalogue.law_places
        ),
        not_known=tuple(_not_known(catalogue, shares, found)),
    )


def _findings(
    catalogue: Catalogue, made: LabelDraft, found: tuple[Part, ...], shares: dict[str, float]
) -> Findings:
    """What the verdicts on the wet paint rest on, without classes that need dust."""
    own, other = (
        once(
            (
                *found_classes(catalogue, found, own_place=place, wet=True, without_silica=True),
                *_stated_of(catalogue, shares, place),
            )
        )
        for place in (True, False)
    )
    return Findings(
        catalogue=catalogue,
        entry=made.recipe,
        family="",
        parts=found,
        status=status(catalogue, found, (*own, *other)),
        unknown_share=unknown_share(catalogue, found),
        classes=own,
        elsewhere=other,
        limits=(),
        limits_searched=searched_lists(catalogue, found, "limits_searched"),
    )


def _stated_of(catalogue: Catalogue, shares: dict[str, float], own_place: bool) -> Iterator[FoundClass]:
    """Classes that binders and additives state for themselves, where their share reaches a cut-off."""
    for jar, share in _jars(catalogue, shares):
        alone = Component(name=jar.name, share=share, classes=_stated(jar))
        reached = {each.hazard for each in mixture_classes([alone], catalogue.classification)}
        given = [each for each in _stated(jar) if each.hazard in reached]
        yield from stated_classes(catalogue, given, own_place)


def _own_persons(catalogue: Catalogue, shares: dict[str, float]) -> Iterator[Because]:
    """Persons that binders and additives name, each once for each reason."""
    told: dict[tuple[str, str], Because] = {}
    for jar, _ in _jars(catalogue, shares):
        for each in () if isinstance(jar, Pigment) else jar.not_for:
            if isinstance(jar, Additive) and each.person != SENSITISED:
                continue  # of the additive as handled, not of the traces in a paint
            told.setdefault(
                (each.person, each.because), Because(id=each.person, because=f"{jar.name}: {each.because}")
            )
    yield from told.values()


def _not_known(catalogue: Catalogue, shares: dict[str, float], found: tuple[Part, ...]) -> Iterator[str]:
    for jar, _ in _jars(catalogue, shares):
        hazards = None if isinstance(jar, Pigment) else jar.hazards
        if hazards is not None and hazards.status == "not-known":
            yield f"{jar.name}: what else it holds is on the supplier's data sheet"
        elif not jar.constituents:
            yield f"{jar.name}: nothing is known of what it holds"
    bare = unknown_share(catalogue, found)
    if bare > 0:
        yield f"up to {bare * 100:.2g} % of the paint is of unknown hazard: treat it as hazardous"

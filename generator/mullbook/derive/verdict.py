"""From composition, limits and classes to control levels, actions, waste and persons."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal

from mullbook.derive.composition import element_share, group_share, trait_share
from mullbook.derive.dust import level_by_limit
from mullbook.derive.results import Because, DustLimit, FoundClass, Part, Verdict
from mullbook.derive.tighten import OWN_RULES
from mullbook.model.catalogue import Catalogue
from mullbook.model.values.policy import ActionRule, Floor, Person, StudioPolicy, WasteRule

ACTION_ORDER = ("no", "not-known", "only-extracted", "ordinary-care")
"""Strictest first."""
ELEMENT_NAMES = {
    "Ag": "silver",
    "As": "arsenic",
    "Ba": "barium",
    "Cd": "cadmium",
    "Co": "cobalt",
    "Cr": "chromium",
    "Cu": "copper",
    "Hg": "mercury",
    "Mn": "manganese",
    "Ni": "nickel",
    "Pb": "lead",
    "Sb": "antimony",
    "Se": "selenium",
    "U": "uranium",
    "V": "vanadium",
    "Zn": "zinc",
}
"""Names of the elements the policy acts on: a reason is read by people who know no symbols."""
NO_LIST = "none"
"""The place of a class that stands in no list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """All that the verdicts rest on."""

    catalogue: Catalogue
    entry: str
    family: str
    parts: tuple[Part, ...]
    status: str
    unknown_share: float
    classes: tuple[FoundClass, ...]
    """Classes of the powder in the studio's place, without those of crystalline silica."""
    elsewhere: tuple[FoundClass, ...]
    limits: tuple[DustLimit, ...]
    """Limits on this dust, strictest first."""
    limits_searched: tuple[str, ...]

    @property
    def policy(self) -> StudioPolicy:
        """The policy in force."""
        return self.catalogue.policy


def dry_verdicts(findings: Findings) -> dict[str, Verdict]:
    """Level of the dry powder for each amount, with reasons."""
    return {each.id: _dry(findings, each.id) for each in findings.policy.amounts}


def _dry(findings: Findings, amount: str) -> Verdict:
    return _strictest(findings.policy, (*_floors(findings), *_by_dust(findings, amount)))


def _strictest(policy: StudioPolicy, found: Iterable[tuple[str, str]]) -> Verdict:
    """The strictest of (level, reason) pairs, with the reasons for that level first."""
    ordered = sorted(found, key=lambda pair: -policy.rank(pair[0]))
    level = ordered[0][0]
    return Verdict(level=level, reasons=tuple(dict.fromkeys(why for each, why in ordered if each == level)))


def _by_dust(findings: Findings, amount: str) -> Iterator[tuple[str, str]]:
    """Levels that the limits on the dust, or their absence, ask for.

    A remembered limit stands beside what is known without it, so that it can only make things stricter.
    """
    policy = findings.policy
    published = [each for each in findings.limits if not each.remembered]
    remembered = [each for each in findings.limits if each.remembered]
    for limit in (*published[:1], *remembered[:1]):
        yield level_by_limit(policy, limit.on_inhalable_scale, amount), _limit_words(findings, limit)
    if not published:
        if findings.status != "not-known" and findings.limits_searched:
            why = "lists were searched and hold no limit for this dust"
            yield policy.no_limit_found.level(amount), f"{why}{_cap_words(policy)}"
        else:
            yield policy.not_searched.level(amount), "no limit for this dust is known"
    if findings.unknown_share >= policy.unknown_share:
        yield policy.not_searched.level(amount), "a part of it is not known"


def _limit_words(findings: Findings, limit: DustLimit) -> str:
    driver = _in_sentence(findings.catalogue.substance[limit.driver].name)
    memory = ", from memory, not confirmed" if limit.remembered else ""
    return (
        f"limit on this dust {_figures(limit.value)} mg/m³ {limit.fraction}, set by {driver}"
        f" ({_place(findings, limit.jurisdiction)}{memory})"
        f"{_cap_words(findings.policy, limit.on_inhalable_scale)}"
    )


def _cap_words(policy: StudioPolicy, on_inhalable_scale: float = math.inf) -> str:
    """That a studio caps any dust, where its cap is lower than the limit."""
    dust = policy.unlisted_dust
    if dust.source != OWN_RULES or on_inhalable_scale <= dust.inhalable:
        return ""
    return f"; this studio takes any dust as limited at {dust.inhalable:g} mg/m³"


def _figures(value: float) -> str:
    """Two significant figures, never with an exponent.

    >>> _figures(0.2712), _figures(123.4), _figures(0.00005)
    ('0.27', '120', '0.00005')
    """
    return f"{Decimal(f'{value:.1e}').normalize():f}"


def _in_sentence(name: str) -> str:
    """A name as it stands inside a sentence; one that starts with initials or a symbol stays as it is."""
    return name[:1].lower() + name[1:] if name[1:2].islower() else name


def _place(findings: Findings, place: str) -> str:
    lists = findings.catalogue.vocabulary("lists")
    return next((each.name for each in lists.items if each.id == place), place) if lists else place


def _named(symbols: Iterable[str]) -> str:
    return ", ".join(ELEMENT_NAMES.get(each, each) for each in symbols)


def _floors(findings: Findings) -> Iterator[tuple[str, str]]:
    for floor in findings.policy.at_least:
        if _applies(findings, floor, findings.classes):
            yield floor.level, floor.because
        elif floor.elsewhere is not None:
            places = {each.place for each in findings.elsewhere if _is_of(each, floor)}
            if places:
                yield floor.elsewhere, f"{floor.because} ({_listed(findings, places)})"


def _listed(findings: Findings, places: Iterable[str]) -> str:
    lists = [each for each in places if each != NO_LIST]
    if not lists:
        return "said of it, in no list that was read"
    return f"listed in {_places(findings, lists)}, not in {_own(findings)}"


def _own(findings: Findings) -> str:
    """The studio's own places in words; the rules in force go by their short name."""
    return " or ".join(
        "the EU" if each == "EU" else _place(findings, each) for each in findings.catalogue.own_places
    )


def _places(findings: Findings, places: Iterable[str]) -> str:
    return ", ".join(_place(findings, each) for each in sorted(places))


def _applies(findings: Findings, floor: Floor, classes: Iterable[FoundClass]) -> bool:
    if floor.hazards:
        return any(_is_of(each, floor) for each in classes)
    if floor.family is not None or floor.entry is not None:
        return floor.family == findings.family or floor.entry == findings.entry
    share = _share(findings, floor)
    return share > 0 and share >= floor.share


def _share(findings: Findings, floor: Floor) -> float:
    if floor.element is not None:
        return element_share(findings.parts, floor.element)
    if floor.group is not None:
        return group_share(findings.parts, floor.group)
    return trait_share(findings.catalogue, findings.parts, floor.trait or "")


def _is_of(found: FoundClass, floor: Floor) -> bool:
    return found.hazard in floor.hazards and found.category in floor.categories


def wet_verdict(findings: Findings, classes: tuple[FoundClass, ...]) -> Verdict:
    """Level of the wet paint. `classes` are those of the stated paint that act without dust."""
    paint = findings.policy.wet_paint
    found = [(paint.not_classified, "searched; no class was found that acts without dust")]
    if findings.status == "not-known" or findings.unknown_share >= findings.policy.unknown_share:
        found = [(paint.not_known, "a part of it is not known: treat as hazardous")]
    found += [(paint.classified, each.text) for each in classes]
    strict = {(each.hazard, each.category) for each in paint.strict_also}
    found += [
        (paint.strict, each.text)
        for each in classes
        if (each.hazard, each.category) in strict
        or (each.hazard in paint.strict_hazards and each.category in paint.strict_categories)
    ]
    found += [
        (floor.level, floor.because)
        for floor in findings.policy.at_least
        if floor.every_state and _applies(findings, floor, findings.classes)
    ]
    return _strictest(findings.policy, found)


def heating(findings: Findings, level: str, wet: str) -> Because:
    """What may be done with heat: the strictest of the policy and of what each constituent says."""
    said = [
        (each.heating.action, each.heating.because)
        for part in findings.parts
        for each in findings.catalogue.lineage(part.substance)
        if each.heating
    ]
    ruled = [
        (rule.action, rule.because) for rule in findings.policy.heating if _acts(findings, rule, level, wet)
    ]
    silent = not findings.parts or any(
        substance is None or substance.heating is None
        for substance in (findings.catalogue.substance.get(each.substance) for each in findings.parts)
    )
    unsaid = [("not-known", "nothing was found on heating it: treat it as hazardous")] if silent else []
    action, because = min((*said, *ruled, *unsaid), key=lambda pair: ACTION_ORDER.index(pair[0]))
    return Because(id=action, because=because)


def by_level(findings: Findings, rules: tuple[ActionRule, ...], level: str, wet: str) -> Because:
    """Sanding or spraying: what the policy says for the levels of the dry powder and of the wet paint."""
    acting = [rule for rule in rules if _acts(findings, rule, level, wet)]
    strictest = min(acting, key=lambda rule: ACTION_ORDER.index(rule.action), default=None)
    of, which = ("paint", wet) if strictest and wet in strictest.wet_levels else ("powder", level)
    name = findings.policy.words(which).name
    action = strictest.action if strictest else "not-known"
    return Because(id=action, because=f"it puts the pigment into the air; the {of}'s level is {name}")


def _acts(findings: Findings, rule: ActionRule, level: str, wet: str) -> bool:
    return (
        level in rule.levels
        or wet in rule.wet_levels
        or level == rule.level
        or (rule.unknown and findings.unknown_share >= findings.policy.unknown_share)
        or _holds(findings, rule.elements, rule.share)
    )


def _holds(findings: Findings, elements: tuple[str, ...], share: float) -> bool:
    return any(element_share(findings.parts, each) >= share > 0 for each in elements)


def waste(findings: Findings, level: str) -> Because:
    """The waste route: the first rule of the policy that fits."""
    for rule in findings.policy.waste_rules:
        because = _wasted(findings, rule, level)
        if because:
            return Because(id=rule.route, because=because)
    return Because(id="dry-and-bin-if-local-rules-allow", because="no rule asks for more")


def _wasted(findings: Findings, rule: WasteRule, level: str) -> str:
    if level in rule.levels:
        return f"the level of the powder is {findings.policy.words(level).name}"
    held = [each for each in rule.elements if element_share(findings.parts, each) >= rule.share > 0]
    if held:
        return f"it holds {_named(held)}"
    if any(each.hazard in rule.hazards for each in findings.classes):
        return "harmful to water life"
    if rule.unknown and findings.unknown_share >= findings.policy.unknown_share:
        return "a part of it is not known"
    return ""


def not_for(findings: Findings, level: str | None) -> Iterator[Because]:
    """Persons this is not for. `level` is that of the dry powder, or None for a liquid product."""
    for person in findings.policy.persons:
        why = _why_not(findings, person, level)
        if why:
            yield Because(id=person.id, because=why)


def _why_not(findings: Findings, person: Person, level: str | None) -> str:
    policy = findings.policy
    if level is not None and person.every_powder:
        return person.because
    if person.every_classified and (findings.classes or findings.elsewhere):
        return person.because
    if level is not None and person.from_level and policy.rank(level) >= policy.rank(person.from_level):
        return person.because
    held = [each for each in person.elements if element_share(findings.parts, each) >= person.share > 0]
    if held:
        return f"{_named(held)}: {person.because}"
    found = [
        each.text
        for each in (*findings.classes, *findings.elsewhere)
        if each.statement.startswith(person.statements)
    ]
    return f"{found[0]}: {person.because}" if found and person.statements else ""

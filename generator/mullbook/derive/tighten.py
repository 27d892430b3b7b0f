"""The studio's own rules laid onto the policy of the book. By their form they can only make it stricter."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Source
from mullbook.model.studio import AmountCaps, DustCaps, LevelRule, Studio
from mullbook.model.values.policy import Amount, Band, Floor, LevelRow, StudioPolicy
from mullbook.science.air import inhalable_scale
from mullbook.science.mixture import SEVERITY

OWN_RULES = "house-rules-of-this-studio"
"""Id of the source that stands for studio.yaml where pages name what a figure rests on."""
SHUT = "leave-it-shut"
ELEMENT_SHARE = 0.001
"""Share as that element from which a rule on an element holds; that of the book's own rules."""


def tightened(catalogue: Catalogue, studio: Studio) -> Catalogue:
    """The catalogue as this studio keeps it: its place, its smallest room, and its stricter policy.

    Parameters: `catalogue` with a policy; `studio`, whose rules were found no milder than the book's.
    """
    if not catalogue.policies:
        return catalogue
    rules, policy = studio.policy, catalogue.policy
    floors = tuple(floor for rule in rules.levels if not rule.rooms for floor in _floors(catalogue, rule))
    policy = replace(policy, at_least=(*policy.at_least, *floors))
    sources = catalogue.sources
    if rules.dust_caps is not None:
        policy = _capped(policy, rules.dust_caps)
        sources = (*sources, _own_source(catalogue, studio))
    if rules.amounts is not None:
        policy = replace(policy, amounts=tuple(_amounts(policy, rules.amounts)))
    return replace(
        catalogue,
        policies=(policy, *catalogue.policies[1:]),
        sources=tuple(sorted(sources, key=lambda each: each.id)),
        at_place=studio.jurisdiction or catalogue.at_place,
        room=studio.smallest_room,
    )


def _floors(catalogue: Catalogue, rule: LevelRule) -> Iterator[Floor]:
    base = Floor(
        id="",
        level=rule.at_least,
        because=f"a rule of this studio: {rule.because}",
        every_state=rule.also_wet or rule.at_least == SHUT,
    )
    for pigment in rule.pigments:
        yield replace(base, id=f"own-{pigment}", entry=pigment)
    if rule.classes:
        yield replace(
            base, id="own-classes", elsewhere=rule.at_least, hazards=rule.classes, categories=SEVERITY
        )
    for element in rule.elements:
        yield replace(base, id=f"own-{element.lower()}", element=element, share=ELEMENT_SHARE)
    families = rule.families
    if rule.for_every_powder:
        families = tuple(sorted({each.family for each in catalogue.pigments}))
    for family in families:
        yield replace(base, id=f"own-{family}", family=family)


def cap_on_inhalable_scale(caps: DustCaps) -> float | None:
    """The stricter of the caps, mg/m3 on the inhalable scale, or None."""
    found = [
        inhalable_scale(value, fraction)
        for fraction, value in (("inhalable", caps.inhalable), ("respirable", caps.respirable))
        if value is not None
    ]
    return min(found, default=None)


def _capped(policy: StudioPolicy, caps: DustCaps) -> StudioPolicy:
    """A dust that no list limits, or limits mildly, counts as limited at the cap."""
    cap = cap_on_inhalable_scale(caps)
    if cap is None:
        return policy
    at_cap = next(band for band in policy.bands if cap >= band.at_least)
    dust = policy.unlisted_dust
    return replace(
        policy,
        unlisted_dust=replace(
            dust,
            inhalable=min(dust.inhalable, caps.inhalable or dust.inhalable),
            respirable=min(dust.respirable, caps.respirable or dust.respirable),
            source=OWN_RULES,
            at="dust caps",
        ),
        bands=tuple(
            Band(at_least=band.at_least, **_stricter(policy, band, at_cap)) if band.at_least > cap else band
            for band in policy.bands
        ),
        no_limit_found=LevelRow(**_stricter(policy, policy.no_limit_found, at_cap)),
        not_searched=LevelRow(**_stricter(policy, policy.not_searched, at_cap)),
    )


def _stricter(policy: StudioPolicy, one: LevelRow, other: LevelRow) -> dict[str, str]:
    return {
        amount: policy.strictest(one.level(amount), other.level(amount))
        for amount in ("bench", "batch", "drum")
    }


def _amounts(policy: StudioPolicy, caps: AmountCaps) -> Iterator[Amount]:
    most = 0.0
    for amount in policy.amounts:
        own = {"bench": caps.bench, "batch": caps.batch}.get(amount.id)
        if amount.most is None:
            yield replace(amount, words=f"over {grams_words(most)}")
            continue
        most = min(amount.most, own) if own is not None else amount.most
        yield replace(amount, most=most, words=f"up to {grams_words(most)}")


def grams_words(grams: float) -> str:
    """A mass in the unit that people say it in.

    >>> grams_words(20), grams_words(1000), grams_words(1500)
    ('20 g', '1 kg', '1.5 kg')
    """
    return f"{grams / 1000:g} kg" if grams >= 1000 else f"{grams:g} g"


def _own_source(catalogue: Catalogue, studio: Studio) -> Source:
    return Source(
        id=OWN_RULES,
        title=f"House rules of {studio.name}",
        kind="report",
        publisher=studio.name,
        year=int(studio.issued[:4]) if studio.issued else None,
        read_as="full-text",
        read="studio.yaml of this edition: the studio's own decision, no published threshold.",
        checked=studio.issued or catalogue.latest_check,
    )

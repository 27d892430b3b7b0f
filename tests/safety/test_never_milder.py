"""Nothing that is added, taken away or tightened may make a verdict milder."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from mullbook.derive.composition import parts
from mullbook.derive.results import Derived, Safety
from mullbook.derive.safety import powder_safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment, Substance
from mullbook.model.facts import Constituent
from mullbook.model.values import HazardClass, Hazards, Quantity
from mullbook.model.values.policy import Floor
from mullbook.science.mixture import severity

SLOW = settings(
    max_examples=60,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)


def share(value: float) -> Quantity:
    return Quantity(unit="fraction", basis="published", value=value, source="clp-2019")


def safety(catalogue: Catalogue, pigment: Pigment) -> Safety:
    return powder_safety(catalogue, pigment, parts(catalogue, pigment.constituents), None)


def with_part(pigment: Pigment, substance: str, value: float) -> Pigment:
    added = Constituent(substance=substance, share=share(value), role="impurity")
    kept = tuple(each for each in pigment.constituents if each.substance != substance)
    return replace(pigment, constituents=(*kept, added))


def ranks(catalogue: Catalogue, found: Safety) -> list[int]:
    wet = [found.wet.level] if found.wet else []
    return [catalogue.policy.rank(each) for each in (*(v.level for v in found.dry.values()), *wet)]


def not_laxer(catalogue: Catalogue, after: Safety, before: Safety) -> None:
    pairs = zip(ranks(catalogue, after), ranks(catalogue, before), strict=True)
    assert all(now >= then for now, then in pairs)


@SLOW
@given(data=st.data())
def test_one_more_part_never_makes_a_level_laxer(catalogue: Catalogue, data: Any) -> None:
    """Adding a substance on top of what is there: a part's own high end stays as it is."""
    pigment = data.draw(st.sampled_from(catalogue.pigments), label="pigment")
    held = {each.substance for each in pigment.constituents}
    free = [each.id for each in catalogue.substances if each.kind != "group" and each.id not in held]
    added = data.draw(st.sampled_from(free), label="substance")
    value = data.draw(st.sampled_from([0.0005, 0.001, 0.005, 0.01, 0.05, 0.3]), label="share")
    before, after = safety(catalogue, pigment), safety(catalogue, with_part(pigment, added, value))
    not_laxer(catalogue, after, before)
    worst = {each.hazard: severity(each.category) for each in before.classes}
    now = {each.hazard: severity(each.category) for each in after.classes}
    for hazard, category in worst.items():
        assert hazard in now, f"{hazard} was lost"
        assert now[hazard] <= category
    for limit in before.dust_limits:
        same = [
            each.value
            for each in after.dust_limits
            if (each.jurisdiction, each.list, each.fraction)
            == (limit.jurisdiction, limit.list, limit.fraction)
            and each.remembered == limit.remembered
        ]
        assert not same or min(same) <= limit.value * (1 + 1e-9)


@SLOW
@given(data=st.data())
def test_missing_data_never_improve_a_verdict(catalogue: Catalogue, data: Any) -> None:
    """A part whose hazards nobody knows is never better than the same part with what is known of it."""
    pigment = data.draw(st.sampled_from([each for each in catalogue.pigments if each.constituents]))
    lost = data.draw(st.sampled_from([each.substance for each in pigment.constituents]), label="forgotten")
    substance = catalogue.substance.get(lost)
    if substance is None:
        return
    if catalogue.classes_of(substance):
        return  # a class that is dropped is what the mutations look at; here, that lists were searched at all
    silent = replace(
        substance, hazards=Hazards(status="not-known"), limits=(), limits_searched=(), heating=None
    )
    fewer = replace(
        catalogue, substances=tuple(silent if each.id == lost else each for each in catalogue.substances)
    )
    before, after = safety(catalogue, pigment), safety(fewer, pigment)
    part = next(each for each in pigment.constituents if each.substance == lost)
    if (part.share.ends[1] or 0) >= catalogue.policy.unknown_share and not catalogue.limits_of(substance):
        not_laxer(catalogue, after, before)
    assert after.heating is not None and after.heating.id in ("no", "not-known")


def test_a_density_that_is_not_known_never_improves_the_wet_level(
    catalogue: Catalogue, derived: Derived
) -> None:
    rank = catalogue.policy.rank
    for pigment in catalogue.pigments:
        known = derived.pigments[pigment.id].safety.wet
        unknown = safety(catalogue, pigment).wet
        assert known is not None and unknown is not None
        assert rank(unknown.level) >= rank(known.level), pigment.id


def test_a_remembered_density_never_improves_the_wet_level(catalogue: Catalogue) -> None:
    """It would thin the pigment with a binder that nobody measured: the paint counts as all pigment."""
    for pigment in catalogue.pigments:
        found = parts(catalogue, pigment.constituents)
        for density in (0.9, 19.0):
            remembered = Quantity(unit="g/cm3", basis="from-memory", value=density)
            told = powder_safety(catalogue, pigment, found, remembered)
            assert told.wet == powder_safety(catalogue, pigment, found, None).wet, pigment.id


@SLOW
@given(data=st.data())
def test_a_tightened_policy_never_gives_a_laxer_level(catalogue: Catalogue, data: Any) -> None:
    policy = catalogue.policy
    element = data.draw(st.sampled_from(["Cu", "Zn", "Mn", "Fe", "Ti"]), label="element")
    level = data.draw(st.sampled_from([each.id for each in policy.levels]), label="level")
    floor = Floor(id="tighter", level=level, because="a test", element=element, share=0.01, every_state=True)
    lower = tuple(replace(each, share=each.share / 10) for each in policy.at_least)
    tighter = replace(policy, at_least=(*lower, floor), unknown_share=policy.unknown_share / 10)
    stricter = replace(catalogue, policies=(tighter,))
    pigment = data.draw(st.sampled_from(catalogue.pigments), label="pigment")
    not_laxer(catalogue, safety(stricter, pigment), safety(catalogue, pigment))


REMEMBERED = HazardClass(
    hazard="skin-corrosion-irritation",
    category="2",
    statement="H315",
    place="EU",
    standing="from-memory",
    basis="from-memory",
)


def bare_powder(catalogue: Catalogue, hazards: Hazards, **more: Any) -> Safety:
    """What is derived of a powder of one substance alone."""
    bare = Substance(id="something", name="Something", hazards=hazards, **more)
    known = replace(catalogue, substances=(*catalogue.substances, bare))
    held = Constituent(substance="something", share=share(1.0), role="colourant")
    return safety(known, Pigment(id="a-powder", name="A powder", constituents=(held,)))


@pytest.mark.parametrize(
    "hazard", [REMEMBERED, replace(REMEMBERED, hazard="aquatic-chronic", statement="H411")]
)
def test_a_remembered_class_does_not_make_a_substance_a_known_one(
    catalogue: Catalogue, hazard: HazardClass
) -> None:
    """Lists of limits were searched, those of classes were not; to remember a mild class is no search."""
    lists = {"limits_searched": ("osha-1910-1000",)}
    silent = bare_powder(catalogue, Hazards(status="not-known"), **lists)
    told = bare_powder(catalogue, Hazards(status="classified", classes=(hazard,)), **lists)
    not_laxer(catalogue, told, silent)
    assert told.unknown_share == 1


def test_a_remembered_class_takes_nothing_of_its_group_away(catalogue: Catalogue) -> None:
    called = replace(REMEMBERED, standing="harmonised")
    member = {"member_of": ("lead-compounds",), "formula": "PbCO3"}
    without = bare_powder(catalogue, Hazards(status="not-known"), **member)
    told = bare_powder(catalogue, Hazards(status="classified", classes=(called,)), **member)
    assert {each.hazard for each in without.classes} <= {each.hazard for each in told.classes}
    not_laxer(catalogue, told, without)


def test_a_substance_nobody_searched_is_enclosed_at_least(catalogue: Catalogue) -> None:
    found = bare_powder(catalogue, Hazards(status="not-known"))
    assert found.status == "not-known"
    assert ranks(catalogue, found)[0] >= catalogue.policy.rank("enclosed")

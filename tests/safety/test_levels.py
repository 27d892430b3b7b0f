"""The level list of the design holds for every pigment it names, on the real entries."""

from __future__ import annotations

from dataclasses import replace

import pytest

from mullbook.derive.composition import parts
from mullbook.derive.results import Derived, Verdict
from mullbook.derive.safety import powder_safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from mullbook.model.facts import Constituent
from mullbook.model.values import Quantity

DAMP, ENCLOSED, PASTE, SHUT = "keep-it-damp", "enclosed", "paste-only", "leave-it-shut"
# Pigment to the level of up to 50 g, as the design names it.
NAMED = {
    "chalk": DAMP,
    "titanium-white": DAMP,
    "zinc-white": DAMP,
    "phthalocyanine-blue": DAMP,
    "phthalocyanine-green": DAMP,
    "quinacridone-magenta": DAMP,
    "quinacridone-rose": DAMP,
    "synthetic-red-iron-oxide": DAMP,
    "ultramarine": DAMP,
    "prussian-blue": DAMP,
    "chromium-oxide-green": ENCLOSED,
    "azurite": ENCLOSED,
    "yellow-ochre": ENCLOSED,
    "raw-umber": ENCLOSED,
    "cobalt-blue": ENCLOSED,
    "cadmium-yellow": PASTE,
    "cadmium-red": PASTE,
    "lead-white": PASTE,
    "orpiment": SHUT,
    "vermilion": SHUT,
}


@pytest.mark.parametrize(("pigment", "level"), NAMED.items())
def test_the_level_is_the_one_named(derived: Derived, pigment: str, level: str) -> None:
    assert derived.pigments[pigment].safety.dry["bench"].level == level


def test_most_of_the_list_is_in_the_catalogue(catalogue: Catalogue) -> None:
    """Skipping must not hollow the test above out."""
    assert len([each for each in NAMED if each in catalogue.pigment]) >= len(NAMED) - 2


@pytest.mark.parametrize("black", ["furnace-black", "lamp-black"])
def test_carbon_black_is_enclosed(derived: Derived, black: str) -> None:
    assert derived.pigments[black].safety.dry["bench"].level == ENCLOSED


def test_cobalt_blue_is_paste_only_above_fifty_grams(derived: Derived) -> None:
    dry = derived.pigments["cobalt-blue"].safety.dry
    assert [dry[each].level for each in ("bench", "batch", "drum")] == [ENCLOSED, PASTE, PASTE]


def test_what_stays_shut_stays_shut_wet(derived: Derived) -> None:
    for pigment in ("vermilion", "orpiment", "unlabelled-jar"):
        if pigment in derived.pigments:
            wet = derived.pigments[pigment].safety.wet
            assert wet is not None
            assert wet.level == SHUT


def earth(quartz: float) -> Pigment:
    """An earth of goethite with a share of quartz."""

    def share(value: float) -> Quantity:
        return Quantity(unit="fraction", basis="published", value=value, source="clp-2019")

    return Pigment(
        id="an-earth",
        name="An earth",
        family="natural-earth",
        constituents=(
            Constituent(substance="goethite", share=share(1 - quartz), role="colourant"),
            Constituent(substance="quartz", share=share(quartz), role="impurity"),
        ),
    )


def dry_levels(catalogue: Catalogue, pigment: Pigment) -> dict[str, Verdict]:
    return dict(powder_safety(catalogue, pigment, parts(catalogue, pigment.constituents), None).dry)


def test_ochre_with_a_twentieth_of_quartz_is_enclosed(catalogue: Catalogue) -> None:
    assert dry_levels(catalogue, earth(0.05))["bench"].level == ENCLOSED


@pytest.mark.parametrize("quartz", [0.0, 0.001, 0.01, 0.05, 0.2, 0.6, 1.0])
@pytest.mark.parametrize("amount", ["bench", "batch", "drum"])
def test_an_unknown_stone_is_never_better_than_an_earth_with_quartz(
    catalogue: Catalogue, derived: Derived, quartz: float, amount: str
) -> None:
    rank = catalogue.policy.rank
    stone = derived.pigments["unknown-stone"].safety.dry[amount].level
    assert rank(stone) >= rank(dry_levels(catalogue, earth(quartz))[amount].level)


def test_no_dry_powder_is_open_bench(derived: Derived) -> None:
    levels = {found.level for each in derived.pigments.values() for found in each.safety.dry.values()}
    assert "open-bench" not in levels


def test_a_level_does_not_fall_at_a_border(catalogue: Catalogue, derived: Derived) -> None:
    """Whatever place is named, no level is laxer than that of the rules in force."""
    rank = catalogue.policy.rank
    for place in ("UK", "US", "US-CA", "AU"):
        there = replace(catalogue, at_place=place)
        for pigment in catalogue.pigments[::3]:
            found = derived.pigments[pigment.id]
            moved = powder_safety(there, pigment, found.parts, found.paint.density)
            for amount, verdict in moved.dry.items():
                assert rank(verdict.level) >= rank(found.safety.dry[amount].level), (place, pigment.id)


def test_what_water_sets_on_fire_is_never_wetted_with_it(catalogue: Catalogue, derived: Derived) -> None:
    """Aluminium flake is H261 in the harmonised list; the usual steps and first aid say water."""
    safety = derived.pigments["aluminium-flake"].safety
    assert "water-reactive" in safety.hazards
    assert [each.level for each in safety.dry.values()] == [PASTE] * 3
    steps = catalogue.policy.steps(PASTE, safety.hazards)
    assert any(each.startswith("No water") for each in steps)
    assert not any("Wipe up wet" in each or "under water" in each for each in steps)
    spilt = [each for each in safety.first_aid if each.startswith("Spill: ")]
    assert len(spilt) == 1 and spilt[0].startswith("Spill: No water")
    assert "Fire: Dry sand" in "\n".join(safety.first_aid)


def test_steps_for_a_class_take_the_place_of_no_shut_jar(catalogue: Catalogue, derived: Derived) -> None:
    policy = catalogue.policy
    assert policy.steps(SHUT, {"water-reactive"}) == policy.before_opening[SHUT]
    for found in derived.pigments.values():
        if "water-reactive" not in found.safety.hazards:
            level = found.safety.dry["bench"].level
            assert policy.steps(level, found.safety.hazards) == policy.before_opening[level]

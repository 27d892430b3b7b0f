"""What stands beside the verdicts: what heat and acid set free, fire, tables of law, notices, places."""

from __future__ import annotations

from dataclasses import replace

import pytest

from mullbook.derive.results import Derived, Safety
from mullbook.derive.safety import product_safety
from mullbook.model.catalogue import Catalogue
from mullbook.workflow.safety import asked, safety_answer
from tests.science.oracles import rows


def freed(safety: Safety, when: str) -> str:
    return " | ".join(each.words for each in safety.beside.set_free if each.when == when)


@pytest.mark.parametrize(
    ("pigment", "when", "gas"),
    [
        ("vermilion", "heat", "mercury vapour"),
        ("lead-white", "heat", "lead fume"),
        ("cadmium-yellow", "heat", "cadmium oxide fume"),
        ("orpiment", "heat", "arsenic trioxide fume"),
        ("prussian-blue", "heat", "hydrogen cyanide"),
        ("prussian-blue", "acid", "hydrogen cyanide"),
        ("prussian-blue", "alkali", "ammonia"),
        ("ultramarine", "acid", "hydrogen sulfide"),
        ("ultramarine", "heat", "sulfur dioxide"),
        ("lithopone", "acid", "hydrogen sulfide"),
        ("chalk", "acid", "carbon dioxide"),
        ("bronze-flake", "acid", "hydrogen"),
    ],
)
def test_what_is_set_free(derived: Derived, pigment: str, when: str, gas: str) -> None:
    assert gas in freed(derived.pigments[pigment].safety, when)


def test_what_is_poisonous_when_hot_is_not_heated(derived: Derived) -> None:
    """Where a poisonous fume or gas is named, the action is not ordinary care."""
    for each in derived.pigments.values():
        hot = freed(each.safety, "heat")
        if any(word in hot for word in ("mercury", "arsenic", "lead fume", "cadmium", "cyanide")):
            assert each.safety.heating is not None
            assert each.safety.heating.id in ("no", "not-known"), each.id


def test_fire_is_known_possible_or_said_not_to_be_known(catalogue: Catalogue, derived: Derived) -> None:
    advice = catalogue.advice
    assert advice is not None
    words = (advice.combustible.known, advice.combustible.possible, advice.combustible.other)
    for pigment in catalogue.pigments:
        fire = derived.pigments[pigment.id].safety.beside.combustible
        assert fire is not None and fire.words in words
        if pigment.family in ("carbon", "metal", "synthetic-organic"):
            assert fire.words != advice.combustible.other, pigment.id
    assert derived.pigments["phthalocyanine-blue"].safety.beside.combustible.words == advice.combustible.known  # type: ignore[union-attr]


def test_lead_asks_for_a_physician_and_for_blood_tests(derived: Derived) -> None:
    beside = derived.pigments["lead-white"].safety.beside
    assert any("physician" in each.words and "lead" in each.because for each in beside.frequency)
    assert {each.place for each in beside.surveillance} >= {"EU", "US", "UK"}
    assert not any("physician" in each.words for each in derived.pigments["chalk"].safety.beside.frequency)


def test_the_tip_is_a_scenario(derived: Derived) -> None:
    tip = derived.pigments["raw-umber"].safety.beside.tip
    assert tip is not None and tip.result is not None
    assert tip.reading == "a scenario, not a measurement"
    assert tip.result.low < tip.result.high


def test_protection_factors_are_those_of_the_table(catalogue: Catalogue) -> None:
    printed = [(row["facepiece"], float(row["factor"])) for row in rows("respirators")]
    assert [(each.facepiece, each.factor) for each in catalogue.respirators[0].rows] == printed


def test_leaching_levels_are_those_of_the_table(catalogue: Catalogue) -> None:
    printed = {row["element"]: (row["number"], float(row["level"])) for row in rows("tclp")}
    assert {each.element: (each.number, each.level) for each in catalogue.leaching[0].rows} == printed


def test_allergens_are_named_from_a_tenth_of_their_limit(derived: Derived) -> None:
    gel = derived.products["acrylic-gel"]
    assert {each.code for each in gel.supplements} >= {"EUH208"}
    assert any("Methylisothiazolinone" in each.text for each in gel.supplements)


def test_lead_paint_carries_its_own_statement(derived: Derived) -> None:
    assert "EUH201" in {each.code for each in derived.pigments["lead-white"].safety.supplements}


def test_a_strong_base_counts_by_its_ph(catalogue: Catalogue, derived: Derived) -> None:
    lime = derived.products["lime"]
    assert "H314" in lime.statements
    binder = catalogue.binder["lime"]
    assert binder.ph is not None
    weak = product_safety(catalogue, replace(binder, ph=replace(binder.ph, value=9.0)))
    assert "H318" in weak.statements


def answer(catalogue: Catalogue, derived: Derived, thing: str, place: str | None) -> str:
    return safety_answer(catalogue, derived, [catalogue.pigment[thing]], asked(place), as_json=False)


def test_titanium_dioxide_by_place(catalogue: Catalogue, derived: Derived) -> None:
    in_the_eu = answer(catalogue, derived, "titanium-white", "EU")
    assert "annulled that entry on 23 November 2022" in " ".join(in_the_eu.split())
    assert "H351 by inhalation" in " ".join(in_the_eu.split())
    assert not [
        line for line in in_the_eu.splitlines() if line.strip().startswith(("H351", "EUH211", "EUH212"))
    ]
    assert "check the GB list" in answer(catalogue, derived, "titanium-white", "UK")
    assert "IARC group 2B" in answer(catalogue, derived, "titanium-white", "US")


def test_statements_that_were_annulled_keep_their_date(catalogue: Catalogue) -> None:
    annulled = {each.code: each.annulled for each in catalogue.classification.supplements if each.annulled}
    assert annulled == {"EUH211": "2022-11-23", "EUH212": "2022-11-23"}


def test_a_foreign_class_becomes_its_own_at_its_place(catalogue: Catalogue, derived: Derived) -> None:
    here = answer(catalogue, derived, "lead-white", "AU")
    assert "AUSTRALIA" in here.splitlines()[0].upper()
    assert "H351" in here

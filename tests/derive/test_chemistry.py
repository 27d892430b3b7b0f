"""Verdicts by chemistry class: what the classes say, and that they never soften what an entry says."""

from __future__ import annotations

from pathlib import Path

import pytest

from mullbook.derive.chemistry import KIND, chemistry_of, medium_of
from mullbook.derive.composition import parts
from mullbook.derive.practice_results import Chemistry
from mullbook.model.catalogue import Catalogue
from mullbook.model.chemistry import STRICTNESS, strictest
from mullbook.model.entities import Vocabulary

ROOT = Path(__file__).resolve().parents[2]
NO_CLASS = {"asbestine", "unknown-stone", "unlabelled-jar"}
"""What nobody knows, and what holds asbestos: no class may say that it lives anywhere."""


@pytest.fixture(scope="module")
def book(catalogue: Catalogue) -> Vocabulary:
    found = catalogue.vocabulary(KIND)
    assert found is not None
    return found


@pytest.fixture(scope="module")
def held(catalogue: Catalogue) -> dict[str, Chemistry]:
    return {
        each.id: chemistry_of(catalogue, each, parts(catalogue, each.constituents))
        for each in catalogue.pigments
    }


def rank(verdict: str) -> int:
    return STRICTNESS.index(verdict)


def test_every_pigment_but_the_unknown_stands_in_a_class(held: dict[str, Chemistry]) -> None:
    assert {name for name, each in held.items() if not each.classes} == NO_CLASS


def test_every_class_has_a_pigment(book: Vocabulary, held: dict[str, Chemistry]) -> None:
    used = {name for each in held.values() for name in each.classes}
    assert {each.id for each in book.classes} == used


def test_every_binder_stands_in_a_medium(catalogue: Catalogue, book: Vocabulary) -> None:
    assert [each.id for each in catalogue.binders if medium_of(book, each) is None] == []


def test_an_entered_verdict_stands(catalogue: Catalogue, held: dict[str, Chemistry]) -> None:
    """A class never speaks of a binder that the entry speaks of."""
    for pigment in catalogue.pigments:
        assert not set(held[pigment.id].binders) & {each.binder for each in pigment.suitability}


def test_a_verdict_by_class_is_never_milder_than_an_entered_one(
    catalogue: Catalogue, book: Vocabulary, held: dict[str, Chemistry]
) -> None:
    milder, compared = [], 0
    for pigment in catalogue.pigments:
        entered = {each.binder: each.verdict for each in pigment.suitability}
        for name, found in held[pigment.id].binders.items():
            medium = medium_of(book, catalogue.binder[name])
            assert medium is not None
            said = [
                held[pigment.id].said[each].verdict.verdict
                for each in medium.attacks
                if each in held[pigment.id].said
            ]
            floor = strictest(*said, *(entered.get(each) for each in medium.kin))
            compared += 1
            if floor is None or rank(found.verdict) < rank(floor):
                milder.append((pigment.id, name, found.verdict, floor))
    assert milder == []
    assert compared > 4000


def test_no_other_oil_is_milder_than_linseed(catalogue: Catalogue, held: dict[str, Chemistry]) -> None:
    """The rule above leans on the list of kin; oils are the case everybody can check."""
    oils = [each.id for each in catalogue.binders if each.kind == "drying-oil" and each.id != "linseed-oil"]
    assert len(oils) >= 5
    for pigment in catalogue.pigments:
        linseed = next((each for each in pigment.suitability if each.binder == "linseed-oil"), None)
        for oil in oils if linseed else ():
            found = held[pigment.id].binders.get(oil)
            assert linseed is not None
            assert found is None or rank(found.verdict) >= rank(linseed.verdict), (pigment.id, oil)


def test_hardly_a_binder_is_left_unsaid(catalogue: Catalogue, held: dict[str, Chemistry]) -> None:
    unsaid = [
        (pigment.id, binder.id)
        for pigment in catalogue.pigments
        for binder in catalogue.binders
        if binder.id not in held[pigment.id].binders
        and binder.id not in {each.binder for each in pigment.suitability}
    ]
    assert {name for name, _ in unsaid} <= NO_CLASS


@pytest.mark.parametrize(
    ("pigment", "attack", "verdict"),
    [
        ("synthetic-red-iron-oxide", "lime", "suits"),
        ("yellow-ochre", "lime", "suits"),
        ("ultramarine", "acid", "unsuitable"),
        ("ultramarine", "alkali", "suits"),
        ("prussian-blue", "lime", "unsuitable"),
        ("prussian-blue", "alkali", "unsuitable"),
        ("lead-white", "water", "unsuitable"),
        ("lead-white", "sulfur", "unsuitable"),
        ("vermilion", "light", "unsuitable"),
        ("chalk", "acid", "unsuitable"),
        ("zinc-white", "oil", "test-first"),
        ("aluminium-flake", "alkali", "unsuitable"),
        ("phthalocyanine-blue", "acid", "suits"),
        ("carmine", "light", "unsuitable"),
        ("cadmium-yellow", "heat", "unsuitable"),
        ("jarosite", "ions", "unsuitable"),
    ],
)
def test_well_known_cases(held: dict[str, Chemistry], pigment: str, attack: str, verdict: str) -> None:
    """Handbook knowledge that the classes must give back."""
    assert held[pigment].said[attack].verdict.verdict == verdict


@pytest.mark.parametrize(
    ("pigment", "attack", "class_id"),
    [
        ("erythrite", "oil", "cobalt-violets"),
        ("malachite", "water", "azurite-malachite"),
        ("lapis-lazuli", "alkali", "ultramarines"),
        ("cadmium-red-lithopone", "oil", "cadmiums"),
        ("barite", "water", "barium-sulfate"),
    ],
)
def test_what_colours_it_speaks_before_what_lies_in_it(
    held: dict[str, Chemistry], pigment: str, attack: str, class_id: str
) -> None:
    """Quartz in a stone does not lend it its sentence where the coloured mineral is judged as strictly."""
    assert held[pigment].said[attack].class_id == class_id


def test_opal_is_not_taken_for_quartz_in_water_glass(held: dict[str, Chemistry]) -> None:
    for pigment in ("diatomite", "diatomite-calcined", "pumice"):
        assert held[pigment].said["lime"].verdict.verdict == "test-first"
    assert held["silica-flour"].said["lime"].verdict.verdict == "suits"


def test_both_sides_of_lead_white_and_sulfides_stand_side_by_side(held: dict[str, Chemistry]) -> None:
    said = held["lead-white"].said["sulfur"].verdict
    sources = {each.source for each in said.others}
    assert {"harrison-landscape-painting", "wehlte-notes"} <= sources
    surely = next(each for each in said.others if each.source == "harrison-landscape-painting")
    never = next(each for each in said.others if each.source == "wehlte-notes")
    assert "deadly sulfide" in surely.says and surely.grade == "folklore"
    assert "never happens" in never.says


def test_documented_names_its_source(book: Vocabulary) -> None:
    """Damage that is called documented says where it is documented."""
    assert [
        (each.id, said.attack)
        for each in book.classes
        for said in each.verdicts
        if said.grade == "documented" and said.source is None
    ] == []


def test_attacks_lead_to_the_test_to_run(catalogue: Catalogue, book: Vocabulary) -> None:
    """Heat is tried with a trace in wax, and water media by painting them: both have no test of their own."""
    assert {each.id for each in book.attacks if not each.test} == {"water", "heat"}
    assert {each.test for each in book.attacks if each.test} <= set(catalogue.studio_test)


def test_strictest_of_none_is_none() -> None:
    assert strictest() is None
    assert strictest("test-first", "suits") == "test-first"

"""The label draft of a batch: names, at most six precautions, nothing it may not say."""

from __future__ import annotations

import json
import re

import pytest

from mullbook.derive.batch import batch
from mullbook.derive.results import Derived, LabelDraft
from mullbook.model.catalogue import Catalogue
from mullbook.workflow.safety import asked, label_answer, label_of, safety_answer
from tests.conftest import run_mullbook

PLACES = ("EU", "UK", "US", "AU")


def draft_of(catalogue: Catalogue, recipe: str, place: str = "EU") -> tuple[str, LabelDraft]:
    here, draft = label_of(catalogue, batch(catalogue, catalogue.recipe[recipe]), place)
    return label_answer(here, draft, as_json=False), draft


@pytest.mark.parametrize("place", PLACES)
def test_every_recipe_gives_a_draft(catalogue: Catalogue, place: str) -> None:
    for recipe in catalogue.recipe:
        text, draft = draft_of(catalogue, recipe, place)
        assert text.startswith("DRAFT, NOT A REGULATORY CLASSIFICATION")
        assert draft.missing == (), recipe
        assert draft.pigments and draft.binder is not None and draft.volume
        assert draft.label is not None
        assert len(draft.label.precautions) <= 6
        assert "Before a sale" in text
        assert "Not for age 12 and under" in text or "Not for children of 12 and under" in text


def test_what_people_react_to_is_named(catalogue: Catalogue) -> None:
    text, draft = draft_of(catalogue, "raw-umber-satin-tubes")
    assert any("Methylisothiazolinone" in each.name for each in draft.allergens)
    assert any("Methylisothiazolinone" in each.name for each in draft.preservatives)
    assert "(EUH208)" in text
    assert "PBr 7" in text
    assert "natural earth, sample no." in text
    assert "official artwork" in text or not (draft.label and draft.label.pictograms)


def test_the_sale_branch_is_that_of_the_place(catalogue: Catalogue) -> None:
    american, _ = draft_of(catalogue, "raw-umber-satin-tubes", "US")
    assert "toxicologist" in american
    assert "awarded by the maker alone" in american
    european, draft = draft_of(catalogue, "raw-umber-satin-tubes", "EU")
    assert "poison centre" in european
    assert {each.place for each in draft.sale} == {"EU"}
    british, _ = draft_of(catalogue, "raw-umber-satin-tubes", "UK")
    assert "No labelling rules of United Kingdom were read" in british


def test_no_conformity_is_awarded(catalogue: Catalogue) -> None:
    """A standard is named only where it is said that the maker may not award it."""
    for place in PLACES:
        for recipe in catalogue.recipe:
            for line in draft_of(catalogue, recipe, place)[0].splitlines():
                if "D4236" in line or "conformity" in line.lower():
                    assert line.strip().startswith("Never on the label"), line


def test_other_words_are_forbidden_in_every_answer(catalogue: Catalogue, derived: Derived) -> None:
    """One list, in one file: every answer of `safety` and `label`, in every form, but for quoted notes."""
    forbidden = re.compile(
        "|".join(rf"\b{re.escape(each)}\b" for each in catalogue.policy.forbidden_words), re.I
    )
    quoted = {each.hazards.note for each in catalogue.substances if each.hazards.note}
    said = []
    for thing in (*catalogue.pigments, *catalogue.products, *catalogue.substances):
        for place in (None, "US"):
            text = safety_answer(catalogue, derived, [thing], asked(place, "40", "3"), as_json=False)
            for note in quoted:
                text = text.replace(note, "")
            said += [f"{thing.id}: {found[0]}" for found in forbidden.finditer(text)]
    for recipe in catalogue.recipe:
        here, draft = label_of(catalogue, batch(catalogue, catalogue.recipe[recipe]), "US")
        for as_json in (False, True):
            said += [
                f"{recipe}: {each[0]}"
                for each in forbidden.finditer(label_answer(here, draft, as_json=as_json))
            ]
    assert said == []


def test_the_commands_answer() -> None:
    told = run_mullbook("safety", "raw", "umber", "--room", "40", "--air-changes", "3", "--json")
    assert told.returncode == 0, told.stderr
    room = json.loads(told.stdout)[0]["room"]
    assert [each["words"] for each in room] == [
        "this little fills the whole room; at your face far less does",
        "a scenario, not a measurement",
        "the air has been changed",
    ]
    label = run_mullbook("label", "yellow-ochre-pans", "--batch", "12", "--made", "2026-11-25")
    assert label.returncode == 0, label.stderr
    assert "Batch 12. Made 2026-11-25" in label.stdout


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("safety", "chalk", "--jurisdiction", "Mars"), "No list of a place called Mars was read"),
        (("safety", "chalk", "--room", "-3"), "--room takes a number above 0"),
        (("safety", "chalkk"), "Did you mean"),
        (("label", "no-such-recipe"), "no-such-recipe"),
    ],
)
def test_a_wrong_question_is_answered_in_words(arguments: tuple[str, ...], said: str) -> None:
    told = run_mullbook(*arguments)
    assert told.returncode == 1
    assert said in told.stderr

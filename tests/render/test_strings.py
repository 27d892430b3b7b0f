"""The words of the print room: one truth for English, nothing that falls back unseen."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.derive.results import Derived
from mullbook.derive.verdict import ELEMENT_NAMES
from mullbook.model.catalogue import Catalogue
from mullbook.render.print_card import CardMaker
from mullbook.render.print_house import NOBODY
from mullbook.render.print_labels import LabelMaker
from mullbook.render.print_sheets import batch_view, form_view
from mullbook.render.strings import MARK, Strings, filled, misfilled, missing, unknown
from mullbook.render.words import in_sentence
from mullbook.text.yaml_text import read_file
from mullbook.workflow import Refused, Roots
from mullbook.workflow.batches import batch_sheet
from mullbook.workflow.checking import Loaded
from mullbook.workflow.safety import label_of
from mullbook.workflow.wording import languages, strings_of
from tests.conftest import ROOT

ROOTS = Roots.at(ROOT)


@pytest.fixture(scope="module")
def whole(catalogue: Catalogue, derived: Derived) -> tuple[Catalogue, Derived]:
    return catalogue, derived


@pytest.fixture(scope="module")
def english(whole: tuple[Catalogue, Derived]) -> Strings:
    return strings_of("en", whole[0], ROOTS)


def in_capitals(english: Strings) -> Strings:
    """A language that has everything: English in capitals, its slots as they are."""
    loud = {
        key: "".join(part if part.startswith("{") else part.upper() for part in _parts(text))
        for key, text in english.texts.items()
    }
    return Strings("xx", "Loud", loud | {"common.decimal-mark": ","}, english)


def _parts(text: str) -> list[str]:
    return text.replace("{", "\0{").replace("}", "}\0").split("\0")


def test_every_language_file_is_well_formed(whole: tuple[Catalogue, Derived]) -> None:
    assert "en" in languages(ROOTS)
    for language in languages(ROOTS):
        made = strings_of(language, whole[0], ROOTS)
        assert misfilled(made) == []
        assert unknown(made) == []


def test_english_says_the_statements_in_the_words_of_the_ruleset(
    whole: tuple[Catalogue, Derived], english: Strings
) -> None:
    for each in whole[0].classification.statements:
        assert english.say(f"statements.{each.code}") == each.text
    own = (ROOT / "site_templates" / "strings" / "en.yaml").read_text("utf-8")
    assert "H350" not in own


def test_what_is_left_to_the_rulesets_comes_from_them(english: Strings) -> None:
    document = read_file(ROOT / "site_templates" / "strings" / "en.yaml")
    assert document.data is not None
    for section in document.data["from"]:
        assert section not in document.data
        assert [key for key in english.texts if key.startswith(f"{section}.")], section


def test_a_missing_sentence_is_marked_and_remembered(english: Strings) -> None:
    made = Strings("xx", "Invented", {"card.waste": "Abfall"}, english)
    assert made.say("card.waste") == "Abfall"
    assert made.lacking == {}
    assert made.say("common.review-by", date="2027-11-25") == f"review by 2027-11-25 {MARK}"
    assert list(made.lacking) == ["common.review-by"]
    assert "card.waste" not in missing(made)
    assert "common.review-by" in missing(made)


def test_a_key_nobody_has_is_a_fault_of_ours(english: Strings) -> None:
    with pytest.raises(KeyError):
        english.say("card.no-such-thing")


def test_a_language_nobody_wrote_is_named_with_those_there_are(whole: tuple[Catalogue, Derived]) -> None:
    with pytest.raises(Refused, match="no words in klingonish"):
        strings_of("klingonish", whole[0], ROOTS)
    with pytest.raises(Refused):
        strings_of("../en", whole[0], ROOTS)


def test_elements_are_named_as_the_verdicts_name_them(english: Strings) -> None:
    assert {symbol: english.say(f"elements.{symbol}") for symbol in ELEMENT_NAMES} == ELEMENT_NAMES


def test_every_reason_can_be_told_in_another_language(
    whole: tuple[Catalogue, Derived], english: Strings
) -> None:
    """Only what an entry says itself stays in English, and then it is marked."""
    catalogue, derived = whole
    loud = in_capitals(english)
    own = {each.heating.because for each in catalogue.substances if each.heating}
    for found in derived.pigments.values():
        safety = found.safety
        verdicts = [*safety.dry.values(), *([safety.wet] if safety.wet else [])]
        said = [reason for each in verdicts for reason in each.reasons]
        acts = (safety.heating, safety.sanding, safety.spraying, safety.waste, *safety.not_for)
        said += [each.because for each in acts if each is not None and each.because not in own]
        said += [line.partition(": ")[2] for line in safety.first_aid]
        for reason in said:
            assert MARK not in loud.retell(reason), f"{found.id}: {reason}"
    assert not loud.lacking


def test_a_label_in_another_language_says_nothing_in_english_but_names_and_what_is_marked(
    loaded: Loaded, english: Strings
) -> None:
    catalogue = loaded.catalogue
    loud = in_capitals(english)
    maker = LabelMaker(CardMaker(catalogue, loaded.derived, loud, NOBODY))
    jars = (*catalogue.pigments, *catalogue.binders, *catalogue.additives)
    named = (*jars, *catalogue.substances, *catalogue.systems, *catalogue.recipes)
    names = {each.name for each in named} | {in_sentence(each.name) for each in named}
    names |= {each.name for binder in catalogue.binders for each in binder.allergens}
    held = re.compile("|".join(re.escape(each) for each in sorted(names, key=len, reverse=True)))
    labels = [maker.jar(each) for each in jars]
    for recipe in catalogue.recipes:
        sheet = batch_sheet(catalogue, recipe, None)
        here, draft = label_of(catalogue, sheet, None)
        maker.catalogue = here
        labels.append(maker.batch(draft))
    for made in labels:
        said = [made["what"], made["level"]["word"], *(each["words"] for each in made["blocks"])]
        left = [words for each in said if re.search("[a-z]{3}", words := held.sub("", each))]
        assert left == [], made["id"]
    assert not loud.lacking


def test_a_batch_sheet_and_a_form_mark_what_they_keep_in_english(loaded: Loaded, english: Strings) -> None:
    loud = in_capitals(english)
    schemas = {path.name: json.loads(path.read_text("utf-8")) for path in ROOTS.schema.glob("*.schema.json")}
    wanted = [row["words"] for row in form_view("pigment", schemas, loud)["rows"] if row["words"]]
    figures = [
        said
        for recipe in loaded.catalogue.recipes
        for row in batch_view(batch_sheet(loaded.catalogue, recipe, None), loud, "")["figures"]
        for said in row
    ]
    assert len(wanted) > 20 and len(figures) > 20
    words = [each for each in (*wanted, *figures) if re.search("[a-z]{4}", each)]
    assert [each for each in words if MARK not in each] == []


def test_a_marked_sentence_ends_with_its_mark(english: Strings) -> None:
    """A screen reader is told of the other language by that."""
    loud = in_capitals(english)
    assert loud.sentence("it breaks up") == f"It breaks up. {MARK}"
    assert loud.sentence("it holds lead") == "IT HOLDS LEAD."
    assert loud.figure("9.5 g per 100 g") == "9,5 G PER 100 G"


def test_what_an_entry_says_is_kept_and_marked(english: Strings) -> None:
    loud = in_capitals(english)
    assert loud.retell("Rub a dry swatch.") == f"Rub a dry swatch. {MARK}"
    assert english.retell("Rub a dry swatch.") == "Rub a dry swatch."


def test_an_entry_s_words_are_not_taken_for_the_program_s(english: Strings) -> None:
    """A colon, a semicolon or brackets do not make a sentence ours: all its parts must be."""
    loud = in_capitals(english)
    for text in (
        "Brown on the cloth: more binder.",
        "It glows; it stinks",
        "heat (listed in Utopia, not in the EU)",
    ):
        assert loud.retell(text) == f"{text} {MARK}"
    assert loud.retell("cobalt, chromium: may cause asthma") == "COBALT, CHROMIUM: MAY CAUSE ASTHMA"


def test_figures_take_the_decimal_mark_of_the_language(english: Strings) -> None:
    loud = in_capitals(english)
    told = loud.retell("limit on this dust 0.27 mg/m³ respirable, set by quartz (California)")
    assert told == "LIMIT ON THIS DUST 0,27 MG/M³ RESPIRABLE, SET BY quartz (CALIFORNIA)"
    assert loud.figure("3.2–3.6 g, no. 1.") == "3,2–3,6 g, no. 1."


def test_the_poster_stays_under_120_words(english: Strings) -> None:
    words = [
        text
        for key, text in english.texts.items()
        if key.startswith("poster.") and key not in ("poster.overlap", "poster.tile")
    ]
    assert sum(len(each.split()) for each in words) < 120


@given(st.text(), st.dictionaries(st.from_regex(r"[a-z]{1,4}", fullmatch=True), st.text(), max_size=3))
def test_filling_in_never_fails(text: str, values: dict[str, str]) -> None:
    assert isinstance(filled(text, values), str)


def test_nothing_forbidden_is_said(whole: tuple[Catalogue, Derived]) -> None:
    for path in sorted(Path(ROOT / "site_templates" / "strings").glob("en.yaml")):
        text = path.read_text("utf-8").lower()
        assert [word for word in whole[0].policy.forbidden_words if word in text] == []

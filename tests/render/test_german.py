"""German, the second language of the print room: official statements that were opened, ours elsewhere."""

from __future__ import annotations

import re

import pytest

from mullbook.model.catalogue import Catalogue
from mullbook.render.strings import Strings, missing
from mullbook.text.yaml_text import read_file
from mullbook.workflow import Roots
from mullbook.workflow.wording import lacking_problem, strings_of, words_report
from tests.conftest import ROOT

ROOTS = Roots.at(ROOT)
NOT_OPENED = {"statements.P263"}
"""Statements whose copies differ: left out rather than chosen between."""
NEVER = re.compile(
    r"unbedenklich|ungefährlich|harmlos|ungiftig|(?:ist|sind|völlig|absolut) sicher|entspricht|gefahrlos",
    re.IGNORECASE,
)
# Names of units and codes, and words that are the same in both languages.
SAME = re.compile(
    r"units\..*|common\.(brand|slot)|card\.milder|reasons\.(because|two-statements)|label\.(volume|pigment|level|action)"
    r"|batch\.(ph|millilitres|stage-paste)|washing\.ph|hues\.orange|elements\.(Barium|Ba|V|U)|sample-log\.magnet"
    r"|families\.mineral|kinds\..*|fractions\..*|sign-off\.name|print-room\..*"
)


@pytest.fixture(scope="module")
def german(catalogue: Catalogue) -> Strings:
    return strings_of("de", catalogue, ROOTS)


def test_every_sentence_is_there_but_the_statements_nobody_could_open(german: Strings) -> None:
    """A sentence that is new or was changed in English is to be translated: `mullbook words de` lists it."""
    assert set(missing(german)) == NOT_OPENED


def test_what_is_missing_is_reported_and_printed_with_a_mark(german: Strings) -> None:
    for key in NOT_OPENED:
        assert german.say(key).endswith("[en]")
        assert key.partition(".")[2] in words_report(german)
    told = lacking_problem(german, NOT_OPENED, ROOTS)
    assert told is not None and told.severity == "warning" and "statements.P263" in told.message


def test_the_statements_name_a_source_that_says_how_it_was_read(catalogue: Catalogue) -> None:
    held = read_file(ROOTS.templates / "strings" / "de.yaml").data or {}
    source = catalogue.source[held["statements_source"]]
    assert source.read_as == "secondary-copy" and source.url
    assert "ours" in held["note"]


# Read in other copies than those the file was made from: the tables of Annex I 3.8.4 and 3.9.4, Annex II 2.1
# and 2.10, a list of the European Commission, pages of German public bodies on labelling.
SEEN = {
    "H251": "Selbsterhitzungsfähig; kann in Brand geraten",
    "H290": "Kann gegenüber Metallen korrosiv sein",
    "H300": "Lebensgefahr bei Verschlucken",
    "H301": "Giftig bei Verschlucken",
    "H302": "Gesundheitsschädlich bei Verschlucken",
    "H304": "Kann bei Verschlucken und Eindringen in die Atemwege tödlich sein",
    "H314": "Verursacht schwere Verätzungen der Haut und schwere Augenschäden",
    "H317": "Kann allergische Hautreaktionen verursachen",
    "H318": "Verursacht schwere Augenschäden",
    "H319": "Verursacht schwere Augenreizung",
    "H330": "Lebensgefahr bei Einatmen",
    "H335": "Kann die Atemwege reizen",
    "H336": "Kann Schläfrigkeit und Benommenheit verursachen",
    "H350": "Kann Krebs erzeugen",
    "H370": "Schädigt die Organe",
    "H371": "Kann die Organe schädigen",
    "H372": "Schädigt die Organe bei längerer oder wiederholter Exposition",
    "H373": "Kann die Organe schädigen bei längerer oder wiederholter Exposition",
    "H410": "Sehr giftig für Wasserorganismen, mit langfristiger Wirkung",
    "EUH201": (
        "Enthält Blei. Nicht für den Anstrich von Gegenständen verwenden, die von Kindern gekaut oder"
        " gelutscht werden könnten"
    ),
    "EUH201A": "Achtung! Enthält Blei",
    "EUH210": "Sicherheitsdatenblatt auf Anfrage erhältlich",
    "P102": "Darf nicht in die Hände von Kindern gelangen.",
    "P261": "Einatmen von Staub/Rauch/Gas/Nebel/Dampf/Aerosol vermeiden.",
    "P270": "Bei Gebrauch nicht essen, trinken oder rauchen.",
    "P271": "Nur im Freien oder in gut belüfteten Räumen verwenden.",
    "P273": "Freisetzung in die Umwelt vermeiden.",
    "P301+P310": "BEI VERSCHLUCKEN: Sofort GIFTINFORMATIONSZENTRUM/Arzt/… anrufen.",
    "P312": "Bei Unwohlsein GIFTINFORMATIONSZENTRUM/Arzt/… anrufen.",
    "P331": "KEIN Erbrechen herbeiführen.",
    "P501": "Inhalt/Behälter … zuführen.",
}


@pytest.mark.parametrize("code", SEEN)
def test_a_statement_reads_as_in_another_copy(german: Strings, code: str) -> None:
    assert german.statement(code) == SEEN[code]


def test_statements_end_as_the_english_ones_do(german: Strings) -> None:
    english = german.english
    assert english is not None
    for key in (each for each in german.texts if each.startswith("statements.")):
        ends = german.texts[key].endswith((".", "…"))
        assert ends == english.texts[key].endswith((".", "...")), key


def test_nothing_english_is_left_unmarked(german: Strings) -> None:
    english = german.english
    assert english is not None
    left = [key for key, text in german.texts.items() if text == english.texts[key]]
    assert [key for key in left if not SAME.fullmatch(key)] == []


def test_german_calls_nothing_safe(german: Strings) -> None:
    ours = {key: text for key, text in german.texts.items() if not key.startswith("statements.")}
    assert {key: text for key, text in ours.items() if NEVER.search(text)} == {}


def test_the_poster_stays_under_120_words(german: Strings) -> None:
    lines = [text for key, text in german.texts.items() if re.fullmatch(r"poster\.(title|line-\d+)", key)]
    assert len(lines) == 12
    assert sum(len(text.split()) for text in lines) < 120


def test_levels_are_five_different_phrases(german: Strings) -> None:
    phrases = {text for key, text in german.texts.items() if key.startswith("levels.")}
    assert len(phrases) == 5

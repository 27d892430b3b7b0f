"""Faults, studio tests, systems and glossary of the project's own entries keep what they promise."""

from __future__ import annotations

import re
from pathlib import Path

from mullbook.derive.corrections import SYMPTOMS
from mullbook.derive.practice import worked
from mullbook.model.catalogue import Catalogue
from mullbook.render.tally import by_basis

ROOT = Path(__file__).resolve().parents[1]
SYMPTOMS_OF_THE_TRADE = {
    "foam", "craters", "flocculation", "hard-settling", "syneresis", "livering", "curd", "ph-shock",
    "chalking", "over-bound", "mud-cracking", "later-cracking", "grit", "mould", "efflorescence",
    "colour-shift-in-lime", "fading", "blackening", "tube-swells", "tacky-film", "pan-will-not-re-wet",
    "too-thin", "stiffens-overnight",
}  # fmt: skip
TESTS_OF_THE_TRADE = {
    "fineness-test", "drawdown-test", "density-cup", "ph-test", "viscosity-test", "tint-strength",
    "oil-absorption-test", "sieve-test", "soluble-matter", "rub-test", "adhesion-test", "flex-test",
    "drying-test", "window-test", "settling-test", "storage-test", "wick-test", "lime-test", "acid-test",
    "sulfur-pair-test",
}  # fmt: skip
WORDS_OF_THE_TRADE = """
Agglomerate; Aggregate; Batch sheet; Binder; Bleeding; Blue wool reference; Body; Bulk density; Calcine;
Chalking; Cissing; Coalescent; Coagulum; Colour Index generic name; CPVC; Crawling; Cross-cut; Decant;
Defoamer; Deflocculation; Dispersant; Drawdown; Drop test; Earth; Efflorescence; Extender; Fineness of grind;
Flocculation; Flow cup; Fugitive; Gouache; Hegman; Hiding power; Humectant; Intonaco; In-can preservative;
Lake; Let-down; Levigation; Lightfastness; Limefast; Livering; MFFT; Ox gall; Peptise; Plasticiser; Pot life;
PVC; Residue on sieve; Retained sample; Rheology modifier; Rub-out test; Sagging; Secco; Seeding; Size; Slake;
Slurry; Strain; Streak; Syneresis; Temper; Tint strength; Tip speed; Toner; True density; Vehicle;
Volume solids; Water-glass; Wet-out; Whiting; Yield
"""
CLAIMS = re.compile(r"conforms?|complies|certif|passes the standard|to the standard", re.IGNORECASE)


def test_every_symptom_of_the_trade_has_its_page(catalogue: Catalogue) -> None:
    assert set(catalogue.fault) >= SYMPTOMS_OF_THE_TRADE


def test_every_fault_has_a_check_that_measures_and_a_way_out(catalogue: Catalogue) -> None:
    for fault in catalogue.faults:
        assert len(fault.causes) >= 2, fault.id
        for cause in fault.causes:
            assert cause.remedy and cause.outcome in ("mend", "discard", "live-with")
            assert cause.check.how and cause.check.yes
        assert any(re.search(r"\d", cause.check.yes) or cause.check.test for cause in fault.causes), fault.id
        readings = [cause.check.yes for cause in fault.causes]
        assert len(set(readings)) == len(readings), f"{fault.id}: two causes are told apart by one reading"


def test_every_fault_is_found_by_a_studio_test_or_says_why_it_needs_none(catalogue: Catalogue) -> None:
    without = [each.id for each in catalogue.faults if not any(one.check.test for one in each.causes)]
    assert set(without) <= {"livering", "pan-will-not-re-wet"}


def test_corrections_are_those_of_the_solver(catalogue: Catalogue) -> None:
    named = {cause.correction for fault in catalogue.faults for cause in fault.causes if cause.correction}
    assert named <= set(SYMPTOMS)
    assert {"chalks", "insipid", "too-thin", "too-thick", "foams", "curdled", "smells"} <= named


def test_what_is_past_mending_says_discard(catalogue: Catalogue) -> None:
    for fault in catalogue.faults:
        for cause in fault.causes:
            if cause.correction in ("curdled", "smells"):
                assert cause.outcome == "discard", (fault.id, cause.cause)


def test_nothing_is_added_to_what_is_to_be_left_alone(catalogue: Catalogue) -> None:
    assert [
        (fault.id, cause.cause)
        for fault in catalogue.faults
        for cause in fault.causes
        if cause.outcome == "live-with" and cause.correction
    ] == []


def test_every_number_asked_for_is_worked_out(catalogue: Catalogue) -> None:
    found = worked(catalogue)
    asked = {each.id: sum(1 for cause in each.causes if cause.work) for each in catalogue.faults}
    asked |= {each.id: len(each.work) for each in catalogue.studio_tests}
    assert {name: len(each) for name, each in found.items()} == asked
    assert all(each.working.result is not None for numbers in found.values() for each in numbers)
    assert sum(asked.values()) >= 8


def test_every_studio_test_of_the_trade_has_its_page(catalogue: Catalogue) -> None:
    assert set(catalogue.studio_test) >= TESTS_OF_THE_TRADE


def test_a_studio_test_says_what_it_cannot_tell_and_claims_no_standard(catalogue: Catalogue) -> None:
    for each in catalogue.studio_tests:
        assert each.steps and each.accept and each.can_claim and each.cannot_claim, each.id
        said = [one.say for one in (*each.steps, *each.can_claim, *each.cannot_claim, *each.standard)]
        said += [one.reading for one in each.accept]
        assert [one for one in said if CLAIMS.search(one)] == [], each.id


def test_a_standard_is_named_only_where_its_text_was_opened(catalogue: Catalogue) -> None:
    for each in catalogue.studio_tests:
        for one in each.standard:
            assert one.source in catalogue.source, each.id
        ours = " ".join(
            [*(one.say for one in (*each.steps, *each.can_claim)), *(one.reading for one in each.accept)]
        )
        assert not re.search(r"\b(ASTM|ISO|DIN)\b", ours), each.id


def test_result_sheets_fit_a_page(catalogue: Catalogue) -> None:
    for each in catalogue.studio_tests:
        rows = len(each.sheet.given) or each.sheet.rows
        assert 1 <= rows <= 12 and 2 <= len(each.sheet.columns) <= 6, each.id


def test_systems_tell_all_that_a_maker_asks(catalogue: Catalogue) -> None:
    assert len(catalogue.systems) == 11
    for each in catalogue.systems:
        assert len(each.stages) >= 5 and all(stage.stop_test for stage in each.stages), each.id
        assert each.ph or each.kind in ("oil", "encaustic"), each.id
        assert each.amounts and each.order_of_addition and each.shelf_life, each.id
        assert each.not_for and len(each.faults) >= 5, each.id
        assert any(fault.general for fault in each.faults), each.id


def test_practice_is_never_from_memory_whatever_its_key(catalogue: Catalogue) -> None:
    """Stages, causes and amounts are statements too, and the rule counts them."""
    told = (
        catalogue.guides,
        catalogue.questions,
        catalogue.faults,
        catalogue.studio_tests,
        catalogue.systems,
    )
    for held in told:
        counted = by_basis(held)
        assert counted["from-memory"] == 0 and sum(counted.values()) > 80


def test_a_way_of_painting_names_first_what_people_react_to(
    catalogue: Catalogue, pages: dict[str, str]
) -> None:
    for name, allergen in (("egg-tempera", "egg"), ("casein", "milk")):
        page = pages[f"systems/{name}.md"]
        assert allergen in page[page.index("whoever reacts to") : page.index('id="stages"')]


def test_recipes_that_disagree_stand_side_by_side(catalogue: Catalogue) -> None:
    disagreeing = {each.id for each in catalogue.systems for one in each.amounts if one.amount.also}
    assert disagreeing >= {
        "acrylic-dispersion", "watercolour", "gouache", "casein", "distemper", "encaustic", "ink",
    }  # fmt: skip
    glue = catalogue.system["distemper"].amounts[0].amount
    figures = [end for each in (glue, *glue.also) for end in each.ends if end is not None]
    assert min(figures) <= 5 and max(figures) >= 40


def test_the_glossary_holds_the_words_of_the_trade(catalogue: Catalogue) -> None:
    glossary = catalogue.vocabulary("glossary")
    assert glossary is not None
    known = {each.term.casefold() for each in glossary.terms}
    said = " ".join([*known, *(each.means.casefold() for each in glossary.terms)])
    wanted = [each.strip() for each in WORDS_OF_THE_TRADE.replace("\n", " ").split(";")]
    assert [each for each in wanted if each.casefold() not in known and each.casefold() not in said] == []


def test_every_see_of_the_glossary_leads_to_a_term(catalogue: Catalogue) -> None:
    glossary = catalogue.vocabulary("glossary")
    assert glossary is not None
    known = {each.term.casefold() for each in glossary.terms}
    assert [
        (each.term, other) for each in glossary.terms for other in each.see if other.casefold() not in known
    ] == []

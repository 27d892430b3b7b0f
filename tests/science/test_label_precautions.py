"""The choice of precautionary statements (CLP, Article 28)."""

from __future__ import annotations

import pytest

from mullbook.model.values.ruleset import ClassFound
from mullbook.science.label import precautions
from tests.science.clp import EYE, ORAL, RULES, SKIN, US_RULES

Named = tuple[str, str, str]
H301, H302 = (ORAL, "3", "H301"), (ORAL, "4", "H302")
H314, H315, H318 = (SKIN, "1B", "H314"), (SKIN, "2", "H315"), (EYE, "1", "H318")
H317, H330 = ("skin-sensitisation", "1A", "H317"), ("acute-toxicity-inhalation", "2", "H330")
H335, H350 = ("stot-single", "3", "H335"), ("carcinogenicity", "1A", "H350i")
H360, H372 = ("reproductive-toxicity", "1A", "H360Df"), ("stot-repeated", "1", "H372")
H410, H412 = ("aquatic-chronic", "1", "H410"), ("aquatic-chronic", "3", "H412")
LEAD_WHITE = (H302, H360, H372, H410, ("acute-toxicity-inhalation", "4", "H332"))


def chosen(*named: Named, public: bool = False) -> list[str]:
    """Codes chosen for a few classes, in order."""
    classes = [
        ClassFound(hazard=name, category=category, statement=statement, rule="", figures="")
        for name, category, statement in named
    ]
    return list(precautions(classes, RULES, public=public))


@pytest.mark.parametrize(
    ("named", "expected"),
    [
        pytest.param((), [], id="nothing"),
        pytest.param((H412,), ["P273", "P501"], id="water alone"),
        pytest.param((H350,), ["P280", "P202", "P308+P313", "P405", "P501"], id="cancer"),
        pytest.param((H372,), ["P260", "P270", "P264", "P314", "P501"], id="organs"),
        pytest.param((H317,), ["P280", "P261", "P302+P352", "P333+P313", "P272", "P501"], id="an allergen"),
        pytest.param(LEAD_WHITE, ["P260", "P280", "P202", "P304+P340", "P308+P313", "P501"], id="lead white"),
    ],
)
def test_choice(named: tuple[Named, ...], expected: list[str]) -> None:
    assert chosen(*named) == chosen(*named[::-1]) == expected


@pytest.mark.parametrize("named", [(H412,), LEAD_WHITE, (H301, H314, H318, H317, H330, H335, H350, H410)])
def test_at_most_six_with_one_on_disposal(named: tuple[Named, ...]) -> None:
    for public in (False, True):
        codes = chosen(*named, public=public)
        assert len(codes) <= 6
        assert "P501" in codes
        assert ("P102" in codes) == public


def test_the_public_is_told_of_disposal_even_where_the_class_does_not_ask() -> None:
    """CLP, Article 28(2)."""
    assert "P501" not in chosen(H315)
    assert "P501" in chosen(H315, public=True)


def test_a_stronger_statement_makes_a_weaker_one_needless() -> None:
    assert not {"P261", "P311", "P312"} & set(chosen(H330, H335, H301))
    assert not {"P302+P352", "P362+P364"} & set(chosen(H314, H317, H315))


def test_statements_only_the_supplier_can_fill_in_are_never_chosen() -> None:
    for row in RULES.precautions:
        for category in row.categories:
            codes = chosen((row.hazard, category, row.statement or ""))
            assert not {"P320", "P321"} & set(codes)


def test_every_statement_has_its_text_and_its_place_in_the_order() -> None:
    choice = RULES.precaution_choice
    assert choice is not None
    texts = {each.code for each in RULES.statements}
    asked = {
        code
        for row in RULES.precautions
        for code in (*row.prevention, *row.response, *row.storage, *row.disposal)
    } | set(choice.public)
    assert asked <= texts
    assert asked - set(choice.leave_out) == set(choice.order)
    assert len(choice.order) == len(set(choice.order))


def test_every_labelled_health_and_water_class_has_precautions() -> None:
    have = {(row.hazard, category) for row in RULES.precautions for category in row.categories}
    want = {(e.hazard, e.category) for e in RULES.elements if e.hazard not in RULES.not_judged}
    assert want == have


def test_no_choice_where_the_tables_were_not_read() -> None:
    found = ClassFound(hazard="carcinogenicity", category="1A", statement="H350", rule="", figures="")
    assert precautions([found], US_RULES) == ()

"""Signal words, pictograms and statements after precedence (EU CLP, Art. 20, 26 and 27, Annex III)."""

from __future__ import annotations

import pytest

from mullbook.model.values.ruleset import ClassFound, Classification
from mullbook.science.label import label_elements, label_statements
from tests.science.clp import EYE, ORAL, RULES, SKIN, US_RULES

H301, H302 = (ORAL, "3", "H301"), (ORAL, "4", "H302")
H312 = ("acute-toxicity-dermal", "4", "H312")
H314, H315 = (SKIN, "1", "H314"), (SKIN, "2", "H315")
H318, H319 = (EYE, "1", "H318"), (EYE, "2", "H319")
H317, H334 = ("skin-sensitisation", "1", "H317"), ("respiratory-sensitisation", "1", "H334")
H335, H336 = ("stot-single", "3", "H335"), ("stot-single", "3", "H336")
H350 = ("carcinogenicity", "1A", "H350")
H410, H412 = ("aquatic-chronic", "1", "H410"), ("aquatic-chronic", "3", "H412")

Named = tuple[str, str, str]


def classes(*named: Named) -> list[ClassFound]:
    """Classes of a mixture, by their names alone."""
    return [
        ClassFound(hazard=hazard, category=category, statement=statement, rule="", figures="")
        for hazard, category, statement in named
    ]


def label(*named: Named, rules: Classification = RULES) -> tuple[str | None, tuple[str, ...]]:
    """Signal word and pictograms of a few classes."""
    return label_elements(classes(*named), rules.elements, rules.precedence)


@pytest.mark.parametrize(
    ("named", "signal_word", "pictograms"),
    [
        pytest.param((), None, (), id="nothing"),
        pytest.param((H412,), None, (), id="a class that asks for neither"),
        pytest.param((H302, H350), "Danger", ("GHS07", "GHS08"), id="Danger excludes Warning"),
        pytest.param((H301, H317), "Danger", ("GHS06",), id="the skull drops the mark altogether"),
        pytest.param((H318, H315), "Danger", ("GHS05",), id="corrosion drops the mark for irritation"),
        pytest.param((H314, H319), "Danger", ("GHS05",), id="corrosion drops the mark for the eye"),
        pytest.param((H318, H302), "Danger", ("GHS05", "GHS07"), id="but not for acute toxicity"),
        pytest.param((H318, H335), "Danger", ("GHS05", "GHS07"), id="nor for the airways"),
        pytest.param((H318, H315, H335), "Danger", ("GHS05", "GHS07"), id="one reason left is enough"),
        pytest.param((H334, H317, H315, H319), "Danger", ("GHS08",), id="the airways' sensitiser drops it"),
        pytest.param((H334, H302), "Danger", ("GHS07", "GHS08"), id="but not for acute toxicity either"),
        pytest.param((H350, H317), "Danger", ("GHS07", "GHS08"), id="a carcinogen does not drop it"),
        pytest.param((H350, H334, H317), "Danger", ("GHS08",), id="unless it is a sensitiser too"),
        pytest.param((H410,), "Warning", ("GHS09",), id="water"),
    ],
)
def test_precedence(named: tuple[Named, ...], signal_word: str | None, pictograms: tuple[str, ...]) -> None:
    assert label(*named) == (signal_word, pictograms)
    assert label(*named[::-1]) == (signal_word, pictograms)


@pytest.mark.parametrize(
    ("named", "eu", "us"),
    [
        pytest.param((H301, H317), ("GHS06",), ("GHS06", "GHS07"), id="the skull and an allergen"),
        pytest.param((H301, H315), ("GHS06",), ("GHS06", "GHS07"), id="the skull and an irritant"),
        pytest.param((H301, H335), ("GHS06",), ("GHS06", "GHS07"), id="the skull and the airways"),
        pytest.param((H301, H312), ("GHS06",), ("GHS06",), id="the skull and lesser acute toxicity"),
        pytest.param((H318, H315), ("GHS05",), ("GHS05",), id="corrosion and irritation"),
        pytest.param((H318, H302), ("GHS05", "GHS07"), ("GHS05", "GHS07"), id="corrosion and acute toxicity"),
        pytest.param((H334, H317), ("GHS08",), ("GHS08",), id="both kinds of allergen"),
        pytest.param((H334, H336), ("GHS07", "GHS08"), ("GHS07", "GHS08"), id="an allergen and drowsiness"),
        pytest.param((H350, H317), ("GHS07", "GHS08"), ("GHS07", "GHS08"), id="cancer and an allergen"),
        pytest.param((H350, H319), ("GHS07", "GHS08"), ("GHS07", "GHS08"), id="cancer and an irritant"),
    ],
)
def test_places_differ(named: tuple[Named, ...], eu: tuple[str, ...], us: tuple[str, ...]) -> None:
    """CLP, Art. 26; 29 CFR 1910.1200, Appendix C, C.2.1: only the skull is treated in two ways."""
    for order in (named, named[::-1]):
        assert label(*order)[1] == eu
        assert label(*order, rules=US_RULES)[1] == us
        assert label(*order)[0] == label(*order, rules=US_RULES)[0] == "Danger"


@pytest.mark.parametrize(
    ("statements", "left"),
    [
        (["H410", "H400"], ("H410",)),
        (["H400"], ("H400",)),
        (["H318", "H314"], ("H314",)),
        (["H318", "H302"], ("H302", "H318")),
        (["H350", "H350"], ("H350",)),
    ],
)
def test_statements_that_a_stronger_one_makes_needless(statements: list[str], left: tuple[str, ...]) -> None:
    """CLP, Annex III."""
    assert label_statements(statements, RULES.precedence) == left

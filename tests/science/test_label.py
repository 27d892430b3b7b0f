"""Signal words, pictograms and statements after precedence (EU CLP, Art. 20, 26 and 27, Annex III)."""

from __future__ import annotations

import pytest

from mullbook.model.values.ruleset import ClassFound, Precedence
from mullbook.science.label import label_elements, label_statements
from tests.science.clp import EYE, ORAL, RULES, SKIN, US_PRECEDENCE

H301, H302 = (ORAL, "3", "H301"), (ORAL, "4", "H302")
H314, H315 = (SKIN, "1", "H314"), (SKIN, "2", "H315")
H318, H319 = (EYE, "1", "H318"), (EYE, "2", "H319")
H317, H334 = ("skin-sensitisation", "1", "H317"), ("respiratory-sensitisation", "1", "H334")
H335 = ("stot-single", "3", "H335")
H350 = ("carcinogenicity", "1A", "H350")
H410, H412 = ("aquatic-chronic", "1", "H410"), ("aquatic-chronic", "3", "H412")

Named = tuple[str, str, str]


def label(
    *named: Named, precedence: tuple[Precedence, ...] = RULES.precedence
) -> tuple[str | None, tuple[str, ...]]:
    """Label of a few classes."""
    classes = [
        ClassFound(hazard=hazard, category=category, statement=statement, rule="", figures="")
        for hazard, category, statement in named
    ]
    return label_elements(classes, RULES.elements, precedence)


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


def test_places_differ() -> None:
    """H301 with H317: the EU shows the skull alone, the US the exclamation mark beside it."""
    assert label(H301, H317)[1] == ("GHS06",)
    assert label(H301, H317, precedence=US_PRECEDENCE)[1] == ("GHS06", "GHS07")


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

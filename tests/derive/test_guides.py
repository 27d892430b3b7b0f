"""Figures of guides and questions: what an input may lead to, and what is said where it leads nowhere."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook import load
from mullbook.derive.guides import BadFigure, figures, worked_figure
from mullbook.model.catalogue import Catalogue
from mullbook.model.guides import Figure
from mullbook.model.marks import pieces, plain

BOOK = {"source": "a-book-1900", "at": "p. 1", "basis": "published"}
OCHRE: dict[str, Any] = {
    "id": "an-ochre",
    "name": "An ochre",
    "physical": {"density": {"low": 2.9, "high": 3.5, "unit": "g/cm3", **BOOK}},
}
BARE: dict[str, Any] = {"id": "bare", "name": "Bare"}
ACRYLIC: dict[str, Any] = {
    "id": "acrylic",
    "name": "Acrylic",
    "kind": "dispersion",
    "target": {"by": "none", "why": "a test"},
    "density_dry": {"value": 1.1, "unit": "g/cm3", **BOOK},
    "solids": {"min": 0.4, "unit": "fraction", **BOOK},
}
GRAMS = {
    "pigment_mass": "20",
    "density": "pigment:an-ochre:density",
    "pvc": "0.35",
    "binder_solids": "0.47",
    "binder_solids_density": "binder:acrylic:density_dry",
}


def figure(id: str, formula: str, **inputs: str) -> dict[str, Any]:
    return {"id": id, "words": f"words of {id}", "formula": formula, "inputs": inputs}


def catalogue(*held: dict[str, Any]) -> Catalogue:
    guide = {
        "id": "a-guide",
        "number": 1,
        "name": "A guide",
        "parts": [{"id": "one", "heading": "One", "figures": list(held)}],
    }
    made = (("pigment", OCHRE), ("pigment", BARE), ("binder", ACRYLIC), ("guide", guide))
    return load.catalogue(load.entity(kind, data) for kind, data in made)


def asked(formula: str, **inputs: str) -> Figure:
    return load.build(Figure, figure("asked", formula, **inputs))


def test_a_number_of_an_entry_keeps_its_source() -> None:
    working = worked_figure(catalogue(), asked("binder_for_pvc", **GRAMS), {}).working
    density, dry = working.inputs[1], working.inputs[4]
    assert (density.source, density.basis, density.note) == ("a-book-1900", "published", "An ochre")
    assert dry.note == "Acrylic"
    assert working.result is not None
    assert (working.result.low, working.result.high) == pytest.approx((24.84, 29.98), abs=0.01)


def test_a_figure_may_start_from_an_earlier_one() -> None:
    held = catalogue(
        figure("grams", "binder_for_pvc", **{**GRAMS, "density": "3.0"}),
        figure("volume", "batch_volume", masses="20, figure:grams, 10", densities="3.0, 1.05, 1.0"),
        figure("tubes", "fill", volume="figure:volume", loss="0.05..0.10", tube_volume="37"),
    )
    found = figures(held)["guide:a-guide"]
    assert list(found) == ["grams", "volume", "tubes"]
    grams, volume, tubes = (found[each].working for each in found)
    assert grams.result is not None and volume.result is not None and tubes.result is not None
    assert volume.result.low == pytest.approx(20 / 3 + grams.result.low / 1.05 + 10)
    assert tubes.inputs[0].note == "from words of volume"
    assert tubes.result.low == 1


@pytest.mark.parametrize(
    ("formula", "inputs", "words"),
    [
        ("pvcc", {"pigment_volume": "1"}, "There is no formula called 'pvcc'."),
        ("pvc", {"pigment": "1"}, "pigment"),
        ("pvc", {"pigment_volume": "a lot"}, "is not a number"),
        ("pvc", {"pigment_volume": "1"}, "binder solids volume is not known"),
        (
            "cpvc",
            {"oil_absorption": "40", "density": "pigment:an-ocher:density"},
            "no pigment called an-ocher",
        ),
        ("cpvc", {"oil_absorption": "40", "density": "pigment:bare:density"}, "No closed range of density"),
        ("cpvc", {"oil_absorption": "40", "density": "pigment:an-ochre:colour"}, "leads to no number"),
        ("cpvc", {"oil_absorption": "40", "density": "jar:an-ochre:density"}, "leads to no number"),
        ("cpvc", {"oil_absorption": "40", "density": "figure:later"}, "no figure later before this one"),
        ("cpvc", {"oil_absorption": "pigment:an-ochre:density", "density": "3"}, "g/100g"),
        ("binder_for_pvc", {**GRAMS, "binder_solids": "binder:acrylic:solids"}, "No closed range of solids"),
    ],
)
def test_what_leads_nowhere_says_so(formula: str, inputs: dict[str, str], words: str) -> None:
    with pytest.raises(BadFigure, match=words):
        worked_figure(catalogue(), asked(formula, **inputs), {})


def test_a_bad_figure_takes_no_other_down() -> None:
    held = catalogue(
        figure("wrong", "pvcc", pigment_volume="1"),
        figure("right", "pvc", pigment_volume="1", binder_solids_volume="3"),
    )
    assert list(figures(held)["guide:a-guide"]) == ["right"]


WORDS = st.text(st.characters(blacklist_characters="{}[]|", blacklist_categories=["Cs"]))


@given(WORDS)
def test_words_without_marks_stay_as_they_are(text: str) -> None:
    assert plain(text) == text
    assert "".join(each.words for each in pieces(text)) == text


@given(WORDS, st.from_regex(r"[a-z0-9-]+", fullmatch=True), WORDS)
def test_a_figure_is_found_between_any_words(before: str, name: str, after: str) -> None:
    text = f"{before}{{{name}}}{after}"
    assert [each.figure for each in pieces(text) if each.figure is not None] == [name]
    assert plain(text, "5 g") == f"{before}5 g{after}"


@given(WORDS, st.from_regex(r"[A-Za-z ]+", fullmatch=True), WORDS)
def test_a_term_shows_its_words(before: str, term: str, after: str) -> None:
    assert plain(f"{before}[{term}]{after}") == f"{before}{term}{after}"
    assert plain(f"{before}[shown|{term}]{after}") == f"{before}shown{after}"

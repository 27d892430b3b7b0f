"""The bench card: what it says, and in which words."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from mullbook.derive.results import BinderStart, Derived, DerivedPigment, Verdict
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Range, Working
from mullbook.render import card
from mullbook.render.card import Card, pigment_card, product_card, shown_starts
from mullbook.render.ladder import ladders
from mullbook.render.text import card_text
from mullbook.workflow import Roots, check
from tests.corpus.cases import good_project

OCHRE = "invented-ochre"


@pytest.fixture(scope="module")
def held(tmp_path_factory: pytest.TempPathFactory) -> tuple[Catalogue, Derived]:
    loaded = check(Roots.at(good_project(tmp_path_factory.mktemp("good"))))
    assert loaded.derived is not None
    return loaded.catalogue, loaded.derived


@pytest.fixture(scope="module")
def ochre(held: tuple[Catalogue, Derived]) -> Card:
    catalogue, derived = held
    return pigment_card(catalogue, derived, catalogue.pigment[OCHRE])


def with_start(found: DerivedPigment, low: float, high: float, start: float) -> DerivedPigment:
    mass = Working("binder_for_pvc", "", "", (), "g", "", result=Range(low, high))
    shown = BinderStart(binder="linseed-oil", verdict="suits", pvc=Range(0.3, 0.4), mass=mass, start=start)
    return replace(found, paint=replace(found.paint, binders=(shown,)))


def test_the_dry_powder_comes_first_with_what_its_level_asks_for(
    held: tuple[Catalogue, Derived], ochre: Card
) -> None:
    policy = held[0].policy
    level = held[1].pigments[OCHRE].safety.dry["bench"].level
    assert ochre.states[0].state == "Dry powder"
    assert ochre.states[0].css == f"lv-{level}"
    assert ochre.states[0].means == policy.words(level).means
    names = [each.state for each in ochre.states]
    assert names == ["Dry powder", "Wet paint", "Sanding", "Heating", "Spraying"]


def test_reasons_are_words_before_figures(ochre: Card) -> None:
    why = ochre.states[0].why
    assert "silica" in why
    assert why.index("silica") < why.index("mg/m³")
    assert "mg/m3" not in why


def test_waste_is_the_last_word_and_says_why(ochre: Card) -> None:
    assert ochre.waste is not None
    assert ochre.waste.css.startswith("to-")
    assert ochre.waste.why.endswith(".")


def test_wet_levels_do_not_speak_of_powder(held: tuple[Catalogue, Derived]) -> None:
    catalogue, derived = held
    for product in catalogue.products:
        made = product_card(catalogue, derived, product)
        assert "powder" not in made.states[0].means or made.states[0].css == "lv-leave-it-shut"


@pytest.mark.parametrize(
    ("low", "high", "says"),
    [
        (96.0, 96.0, "linseed oil for 20 g of pigment"),
        (50.0, 150.0, "linseed oil for 20 g of pigment; range 10–30 g"),
    ],
)
def test_a_spread_that_says_nothing_new_is_left_out(
    held: tuple[Catalogue, Derived], low: float, high: float, says: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    catalogue, derived = held
    monkeypatch.setitem(catalogue.binder, "linseed-oil", replace(catalogue.binders[0], name="Linseed oil"))
    found = with_start(derived.pigments[OCHRE], low, high, (low + high) / 2)
    changed = replace(derived, pigments={**derived.pigments, OCHRE: found})
    made = pigment_card(catalogue, changed, catalogue.pigment[OCHRE])
    assert "".join(made.start[0][1:]).replace("\N{NO-BREAK SPACE}", " ") == says


def test_an_unsuitable_binder_has_no_start(held: tuple[Catalogue, Derived]) -> None:
    found = with_start(held[1].pigments[OCHRE], 50.0, 150.0, 100.0)
    unsuitable = replace(found.paint.binders[0], verdict="unsuitable")
    assert shown_starts(found)
    assert shown_starts(replace(found, paint=replace(found.paint, binders=(unsuitable,)))) == []


def test_a_jar_that_stays_shut_has_no_start(held: tuple[Catalogue, Derived]) -> None:
    found = with_start(held[1].pigments[OCHRE], 50.0, 150.0, 100.0)
    shut = {each: Verdict(level="leave-it-shut", reasons=()) for each in found.safety.dry}
    assert shown_starts(replace(found, safety=replace(found.safety, dry=shut))) == []


def test_a_ladder_without_a_rub_out_says_at_least(
    held: tuple[Catalogue, Derived], monkeypatch: pytest.MonkeyPatch
) -> None:
    catalogue, derived = held
    monkeypatch.setitem(catalogue.binder, "linseed-oil", replace(catalogue.binders[0], name="Linseed oil"))
    found = with_start(derived.pigments[OCHRE], 50.0, 150.0, 100.0)
    critical = Working("pvc_of_grind", "", "", (), "fraction", "", result=Range(0.25, 0.3))
    start = replace(found.paint.binders[0], critical=critical)
    bound = replace(found, paint=replace(found.paint, critical_from="grind-quantity", binders=(start,)))
    known = replace(found, paint=replace(found.paint, critical_from="rub-out", binders=(start,)))
    assert [each.words.replace("\N{NO-BREAK SPACE}", " ") for each in ladders(catalogue, bound)] == [
        "Pigment volume in linseed oil: start 30–40 %, critical at least 25 %"
    ]
    drawn = ladders(catalogue, known)[0]
    assert drawn.critical is not None
    assert (drawn.critical.low, drawn.critical.high, drawn.known) == (25.0, 30.0, True)


def test_the_terminal_says_the_same(held: tuple[Catalogue, Derived], ochre: Card) -> None:
    said = card_text(*held, held[0].pigment[OCHRE])
    for state in ochre.states:
        assert f"{state.state}: {state.word.upper()}" in said
    assert said.index("Dry powder") < said.index("Not for") < said.index("Stop test") < said.index("Waste")
    assert "not a regulatory classification" in said


def test_shown_binders_are_entries() -> None:
    """A renamed binder must not silently vanish from every card."""
    entries = Path(__file__).parents[2] / "entries" / "binders"
    assert [each for each in card.SHOWN_BINDERS if not (entries / f"{each}.yaml").is_file()] == []

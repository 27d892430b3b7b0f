"""Ounces, fluid ounces and the decimal comma, in numbers that stand printed on the pages of the book."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Site

OUNCES = {"mass": "oz", "volume": "floz", "comma": True}
GRAMS_IN_AN_OUNCE, MILLILITRES_IN_A_FLUID_OUNCE = 28.349523125, 29.5735295625
RECIPE = "recipes/raw-umber-satin-tubes.html"
UMBER = "pigments/raw-umber.html"


def choose(page: Page, kept: dict[str, object]) -> None:
    page.evaluate("kept => localStorage.setItem('mullbook.prefs', JSON.stringify(kept))", kept)
    page.reload()


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ").strip()


def figure(text: str) -> float:
    found = re.match(r"[\d.,]+", plain(text))
    assert found, text
    return float(found[0].replace(",", "."))


def test_a_card_is_said_for_one_ounce(page: Page, opened: Site) -> None:
    """So that nobody weighs 0.71 oz of pigment; the ratio stays."""
    page.goto(opened.url(UMBER))
    start = page.locator(".card .start li").first
    grams = figure(start.locator(".fig").inner_text())
    choose(page, OUNCES)
    expect(start.locator(".fig")).to_contain_text("oz")
    assert figure(start.locator(".fig").inner_text()) == pytest.approx(grams / 20, rel=0.05)
    assert "for 1 oz of pigment" in plain(start.text_content() or "")
    assert not re.search(r"\d\s?g\b(?!/)", page.locator(".card .start").text_content() or "")
    row = page.locator("[data-per='100'] .row summary").first
    assert re.search(r"\d oz", plain(row.inner_text()))


def test_weights_and_volumes_of_a_recipe_are_converted(page: Page, opened: Site) -> None:
    page.goto(opened.url(RECIPE))
    lines = page.locator("#stage-paste + .scroll tbody tr")
    printed = [[figure(one) for one in (cells[0], cells[2])] for cells in cells_of(page)]
    choose(page, OUNCES)
    expect(lines.first).to_contain_text("fl oz")
    for (grams, millilitres), cells in zip(printed, cells_of(page), strict=True):
        assert figure(cells[0]) == pytest.approx(grams / GRAMS_IN_AN_OUNCE, rel=0.01)
        assert figure(cells[2]) == pytest.approx(millilitres / MILLILITRES_IN_A_FLUID_OUNCE, rel=0.03)
        assert "." not in cells[0] + cells[1] + cells[2]


def cells_of(page: Page) -> list[list[str]]:
    rows = page.locator("#stage-paste + .scroll tbody tr").all()
    return [[each.inner_text() for each in row.locator("td").all()] for row in rows]


def test_sentences_codes_quotes_and_workings_stay(page: Page, opened: Site) -> None:
    page.goto(opened.url(UMBER))
    parts = ".steps, code, .sources, .card-foot, .do, .formula"
    before = page.locator(parts).all_text_contents()
    choose(page, {"mass": "oz", "volume": "floz"})
    expect(page.locator(".card .start .fig").first).to_contain_text("oz")
    assert page.locator(parts).all_text_contents() == before


def test_the_page_says_so_and_gives_the_printed_one_back(page: Page, opened: Site) -> None:
    page.goto(opened.url(RECIPE))
    printed = page.locator("#content").inner_text()
    choose(page, OUNCES)
    told = page.locator(".units-told")
    expect(told).to_contain_text("In oz, fl oz, 1,5, as chosen on this device")
    told.get_by_role("button", name="Show as printed").click()
    expect(told.get_by_role("button")).to_be_focused()
    shown = page.locator("#content").inner_text()
    assert shown.replace(plain(told.inner_text()), "").split() == printed.split()


def test_the_choice_is_followed_at_once_and_taken_back(page: Page, opened: Site) -> None:
    page.goto(opened.url(UMBER))
    printed = page.locator("[data-per='100']").inner_text()
    page.locator(".prefs summary").click()
    page.locator("#prefs-comma").select_option("true")
    page.locator("#prefs-mass").select_option("oz")
    expect(page.locator("[data-per='100'] .row summary").first).to_contain_text("oz")
    expect(page.locator(".prefs summary")).to_contain_text("oz, ml, 1,5")
    page.locator("#prefs-mass").select_option("g")
    page.locator("#prefs-comma").select_option("false")
    expect(page.locator("[data-per='100']")).to_have_text(re.compile(r"Per 100 g of pigment"))
    assert page.locator("[data-per='100']").inner_text() == printed


def test_other_units_cost_an_entry_little(page: Page, opened: Site) -> None:
    page.goto(opened.url("binders/linseed-oil.html"))
    choose(page, OUNCES)
    expect(page.locator(".units-told")).to_be_visible()
    scripts = page.evaluate("[...document.scripts].map(one => one.src).filter(Boolean)")
    weights = {Path(name).name: Path(name.removeprefix("file://")).stat().st_size for name in scripts}
    assert "units.js" in weights
    assert sum(weights.values()) <= 60_000, weights


COMMAS = {
    "3.2–3.6 g/cm³": "3,2–3,6 g/cm³",
    "Table 3.6.2, section 3.5": "Table 3.6.2, section 3.5",
    "C.I. 15850:1, 2.5 %": "C.I. 15850:1, 2,5 %",
    "on 25.11.2026": "on 25.11.2026",
}


@pytest.mark.parametrize("words", COMMAS)
def test_a_comma_is_put_before_decimals_alone(page: Page, opened: Site, words: str) -> None:
    page.goto(opened.url("glossary.html"))
    page.evaluate("words => document.querySelector('h1').after(words)", words)
    page.evaluate(
        "() => { localStorage.setItem('mullbook.prefs', '{\"comma\": true}');"
        " document.dispatchEvent(new Event('mullbook:prefs')); }"
    )
    page.wait_for_function("window.MULLBOOK_PAGE && document.querySelector('.units-told')")
    assert COMMAS[words] in page.locator("#content").inner_text()

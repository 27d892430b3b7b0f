"""The bench card on a phone: one screen that answers, one tap that gives the reasons."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import DESK, HEIGHTS, PHONE, Site

REMEMBER = "kept => localStorage.setItem('mullbook.prefs', JSON.stringify(kept))"
HEIGHT_TO_THE_DRAIN = """
() => [...document.querySelectorAll(".leaf:has(.card)")].map((leaf) => {
  leaf.style.display = "block";
  const card = leaf.querySelector(".card").getBoundingClientRect(), whole = leaf.querySelector(".whole").getBoundingClientRect();
  leaf.style.display = "";
  return [leaf.id, whole.top - card.top];
})
"""  # noqa: E501
ON_THE_SCREEN = (
    ".verdict.first .word",
    ".verdict.first .means",
    ".who b",
    ".do li",
    ".start .fig",
    ".stop p",
)
REASONS = (".verdict.first .why", ".who span", ".do li:last-child")


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    """A phone whose scripts are switched off."""
    context = browser.new_context(
        java_script_enabled=False, offline=True, viewport={"width": PHONE, "height": HEIGHTS[PHONE]}
    )
    context.set_default_timeout(10_000)
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("width", [PHONE], indirect=True, ids=["360px"])
def test_every_card_fits_one_phone_screen(page: Page, opened: Site) -> None:
    """From what it is made to do to the drain, for each pigment, binder and additive."""
    page.goto(opened.url("pocket.html"))
    heights: list[tuple[str, float]] = page.evaluate(HEIGHT_TO_THE_DRAIN)
    assert len(heights) > len(opened.pigments)
    assert min(height for _, height in heights) > 100
    assert [each for each in heights if each[1] > HEIGHTS[PHONE]] == []


def test_one_tap_adds_the_reasons_without_a_script(phone: Page, opened: Site) -> None:
    phone.goto(opened.url("pigments/raw-umber.html"))
    for part in ON_THE_SCREEN:
        expect(phone.locator(f".card {part}").first).to_be_visible()
    for part in REASONS:
        expect(phone.locator(f".card {part}").first).to_be_hidden()
    expect(phone.locator(".wrong dd").first).to_be_visible()
    phone.get_by_label("Reasons and every step").check()
    for part in REASONS:
        expect(phone.locator(f".card {part}").first).to_be_visible()


@pytest.mark.parametrize("width", [DESK], indirect=True, ids=["1280px"])
def test_the_card_is_whole_on_a_desk_and_on_paper(page: Page, opened: Site) -> None:
    page.goto(opened.url("pigments/raw-umber.html"))
    for media in ("screen", "print"):
        page.emulate_media(media=media)  # type: ignore[arg-type]
        expect(page.locator(".whole")).to_be_hidden()
        for part in REASONS:
            expect(page.locator(f".card {part}").first).to_be_visible()


def test_what_stays_shut_has_no_start_for_a_chosen_binder(page: Page, opened: Site) -> None:
    page.goto(opened.url("pigments/vermilion.html"))
    page.evaluate(REMEMBER, {"binder": "linseed-oil", "place": "EU"})
    page.reload()
    expect(page.locator(".prefs summary")).to_contain_text("linseed oil")
    assert not re.search(r"\d\s?g\b", page.locator(".card .start").text_content() or "")
    page.goto(opened.url("pigments/raw-umber.html"))
    expect(page.locator(".card .start .mine").first).to_contain_text("linseed oil for 20 g of pigment")


def test_a_chosen_place_never_shows_a_milder_limit_than_the_card(page: Page, opened: Site) -> None:
    """The limit of a minor part says nothing for the rest: any dust has a threshold."""
    page.goto(opened.url("index.html"))
    page.evaluate(REMEMBER, {"place": "EU"})
    held = re.compile(r"threshold for any dust, (?:inhalable|respirable); the limit of .*\(European Union")
    pages = [
        path for path in (opened.folder / "pigments").glob("*.html") if held.search(path.read_text("utf-8"))
    ]
    assert pages
    for path in pages[:3]:
        page.goto(path.as_uri())
        printed = page.locator(".card .start li:not(.mine)", has_text="threshold for any dust").locator(
            ".fig"
        )
        mine = page.locator(".card .start .mine .fig").first
        assert mine.text_content() == printed.text_content(), path.name


CLIPPED = """
() => [...document.querySelectorAll("svg.chart text, svg.ladder text")].filter((text) => {
  const word = text.getBoundingClientRect(), chart = text.closest("svg").getBoundingClientRect();
  return chart.left - word.left > 1 || word.right - chart.right > 1;
}).map((text) => text.textContent)
"""


@pytest.mark.parametrize("width", [PHONE], indirect=True, ids=["360px"])
@pytest.mark.parametrize("name", ["chalk", "maya-blue", "titanium-white", "lithopone"])
def test_the_words_of_a_chart_stay_on_it(page: Page, opened: Site, name: str) -> None:
    page.goto(opened.url(f"pigments/{name}.html"))
    assert page.locator("svg.chart").count() >= 2
    assert page.evaluate(CLIPPED) == []

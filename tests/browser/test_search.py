"""Search in the text of all pages from disk, from the top and from a nested page."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, Site

HITS = ".text-hit a:first-child"


def first_hits(page: Page, opened: Site, place: str, words: str) -> list[str]:
    page.goto(opened.url(f"{place}?q={words}"))
    expect(page.locator(HITS).first).to_be_attached()
    links: list[str] = page.locator(HITS).evaluate_all("all => all.slice(0, 8).map(one => one.href)")
    return [link.partition("?")[0].partition("#")[0] for link in links]


@pytest.mark.parametrize("place", ["index.html", "pigments/raw-umber.html"])
def test_a_name_is_found(page: Page, opened: Site, place: str) -> None:
    assert opened.url("pigments/raw-umber.html") in first_hits(page, opened, place, "umber")


@pytest.mark.parametrize("width", [DESK], indirect=True, ids=["1280px"])
@pytest.mark.parametrize("place", ["index.html", "pigments/raw-umber.html"])
def test_a_folded_colour_index_name_is_found(page: Page, opened: Site, place: str) -> None:
    carriers = {opened.url(f"pigments/{carrier}.html") for carrier in opened.named("PBr 7")}
    assert carriers
    for words in ("PBr7", "PBr 7"):
        assert set(first_hits(page, opened, place, words)) <= carriers


@pytest.mark.parametrize("width", [DESK], indirect=True, ids=["1280px"])
@pytest.mark.parametrize("place", ["index.html", "pigments/raw-umber.html"])
@pytest.mark.parametrize("write", [str, lambda cas: cas.replace("-", "")], ids=["printed", "folded"])
def test_a_cas_number_is_found(page: Page, opened: Site, place: str, write: Callable[[str], str]) -> None:
    numbered = next(substance for substance in opened.catalogue["substances"] if substance["cas"])
    cas = numbered["cas"][0] if isinstance(numbered["cas"], list) else numbered["cas"]
    carriers = {
        opened.url(f"{kind}/{entry['id']}.html")
        for kind in ("substances", "pigments")
        for entry in opened.catalogue[kind]
        if cas in (entry["cas"] or [])
    }
    assert carriers & set(first_hits(page, opened, place, write(cas)))


def test_the_box_answers_while_typing(page: Page, opened: Site) -> None:
    page.goto(opened.url("index.html"))
    open_panel(page)
    page.keyboard.type("umber")
    expect(page.locator(HITS).first).to_be_visible()
    page.keyboard.press("ArrowDown")
    expect(page.locator(HITS).first).to_be_focused()
    page.keyboard.press("Enter")
    page.wait_for_url("**umber**")


def open_panel(page: Page) -> None:
    """Open the search as a thumb would; its box takes the focus."""
    if page.locator(".menu > summary").is_visible():
        page.locator(".menu > summary").click()
    page.locator(".seek > summary").click()
    expect(page.locator("#text-query")).to_be_focused()


def test_it_is_left_by_the_escape_key(page: Page, opened: Site) -> None:
    page.goto(opened.url("pigments/raw-umber.html"))
    open_panel(page)
    page.keyboard.press("Escape")
    expect(page.locator("#text-query")).to_be_hidden()
    expect(page.locator(".seek > summary")).to_be_focused()


def test_words_that_stand_nowhere_lead_to_find(page: Page, opened: Site) -> None:
    page.goto(opened.url("glossary.html?q=umbre+zzqx"))
    expect(page.locator("#text-status")).to_contain_text("No page holds all of these words")
    page.locator("#text-status a").click()
    expect(page.locator("#find-box")).to_have_value("umbre zzqx")


def test_what_is_typed_is_text_and_never_a_tag(page: Page, opened: Site) -> None:
    page.goto(opened.url("index.html?q=%3Cimg%20src%3Dx%20onerror%3Dalert(1)%3E%20umber"))
    expect(page.locator("#text-status")).not_to_be_empty()
    assert page.locator(".text-search img").count() == 0


def test_nothing_of_it_is_loaded_until_it_is_opened(page: Page, opened: Site) -> None:
    page.goto(opened.url("pigments/raw-umber.html"))
    page.wait_for_load_state("networkidle")
    loaded = page.evaluate("performance.getEntriesByType('resource').map(one => one.name)")
    assert [name for name in loaded if "text.js" in name or "search_index" in name] == []

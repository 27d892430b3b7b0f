"""The theme's search from disk, from the top and from a nested page."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, Site

HITS = ".md-search-result__item a.md-search-result__link"


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
def test_a_cas_number_is_found(
    page: Page, opened: Site, place: str, write: Callable[[str], str]
) -> None:
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
    box = page.locator("form[name=search] input[name=query]")
    for fold in (".menu", ".seek"):
        if page.locator(f"{fold} > summary").is_visible() and not box.is_visible():
            page.locator(f"{fold} > summary").click()
    box.click()
    page.keyboard.type("umber")
    expect(page.locator(HITS).first).to_be_visible()

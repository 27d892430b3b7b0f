"""The Find page: one box that understands what is written on a jar, and filters that narrow it."""

from __future__ import annotations

from pathlib import PurePosixPath

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Site

ROWS = "#find-results a.find-row"


@pytest.fixture
def find(page: Page, opened: Site) -> Page:
    page.goto(opened.url("find.html"))
    expect(page.locator(ROWS).first).to_be_visible()
    return page


def shown(find: Page) -> list[str]:
    """Ids of the rows in view, in their order."""
    links = find.locator(ROWS).evaluate_all("rows => rows.filter(r => r.checkVisibility()).map(r => r.href)")
    return [PurePosixPath(link.partition("#")[0]).stem for link in links]


def ask(find: Page, words: str) -> list[str]:
    find.locator("#find-box").fill(words)
    find.wait_for_timeout(250)
    return shown(find)


@pytest.mark.parametrize("words", ["raw umber", "Raw Umber", "rawumbr", "umber raw"])
def test_a_name_comes_first_even_misspelt(find: Page, words: str) -> None:
    assert ask(find, words)[0] == "raw-umber"


@pytest.mark.parametrize("words", ["PBr7", "pbr 7", "PBr 7"])
def test_a_colour_index_name_finds_all_that_carry_it(find: Page, opened: Site, words: str) -> None:
    carriers = opened.named("PBr 7")
    rows = ask(find, words)
    assert "raw-umber" in carriers
    assert set(rows[: len(carriers)]) == carriers


@pytest.mark.parametrize(("words", "first"), [("PW 6", "titanium-white"), ("TiO2", "titanium-white")])
def test_a_thing_itself_comes_before_what_holds_it(find: Page, words: str, first: str) -> None:
    rows = ask(find, words)
    assert rows[0] == first
    assert "pearl-mica" in rows[1:]


def test_a_nought_for_an_o_is_forgiven(find: Page) -> None:
    assert ask(find, "Fe203") == ask(find, "Fe2O3") != []


def test_a_cas_number_finds_its_pigment(find: Page, opened: Site) -> None:
    numbered = next(pigment for pigment in opened.pigments if pigment["cas"])
    rows = ask(find, numbered["cas"][0])
    same = {pigment["id"] for pigment in opened.pigments if numbered["cas"][0] in pigment["cas"]}
    assert rows[0] in same
    assert numbered["id"] in rows


def test_an_old_name_finds_its_pigment(find: Page, opened: Site) -> None:
    renamed = next(pigment for pigment in opened.pigments if pigment["aliases"])
    assert renamed["id"] in ask(find, renamed["aliases"][0])[:5]


def test_nonsense_says_so(find: Page) -> None:
    assert ask(find, "zzqxzzqxj") == []
    assert find.locator("#find-status").inner_text().strip()


def test_the_status_counts_the_rows(find: Page) -> None:
    rows = ask(find, "ochre")
    assert str(len(rows)) in find.locator("#find-status").inner_text()


def narrow(find: Page) -> None:
    """Open the filters, as a thumb would where they are folded away."""
    if not find.locator("#find-hue").is_visible():
        find.locator(".filters > summary").click()


def values(find: Page, select: str) -> list[str]:
    options: list[str] = find.locator(f"{select} option").evaluate_all("all => all.map(one => one.value)")
    return [value for value in options if value]


def test_a_level_keeps_only_its_pigments(find: Page, opened: Site) -> None:
    every = {pigment["id"]: pigment for pigment in opened.pigments}
    narrow(find)
    for value in values(find, "#find-level"):
        find.locator("#find-level").select_option(value)
        find.wait_for_timeout(250)
        kept = {every[row]["derived"]["control_level"]["dry_powder"] for row in shown(find) if row in every}
        assert len(kept) <= 1, f"{value} keeps {kept}"


@pytest.mark.parametrize(("select", "key"), [("#find-hue", "hue"), ("#find-family", "family")])
def test_a_filter_keeps_only_its_pigments(find: Page, opened: Site, select: str, key: str) -> None:
    every = {pigment["id"]: pigment for pigment in opened.pigments}
    offered = values(find, select)
    assert offered
    narrow(find)
    for value in offered:
        find.locator(select).select_option(value)
        find.wait_for_timeout(250)
        assert {every[row][key] for row in shown(find) if row in every} <= {value}


def test_an_element_keeps_only_what_holds_it(find: Page) -> None:
    narrow(find)
    assert {"Pb", "Cd", "Co"} <= set(values(find, "#find-element"))
    find.locator("#find-element").select_option("Pb")
    find.wait_for_timeout(250)
    kept = shown(find)
    assert "lead-white" in kept
    assert "chalk" not in kept


def test_what_is_not_for_a_person_is_left_out(find: Page, opened: Site) -> None:
    """Neither is what nobody knows, nor a substance, of which nothing is said to persons."""
    every = {pigment["id"]: pigment["derived"] for pigment in opened.pigments}
    narrow(find)
    for person in values(find, "#find-person"):
        find.locator("#find-person").select_option(person)
        find.wait_for_timeout(250)
        while find.locator("button.more").count():
            find.locator("button.more").click()
        left = [every[row] for row in shown(find) if row in every]
        assert [
            each for each in left if person in each["not_for"] or each["hazard_status"] == "not-known"
        ] == []
        assert find.locator("#find-results a[href^='substances/']").count() == 0
    find.locator("#find-person").select_option("under-18")
    expect(find.locator("#find-status")).to_contain_text("not thereby allowed")


def test_the_address_brings_every_filter_back(page: Page, opened: Site) -> None:
    page.goto(opened.url("find.html?element=Co&person=under-18&binder=linseed-oil"))
    for key, value in (("element", "Co"), ("person", "under-18"), ("binder", "linseed-oil")):
        expect(page.locator(f"#find-{key}")).to_have_value(value)


def test_the_keyboard_reaches_a_page(find: Page) -> None:
    ask(find, "raw umber")
    find.locator("#find-box").focus()
    for _ in range(12):
        find.keyboard.press("Tab")
        if find.evaluate("document.activeElement.matches('a.find-row')"):
            break
    find.keyboard.press("Enter")
    find.wait_for_url("**/pigments/raw-umber.html*")


def test_going_back_keeps_what_was_asked(find: Page) -> None:
    ask(find, "raw umber")
    find.locator(ROWS).first.click()
    find.wait_for_url("**/pigments/raw-umber.html*")
    find.go_back()
    expect(find.locator("#find-box")).to_have_value("raw umber")
    assert shown(find)[0] == "raw-umber"


def test_the_address_holds_what_was_asked(page: Page, opened: Site) -> None:
    page.goto(opened.url("find.html?q=umber&hue=brown"))
    expect(page.locator("#find-box")).to_have_value("umber")
    expect(page.locator("#find-hue")).to_have_value("brown")
    assert "raw-umber" in shown(page)


def test_the_first_page_finds_as_well(page: Page, opened: Site) -> None:
    page.goto(opened.url("index.html"))
    assert shown(page) == []
    assert ask(page, "pbr7")
    page.keyboard.press("ArrowDown")
    assert page.evaluate("document.activeElement.matches('a.find-row')")


def test_the_find_page_leaves_text_search_out(find: Page) -> None:
    """Both would read `?q=` from the address."""
    assert find.locator("[data-md-component=search]").count() == 0
